"""A batch at the command line beside what is published; cautions; slips of a digit.

Snap beans under pressure: pints 20 minutes, quarts 25 minutes, 11 psi dial gauge at 0 to 2,000 ft, 12 at 2,001
to 4,000 ft (USDA AIB 539, as in entry 01600883 of Michigan State University Extension's database).
"""

from __future__ import annotations

import pytest

from ledger.cli import main

BEANS = [
    "--used",
    "14 lb green bean",
    "--method",
    "pressure",
    "--gauge",
    "dial",
    "--pack",
    "hot",
    "--headspace",
    "1 in",
]


@pytest.fixture
def run(tmp_path, monkeypatch, capsys, fixed_day):
    monkeypatch.setenv("CROFTBOOK", str(tmp_path / "book.sqlite"))

    def go(*words):
        status = main([*words])
        out, err = capsys.readouterr()
        return status, out, err

    go("setting", "altitude", "2600 ft", "--on", "2026-01-01")
    go("harvest", "60 lb green bean", "31 lb tomato", "--on", "2026-08-01")
    return go


def test_quarts_processed_like_pints_fall_short(run):
    status, out, _ = run(
        "putup",
        "canned green bean",
        *BEANS,
        "--made",
        "7 quart jars",
        "--minutes",
        "20",
        "--psi",
        "12",
        "--on",
        "2026-08-02",
        "--yes",
    )
    assert status == 0
    assert "published schedule: short of it" in out
    assert "minutes" in out


def test_caution_is_shown_once(run):
    words = [*BEANS, "--made", "7 quart jars", "--minutes", "25", "--psi", "12", "--yes"]
    first = run("putup", "canned green bean", *words, "--on", "2026-08-02")
    again = run("putup", "canned green bean", *words, "--on", "2026-08-03")
    assert "botulism" in first[2].lower()
    assert "botulism" not in again[2].lower()
    assert "published schedule: as published" in again[1]


def test_slip_of_a_digit_is_asked_about(run):
    words = [
        "--used",
        "31 lb tomato",
        "--method",
        "boiling water",
        "--minutes",
        "45",
        "--on",
        "2026-08-02",
    ]
    status, out, err = run("putup", "crushed tomatoes", *words, "--made", "170 pint jars")
    assert (status, out) == (2, "")
    assert "170" in err
