"""Jars that bear the fresh food's name: a count or a quart of it never takes from them without a word."""

from __future__ import annotations

import json

import pytest

from ledger.cli import main

BATCH = ("putup", "green bean", "--used", "14 lb green bean", "--made", "4 quart jars", "--pack", "raw",
         "--altitude", "800 ft", "--on", "2026-09-12", "--yes")  # fmt: skip
AGAINST = (*BATCH, "--method", "boiling water", "--minutes", "30")
GOOD = (*BATCH, "--method", "pressure", "--minutes", "25", "--psi", "11", "--gauge", "dial",
        "--headspace", "1 in", "--loads", "1")  # fmt: skip
QUART = ("meal", "--ate", "1 quart green bean", "--people", "4")


@pytest.fixture
def run(tmp_path, capsys, fixed_day):
    def go(*words):
        status = main([*words, "--book", str(tmp_path / "book.sqlite")])
        return status, *capsys.readouterr()

    go("harvest", "14 lb green bean", "--on", "2026-09-01", "--yes")
    return go


def jars(run):
    rows = json.loads(run("show", "shelf", "--json")[1])["records"]
    return sum(row["jars_left"] or 0 for row in rows if row["put_up"])


@pytest.mark.parametrize("said", ["2 lb green bean", "1 quart green bean", "0 lb green bean"])
@pytest.mark.parametrize("more", [(), ("--yes",)], ids=["plain", "yes"])
def test_count_takes_marked_jars_only_on_purpose(run, said, more):
    run(*AGAINST)
    status, out, err = run("count", said, *more)
    assert (status, out) == (2, "")
    assert "quart jars off the shelf, put up on 12 Sep 2026 (boiling water), marked: against" in err
    assert "do not taste, discard" in err
    assert "call emergency services" in err
    assert "--knowingly" in err
    assert jars(run) == 4
    assert run("count", said, "--knowingly")[0] == 0
    assert jars(run) < 4


def test_count_out_of_unmarked_jars_takes_yes(run):
    run(*GOOD)
    status, _, err = run("count", "2 lb green bean")
    assert status == 2
    assert "quart jars off the shelf, put up on 12 Sep 2026 (pressure). Are" in err
    assert "--yes takes" in err
    assert jars(run) == 4
    assert run("count", "2 lb green bean", "--yes")[0] == 0


def test_count_by_the_jar_and_of_fresh_food_that_leaves_jars_is_no_question(run):
    run(*AGAINST)
    assert run("count", "2 lb green bean", "4 quart jars green bean")[0] == 0
    assert jars(run) == 4
    assert run("count", "3 quart jars green bean")[0] == 0


def test_said_count_is_asked_about_too(run):
    run(*AGAINST)
    status, _, err = run("say", "counted 2 lb green bean", "--yes")
    assert status == 2
    assert "marked: against every published process" in err
    assert jars(run) == 4


def test_quart_of_a_name_that_stands_in_quarts_is_asked_about(run):
    run("harvest", "5 lb green bean", "--on", "2026-08-20", "--yes")  # the oldest is fresh
    run(*GOOD)
    before = jars(run)
    status, out, err = run(*QUART)
    assert (status, out) == (2, "")
    assert "1 quart of green bean: is it 1 quart jar of what was put up" in err
    assert run(*QUART, "--yes")[0] == 0
    assert jars(run) == pytest.approx(before - 1, abs=1e-5)
    assert run("meal", "--ate", "1 pint green bean", "--people", "4")[0] == 0  # no pints stand


def test_quart_meant_as_a_marked_jar_is_refused_as_a_jar_is(run):
    run("harvest", "5 lb green bean", "--on", "2026-08-20", "--yes")
    run(*AGAINST)
    status, _, err = run(*QUART, "--yes")
    assert status == 2
    assert "against every published process" in err
    assert "--knowingly takes" in err
    assert (
        run("give", "1 quart green bean", "--how", "gift", "--to", "the neighbours", "--yes")[0]
        == 2
    )
    assert jars(run) == 4
