"""Jars under the name of the fresh food are jars: told by their method, dated as what is put up so.

The periods: canned food 12 months of best quality (National Center for Home Food Preservation, 2009), opened
3 to 4 days in the refrigerator (USDA FSIS chart, 2015), as typed in ``storage.csv``.
"""

from __future__ import annotations

import pytest

from ledger.door import Answers

KEEPS = {"shelf": "5 days", "fridge": "7 days", "freezer": "10 months"}
RIGHT = {
    "minutes": 25,
    "psi": "11",
    "gauge": "dial",
    "pack": "raw",
    "headspace": "1 in",
    "altitude": "900 ft",
}


def line(amount, item, **more):
    return {"amount": amount, "item": item, **more}


def put_up(book, method, made, **more):
    body = {"makes": "green bean", "used": [line("14 lb", "green bean")], "made": [made]}
    return book.write(
        "put_up", {**body, "method": method, **more}, on="2026-08-21", answers=Answers(yes=True)
    )


@pytest.fixture
def beans(book, yes):
    body = {"item": "green bean", "sort": "food", "food": "Beans, snap, green, raw", "keeps": KEEPS}
    book.write("item_described", body, answers=yes)
    picked = {"lines": [line("60 lb", "green bean")]}
    book.write("harvested", picked, on="2026-08-20", answers=yes)
    return book


QUARTS = {"jar": "quart jar", "jars": 7}


def by_method(book, as_of="2026-08-22"):
    return {row["put_up"]: row for row in book.show("shelf", as_of=as_of).records()}


def test_each_way_is_told_and_dated_by_itself(beans):
    put_up(beans, "pressure", QUARTS, **RIGHT)
    put_up(beans, "freeze", {"amount": "9 lb"})
    put_up(beans, "cook", {"amount": "4 lb"})
    rows = by_method(beans)
    assert {way: row["use_by"] for way, row in rows.items()} == {
        None: "2026-08-25",  # picked: five days on the shelf, as the household says
        "pressure": None,  # and no published period is ever a day by which to use it
        "freeze": "2027-06-21",  # ten months in the freezer: nothing fresh stands there
        "cook": None,  # seven days are for fresh beans; nothing here says it of cooked ones
    }
    assert rows["pressure"]["best_quality"] == "12 months"
    assert [row["left"]["text"] for row in rows.values() if row["jar"]] == ["7 quart jars"]


def test_an_opened_jar_lives_as_canned_food_does(beans, yes):
    put_up(beans, "pressure", QUARTS, **RIGHT)
    lot = by_method(beans)["pressure"]["lot"]
    ate = {"ate": [line("1 lb", "green bean", lot=lot)]}
    beans.write("eaten", ate, on="2026-09-01", answers=yes)
    row = by_method(beans, "2026-09-01")["pressure"]
    assert (row["use_by"], row["best_quality"]) == (None, "3 to 4 days")


def test_jars_in_danger_have_no_day(beans):
    put_up(beans, "boiling water", QUARTS, minutes=40)
    row = by_method(beans)["boiling water"]
    assert row["use_by"] is None
    assert row["standing"] == "against every published process"


def test_a_name_of_its_own_keeps_the_households_word(beans, yes):
    body = {"item": "bean jar", "sort": "food", "measure": "volume", "keeps": {"shelf": "8 months"}}
    beans.write("item_described", body, answers=yes)
    own = {"makes": "bean jar", "used": [line("14 lb", "green bean")], "made": [QUARTS]}
    beans.write("put_up", {**own, "method": "cook"}, on="2026-08-21", answers=yes)
    (row,) = (one for one in beans.show("shelf", as_of="2026-08-22").records() if one["jar"])
    assert row["put_up"] is None


def test_no_one_period_is_of_the_fresh_and_the_dried(beans):
    put_up(beans, "dry", {"amount": "2 lb", "kept": "shelf"})
    alone = beans.show("keeping-life", as_of="2026-08-22").records()
    assert [row["published_days"] for row in alone if row["place"] == "shelf"] != [None]
    picked = {"lines": [line("2 lb", "green bean", kept="shelf")]}
    beans.write("harvested", picked, on="2026-08-20", answers=Answers(yes=True))
    both = beans.show("keeping-life", as_of="2026-08-22").records()
    assert [row["published_days"] for row in both if row["place"] == "shelf"] == [None]
