"""One plan for the year: from a book to lines, each of which opens; needs, limits and what lacks."""

from __future__ import annotations

import pytest
from projections.winter_tools import check_figures, check_sources, people

from ledger.errors import InputError, NotFound

ON = "2026-11-01"


@pytest.fixture
def croft(book, fixed_day, yes):
    people(book)
    for item, food, keeps in (("potato", "11352", "7 months"), ("green bean", "11052", "7 days")):
        described = {
            "item": item,
            "sort": "food",
            "measure": "mass",
            "food": food,
            "keeps": {"cellar": keeps},
        }
        book.write("item_described", described, on="2026-01-01")
    for crop, plants in (("potato", 100), ("green bean", 60)):
        body = {
            "crop": crop,
            "plants": plants,
            "row": "50 ft",
            "area": "100 sq ft",
            "bed": "long bed",
            "work": [{"person": "Finn", "minutes": "120"}],
        }
        book.write("planted", body, on="2026-05-01")
    book.write(
        "harvested",
        {"lines": [{"item": "potato", "amount": "120 lb", "bed": "long bed"}]},
        on="2026-09-01",
    )
    book.write(
        "harvested",
        {"lines": [{"item": "green bean", "amount": "40 lb", "bed": "long bed"}]},
        on="2026-08-01",
    )
    book.write(
        "item_described",
        {"item": "flour", "sort": "food", "measure": "mass", "food": "20081"},
        on="2026-01-01",
    )
    book.write(
        "item_described",
        {"item": "frozen bean", "sort": "food", "measure": "mass"},
        on="2026-08-01",
    )
    book.write(
        "bought", {"lines": [{"item": "flour", "amount": "100 lb", "paid": "50"}]}, on="2026-02-01"
    )
    book.write("put_up", {"makes": "frozen bean", "method": "freeze", "used": [{"item": "green bean", "amount": "20 lb"}],
                          "made": [{"amount": "18 lb", "kept": "freezer"}], "work": [{"person": "Finn", "minutes": "180"}]}, on="2026-08-02", answers=yes)  # fmt: skip
    for item, amount in (
        ("flour", "90 lb"),
        ("potato", "60 lb"),
        ("frozen bean", "10 lb"),
        ("green bean", "10 lb"),
    ):
        book.write("eaten", {"ate": [{"item": item, "amount": amount}]}, on="2026-10-15")
    book.write("setting_changed", {"name": "freezer_room", "value": "10 cu ft"}, on="2026-01-01")
    return book


def test_plan_plants_puts_up_and_buys(croft, fixed_day):
    answer = croft.show("whole-year", as_of=ON)
    rows = answer.rows()
    planted = {row["what"]: row for row in rows if row["do"] == "plant"}
    assert set(planted) == {"potato", "green bean"}
    assert sum(row["amount"] for row in planted.values()) <= 200 * 0.09290304 + 1e-6
    bought = [row for row in rows if row["do"] == "buy"]
    assert {row["what"] for row in bought} == {"flour"}
    kg = sum(row["kg"] for row in bought)
    assert kg <= 90 * 0.45359237 * 1.5 + 1e-6  # no more than half as much again
    assert sum(row["money"] for row in bought) == pytest.approx(kg / 0.45359237 * 0.5)
    assert answer.totals["cost"] == pytest.approx(sum(row["money"] or 0 for row in rows), abs=0.05)
    assert "calcium" in answer.totals["short"]
    said = " ".join(answer.totals["in_words"])
    assert "Not met" in said
    assert "deficien" not in said
    figures = ("amount", "weeks", "a_week", "kg", "hours", "money")
    assert check_figures(croft, answer, figures, as_of=ON) >= 8
    assert check_sources(croft, answer, figures, as_of=ON) >= 20


def test_green_beans_are_eaten_only_while_they_keep(croft, fixed_day):
    """Seven days: picked in the week of 1 August, eaten then and the week after, never in winter."""
    rows = croft.show("whole-year", as_of=ON).rows()
    fresh = [row for row in rows if row["do"] == "eat fresh" and row["what"] == "green bean"]
    frozen = [row for row in rows if row["do"] == "eat put up" and row["what"] == "frozen bean"]
    made = [row for row in rows if row["do"] == "freeze"]
    assert all(row["week"] > "2027-07-2" and (row["until"] or "") < "2027-08-16" for row in fresh)
    assert made
    assert frozen
    assert min(row["week"] for row in frozen) >= min(row["week"] for row in made)
    assert sum(row["amount"] for row in frozen) <= sum(row["amount"] for row in made) + 0.1


