"""What to grow: from targets and use through batches to plants and beds."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from projections.growing import one, planted, records, totals

from ledger.methods.beds import Bed, Crop
from ledger.questions.planning.beds import fit

LB, FT2 = 453.59237, 0.3048**2


@pytest.fixture
def garden(book, yes):
    return planted(book, yes)


# -- from wants to pounds ----------------------------------------------------------------------


def test_target_goes_back_through_batches_of_batches(garden):
    found = one(garden)
    assert found["jars_wanted"] == pytest.approx(14)
    # a quart of sauce takes two of puree, and a quart of puree 2.5 lb
    assert found["into_jars_g"] == pytest.approx(14 * 2 * 2.5 * LB, rel=1e-5)
    assert found["fresh_wanted_g"] == pytest.approx(9 * LB, rel=1e-5)
    assert found["otherwise_g"] == pytest.approx(0, abs=1e-6)


def test_trimming_is_added(garden):
    found = one(garden)
    assert found["trimmed_share"] == pytest.approx(0.1, rel=1e-5)
    assert found["needed_g"]["likely"] == pytest.approx(79 / 0.9 * LB, rel=1e-5)


def test_use_of_last_year_stands_in_for_a_target(garden):
    found = one(garden, "green bean")
    assert found["needed_g"]["likely"] == pytest.approx(4 * LB, rel=1e-5)
    assert found["jars_wanted"] is None
    assert "use-as-last-year" in found["assumptions"]


def test_range_spans_years_of_use_and_batches(garden, yes):
    garden.write("eaten", ate=[{"item": "tomato", "amount": "1 lb"}], on="2024-11-15", answers=yes)
    garden.write("put_up", makes="tomato sauce", method="pressure", on="2026-09-01", answers=yes,
                 used=[{"item": "tomato", "amount": "30 lb"}], made=[{"jars": 4, "jar": "quart jar"}])  # fmt: skip
    needed = one(garden)["needed_g"]
    assert 0 <= needed["low"] < needed["likely"] < needed["high"]


def test_target_of_a_crop_counts_what_is_put_up(garden, yes):
    garden.write(
        "target_set", item="tomato", amount="100 lb", per="year", on="2026-02-01", answers=yes
    )
    found = one(garden)
    assert found["needed_g"]["likely"] == pytest.approx(100 / 0.9 * LB, rel=1e-5)
    assert found["fresh_wanted_g"] == pytest.approx(30 * LB, rel=1e-5)
    garden.write(
        "target_set", item="tomato", amount="50 lb", per="year", on="2026-03-01", answers=yes
    )
    assert one(garden)["fresh_wanted_g"] == 0


@pytest.mark.parametrize(
    ("per", "amount", "jars"),
    [("week", "1 quart jar", 365 / 7), ("person year", "2 quart jars", 8)],
)
def test_targets_by_week_and_by_head(garden, yes, per, amount, jars):
    garden.write("setting_changed", name="people", value="4", on="2026-01-01", answers=yes)
    garden.write(
        "target_set", item="tomato sauce", amount=amount, per=per, on="2026-02-01", answers=yes
    )
    assert one(garden)["jars_wanted"] == pytest.approx(jars, rel=1e-6)


def test_heads_unknown_are_asked_for(garden, yes):
    garden.write(
        "target_set",
        item="tomato sauce",
        amount="2 quart jars",
        per="person year",
        on="2026-02-01",
        answers=yes,
    )
    assert any("croftbook setting people" in text for text in totals(garden)["missing"])


def test_what_if_replaces_the_target(garden):
    found = one(garden, want="tomato sauce=28 quart jars; green bean=20 lb")
    assert found["into_jars_g"] == pytest.approx(28 * 5 * LB, rel=1e-5)
    assert one(garden, "green bean", want=["green bean=20 lb"])["needed_g"][
        "likely"
    ] == pytest.approx(20 * LB, rel=1e-5)
    assert one(garden, want="tomato sauce=0")["jars_wanted"] in (None, 0)


def test_recipe_serves_what_was_never_made(garden, yes):
    garden.write("recipe_written", recipe="relish", makes="bean relish", yields="4 pint jars", method="boiling water",
                 uses=[{"item": "green bean", "amount": "6 lb"}], on="2026-03-01", answers=yes)  # fmt: skip
    found = one(garden, "green bean", want="bean relish=8 pint jars")
    assert found["into_jars_g"] == pytest.approx(12 * LB, rel=1e-5)
    assert found["jars_wanted"] == pytest.approx(8, rel=1e-5)
    assert "by-recipe" in found["assumptions"]


def test_unmade_target_asks_for_a_recipe(garden, yes):
    garden.write(
        "target_set",
        item="tomato ketchup",
        amount="9 pint jars",
        per="year",
        on="2026-02-01",
        answers=yes,
    )
    assert any("how tomato ketchup is made" in text for text in totals(garden)["missing"])


# -- from pounds to plants and ground -----------------------------------------------------------


def test_own_seasons_and_the_published_yield_are_weighed(garden):
    found = one(garden)
    assert (found["yield_from"], found["own_seasons"]) == ("own seasons and published yields", 2)
    # 2 and 4.5 lb a plant; of fields 11 tons an acre, 0.505 lb a square foot, 2 lb on its four
    assert 2.0 * LB < found["yield_g"]["likely"] < 3.2 * LB
    assert found["plants"]["likely"] == math.ceil(79 / 0.9 * LB / found["yield_g"]["likely"])
    assert found["plants"]["nine_in_ten"] > found["plants"]["likely"]
    assert found["area_m2"] == pytest.approx(found["plants"]["likely"] * 4 * FT2, rel=1e-6)


def test_one_season_is_weighed_with_the_published(book, yes):
    book.write(
        "planted",
        crop="carrot",
        plants=100,
        row="20 ft",
        area="20 sq ft",
        on="2026-04-01",
        answers=yes,
    )
    book.write("harvested", item="carrot", amount="15 lb", on="2026-08-01")
    found = one(book, "carrot", want="carrot=20 lb", as_of="2027-02-01")
    assert found["yield_from"] == "own seasons and published yields"
    assert found["published_from"]
    # 1 lb a foot, five carrots on a foot, 100 for 20 lb by the book; 15 lb from 100 of its own
    assert 100 < found["plants"]["likely"] < 134
    assert found["plants"]["likely"] < found["plants"]["nine_in_ten"] < 400


def test_a_first_year_garden_with_only_a_target_gets_its_row(book, yes):
    body = {"item": "carrot", "sort": "food", "measure": "mass"}
    book.write("item_described", body, on="2026-01-01")
    book.write("target_set", item="carrot", amount="20 lb", per="year", on="2026-01-01")
    answer = book.show("next-season", as_of="2026-02-01")
    (found,) = answer.records()
    assert (found["yield_from"], found["own_seasons"]) == ("published yields", 0)
    assert found["row_m"] == pytest.approx(20 * 0.3048)  # 1 lb a foot
    assert found["chance_short"] == pytest.approx(0.525)
    assert found["chance_text"] == "even"
    assert any("length of row" in text for text in answer.totals["missing"])


def test_a_target_of_something_put_up_or_bought_is_no_crop(book, yes):
    for item in ("frozen green bean", "potato"):
        body = {"item": item, "sort": "food", "measure": "mass"}
        book.write("item_described", body, on="2026-01-01")
        book.write("target_set", item=item, amount="20 lb", per="year", on="2026-01-01")
    book.write("bought", item="potato", amount="5 lb", paid="3", on="2026-01-02")
    assert records(book, as_of="2026-02-01") == []


def test_plants_without_row_or_area_go_by_their_own_season(book, yes):
    book.write("planted", crop="carrot", plants=100, on="2026-04-01", answers=yes)
    book.write("harvested", item="carrot", amount="20 lb", on="2026-08-01")
    found = one(book, "carrot", want="carrot=20 lb", as_of="2027-02-01")
    assert (found["yield_from"], found["plants"]["likely"]) == ("own seasons", 100)
    assert found["plants"]["nine_in_ten"] > 100


def test_running_season_counts_only_when_picking_is_past(garden):
    assert one(garden, as_of="2026-07-01")["own_seasons"] == 1
    assert one(garden, as_of="2026-08-31")["own_seasons"] == 2


def test_failed_season_counts_as_a_failure(garden, yes):
    garden.write(
        "planted",
        crop="tomato",
        plants=20,
        area="80 sq ft",
        bed="south bed",
        on="2024-05-10",
        answers=yes,
    )
    found = one(garden)
    assert found["own_seasons"] == 3
    assert found["chance_short"] > 0.5
    assert found["fails"] == pytest.approx(1.5 / 14)  # two seasons of beans count half
    assert found["plants"]["likely"] < found["plants"]["nine_in_ten"] < 1000
    said = totals(garden)["in_words"]
    assert any(s.startswith("tomato: it fails outright about one season in 9") for s in said)


def test_trees_tell_how_often_a_season_falls_short(book, yes):
    for year, pounds in ((2024, 50), (2025, 70), (2026, 60)):
        book.write("harvested", item="plum", amount=f"{pounds} lb", on=f"{year}-08-20", answers=yes)
    found = one(book, "plum", want="plum=70 lb")
    assert found["plants"]["likely"] is None
    assert found["yield_of"] == "whole season"
    assert 0.5 < found["chance_short"] < 1
    assert found["short_g"] > 0


def test_standing_plants_keep_their_bed(book, yes):
    book.write(
        "planted",
        crop="asparagus",
        plants=20,
        area="40 sq ft",
        bed="old bed",
        on="2023-04-01",
        answers=yes,
    )
    for year in (2024, 2025, 2026):
        book.write("harvested", item="asparagus", amount="10 lb", on=f"{year}-05-05", answers=yes)
    found = one(book, "asparagus", want="asparagus=20 lb", rotate=True)
    assert (found["bed"], found["plants"]["planned"]) == ("old bed", 20)
    assert 0 < found["short_g"] < 20 * LB


# -- beds ---------------------------------------------------------------------------------------


def test_beds_are_as_large_as_what_was_planted(garden):
    beds = totals(garden)["beds"]
    assert {bed: round(b["area_m2"] / FT2) for bed, b in beds.items()} == {
        "south bed": 80,
        "north bed": 80,
    }


def test_plan_keeps_within_the_ground(garden):
    answer = garden.show("next-season", as_of="2026-12-01", want="tomato sauce=200 quart jars")
    for bed in answer.totals["beds"].values():
        assert 0 <= bed["free_m2"] <= bed["area_m2"]
    found = next(r for r in answer.records() if r["crop"] == "tomato")
    assert found["plants"]["planned"] < found["plants"]["likely"]
    assert found["short_g"] == pytest.approx(
        found["needed_g"]["likely"] - found["plants"]["planned"] * found["yield_g"]["likely"]
    )
    assert found["chance_short"] > 0.5
    said = answer.totals["in_words"]
    assert any("do not suffice" in text for text in said)
    assert said[1].startswith("More ground is wanted than there is: grow less tomato (")


def test_what_is_liked_is_wanted_more(garden, yes):
    before = one(garden, "green bean")
    for day, liked in (("2026-09-21", 5), ("2026-09-22", 5), ("2026-09-23", 4)):
        body = {"ate": [{"item": "green bean", "amount": "1 g"}], "liked": liked}
        garden.write("eaten", body, on=day, answers=yes)
    after = one(garden, "green bean")
    factor = 1 + 0.2 * (14 / 3 - 3) / 2 * 3 / 7
    assert after["fresh_wanted_g"] == pytest.approx((4 * LB + 3) * factor, rel=1e-5)
    assert "fresh (7 % added: liked 4.7 of 5)" in after["because"]
    assert "liked-counts" in after["assumptions"]
    garden.write("target_set", item="green bean", amount="4 lb", per="year", on="2026-10-01")
    aimed = one(garden, "green bean")
    assert aimed["needed_g"]["likely"] == pytest.approx(before["needed_g"]["likely"], rel=1e-5)


def test_rotation_keeps_a_family_out(garden):
    assert one(garden, rotate=True)["bed"] == "south bed"  # 2026 had tomatoes in the north bed


def test_rotation_says_what_it_keeps_out(garden):
    said = totals(garden, rotate=True)["in_words"]
    assert "Kept out of north bed, where their family stood: tomato." in said
    assert "Kept out of south bed, where their family stood: green bean." in said


def test_unwanted_crop_asks_for_a_target(book, yes):
    book.write("planted", crop="tomato", plants=10, on="2026-05-01", answers=yes)
    assert any("Nobody ate any tomato" in text for text in totals(book)["missing"])


def test_other_ground_can_be_tried(garden):
    assert one(garden, beds="south bed=0; north bed=0")["bed"] is None
    found = one(garden, beds=["East Bed=900 sq ft", "south bed=0", "north bed=0"])
    assert found["bed"] == "East Bed"


def test_no_bed_says_what_is_missing(book, yes):
    book.write("planted", crop="tomato", plants=10, on="2026-05-01", answers=yes)
    found = one(book, want="tomato=10 lb")
    assert (found["bed"], found["area_m2"]) == (None, None)
    assert any(
        "No bed's ground is known" in text for text in totals(book, want="tomato=10 lb")["missing"]
    )


@pytest.mark.parametrize("aim", ["targets", "value", "energy"])
def test_every_aim_gives_a_plan(garden, yes, aim):
    garden.write(
        "price_seen", item="tomato", amount="1 lb", price="2.00", on="2026-08-01", answers=yes
    )
    assert one(garden, **{"for": aim})["plants"]["planned"] is not None


@settings(max_examples=80, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(1, 40), st.sampled_from([0.2, 0.5, 1.0]), st.booleans()),
        min_size=1,
        max_size=5,
    ),
    st.lists(st.sampled_from([1.0, 3.0, 7.5, 20.0]), min_size=1, max_size=4),
)
def test_simpler_plan_plants_as_much(wanted, grounds):
    crops = [
        Crop(str(i), float(n), 1.0, space, whole) for i, (n, space, whole) in enumerate(wanted)
    ]
    beds = [Bed(str(i), ground) for i, ground in enumerate(grounds)]
    plan = fit(crops, beds, {c.name: c.wanted for c in crops}, aim="targets", rotation=False)
    for bed in beds:
        used = sum(n * crops[int(c)].space_m2 for (c, b), n in plan.units.items() if b == bed.name)
        assert used <= bed.area_m2 + 1e-6
        assert plan.free_m2[bed.name] == pytest.approx(bed.area_m2 - used, abs=1e-6)
    for crop in crops:
        assert sum(plan.of(crop.name).values()) <= crop.wanted + 1e-6
    if sum(c.wanted * c.space_m2 for c in crops) <= max(grounds):
        assert all(sum(plan.of(c.name).values()) == pytest.approx(c.wanted) for c in crops)
