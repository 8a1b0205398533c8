"""Rule 11 and the answers: origin, meals and leftovers, `jar-cost` and `shelf`, on paper first."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from oracle import reckon
from oracle.tape import Tape, line, lines

KG = 1_000_000  # mg
QUART = 946_353  # ul


@pytest.fixture
def tape():
    return Tape()


def known(by_origin):
    return {name: value for name, value in by_origin.items() if value}


@pytest.fixture
def sauce(tape):
    """2 kg of own tomato (200 kcal/kg) and 1 kg bought sugar (4000) into 10 units of sauce."""
    tape.item("tomato", kcal_per_100g="20")
    tape.item("sugar", kcal_per_100g="400")
    tape.item("sauce", measure="volume")
    tape("harvested", "2026-08-01", lines(("tomato", 4 * KG)))
    tape("bought", "2026-08-01", lines(("sugar", 2 * KG), paid="2"))
    tape("price_seen", "2026-08-01", line("tomato", KG, price="3"))
    body = {"makes": "sauce", "method": "cook", "made": [{"n": 1, "whole": 10}]}
    tape("put_up", "2026-08-02", {**body, "used": [line("tomato", 2 * KG), line("sugar", KG, 2)]})
    tape("price_seen", "2026-08-03", line("tomato", KG, price="9"))
    return tape


def test_origin_is_carried_whatever_boiled_away(sauce):
    figures = reckon(sauce.events).lots["e7:1"].figures
    assert known(figures.grams) == {"grown": 2000, "bought": 1000}
    assert known(figures.kcal) == {"grown": 400, "bought": 4000}
    # tomatoes at 3 a kilogram, the price of the day they were used, not of later
    assert known(figures.value) == {"grown": 6, "bought": 1}


def test_a_meal_takes_its_part_and_guests_theirs(sauce):
    sauce("eaten", "2026-08-04", {"ate": [line("sauce", 5)], "people": 6, "guests": 2})
    (meal,) = reckon(sauce.events).meals
    assert known(meal.figures.grams) == {"grown": 1000, "bought": 500}
    assert known(meal.figures.value) == {"grown": 3, "bought": F(1, 2)}
    assert meal.eaten_by_household == F(2, 3)


def test_what_is_eaten_raw_has_the_value_of_that_day(sauce):
    sauce("eaten", "2026-08-02", {"ate": [line("tomato", KG)]})
    sauce("eaten", "2026-08-04", {"ate": [line("tomato", KG)]})
    assert [known(meal.figures.value) for meal in reckon(sauce.events).meals] == [
        {"grown": 3},
        {"grown": 9},
    ]


def test_leftovers_take_their_share_along(sauce):
    left = [
        {"item": "stew", "amount": "1 mg", "whole": 8, "n": 1, "kept": "fridge", "share": "0.25"}
    ]
    sauce("eaten", "2026-08-04", {"ate": [line("sauce", 10)], "left": left})
    sauce("eaten", "2026-08-05", {"ate": [line("stew", 4)]})
    book = reckon(sauce.events)
    stew = book.lots["e9:1"]
    assert known(stew.figures.grams) == {"grown": 500, "bought": 250}
    assert stew.figures.all_in == F(1, 4)  # a quarter of the 1.00 of sugar
    assert [
        known(meal.figures.grams)["grown"] * meal.eaten_by_household for meal in book.meals
    ] == [
        1500,
        250,
    ]


def test_fuel_and_lids_are_no_food(sauce):
    sauce.item("wood", sort="fuel")
    body = {"makes": "sauce", "method": "cook", "made": [{"n": 1, "whole": 10}]}
    sauce("put_up", "2026-08-04", {**body, "used": [], "fuel": [line("wood", KG)]})
    figures = reckon(sauce.events).lots["e10:1"].figures
    assert known(figures.grams) == {}
    assert figures.unpriced == {"wood"}


def test_what_a_count_says_was_eaten_is_a_meal(sauce):
    sauce("counted", "2026-08-05", {**lines(("sauce", 6)), "missing": "eaten"})
    (meal,) = reckon(sauce.events).meals
    assert known(meal.figures.grams) == {"grown": 800, "bought": 400}


def test_a_food_without_a_figure_is_named(tape):
    tape.item("melon", measure="count")
    tape("harvested", "2026-08-01", lines(("melon", 2000)))
    tape("eaten", "2026-08-01", {"ate": [line("melon", 1000)]})
    figures = reckon(tape.events).meals[0].figures
    assert (figures.no_grams, figures.no_kcal, figures.no_value) == ({"melon"},) * 3


def test_a_jar_cost_record(tape):
    tape.item("sauce", measure="volume", g_per_ml="1.05", shop_equivalent="shop sauce")
    tape.item("shop sauce", measure="volume")
    tape("price_seen", "2026-08-01", line("shop sauce", 2 * QUART, price="12"))
    tape("bought", "2026-08-01", lines(("tomato", KG), paid="8"))
    made = {"n": 1, "jars": 4, "jar": "jar", "whole": 4 * QUART, "kept": "shelf", "unsealed": 1}
    body = {"makes": "sauce", "method": "pressure", "used": [line("tomato", KG)], "made": [made]}
    tape("put_up", "2026-08-02", body)
    (record,) = reckon(tape.events).jar_cost
    # 8.00 for 4 jars against 6.00 a jar in the shop; jar and lid have no price
    assert record["batch"] == "e5"
    assert record["lot"] == "e5:1"
    assert record["cost_per_jar"] == 2
    assert record["volume_ml"] == F(4 * QUART, 1000)
    assert record["mass_g"] == F(4 * QUART, 1000) * F("1.05")
    assert record["shop_price_from"] == "e3"
    assert record["saved"] == 24 - 8
    per_quart = F("946352.946") / QUART  # the jar is rounded to a whole unit, the quart is not
    assert record["cost_per_quart"] == 2 * per_quart
    assert record["shop_price_per_quart"] == 6 * per_quart
    assert record["saved_per_quart"] == 4 * per_quart
    assert record["cost_per_liter"] == F(2_000_000, QUART)
    assert record["unpriced"] == ["jar", "lid"]


def test_a_shelf_record_and_what_is_too_little_to_list(sauce):
    sauce("bought", "2026-08-04", lines(("salt", 1000), ("pepper", 999), paid="1"))
    sauce("eaten", "2026-08-04", {"ate": [line("sugar", KG // 2)]})
    book = reckon(sauce.events)
    assert [one["lot"] for one in book.shelf] == ["e4:1", "e5:1", "e9:1"]
    sugar = book.shelf[1]
    assert sugar["left"] == {"whole": KG // 2, "measure": "mass"}
    assert (sugar["share_left"], sugar["cost_left"]) == (F(1, 4), F(1, 2))
    assert known(sugar["origin"]) == {"bought": 1}
