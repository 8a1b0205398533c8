"""The shelf ahead: how long each item lasts, when more comes, and what is short of a target."""

from __future__ import annotations

import datetime as dt
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shelf_tools import KG, SHELF, day, eat, items, walk, weekly

from ledger.questions.ahead.supply import next_supply

# -- use, run-out and supply --------------------------------------------------------------------


def test_record_has_the_fields_that_scripts_rely_on(book):
    found, answer = items(book, weekly(book))
    assert set(found["flour"]) >= {
        "item", "left", "lots", "used_per_week", "weeks_left", "runs_out_on", "next_supply_on",
        "reaches_next_supply", "target", "short_of_target", "why", "assumptions",
    }  # fmt: skip
    assert set(found["flour"]["left"]) == {"whole", "measure", "text"}
    assert set(found["flour"]["weeks_left"]) == {"low", "likely", "high"}
    assert set(found["flour"]["runs_out_on"]) == {"early", "likely", "late"}
    assert set(SHELF.variants) == {"items", "over_time"}
    assert {a["id"] for a in answer["assumptions"]} >= set(found["flour"]["assumptions"])


def test_even_use_gives_a_range_about_the_even_pace(book):
    found, _ = items(book, weekly(book))
    one = found["flour"]
    assert one["unit"] == "g"
    assert one["left"] == {"whole": 28_000_000, "measure": "mass", "text": "61 lb 12 oz"}
    low, likely, high = one["used_per_week"].values()
    assert low < KG < high
    assert likely == pytest.approx(KG, rel=0.05)
    soon, weeks, late = one["weeks_left"].values()
    assert soon < 28 < late < 60
    assert weeks == pytest.approx(28, rel=0.05)
    ends = [
        dt.date.fromisoformat(day(12, -1)) + dt.timedelta(days=int(7 * w))
        for w in (soon, weeks, late)
    ]
    assert list(one["runs_out_on"].values()) == [end.isoformat() for end in ends]
    assert one["how_sure"] == "few weeks: a wide range"
    assert (one["next_supply_on"], one["reaches_next_supply"]) == (None, None)


def test_three_weeks_are_too_few_and_the_answer_says_so(book):
    found, answer = items(book, weekly(book, weeks=3))
    assert found["flour"]["used_per_week"] == {"low": None, "likely": None, "high": None}
    assert found["flour"]["weeks_left"]["likely"] is None
    assert found["flour"]["past_best"] == 0.0
    assert any("flour" in s and "four weeks" in s for s in answer["totals"]["missing"])


def test_what_is_thrown_away_is_no_use(book):
    as_of = weekly(book)
    lines = {"lines": [{"item": "flour", "amount": "8 kg"}]}
    book.write("discarded", lines | {"why": "spoiled"}, on=day(9))
    found, _ = items(book, as_of)
    assert found["flour"]["used_per_week"]["likely"] == pytest.approx(KG, rel=0.05)
    assert found["flour"]["weeks_left"]["likely"] == pytest.approx(20, rel=0.05)


@pytest.mark.parametrize(("missing", "used"), [("eaten", 2.0), ("lost", 1.0)])
def test_what_a_count_says_was_eaten_is_use(book, missing, used):
    as_of = weekly(book, weeks=8)
    line = {"lines": [{"item": "flour", "amount": "24 kg"}]}
    book.write("counted", line | {"missing": missing}, on=day(8, -1))
    found, _ = items(book, as_of)
    assert found["flour"]["used_per_week"]["high"] > KG * 0.99
    tree = book.why("shelf/items/flour", "used_per_week.likely", as_of=as_of)
    assert tree.parts[0].value == pytest.approx(used * KG)


def test_weeks_without_any_say_nothing_of_what_was_wanted(book):
    weekly(book, stock="6 kg", weeks=6)  # gone after six weeks, bought again after twenty
    book.write("bought", {"lines": [{"item": "flour", "amount": "9 kg", "paid": "3"}]}, on=day(20))
    for week in range(20, 24):
        eat(book, "flour", "1 kg", day(week, 3))
    found, _ = items(book, day(24, -1))
    # five weeks and four days, then four weeks: the day on which it ran dry counts
    assert found["flour"]["weeks_known"] == pytest.approx(5 + 4 / 7 + 4)
    assert found["flour"]["weeks_left"]["likely"] == pytest.approx(5, rel=0.15)
    assert "none-there" in found["flour"]["assumptions"]


