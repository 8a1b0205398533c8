"""What a document rules out in every canner: nothing says that a pressure canner would mend it.

Kansas State University Extension, "Preserving pumpkin (no puree, no butter)", 2016, as cited by the bounds of pumpkin.
"""

from __future__ import annotations

import pytest

from ledger.published.after import after_batch
from ledger.published.batch import BatchDone, JarsDone, Used
from ledger.published.danger import batch_as_typed, caution_for
from ledger.published.verdict import caution_before, verdict_of


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


def typed(makes, method="pressure", **more):
    said = {"makes": makes, "method": method, "used": [f"10 lb {makes}"], "made": ["7 quart jars"]}
    return caution_before(batch_as_typed({**said, **more}))


NO_FORM = [
    "mashed pumpkin",
    "zucchini",
    "refried beans",
    "Kürbismus",
    "potato puree",
    "spaghetti squash",
]


@pytest.mark.parametrize("makes", NO_FORM)
def test_a_form_without_process_under_pressure_is_told_before_it_is_written(makes):
    """Rule 8.3: the remedy of rule 8.2 without a rerun, and no caution of boiling water."""
    said = typed(makes)
    assert said.startswith(f"NO PUBLISHED PROCESS: {makes}")
    assert "boiling water" not in said
    assert "anew" not in said
    assert "within 2 hours refrigerate" in said
    assert "do not taste, discard" in said


@pytest.mark.parametrize("makes", NO_FORM)
def test_nor_does_boiling_water_send_such_a_form_to_the_pressure_canner(makes):
    said = typed(makes, "boiling water")
    assert said.startswith("CAUTION")
    assert "anew" not in said


def test_a_pack_that_is_not_printed_may_be_run_anew():
    """Cubed pumpkin is printed for hot pack only (USDA Complete Guide, guide 4)."""
    said = typed("pumpkin", pack="raw")
    assert said.startswith("NO PUBLISHED PROCESS: pumpkin")
    assert "published pressure process anew" in said
    assert typed("pumpkin", pack="hot") is None


@pytest.mark.parametrize("makes", ["green beans", "carrots", "chicken", "applesauce", "plum jam"])
def test_under_pressure_nothing_is_said_of_what_is_published_or_of_acid_food(makes):
    assert typed(makes) is None


def test_after_writing_the_short_words_say_discard():
    judged = verdict_of(pumpkin_butter("pressure"))
    said = caution_for(judged.danger, short=True)
    assert said.startswith("NO PUBLISHED PROCESS: pumpkin butter")
    assert "discard" in said
