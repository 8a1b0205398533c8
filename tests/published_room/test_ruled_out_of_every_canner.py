"""What a document rules out in every canner: nothing says that a pressure canner would mend it.

Kansas State University Extension, "Preserving pumpkin (no puree, no butter)", 2016, as cited by the bounds of pumpkin.
"""

from __future__ import annotations

import pytest

from ledger.published.after import after_batch
from ledger.published.batch import BatchDone, JarsDone, Used
from ledger.published.danger import caution_for
from ledger.published.verdict import verdict_of


def pumpkin_butter(method):
    jars = (JarsDone("half-pint jar", 5),)
    return BatchDone(
        "pumpkin butter",
        method,
        jars,
        (Used("pumpkin", "8 lb"), Used("sugar", "2 lb")),
        altitude_ft=600,
    )


def test_boiling_water_is_against_all_and_pressure_is_no_way_out():
    judged = verdict_of(pumpkin_butter("boiling water"))
    assert judged.standing == "against every published process"
    assert judged.is_ruled_out
    said = caution_for(judged.danger)
    assert "no process is published for this form" in said
    assert "published pressure process anew" not in said
    texts = " ".join(one.text for one in judged.findings)
    assert "is for a pressure canner" not in texts
    assert "Not to be canned at home" in texts


@pytest.mark.parametrize("method", ["boiling water", "pressure"])
@pytest.mark.parametrize("hours", [None, 1.0, 5.0])
def test_nothing_is_run_anew(method, hours):
    texts = " ".join(one.text for one in after_batch(verdict_of(pumpkin_butter(method)), hours))
    assert "run anew" not in texts
    assert ("refrigerate" in texts) == (hours is None or hours <= 2)
    assert ("do not taste" in texts) == (hours is None or hours > 2)
