"""What a command says of what it wrote: lines as understood, lots by a short id, cautions once."""

from __future__ import annotations

import json

import pytest

from ledger.cli import main


@pytest.fixture
def run(tmp_path, monkeypatch, capsys, fixed_day):
    monkeypatch.setenv("CROFTBOOK", str(tmp_path / "book.sqlite"))

    def go(*words):
        status = main([*words])
        return status, *capsys.readouterr()

    return go


def ids(run, kind):
    return [row["id"] for row in json.loads(run("history", "--kind", kind, "--json")[1])]


def test_each_line_is_shown_as_understood_with_its_lot(run):
    run("harvest", "1 lb plum")
    run("item", "plum", "--g-per", "piece 60")
    status, out, err = run("harvest", "2 kg plum", "10 plum", "5 lb pear")
    assert status == 0, err
    short = ids(run, "harvested")[0][:8]
    assert out.splitlines() == [
        f"2026-11-01  picked 2 kg plum, 10 plum, 5 lb pear   [{short}]",
        f"  2 kg plum: 4 lb 7 oz, lot {short}:1",
        f"  10 plum: 1 lb 5 oz by its own weight, lot {short}:2",
        f"  5 lb pear: lot {short}:3",
    ]


def test_measures_of_the_household_are_those_shown(run):
    run("setting", "measures", "metric")
    _, out, _ = run("harvest", "31 lb 8 oz plum")
    assert "  31 lb 8 oz plum: 14.3 kg, lot " in out


def test_what_is_no_lot_and_needs_no_word_has_no_line(run):
    _, out, _ = run("buy", "12 quart jar", "--paid", "12")
    assert len(out.splitlines()) == 1
    run("harvest", "9 lb plum")
    _, out, _ = run("meal", "--ate", "1 lb plum")
    assert len(out.splitlines()) == 1


def test_another_spelling_of_a_unit_is_nothing_new(run):
    _, out, _ = run("harvest", "3 quarts stock", "2 pounds pear")
    assert "  3 quarts stock: lot " in out
    assert "  2 pounds pear: lot " in out


def test_batch_names_its_lots_and_unsealed_jars(run):
    run("harvest", "31 lb plum")
    made = ["--used", "16 lb plum", "--made", "11 half-pint jars", "--unsealed", "1"]
    _, out, _ = run("putup", "plum butter", *made, "--method", "cook", "--minutes", "10")
    short = ids(run, "putup")[0][:8]
    assert f"  11 half-pint jars plum butter: lot {short}:1, 1 unsealed {short}:1f" in out


def test_correction_keeps_the_lot_of_its_entry(run):
    run("harvest", "31 lb plum")
    first = ids(run, "harvested")[0][:8]
    _, out, _ = run("harvest", "30 lb plum", "--replaces", first)
    assert f"lot {first}:1" in out
    lots = json.loads(run("harvest", "29 lb plum", "--replaces", first, "--json")[1])["lots"]
    assert [lot[:8] for lot in lots] == [first]


def test_many_lines_are_cut_short(run):
    _, out, _ = run("harvest", *(f"{n + 1} lb plum" for n in range(20)))
    assert "and 12 more lines" in out
    assert len(out.splitlines()) == 10


def test_short_id_of_a_lot_is_taken_where_it_is_asked_for(run):
    run("harvest", "31 lb plum", "--on", "2026-10-01")
    run("harvest", "20 lb plum", "--on", "2026-10-02")
    second = ids(run, "harvested")[0]
    status, _, err = run("meal", "--ate", f"5 lb plum from lot {second[:8]}:1")
    assert status == 0, err
    records = json.loads(run("show", "shelf", "--json")[1])["records"]
    assert {r["lot"]: round(r["left"]["whole"] / 453592.37) for r in records}[f"{second}:1"] == 15
    status, _, err = run("why", f"shelf/{second[:8]}:1")
    assert status == 0, err
    assert run("why", "shelf/ffffffff:1")[0] == 2
    status, _, err = run("meal", "--ate", "5 lb plum from lot ffffffff:1")
    assert status == 2
    assert "no such lot" in err


CANNED = ["--used", "3 lb plum", "--made", "2 pint jars", "--method", "boiling water"]


def test_refused_batch_shows_no_caution_and_the_first_written_one_does(run):
    run("harvest", "31 lb plum")
    status, _, err = run("putup", "plum leather", *CANNED, "--altitude", "high")
    assert status == 2
    assert "botulism" not in err
    status, _, err = run("putup", "plum leather", *CANNED)
    assert status == 0
    assert err.count("botulism") == 1
    assert "botulism" not in run("putup", "plum leather", *CANNED)[2]


def test_first_caution_is_short():
    from ledger.published import FIRST

    assert len(FIRST) < 300
    for word in ("botulism", "burns", "glass", "gauges", "manual", "never taste"):
        assert word in FIRST


def test_batch_without_published_process_says_so_in_a_sentence(run):
    run("harvest", "31 lb plum")
    _, out, _ = run("putup", "plum spread", *CANNED)
    assert "published schedule: no published process" in out
    assert "print no process for 'plum spread'" in out