def test_never_used_lasts_and_has_no_day(book):
    book.write("bought", {"lines": [{"item": "salt", "amount": "3 kg", "paid": "2"}]}, on=day(0))
    one = items(book, day(30))[0]["salt"]
    assert one["used_per_week"] == {"low": None, "likely": None, "high": None}
    assert one["weeks_left"] == {"low": None, "likely": None, "high": None}
    assert one["used_text"] == "none in 30 weeks"
    assert one["runs_out_on"] == {"early": None, "likely": None, "late": None}


def test_what_lasts_for_years_has_no_late_day(book):
    book.write("bought", {"lines": [{"item": "salt", "amount": "9 kg", "paid": "2"}]}, on=day(0))
    for week in (5, 20):
        eat(book, "salt", "100 g", day(week))
    one = items(book, day(30))[0]["salt"]
    assert one["runs_out_on"]["late"] is None
    assert one["weeks_text"].endswith("years")
    assert "beyond-five-years" in one["assumptions"]


def test_a_bag_opened_at_even_pauses_goes_by_its_pauses(book):
    book.write("bought", {"lines": [{"item": "rice", "amount": "30 kg", "paid": "9"}]}, on=day(0))
    for week in range(1, 50, 3):
        eat(book, "rice", "1 kg", day(week, 3))
    one = items(book, day(51, -1))[0]["rice"]
    assert "even-pauses" in one["assumptions"]
    assert one["used_per_week"]["likely"] == pytest.approx(KG / 3, rel=0.1)
    low, likely, high = one["weeks_left"].values()
    assert likely == pytest.approx(39, rel=0.1)  # thirteen bags, three weeks each
    assert high - low < 14


def test_people_who_came_scale_the_weeks_before(book):
    as_of = weekly(book, weeks=30)
    weekly(book, "candle", "40", "1", 30)
    body = {"item": "candle", "sort": "supply", "measure": "count"}
    book.write("item_described", body, on=day(0))
    book.write("setting_changed", {"name": "people", "value": "4"}, on=day(0))
    plain = items(book, as_of)[0]
    book.write("setting_changed", {"name": "people", "value": "6"}, on=as_of)
    found = items(book, as_of)[0]
    likely = found["flour"]["used_per_week"]["likely"]
    assert likely == pytest.approx(1.5 * plain["flour"]["used_per_week"]["likely"], rel=0.01)
    assert found["candle"]["used_per_week"] == plain["candle"]["used_per_week"]
    assert "people-changed" in found["flour"]["assumptions"]
    for name in ("low", "likely", "high"):
        tree = book.why("shelf/items/flour", f"used_per_week.{name}", as_of=as_of)
        assert tree.value == pytest.approx(found["flour"]["used_per_week"][name])
        walk(tree)


def test_seasons_are_followed_after_two_years(book):
    book.write("bought", {"lines": [{"item": "sugar", "amount": "99 kg", "paid": "9"}]}, on=day(0))
    for week in range(120):
        part = 1 + 0.7 * math.cos(2 * math.pi * (week - 30) / 52)
        eat(book, "sugar", f"{part / 2:.3f} kg", day(week, 3))
    low, high = (items(book, day(week, -1))[0]["sugar"] for week in (104, 120))
    assert low["seasonal"]
    assert high["seasonal"]
    assert "own-seasons" in low["assumptions"]
    assert low["used_per_week"]["likely"] < 0.4 * KG < 0.6 * KG < high["used_per_week"]["likely"]


DAYS = [0, 7, 14, 21, 30]


@pytest.mark.parametrize(
    ("days", "today", "laid_in", "expected"),
    [
        ([], 10, True, (None, "")),
        ([5], 10, True, (370, "season")),
        ([5], 10, False, (None, "")),
        (DAYS, 32, False, (37, "rhythm")),  # pauses 7 7 7 9, two days gone: the middle is 7
        (DAYS, 38, False, (39, "rhythm")),  # eight gone: only the pause of 9 was longer
        (DAYS, 60, False, (None, "")),  # longer than ever: not the rhythm any more
        (DAYS, 60, True, (365, "season")),  # what was picked comes again in a year
        ([200, 560, 930], 1000, True, (1295, "season")),  # 930 + 365, 560 + 730, 200 + 1095
        ([200, 560], 1000, True, (None, "")),  # nothing for more than a year
        ([0, 7, 14, 370, 377], 390, True, (732, "season")),  # between 370 + 365 and 0 + 730
    ],
)
def test_next_supply_by_season_or_rhythm(days, today, laid_in, expected):
    found = next_supply(np.array(days, np.int64), today, laid_in=laid_in)
    assert (found.day, found.rule) == expected