def test_each_week_is_told_and_opens(croft, fixed_day):
    answer = croft.show("whole-year", as_of=ON, weeks=True)
    rows = [row for row in answer.rows() if row["energy"] is not None]
    lines = croft.show("whole-year", as_of=ON).rows()
    assert len(rows) == 52
    assert sum(row["money"] for row in rows) == pytest.approx(answer.totals["cost"], abs=0.05)
    bought = sum(row["kg"] for row in lines if row["do"] == "buy")
    assert sum(row["bought_kg"] for row in rows) == pytest.approx(bought, abs=0.05)
    assert any("calcium" in row["lacks"] for row in rows if row["lacks"])
    assert check_figures(croft, answer, ("picked_kg", "hours", "money", "energy"), as_of=ON) == 208
    assert check_sources(croft, answer, ("pantry_kg", "bought_kg", "energy"), as_of=ON) >= 156


def test_rotation_keeps_a_family_out_of_its_bed(croft, fixed_day):
    body = {"crop": "chard", "plants": 20, "row": "20 ft", "area": "40 sq ft", "bed": "short bed"}
    croft.write("planted", body, on="2026-05-01")
    kept = croft.show("whole-year", as_of=ON)
    beds = {row["bed"] for row in kept.rows() if row["do"] == "plant" and row["what"] != "chard"}
    assert beds <= {"short bed"}
    assert "rotation" in {one.id for one in kept.assumptions}
    again = croft.show("whole-year", as_of=ON, same_beds=True)
    assert "long bed" in {row["bed"] for row in again.rows() if row["do"] == "plant"}
    assert again.totals["cost"] >= 0


def test_each_limit_and_need_opens(croft, fixed_day):
    answer = croft.show("whole-year", as_of=ON, limits=True)
    rows = {row["limit"]: row for row in answer.rows()}
    assert rows["ground of long bed"]["binds"]
    assert rows["calcium"]["binds"]
    assert rows["energy"]["most"] == pytest.approx(8000 * 364)
    assert check_figures(croft, answer, ("used", "most", "share"), as_of=ON) >= 30
    assert check_sources(croft, answer, ("used", "most", "share"), as_of=ON) >= 90


def test_more_hours_are_never_dearer_and_a_fair_chance_brings_more(croft, fixed_day):
    def lacking(hours):
        rows = croft.show("whole-year", as_of=ON, hours=hours, limits=True).rows()
        return sum(1 - row["share"] for row in rows if "/need/" in row["why"] and row["binds"])

    assert lacking("20") <= lacking("0.5") + 1e-3
    careful, even = (
        croft.show("whole-year", as_of=ON, chance=chance).totals["short"]
        for chance in ("9 in 10", "even")
    )
    assert even["energy"] <= careful["energy"]


def test_a_first_year_is_planned_from_frosts_and_tables(book, fixed_day):
    """No harvest, no batch: weeks by the frosts, amounts by the first year's plan, ways as printed."""
    people(book)
    for name, value in (("altitude", "1200 ft"), ("gauge", "dial"), ("freezer_room", "10 cu ft")):
        book.write("setting_changed", {"name": name, "value": value}, on="2026-01-01")
    for frost, seen in (("last of spring", "2026-05-10"), ("first of fall", "2026-10-01")):
        book.write("frost_seen", {"frost": frost, "seen": seen}, on="2026-10-02")
    described = {"item": "green bean", "sort": "food", "measure": "mass", "food": "11052"}
    book.write("item_described", described, on="2026-01-01")
    body = {"crop": "green bean", "plants": 60, "area": "100 sq ft", "bed": "long bed"}
    book.write("planted", body, on="2026-05-15")
    answer = book.show("whole-year", as_of=ON)
    rows = answer.rows()
    assert [row["what"] for row in rows if row["do"] == "plant"] == ["green bean"]
    fresh = [row for row in rows if row["do"] == "eat fresh"]
    assert fresh
    assert min(row["week"] for row in fresh) > "2027-06-15"  # sown after the frost, 50 days on
    assert not [name for name in answer.totals["in_words"] if "stove hours" in name]
    assert "a guess without a source" in " ".join(answer.totals["missing"])


def test_beds_without_ground_are_named(book, fixed_day):
    people(book)
    answer = book.show("whole-year", as_of=ON)
    assert "No bed has ground" in " ".join(answer.totals["missing"])
    assert answer.rows() == []


@pytest.mark.parametrize(
    ("options", "field"), [({"hours": "none"}, "hours"), ({"chance": "surely"}, "chance")]
)
def test_bad_options_are_refused(croft, fixed_day, options, field):
    with pytest.raises(InputError) as refused:
        croft.show("whole-year", as_of=ON, **options)
    assert refused.value.field == field


@pytest.mark.parametrize(
    "address",
    [
        "whole-year/12,9 in 10/plant/oak/long bed",
        "whole-year/12,soon/x",
        "whole-year/12,even/limit/sky",
    ],
)
def test_unknown_addresses_are_refused(croft, fixed_day, address):
    with pytest.raises(NotFound):
        croft.why(address, as_of=ON)
