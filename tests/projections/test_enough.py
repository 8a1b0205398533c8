"""Enough: the worked example of the tables, and what must hold for any pantry."""

from __future__ import annotations

import pytest
from hypothesis import strategies as st
from projections.winter_tools import FAMILY, check_figures, people, stock

from ledger.errors import InputError, NotFound
from ledger.reference.needs import NUTRIENTS

PANTRY = [
    ("flour", "20081", 20_000), ("kidney bean", "16032", 10_000), ("potato", "11352", 50_000),
    ("carrot", "11124", 10_000), ("canned tomato", "11885", 20_000), ("oil", "04044", 5_000),
]  # fmt: skip
ON = "2026-10-02"


def rows(answer):
    return {row["why"].rsplit("/", 1)[1]: row for row in answer.rows()}


@pytest.fixture
def pantry(book, fixed_day):
    people(book)
    for item, food, grams in PANTRY:
        stock(book, item, food, grams)
    book.write("setting_changed", {"name": "flour_enriched", "value": "yes"}, on=ON)
    return book


def test_family_needs(pantry, fixed_day):
    """METHODS 1: the family of four, moderately active (DRI; calorie table)."""
    everyone = pantry.show("who-eats", as_of=ON).rows()[-1]
    assert everyone["person"] == "all"
    wanted = {"energy_kcal": 8000, "protein_g": 155, "fibre_g": 114, "vitamin_a_rae_ug": 2600, "vitamin_c_mg": 235,
              "folate_dfe_ug": 1300, "calcium_mg": 4300, "iron_mg": 44, "potassium_mg": 10600, "sodium_mg": 5200}  # fmt: skip
    assert {name: everyone[name] for name in wanted} == wanted


def test_pantry_of_the_tables(pantry, fixed_day):
    """METHODS 1: totals and days of the pantry (USDA SR28 rows)."""
    found = rows(pantry.show("enough", as_of=ON))
    totals = {"energy_kcal": 196_500, "protein_g": 5595, "fibre_g": 3770, "vitamin_a_rae_ug": 87_900, "vitamin_c_mg": 13_410,
              "folate_dfe_ug": 108_600, "calcium_mg": 27_200, "iron_mg": 2148.5, "potassium_mg": 440_000}  # fmt: skip
    for name, value in totals.items():
        assert found[name]["supply"] == pytest.approx(value, rel=1e-6), name
    days = {"calcium_mg": 6.3, "energy_kcal": 24.6, "fibre_g": 33.1, "vitamin_a_rae_ug": 33.8, "protein_g": 36.1,
            "potassium_mg": 41.5, "iron_mg": 48.8, "vitamin_c_mg": 57.1, "folate_dfe_ug": 83.5}  # fmt: skip
    for name, value in days.items():
        assert found[name]["days"] == pytest.approx(value, abs=0.05), name
    assert found["sodium_mg"]["days"] is None
    assert found["sodium_mg"]["need_per_day"] == 7900
    totals = pantry.show("enough", as_of=ON).totals
    assert totals["short_first"] == "calcium"
    assert totals["in_words"][0] == "Short first: calcium, 6.3 days by what is in the house."


@pytest.mark.parametrize("said", ["no", None])
def test_flour_that_is_not_enriched(book, fixed_day, said):
    """METHODS 1: with the unenriched row, and so where nobody said."""
    people(book)
    for item, food, grams in PANTRY:
        stock(book, item, food, grams)
    if said:
        book.write("setting_changed", {"name": "flour_enriched", "value": said}, on=ON)
    answer = book.show("enough", as_of=ON)
    found = rows(answer)
    assert found["folate_dfe_ug"]["days"] == pytest.approx(42.8, abs=0.05)
    assert found["iron_mg"]["days"] == pytest.approx(33.1, abs=0.05)
    asked = [a.text for a in answer.assumptions if a.id == "flour"]
    assert bool(asked) == (said is None)


def test_every_figure_opens(pantry, fixed_day):
    pantry.write("planted", {"crop": "potato", "area": "10 m2"}, on="2026-04-01")
    figures = (
        "days",
        "supply",
        "need_per_day",
        "share_of_need",
        "own_share",
        "gap",
        "shop_cost",
        "bed_m2",
    )
    assert check_figures(pantry, pantry.show("enough", as_of=ON, days="40"), figures, as_of=ON) > 40
    names = [name for name in NUTRIENTS if name != "sodium_mg"]
    assert check_figures(pantry, pantry.show("who-eats", as_of=ON), names, as_of=ON) == 9 * 5
    with pytest.raises(NotFound):
        pantry.why("enough/pantry/30/nothing")
    with pytest.raises(NotFound):
        pantry.why("enough/pantry/30/iron_mg", "colour")


def test_what_was_eaten_is_set_against_its_days(pantry, fixed_day):
    pantry.write(
        "eaten",
        {"ate": [{"item": "oil", "amount": "1 kg"}], "people": 5, "guests": 1},
        on="2026-10-03",
    )
    answer = pantry.show(
        "enough", as_of="2026-10-10", of="eaten", **{"from": "2026-10-01", "to": "2026-10-10"}
    )
    energy = rows(answer)["energy_kcal"]
    assert energy["supply"] == pytest.approx(
        8840 * 0.8
    )  # SR28 04044: 884 kcal; a fifth was a guest's
    assert energy["share_of_need"] == pytest.approx(8840 * 0.8 / 80_000)
    assert energy["days"] is None
    assert check_figures(pantry, answer, ("share_of_need", "supply"), as_of="2026-10-10") > 10


