"""The shelf's stock over time, what is refused by name, and both as a person reads them."""

from __future__ import annotations

import random

import pytest
from books import state_of
from shelf_tools import KG, SHELF, compare, day, last_day, weekly
from strategies import random_book

from ledger.cli import main
from ledger.errors import InputError, NotFound


@pytest.mark.parametrize("seed", range(6))
def test_every_day_over_time_is_what_its_tree_gives(seed):
    events = random_book(random.Random(seed), 60)
    state = state_of(events, last_day(events))
    named = SHELF.build(state, items=True).records()
    for item in [r["item"] for r in named][:3]:
        records = SHELF.build(state, over_time=item).records()
        for record in records[:2] + records[-3:]:
            for name in ("came", "went", "left", "low", "likely", "high"):
                compare(state, record, name)


def test_stock_over_time_steps_down_and_goes_on_as_a_range(book):
    as_of = weekly(book)
    answer = book.show("shelf", as_of=as_of, over_time="flour")
    past = [r for r in answer.records() if r["when"] == "past"]
    ahead = [r for r in answer.records() if r["when"] == "ahead"]
    assert [r["left"] for r in past[:3]] == pytest.approx([40 * KG, 39 * KG, 38 * KG], rel=1e-6)
    assert (past[0]["came"], past[0]["day"]) == (pytest.approx(40 * KG), day(0))
    assert ahead[0]["day"] == as_of
    assert ahead[0]["likely"] == pytest.approx(past[-1]["left"])
    assert [r["likely"] for r in ahead[1:3]] == pytest.approx([27 * KG, 26 * KG], rel=0.03)
    assert 29 < len(ahead) < 53
    assert ahead[-1]["high"] < 1.0
    assert all(r["low"] <= r["likely"] <= r["high"] for r in ahead)


def test_over_time_of_an_item_all_gone_has_no_range(book):
    as_of = weekly(book, stock="12 kg")
    records = book.show("shelf", as_of=as_of, over_time="flour").records()
    assert records[-1]["left"] == 0.0
    assert {r["when"] for r in records} == {"past"}


@pytest.mark.parametrize(
    ("options", "error", "words"),
    [
        ({"over_time": "flouur"}, NotFound, "Did you mean 'flour'"),
        ({"over_time": ""}, NotFound, "there is no item"),
        ({"over_time": "quart jar"}, NotFound, "not kept lot by lot"),
        ({"over_time": "flour", "items": True}, InputError, "by itself"),
        ({"items": True, "item": "gold"}, NotFound, "there is no item 'gold'"),
    ],
)
def test_bad_options_are_refused_by_name(book, options, error, words):
    weekly(book)
    line = {"item": "quart jar", "amount": "12", "paid": "9"}
    body = {"item": "quart jar", "sort": "jar", "measure": "count", "holds": "1 qt"}
    book.write("item_described", body, on=day(0))
    book.write("bought", {"lines": [line]}, on=day(0))
    with pytest.raises(error, match=words):
        book.show("shelf", **options)


@pytest.mark.parametrize(
    ("address", "field", "words"),
    [
        ("shelf/items/gold", None, "no item"),
        ("shelf/items/flour", "nonsense", "not a figure"),
        ("shelf/over-time/flour/never", None, "is no day"),
        ("shelf/over-time/flour/1999-01-01", None, "nothing is told"),
    ],
)
def test_bad_addresses_are_refused_by_name(book, address, field, words):
    as_of = weekly(book)
    with pytest.raises(NotFound, match=words):
        book.why(address, field, as_of=as_of)


# -- as a person reads it -----------------------------------------------------------------------


def test_table_fits_80_columns_and_ends_in_sentences(book, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    as_of = weekly(book)
    weekly(book, "sunflower seed bread flour", "30 kg", "1 kg", 12)
    book.write("target_set", {"item": "flour", "amount": "50 kg"}, on=day(1))
    status = main(["show", "shelf", "--items", "--as-of", as_of, "--book", str(book.log.path)])
    out = capsys.readouterr().out
    assert status == 0
    assert max(map(len, out.splitlines())) <= 80
    assert "Short of the target: flour 48 lb 8 oz." in out
    assert "When more comes is not known of" in out


def test_over_time_has_its_own_columns_in_csv(book, capsys):
    as_of = weekly(book)
    where = ["--as-of", as_of, "--book", str(book.log.path)]
    assert main(["show", "shelf", "--over-time", "flour", "--csv", *where]) == 0
    head, first, *_ = capsys.readouterr().out.splitlines()
    assert head.split(",")[:5] == ["why", "day", "when", "item", "unit"]
    assert first.split(",")[1:3] == [day(0), "past"]
    assert main(["show", "shelf", "--over-time", "flour", "--items", *where]) == 2
