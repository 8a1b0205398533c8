"""Marked jars at the command line: asked about, refused off a terminal, taken only on purpose."""

from __future__ import annotations

import json

import pytest

from ledger.cli import main

BATCH = (
    "putup", "canned green beans", "--used", "14 lb green bean", "--made", "7 quart jars", "--pack", "raw",
    "--altitude", "800 ft", "--on", "2026-09-12", "--yes",
)  # fmt: skip
AGAINST = (*BATCH, "--method", "boiling water", "--minutes", "180")
OPEN = (*BATCH, "--method", "pressure", "--minutes", "25", "--psi", "11", "--gauge", "dial")
GOOD = (*OPEN, "--headspace", "1 in", "--loads", "1")
MEAL = ("meal", "--ate", "1 quart jar canned green beans", "--people", "6")
GIFT = ("give", "2 quart jars canned green beans", "--how", "gift", "--to", "the neighbours")
SALE = ("give", "2 quart jars canned green beans", "--how", "sold", "--got", "12")
SOUP = (
    "putup",
    "bean soup",
    "--used",
    "1 quart jar canned green beans",
    "--made",
    "2 qt freezer",
    "--method",
    "cook",
)
FEED = ("discard", "1 quart jar canned green beans", "--why", "fed to animals")


@pytest.fixture
def run(tmp_path, capsys, fixed_day):
    def go(*words):
        status = main([*words, "--book", str(tmp_path / "book.sqlite")])
        return status, *capsys.readouterr()

    go("harvest", "60 lb green bean", "--on", "2026-09-01", "--yes")
    return go


@pytest.fixture
def at_terminal(monkeypatch):
    """Sit at a terminal and give one answer to every question; what was asked is kept."""
    asked = []

    def sit(answer):
        monkeypatch.setattr("ledger.cli._common.at_terminal", lambda: True)

        def confirm(text, default=False, **_):
            asked.append((text, default))
            return answer

        monkeypatch.setattr("click.confirm", confirm)
        return asked

    return sit


def entries(run):
    return len(json.loads(run("history", "--limit", "0", "--json")[1]))


@pytest.mark.parametrize(
    "words", [MEAL, GIFT, SALE, SOUP, FEED], ids=["meal", "gift", "sale", "batch", "animals"]
)
@pytest.mark.parametrize("more", [(), ("--yes",)], ids=["plain", "yes"])
def test_danger_is_refused_off_a_terminal_also_with_yes(run, words, more):
    run(*AGAINST)
    before = entries(run)
    status, out, err = run(*words, *more)
    assert (status, out) == (2, "")
    assert "against every published process, 2026-09-12: do not taste, discard" in err
    assert "--knowingly" in err
    assert entries(run) == before


@pytest.mark.parametrize("words", [MEAL, GIFT, SOUP, FEED])
def test_danger_is_taken_when_said_on_purpose_and_the_signs_are_named(run, words):
    run(*AGAINST)
    status, _, err = run(*words, "--knowingly", "--yes")
    assert status == 0, err
    assert "call emergency services and say what was eaten" in err


def test_what_is_only_open_takes_yes(run):
    run(*OPEN)
    status, _, err = run(*MEAL)
    assert status == 2
    assert "not recorded, 2026-09-12" in err
    assert "--yes takes" in err
    assert run(*MEAL, "--yes")[0] == 0


def test_published_jars_and_throwing_out_are_not_asked_about(run):
    run(*GOOD)
    assert run(*MEAL)[0] == 0
    run(*AGAINST)
    assert run("discard", "7 quart jars canned green beans", "--why", "other")[0] == 0


@pytest.mark.parametrize("batch", [AGAINST, OPEN], ids=["danger", "open"])
def test_at_a_terminal_it_is_asked_and_no_is_the_answer_offered(run, at_terminal, batch):
    run(*batch)
    before = entries(run)
    asked = at_terminal(answer=False)
    assert run(*MEAL)[0] == 2
    ((text, default),) = [one for one in asked if "stands so" in one[0]]
    assert default is False
    assert "1 qt of canned green beans" in text
    assert entries(run) == before
    asked.clear()
    at_terminal(answer=True)
    assert run(*MEAL)[0] == 0
    assert entries(run) == before + 1


def test_yes_at_a_terminal_still_asks_about_danger(run, at_terminal):
    run(*AGAINST)
    asked = at_terminal(answer=False)
    assert run(*MEAL, "--yes")[0] == 2
    assert [one for one in asked if "stands so" in one[0]]


def test_good_jars_named_by_their_lot_open_without_a_word(run):
    run(*AGAINST)
    good = json.loads(run(*GOOD, "--json")[1])["lots"][0]
    assert run(*MEAL)[0] == 2  # the oldest are taken, and those are in danger
    assert run("meal", "--ate", f"1 quart jar canned green beans from lot {good}")[0] == 0


def test_jar_that_did_not_seal_is_asked_about_past_its_week(run):
    status, _, err = run(*GOOD, "--unsealed", "7")
    assert status == 0, err
    assert run(*MEAL, "--on", "2026-09-15")[0] == 0
    status, _, err = run(*MEAL, "--on", "2026-09-20")
    assert status == 2
    assert "past its time in the fridge since 2026-09-19" in err


def test_import_takes_and_reports_it(run, tmp_path):
    run(*AGAINST)
    line = {"item": "canned green beans", "amount": "1 quart jar"}
    file = tmp_path / "meals.jsonl"
    file.write_text(
        json.dumps({"kind": "eaten", "on": "2026-09-20", "body": {"ate": [line]}}), "utf-8"
    )
    status, _, err = run("import", str(file))
    assert status == 0
    assert "came from a jar that stands so: against every published process" in err


def test_shelf_history_and_touched_say_it(run):
    run(*AGAINST)
    _, out, _ = run("show", "shelf")
    assert out.startswith("CAUTION")
    assert "against" in out
    _, out, _ = run("show", "shelf", "--items")
    assert "against" in out
    rows = json.loads(run("show", "shelf", "--json")[1])["records"]
    marked = next(r for r in rows if r["item"] == "canned green beans")
    assert marked["standing"] == "against every published process"
    assert marked["standing_text"].endswith("do not taste, discard")
    _, out, _ = run("history")
    assert "! against every published process" in " ".join(out.split())
    run(*GIFT, "--knowingly", "--yes")
    _, out, _ = run("touched", "--item", "green bean")
    assert "Some was given to: the neighbours." in " ".join(out.split())
    status, _, err = run("touched")
    assert status == 2
    assert "--gauge" in err


def test_gauge_and_settle_from_the_command(run):
    batch = json.loads(run(*OPEN, "--json")[1])["id"]
    assert run("settle", batch[:8], "--publication", "bulletin 270, page 12", "--by", "Ada")[0] == 0
    assert run(*MEAL)[0] == 0
    assert (
        run("gauge", "dial", "--reads", "+3 psi", "--by", "extension office", "--person", "Ada")[0]
        == 0
    )
    status, _, err = run(*MEAL)
    assert status == 2
    assert "short of it" in err
    status, _, err = run("gauge", "dial", "--reads", "14 kPa")
    assert status == 2
    assert err.startswith("croftbook: reads: '14 kPa' is in kPa")
    status, _, err = run("settle", batch[:8], "--publication", "bulletin 270")
    assert status == 2
    assert "batch: it stands graver" in err
