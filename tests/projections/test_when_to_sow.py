"""When to sow: days from own frosts, the worked examples of the tables, and seed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from projections.winter_tools import check_figures

from ledger.errors import InputError, NotFound
from ledger.questions.shared.seeds import Seed
from ledger.questions.shared.sowing import sowing
from ledger.questions.shared.sown import Bare
from ledger.reference.sowing import crop

ON = "2026-11-01"
FIGURES = (
    "last_sowing_days",
    "spring_frost_day",
    "fall_frost_day",
    "days_to_harvest",
    "germination",
    "seeds_wanted",
    "to_order",
)


def rows(answer):
    return {row["crop"]: row for row in answer.rows()}


@pytest.fixture
def garden(book, fixed_day):
    for name in ("tomato", "green bean", "carrot", "lettuce", "garlic"):
        book.write("planted", {"crop": name, "plants": 40, "row": "25 ft"}, on="2026-05-20")
    return book


def frosts(book):
    book.write("frost_seen", {"frost": "last of spring", "seen": "2026-05-10"}, on=ON)
    book.write("frost_seen", {"frost": "first of fall", "seen": "2026-10-01"}, on=ON)


def test_days_of_the_tables(garden, fixed_day):
    """METHODS 5: last frost 10 May, first 1 October 2027 (one year of each: the latest seen)."""
    frosts(garden)
    found = rows(garden.show("when-to-sow", as_of=ON, year="2027"))
    tomato = found["tomato"]
    assert (tomato["indoors_from"], tomato["indoors_to"]) == ("2027-03-15", "2027-03-29")
    assert (tomato["out_from"], tomato["out_how"]) == ("2027-05-24", "set out")
    beans = found["green bean"]
    assert (beans["last_sowing_days"], beans["last_sowing"]) == (109, "2027-06-14")
    carrot = found["carrot"]
    assert (carrot["last_sowing_days"], carrot["last_sowing"]) == (84, "2027-07-09")
    garden.write("seed_checked", {"crop": "lettuce", "days": 50}, on=ON)
    lettuce = rows(garden.show("when-to-sow", as_of=ON, year="2027"))["lettuce"]
    assert (lettuce["last_sowing_days"], lettuce["last_sowing"], lettuce["days_from"]) == (
        64,
        "2027-07-29",
        "packet",
    )


@pytest.mark.parametrize(("fall", "picking", "total"), [(15.0, 10.0, 101), (20.0, 14.0, 110)])
def test_published_case_of_broccoli(book, fall, picking, total):
    """48 days, 28 to set out, 15 to 20 and 10 to 14 more: 101 to 110 days, printed "about 100"."""
    row = replace(
        crop("broccoli"), counted_from="set out", weeks_to_set_out=(4.0, 4.0), fall_days=fall
    )
    bare = Bare(0, "broccoli", row, Seed(None, None, (48, 0), None), None, picking)
    assert sowing(book.state(), [bare], 0.1)["last_sowing_days"].values.tolist() == [total]


def test_sowing_again_ends_with_the_last_sowing(garden, fixed_day):
    frosts(garden)
    beans = rows(garden.show("when-to-sow", as_of=ON, year="2027"))["green bean"]
    assert beans["again_on"] == ["2027-05-24", "2027-06-07"]
    assert beans["again_on"][-1] <= beans["last_sowing"]


def test_without_frost_days_weeks_only(garden, fixed_day):
    answer = garden.show("when-to-sow", as_of=ON)
    for row in answer.rows():
        assert [
            row[name] for name in ("indoors_from", "indoors_to", "out_from", "last_sowing")
        ] == [None] * 4
        assert row["again_on"] == []
    assert (
        rows(answer)["tomato"]["weeks"]
        == "indoors 8 to 6 weeks before the last frost, then set out from 2 weeks after the last frost on"
    )
    said = " ".join(answer.totals["missing"])
    assert "weeks and no days" in said
    assert "no last sowing" in said


def test_more_risk_is_earlier_in_spring(garden, fixed_day):
    for year, day in zip(range(2015, 2025), (18, 9, 21, 2, 12, 16, 7, 24, 11, 14), strict=True):
        garden.write(
            "frost_seen", {"frost": "last of spring", "seen": f"{year}-05-{day:02}"}, on=ON
        )
    careful, bold = (
        rows(garden.show("when-to-sow", as_of=ON, risk=risk))["tomato"] for risk in ("0.1", "50%")
    )
    assert careful["out_from"] > bold["out_from"]


def test_a_spring_frost_after_the_fall_is_left_out_and_named(garden, fixed_day):
    frosts(garden)
    garden.write("frost_seen", {"frost": "last of spring", "seen": "2025-10-20"}, on=ON)
    garden.write("frost_seen", {"frost": "first of fall", "seen": "2025-05-01"}, on=ON)
    garden.write("frost_seen", {"frost": "last of spring", "seen": "2024-05-04"}, on=ON)
    garden.write("frost_seen", {"frost": "first of fall", "seen": "2024-10-04"}, on=ON)
    answer = garden.show("when-to-sow", as_of=ON, year="2027")
    assert "2025" in " ".join(answer.totals["missing"])
    assert rows(answer)["tomato"]["out_from"] == "2027-05-24"


def test_seed_wanted_and_to_order(garden, fixed_day):
    """METHODS 11: 13 of 20; carrot standard 55 per cent met, lettuce 80 not."""
    frosts(garden)
    garden.write("target_set", {"item": "carrot", "amount": "20 lb", "per": "year"}, on=ON)
    garden.write(
        "seed_checked",
        {"crop": "carrot", "year": 2018, "sown": 20, "sprouted": 13, "seeds": 10},
        on=ON,
    )
    garden.write(
        "seed_checked", {"crop": "lettuce", "year": 2026, "sown": 20, "sprouted": 13}, on=ON
    )
    answer = garden.show("when-to-sow", as_of=ON, year="2027")
    found = rows(answer)
    carrot, lettuce = found["carrot"], found["lettuce"]
    assert (carrot["germination"], carrot["standard"]) == (0.65, 0.55)
    assert carrot["seed_note"] == "meets the standard; 9 years old, keeps 1 to 4: test 20"
    assert lettuce["seed_note"] == "below the standard"
    assert carrot["seeds_wanted"] >= carrot["plants"] / 0.65
    assert carrot["to_order"] == carrot["seeds_wanted"] - 10
    assert check_figures(garden, answer, FIGURES, as_of=ON) > 15


@pytest.mark.parametrize(("options", "field"), [({"risk": "2"}, "risk"), ({"risk": "often"}, "risk"), ({"year": "next"}, "year")])  # fmt: skip
def test_bad_options_are_refused(garden, fixed_day, options, field):
    with pytest.raises(InputError) as refused:
        garden.show("when-to-sow", as_of=ON, **options)
    assert refused.value.field == field


def test_unknown_addresses_are_refused(garden, fixed_day):
    for address in ("when-to-sow/2027/0.1/oak", "when-to-sow/soon"):
        with pytest.raises(NotFound):
            garden.why(address)
