"""Raw meat, poultry and fish: the days in the refrigerator are the published ones, or fewer.

US Food and Drug Administration, Refrigerator and Freezer Storage Chart (at 40 degrees F): "hamburger
and stew meats", raw sausage, variety meats, chicken, fish 1 to 2 days; steaks, chops, roasts 3 to 5.
"""

from __future__ import annotations

from datetime import date, timedelta

import pytest

CHART = {
    "ground beef": 2, "stew beef": 2, "ground turkey": 2, "chicken thigh": 2, "whole chicken": 2,
    "salmon": 2, "beef liver": 2, "pork loin": 5, "brisket": 5, "Hackfleisch": 2, "Forelle": 2,
}  # fmt: skip
FOODS = {
    "ground beef": "23572", "stew beef": "23093", "ground turkey": "05305", "chicken thigh": "05091",
    "whole chicken": "05006", "salmon": "15076", "beef liver": "13325", "pork loin": "10020",
    "brisket": "13803", "Hackfleisch": "23572", "Forelle": "15114",
}  # fmt: skip
DAY = "2026-09-01"


def add_days(day, n):
    return str(date.fromisoformat(day) + timedelta(n))


def bought(book, name, food, kept=None, **facts):
    described = {"item": name, "sort": "food", "measure": "mass", "food": food, **facts}
    book.write("item_described", described, on=DAY)
    line = {"item": name, "amount": "2 lb", "paid": "8", **({"kept": kept} if kept else {})}
    book.write("bought", {"lines": [line]}, on=DAY)


def shelf(book, day=DAY):
    return {one["item"]: one for one in book.show("shelf", as_of=day).records()}


@pytest.mark.parametrize("name", CHART)
def test_raw_meat_has_the_days_of_the_chart(book, name):
    bought(book, name, FOODS[name])
    assert shelf(book)[name]["use_by"] == add_days(DAY, CHART[name])


def test_the_household_may_say_fewer_days_and_never_more(book):
    bought(book, "chicken thigh", "05091", "fridge", keeps={"fridge": "1 day"})
    bought(book, "ground beef", "23572", "fridge", keeps={"fridge": "7 days"})
    found = shelf(book)
    assert found["chicken thigh"]["use_by"] == add_days(DAY, 1)
    assert found["ground beef"]["use_by"] == add_days(DAY, 2)


def test_frozen_or_cooked_meat_and_plants_are_not_in_it(book):
    bought(book, "chicken thigh", "05091", "freezer")
    bought(book, "roast chicken", "05009")
    bought(book, "potato", "11352")
    assert {one["use_by"] for one in shelf(book).values()} == {None}


def test_past_its_days_it_is_said_to_be_discarded(book):
    bought(book, "ground beef", "23572")
    assert shelf(book, add_days(DAY, 2))["ground beef"]["standing_text"] is None
    said = shelf(book, add_days(DAY, 3))["ground beef"]["standing_text"]
    assert said.startswith("raw, and past its days in the fridge since 2026-09-03")
    assert "discard" in said
