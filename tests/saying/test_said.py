"""Sentences and what they must be read as, typed by hand from the rules: said_en.txt, said_de.txt.

The notation is that of `short` in kitchen_said.py. A line that was ever read wrongly gets a line here.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from saying.kitchen_said import short

from ledger.saying.reading import read

HERE = Path(__file__).parent


def _cases(name):
    lines = (HERE / name).read_text("utf-8").splitlines()
    pairs = [line.split(" => ") for line in lines if line.strip() and not line.startswith("#")]
    return [(said.replace("\\n", "\n"), meant) for said, meant in pairs]


CASES = [*_cases("said_en.txt"), *_cases("said_de.txt")]


def test_there_are_as_many_as_promised():
    assert len(CASES) >= 400
    assert len({said for said, _ in CASES}) == len(CASES)


@pytest.mark.parametrize(("said", "meant"), CASES, ids=[said for said, _ in CASES])
def test_a_sentence_is_read_as_the_rules_say(said, meant, known, known_in_euros):
    is_euros = "EUR" in said or "Euro" in said
    assert short(read(said, known_in_euros if is_euros else known)) == meant