def test_below_seventy_per_cent_known_there_is_no_headline(pantry, fixed_day):
    pantry.write(
        "item_described", {"item": "grandmother's mix", "sort": "food", "measure": "mass"}, on=ON
    )
    pantry.write(
        "bought", {"lines": [{"item": "grandmother's mix", "amount": "40 kg", "paid": "1"}]}, on=ON
    )
    few = pantry.show("enough", as_of=ON)  # 115 edible kg of 148 bought are known of 188
    assert few.totals["short_first"] == "calcium"
    pantry.write(
        "bought", {"lines": [{"item": "grandmother's mix", "amount": "60 kg", "paid": "1"}]}, on=ON
    )
    half = pantry.show("enough", as_of=ON)
    assert half.totals["short_first"] is None
    assert half.cautions[0].id == "half-unknown"
    assert "grandmother's mix" in " ".join(half.totals["missing"])
    assert all(row["days"] is None for row in half.rows())


def test_without_ages_the_assumption_is_said(book, fixed_day):
    book.write("setting_changed", {"name": "people", "value": "3"}, on="2026-10-01")
    answer = book.show("who-eats", as_of=ON)
    assert answer.rows()[-1]["energy_kcal"] == 6000
    assert answer.rows()[-1]["iron_mg"] == 39  # the mean of 8 and 18, three times
    assert "2,000 kcal" in next(a.text for a in answer.assumptions if a.id == "no-ages")


def test_infants_get_no_verdict_and_nobody_is_called_deficient(book, fixed_day):
    people(book, [("Wren", "female", 0)])
    stock(book, "flour", "20081", 1000)
    answer = book.show("enough", as_of=ON)
    assert all(row["standing"] is None and row["days"] is None for row in answer.rows())
    said = " ".join([a.text for a in answer.assumptions] + answer.totals["missing"])
    assert "No verdict is given for infants: Wren" in said
    assert "doctor" in said
    assert "deficien" not in said.lower()


def test_a_person_away_does_not_eat(book, fixed_day):
    people(book, FAMILY)
    book.write(
        "person_described",
        {"person": "Finn", "sex": "male", "age": 42, "table": "away"},
        on="2026-10-15",
    )
    assert book.show("who-eats", as_of="2026-10-14").rows()[-1]["energy_kcal"] == 8000
    assert book.show("who-eats", as_of="2026-10-16").rows()[-1]["energy_kcal"] == 5400


def test_needs_change_with_pregnancy_and_age(book, fixed_day):
    mara = {"person": "Mara", "sex": "female", "born": "1995-10-01"}
    book.write("person_described", mara, on="2026-01-01")
    book.write(
        "person_described", {**mara, "state": "pregnant", "since": "2026-06-01"}, on="2026-07-01"
    )
    before, after = (
        book.show("who-eats", as_of=day).rows()[-1] for day in ("2026-06-30", "2026-10-02")
    )
    assert (before["iron_mg"], after["iron_mg"]) == (18, 27)  # DRI, females and pregnancy 19-50
    assert after["energy_kcal"] == before["energy_kcal"] + 340  # second trimester


def test_bad_options_are_refused_by_name(pantry, fixed_day):
    for options, field in (({"of": "cellar"}, "of"), ({"days": "0"}, "days"), ({"days": "many"}, "days"),
                           ({"of": "eaten", "from": "2026-10-02", "to": "2026-10-01"}, "from")):  # fmt: skip
        with pytest.raises(InputError) as refused:
            pantry.show("enough", as_of=ON, **options)
        assert refused.value.field == field


def test_marked_jars_and_late_food_do_not_count(book, fixed_day):
    people(book)
    stock(book, "milk", "01077", 1000, keeps={"shelf": "3 days"})
    assert book.show("enough", as_of="2026-10-04").rows()
    late = book.show("enough", as_of="2026-10-05")
    assert rows(late)["energy_kcal"]["supply"] == 0
    assert "past its date: milk" in " ".join(a.text for a in late.assumptions)


# -- properties ---------------------------------------------------------------------------

AMOUNT = st.floats(0.01, 1e5)
NEEDED = st.fixed_dictionaries(dict.fromkeys(NUTRIENTS[:9], AMOUNT))


def test_doubled_household_halves_the_days_of_a_book(pantry, fixed_day):
    once = rows(pantry.show("enough", as_of=ON))
    people(pantry, [(f"{name} two", sex, age) for name, sex, age in FAMILY])
    twice = rows(pantry.show("enough", as_of=ON))
    for name in NUTRIENTS[:9]:
        assert twice[name]["days"] == pytest.approx(once[name]["days"] / 2)


def test_food_added_to_a_book_never_shortens(pantry, fixed_day):
    before = rows(pantry.show("enough", as_of=ON))
    stock(pantry, "kale", "11233", 3000)
    after = rows(pantry.show("enough", as_of=ON))
    assert all(after[name]["days"] >= before[name]["days"] for name in NUTRIENTS[:9])


def test_a_gap_is_closed_with_what_a_person_can_eat(book, fixed_day):
    """Eggs hold 56 mg of calcium in 100 g (USDA SR28): nobody eats 1.8 kg a day for 1,000 mg."""
    people(book)
    stock(book, "beaten egg", "01123", 1000)
    calcium = next(r for r in book.show("enough", as_of=ON).records() if r["nutrient"] == "calcium")
    assert calcium["gap"] > 0
    assert calcium["shop_item"] is None
    stock(book, "whole milk", "01077", 1000)
    calcium = next(r for r in book.show("enough", as_of=ON).records() if r["nutrient"] == "calcium")
    assert calcium["shop_item"] == "whole milk"
