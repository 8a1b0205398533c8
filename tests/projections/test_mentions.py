"""Where names stand, counted against the history; months against what the shelf shows on their last day."""

from __future__ import annotations

import datetime as dt

import pytest

import seed_demo
from ledger import Book
from ledger.errors import NotFound

UNTIL = dt.date(2024, 6, 1)


@pytest.fixture(scope="module")
def household(tmp_path_factory):
    with Book.open(tmp_path_factory.mktemp("mentions") / "book.sqlite") as book:
        seed_demo.build(book, until=UNTIL)
        yield book


def found(book, of):
    return [
        (r["sort"], r["name"], r["entries"])
        for r in book.show("mentions", of=of, as_of=UNTIL.isoformat()).rows()
    ]


def test_every_sort_of_name_is_found_and_counted(book):
    book.write("item_described", item="half-pint", sort="jar", holds="0.5 pint", on="2026-08-01")
    book.write("item_described", item="plum", sort="food", also=["damson plum"], on="2026-08-01")
    book.write("planted", crop="plum", bed="long bed", variety="Ember", plants=2, on="2026-08-01")
    book.write(
        "harvested",
        lines=[{"item": "plum", "amount": "3 lb", "bed": "long bed"}],
        on="2026-08-02",
        by="Ada",
    )
    book.write(
        "bought", item="sugar", amount="2 lb", paid="2", shop="mill lane store", on="2026-08-03"
    )
    struck = book.write(
        "bought", item="salt", amount="1 lb", paid="1", shop="mill lane store", on="2026-08-04"
    )
    book.strike(struck.event.id, "not so")
    batch = book.write(
        "put_up", makes="plum butter", method="boiling water", used=[{"item": "plum", "amount": "2 lb"}],
        made=[{"jars": 2, "jar": "half-pint", "labels": {"from": "P7", "to": "P8"}}], on="2026-08-05",
    )  # fmt: skip

    def show(of):
        rows = book.show("mentions", of=of, as_of="2026-09-01").rows()
        return {(r["sort"], r["name"]): r for r in rows}

    assert show("plum")["item", "plum"]["entries"] == 3
    assert show("DAMSON")["item", "plum"]["also"] == "damson plum"
    assert show("long")["bed", "long bed"]["entries"] == 2
    assert show("ember")["variety", "Ember"]["last_on"] == "2026-08-01"
    assert show("ada")["person", "Ada"]["entries"] == sum(r.by == "Ada" for r in book.history())
    # what was struck counts no more
    assert show("mill store")["place", "mill lane store"]["entries"] == 1
    assert show("p8")["batch", "plum butter"]["entry"] == batch.event.id
    assert show("p9") == {}
    assert next(iter(show("plum"))) == ("item", "plum")


def test_an_item_is_named_by_as_many_entries_as_the_history_says(household):
    rows = household.history(kind=None, item="sugar")
    entries = {
        r.entry
        for r in rows
        if r.state == "holds" and r.kind not in ("item_described", "recipe_written", "struck")
    }
    assert ("item", "sugar", len(entries)) in found(household, "sugar")


@pytest.mark.parametrize("day", ["2023-12-31", "2024-03-31", "2024-05-31"])
def test_a_months_end_is_what_the_shelf_shows_that_day(household, day):
    """The shelf of a day looks at that day; later counts change neither for items that none was made of."""
    records = household.show("shelf", items=True, as_of=day).records()
    shelf = {
        (r["item"], r["left"]["measure"]): r["left"]["whole"] / 1000
        for r in records
        if not r["left"]["text"].startswith("0 ")
    }
    named = {"g": "mass", "ml": "volume", "pieces": "count", "kJ": "energy"}
    rows = household.show("month-ends", as_of=day).rows()
    ends = {(r["item"], named.get(r["unit"], r["unit"])): r["left"] for r in rows if r["on"] == day}
    assert len(shelf) > 20
    assert {item: ends.get(item) for item in shelf} == shelf


def test_within_a_month_least_and_most_hold_its_end(household):
    rows = household.show("month-ends", item="milk", as_of=UNTIL.isoformat()).rows()
    assert len(rows) > 7
    assert all(r["least"] <= r["left"] <= r["most"] for r in rows)
    assert [r["month"] for r in rows] == sorted({r["month"] for r in rows})
    with pytest.raises(NotFound, match="moon"):
        household.show("month-ends", item="moon")