@settings(max_examples=60)
@given(st.lists(st.integers(0, 1500), max_size=30, unique=True), st.booleans())
def test_next_supply_lies_ahead(days, laid_in):
    found = next_supply(np.array(sorted(days), np.int64), 1500, laid_in=laid_in)
    assert found.day is None or found.day > 1500


def test_chance_to_reach_the_next_supply(book):
    for week in range(0, 12, 2):
        line = {"item": "milk", "amount": "4 qt", "paid": "3"}
        book.write("bought", {"lines": [line]}, on=day(week))
    for week in range(12):
        eat(book, "milk", "2 qt", day(week, 3))
    assert "milk" not in items(book, day(12, -1))[0]  # all gone
    short = items(book, day(10, 6))[0]["milk"]  # a week's milk for the eight days to the next
    assert short["next_supply_on"] == day(12)
    assert short["weeks_left"]["likely"] == pytest.approx(1, abs=0.3)
    assert 0 < short["reaches_next_supply"] < 0.5
    enough = items(book, day(10, 1))[0]["milk"]
    assert short["reaches_next_supply"] < enough["reaches_next_supply"] < 1


def test_leftovers_and_found_things_are_no_supply(book):
    as_of = weekly(book, weeks=5)
    book.write("counted", {"lines": [{"item": "flour", "amount": "90 kg"}]}, on=day(3))
    for week in (1, 2, 3):
        left = [{"item": "soup", "amount": "1 qt", "kept": "fridge", "share": "0.4"}]
        ate = [{"item": "flour", "amount": "10 g"}]
        book.write("eaten", {"ate": ate, "dish": "soup", "left": left}, on=day(week))
    found, _ = items(book, as_of)
    assert [found[name]["next_supply_on"] for name in ("flour", "soup")] == [None, None]
    assert found["flour"]["lots"] == 2
    tree = book.why("shelf/items/flour", "next_supply_on", as_of=as_of)
    assert tree.value is None


# -- targets ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("more", "kilos"),
    [({}, 50), ({"per": "year"}, 50), ({"per": "week"}, 50 * 365 / 7), ({"by": "2024-12-01"}, 50)],
)
def test_target_and_what_is_short_of_it(book, more, kilos):
    as_of = weekly(book)
    book.write("target_set", {"item": "flour", "amount": "50 kg", **more}, on=day(1))
    one = items(book, as_of)[0]["flour"]
    assert one["target"] == pytest.approx(kilos * KG)
    assert one["short_of_target"] == pytest.approx((kilos - 28) * KG)


def test_target_of_a_year_runs_down_to_the_next_supply(book):
    for on in ("2024-09-01", "2025-09-01"):
        book.write("harvested", {"lines": [{"item": "plum", "amount": "40 kg"}]}, on=on)
    book.write("target_set", {"item": "plum", "amount": "73 kg", "per": "year"}, on="2024-01-01")
    one = items(book, "2026-02-01")[0]["plum"]
    assert one["next_supply_on"] == "2026-09-01"
    assert one["target"] == pytest.approx(73 * KG * 212 / 365)
    assert one["short_of_target"] == 0.0


def test_target_for_each_person_needs_the_people(book):
    as_of = weekly(book)
    body = {"item": "flour", "amount": "20 kg", "per": "person year"}
    book.write("target_set", body, on=day(1))
    one, answer = items(book, as_of)
    assert one["flour"]["target"] is None
    assert any("people" in sentence for sentence in answer["totals"]["missing"])
    book.write("setting_changed", {"name": "people", "value": "3"}, on=day(1))
    assert items(book, as_of)[0]["flour"]["target"] == pytest.approx(60 * KG)


def test_a_target_of_something_all_gone_is_shown(book):
    book.write("target_set", {"item": "honey", "amount": "5 kg"}, on=day(0))
    one = items(book, day(3))[0]["honey"]
    assert one["left"]["whole"] == 0
    assert one["short_of_target"] == pytest.approx(5 * KG)
