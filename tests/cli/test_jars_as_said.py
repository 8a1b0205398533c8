"""A jar that is said is a jar: never what was picked, and never a jar in danger without a word."""

from __future__ import annotations

import json

import pytest

from ledger.cli import main

# Snap beans are published for a pressure canner alone (USDA Complete Guide to Home Canning, AIB 539, guide 4).
SAID = "put up 7 pints of green beans from 10 lb green beans, boiling water, 30 minutes"


@pytest.fixture
def run(tmp_path, capsys, fixed_day):
    def go(*words):
        status = main([*words, "--book", str(tmp_path / "book.sqlite")])
        return status, *capsys.readouterr()

    go("setting", "altitude", "600 ft")
    return go


def test_what_a_batch_may_do_is_said_before_and_after(run):
    status, _, err = run("say", SAID)
    assert status == 0
    assert err.startswith("CAUTION: green bean: food of little acid")
    assert "do not taste, discard" in err.splitlines()[-1]


def test_a_batch_that_fell_short_is_marked_at_once(run):
    """25 minutes are printed for quarts of raw packed snap beans (the same guide): 12 were given."""
    words = "put up 7 quarts green beans from 14 lb green beans, raw pack, pressure canner, dial gauge, 11 psi, 12 minutes"
    status, _, err = run("say", f"{words}, headspace 1 in")
    assert status == 0, err
    assert "What was put up is marked: short of it" in err
    assert "do not taste" in err


@pytest.mark.parametrize(
    "words",
    [
        ("say", "ate a pint jar of green beans"),
        ("say", "gave Martha 2 pint jars of green beans"),
        ("meal", "--ate", "1 pint jar green bean"),
        ("give", "2 pint jars green bean", "--how", "gift", "--to", "Martha", "--yes"),
    ],
)
def test_jars_are_taken_and_not_what_was_picked(run, words):
    run("say", "picked 20 lb green beans", "--on", "2026-10-20")
    run("say", SAID, "--yes")
    status, _, err = run(*words)
    assert status == 2, err
    assert "against every published process" in err
    assert "call emergency services" in err


def test_jars_of_another_name_are_offered_by_it(run):
    run("harvest", "40 lb green bean", "--on", "2026-10-20", "--yes")
    run("putup", "canned green beans", "--used", "14 lb green bean", "--made", "7 quart jars",
        "--method", "pressure", "--minutes", "25", "--psi", "11", "--gauge", "dial", "--pack", "raw",
        "--headspace", "1 in", "--loads", "1", "--on", "2026-10-21", "--yes")  # fmt: skip
    status, _, err = run("meal", "--ate", "1 quart jar green bean")
    assert (status, "no jar of green bean is there, but of canned green bean" in err) == (
        2,
        True,
    ), err
    status, _, err = run("meal", "--ate", "1 lb green bean")
    assert status == 0, err
    status, _, err = run("meal", "--ate", "1 quart jar canned green beans")
    assert status == 0, err
    rows = json.loads(run("show", "shelf", "--json")[1])["records"]
    assert [row["jars_left"] for row in rows if row["jar"] == "quart jar"] == [6]
