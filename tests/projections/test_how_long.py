"""How long: the worked examples of the tables, by day, by group and by hour."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from projections.winter_tools import check_figures, people, stock

from ledger.errors import InputError
from ledger.methods import cover
from ledger.questions.how_long.steps import freezer_feet

ON = "2026-10-02"


def by_step(answer):
    return {row["step"]: row for row in answer.rows()}


@pytest.mark.parametrize(
    ("full", "hours"), [(1.0, 48), (0.75, 36), (0.5, 24), (0.49, None), (None, None)]
)
def test_hours_of_a_shut_freezer(full, hours):
    """USDA FSIS (second hand): 48 full, 24 half full; below that nothing is published."""
    assert cover.freezer_hours(full) == hours


@given(st.floats(0, 1), st.floats(0, 1))
def test_a_fuller_freezer_never_keeps_shorter(one, other):
    low, high = sorted((one, other))
    assert (cover.freezer_hours(low) or 0) <= (cover.freezer_hours(high) or 0)


@pytest.fixture
def house(book, fixed_day):
    people(book)
    book.write("setting_changed", {"name": "freezer_room", "value": "1 cu ft"}, on=ON)
    stock(book, "flour", "20081", 20_000)
    stock(book, "oil", "04044", 5_000)
    stock(book, "bread", "18075", 2_000)
    for item, food, kept, grams in (
        ("milk", "01077", "fridge", 4_000),
        ("chicken", "05006", "freezer", 8_000),
    ):
        book.write(
            "item_described", {"item": item, "sort": "food", "measure": "mass", "food": food}, on=ON
        )
        book.write(
            "bought",
            {"lines": [{"item": item, "amount": f"{grams} g", "paid": "1", "kept": kept}]},
            on=ON,
        )
    book.write("counted", {"lines": [{"item": "oil", "amount": "5 kg"}]}, on=ON)
    return book


def test_without_power_what_needs_no_stove_comes_before_all(house, fixed_day):
    found = by_step(house.show("how-long", as_of=ON, without="power"))
    assert found["fridge"]["hours"] == 4
    # 8 kg in a cubic foot that holds 35 lb: 50.4 per cent full
    assert found["freezer"]["hours"] == pytest.approx(24 + 24 * (8000 / 453.59237 / 35 - 0.5) * 2)
    ready, warm = found["without stove or cold"], found["all that stands without cold"]
    assert set(ready["what"]) == {"oil", "bread"}
    assert ready["days"] <= warm["days"]
    # 20 kg of flour and 2 kg of bread hold more protein than energy for these four
    assert warm["energy_days"] == pytest.approx((72_800 + 44_200 + 5_040) / 8000, rel=0.01)


def test_without_shop_all_counts(house, fixed_day):
    answer = house.show("how-long", as_of=ON)
    found = by_step(answer)
    assert found["all"]["energy_days"] == pytest.approx(
        sum(found[one]["energy_days"] for one in ("fridge", "freezer", "shelf and cellar"))
    )
    assert found["all"]["hours"] is None
    notes = " ".join(a.text for a in answer.assumptions)
    assert "last counted on 2026-10-02" in notes
    assert "Medicines, infants and animals" in notes


def test_list_of_what_to_add(house, fixed_day):
    """BMEL groups for four people: METHODS 2."""
    rows = {
        row["group"]: row
        for row in house.show("how-long", as_of=ON, to_add=True, water="80 L").rows()
    }
    wanted = [19.6, 22.4, 14.4, 14.8, 8.4, 2.0, 112]
    assert [round(row["wanted_kg"], 1) for row in rows.values()] == wanted
    assert rows["cereals, bread, potatoes"]["to_add_kg"] == 0
    assert rows["milk products"]["to_add_kg"] == pytest.approx(10.8)
    assert rows["water"]["to_add_kg"] == 32
    said = " ".join(a.text for a in house.show("how-long", as_of=ON, to_add=True).assumptions)
    assert "212 L" in said  # 4 x 14 US gallons


def test_unknown_water_gives_no_number(house, fixed_day):
    answer = house.show("how-long", as_of=ON, without="water")
    assert [row["days"] for row in answer.rows()] == [None, None]
    assert "--water" in " ".join(answer.totals["missing"])
    house.write(
        "bought", {"lines": [{"item": "drinking water", "amount": "120 l", "paid": "9"}]}, on=ON
    )
    days = [row["days"] for row in house.show("how-long", as_of=ON, without="water").rows()]
    assert days == [pytest.approx(15.0), pytest.approx(7.925, abs=0.01)]


def test_every_figure_opens(house, fixed_day):
    house.write(
        "bought", {"lines": [{"item": "drinking water", "amount": "120 l", "paid": "9"}]}, on=ON
    )
    figures = ("hours", "days", "energy_days", "protein_days", "kg")
    assert (
        check_figures(house, house.show("how-long", as_of=ON, without="shop"), figures, as_of=ON)
        > 12
    )
    assert (
        check_figures(
            house, house.show("how-long", as_of=ON, without="power,water"), figures, as_of=ON
        )
        > 14
    )
    asked = house.show("how-long", as_of=ON, without="water", water="80 L")
    assert check_figures(house, asked, ("days",), as_of=ON) == 2
    listed = house.show("how-long", as_of=ON, to_add=True)
    assert (
        check_figures(
            house, listed, ("wanted_kg", "wanted_10_kg", "there_kg", "to_add_kg"), as_of=ON
        )
        == 28
    )


@pytest.mark.parametrize(
    ("options", "field"),
    [({"without": "sun"}, "without"), ({"water": "12 lb"}, "water"), ({"water": "much"}, "water")],
)
def test_bad_options_are_refused(house, fixed_day, options, field):
    with pytest.raises(InputError) as refused:
        house.show("how-long", as_of=ON, **options)
    assert refused.value.field == field


def test_nothing_written_down_is_no_number(book, fixed_day):
    people(book)
    answer = book.show("how-long", as_of=ON, without="power")
    assert {row["days"] for row in answer.rows()} == {None}
    assert answer.totals["in_words"] == []
    assert "No food in the house is written down." in answer.totals["missing"]
    assert "How full it is is not known" in " ".join(a.text for a in answer.assumptions)


def test_no_dose_of_bleach_is_printed(house, fixed_day):
    answer = house.show("how-long", as_of=ON, without=["water", "power", "shop"])
    said = " ".join([a.text for a in answer.assumptions] + answer.totals["in_words"])
    assert "bleach" not in said
    assert "drops" not in said


@pytest.mark.parametrize(
    ("text", "feet"),
    [
        ("15 cu ft", 15),
        ("15cu ft", 15),
        ("420 L", 420 / 28.316846592),
        ("420l", 420 / 28.316846592),
        (None, None),
    ],
)
def test_room_of_a_freezer(text, feet):
    assert freezer_feet(text) == (feet if feet is None else pytest.approx(feet))
