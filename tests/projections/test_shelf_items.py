"""The shelf ahead: how long each item lasts, what passes its best, and its stock over time.

Longer than its kin, as its books and helpers serve every case.
"""

from __future__ import annotations

import datetime as dt
import json
import math
import random
import uuid

import numpy as np
import pytest
from books import state_of
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import random_book

from ledger.cli import main
from ledger.errors import InputError, NotFound
from ledger.projections import PROJECTIONS
from ledger.questions.ahead.supply import next_supply
from ledger.questions.shared.arithmetic import recompute

KG = 1000
START = dt.date(2024, 1, 7)
SHELF = PROJECTIONS["shelf"]


def day(week, extra=0):
    return (START + dt.timedelta(days=7 * week + extra)).isoformat()


def eat(book, item, amount, on):
    book.write("eaten", {"ate": [{"item": item, "amount": amount}]}, on=on)


def weekly(book, item="flour", stock="40 kg", amount="1 kg", weeks=12):
    """Buy once, then use the same each week; the last whole week ends on the day before."""
    book.write("bought", {"lines": [{"item": item, "amount": stock, "paid": "9"}]}, on=day(0))
    for week in range(weeks):
        eat(book, item, amount, day(week, 3))
    return day(weeks, -1)


def items(book, as_of, **options):
    answer = book.show("shelf", as_of=as_of, items=True, **options).to_dict()
    return {r["item"]: r for r in answer["records"]}, answer


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


# -- best before --------------------------------------------------------------------------------


def test_what_passes_its_best_before_it_is_eaten(book):
    """Six with two weeks and ten with four, two a week: two and six are left standing."""
    keeps = {"item": "egg", "sort": "food", "measure": "count", "keeps": {"fridge": "6 weeks"}}
    book.write("item_described", keeps, on=day(0))
    line = {"item": "egg", "paid": "1", "kept": "fridge"}
    book.write("bought", {"lines": [line | {"amount": "16"}]}, on=day(0))
    for week in range(8):
        eat(book, "egg", "2", day(week, 3))
    book.write("bought", {"lines": [line | {"amount": "6"}]}, on=day(4, -1))
    book.write("bought", {"lines": [line | {"amount": "10"}]}, on=day(6, -1))
    one = items(book, day(8, -1))[0]["egg"]
    assert one["used_per_week"]["likely"] == pytest.approx(2.0, rel=0.1)
    assert one["past_best"] == pytest.approx(8.0, rel=0.1)
    assert one["past_best_on"] == day(10, -1) == one["best_until"]


def canned(book, keeps=None):
    body = {"item": "apple sauce", "sort": "food", "measure": "volume"}
    book.write("item_described", body | ({"keeps": keeps} if keeps else {}), on=day(0))
    book.write("harvested", {"lines": [{"item": "apple", "amount": "40 kg"}]}, on=day(0))
    made = [{"jars": 8, "jar": "half-pint jar", "kept": "shelf"}]
    book.write(
        "put_up",
        {"makes": "apple sauce", "method": "boiling water", "made": made,
         "used": [{"item": "apple", "amount": "8 kg"}], "minutes": "15", "pack": "hot",
         "headspace": "1/2 in", "altitude": "800 ft", "loads": 1},
        on=day(0),
    )  # fmt: skip


def test_published_period_is_never_the_use_by(book):
    canned(book)
    (lot,) = (r for r in book.show("shelf", as_of=day(4)).records() if r["item"] == "apple sauce")
    assert (lot["use_by"], lot["days_left"]) == (None, None)
    assert lot["best_quality"] is not None
    one = items(book, day(4))[0]["apple sauce"]
    assert one["best_until"] == "2025-01-07"
    assert "best-as-published" in one["assumptions"]
    tree = book.why("shelf/items/apple-sauce", "past_best", as_of=day(4))
    assert tree.how in ("sum", "as written")


def test_open_jar_and_leftovers_have_their_short_lives(book):
    canned(book, {"shelf": "12 months", "fridge": "3 weeks"})
    eat(book, "apple sauce", "1 cup", day(3))
    eat(book, "apple sauce", "0.5 cup", day(4))
    shelf = {r["item"]: r for r in book.show("shelf", as_of=day(5)).records()}
    assert shelf["apple sauce"]["use_by"] == day(7)
    body = {"item": "soup", "sort": "food", "measure": "volume", "keeps": {"fridge": "4 days"}}
    book.write("item_described", body, on=day(0))
    left = [{"item": "soup", "amount": "1 qt", "kept": "fridge", "share": "0.4"}]
    book.write(
        "eaten", {"ate": [{"item": "apple", "amount": "2 kg"}], "dish": "soup", "left": left}, on=day(5)
    )  # fmt: skip
    shelf = {r["item"]: r for r in book.show("shelf", as_of=day(5)).records()}
    assert (shelf["soup"]["use_by"], shelf["soup"]["kept"]) == (day(5, 4), "fridge")
    assert items(book, day(5))[0]["soup"]["best_until"] == day(5, 4)


def test_first_to_pass_its_best_comes_first(book):
    for name, life in (("milk", "5 days"), ("oats", "2 years")):
        keeps = {"item": name, "sort": "food", "measure": "mass", "keeps": {"shelf": life}}
        book.write("item_described", keeps, on=day(0))
        weekly(book, name, "20 kg", "1 kg", 6)
    found, _ = items(book, day(6, -1))
    assert [found[name]["eat_first"] for name in ("milk", "oats")] == [1, 2]
    assert found["milk"]["past_best"] == pytest.approx(14 * KG, rel=0.1)
    assert found["oats"]["past_best"] == 0.0


# -- the whole answer ---------------------------------------------------------------------------


def test_empty_book_and_one_event(book):
    assert items(book, day(0))[0] == {}
    eat(book, "bread", "1 kg", day(0))
    assert items(book, day(0))[0] == {}
    assert items(book, day(5))[1]["totals"]["gone"] == []
    book.write("harvested", {"lines": [{"item": "plum", "amount": "4 kg"}]}, on=day(0))
    assert items(book, day(0))[0]["plum"]["weeks_left"]["low"] is None


def test_answer_is_the_same_twice_and_for_one_item_alone(book):
    as_of = weekly(book)
    weekly(book, "rice", "20 kg", "0.5 kg", 12)
    all_, whole = items(book, as_of)
    assert json.dumps(whole) == json.dumps(items(book, as_of)[1])
    alone, _ = items(book, as_of, item="rice")
    assert alone["rice"] == all_["rice"] | {"eat_first": 1}


def test_as_of_and_known_at_bring_the_old_answer_back(book):
    as_of = weekly(book)
    before = items(book, as_of)[0]
    assert items(book, day(6, -1))[0]["flour"]["left"]["whole"] == 34_000_000
    known = book.history(newest_first=True)[0].recorded_at
    eat(book, "flour", "5 kg", day(11, 5))
    assert items(book, as_of)[0] != before
    then = book.show("shelf", items=True, as_of=as_of, known_at=known).records()
    assert {r["item"]: r for r in then} == before


def last_day(events):
    return max(e["on"] for e in events)


@pytest.mark.parametrize("seed", range(8))
def test_growing_event_by_event_is_the_same_as_at_once(seed):
    events = random_book(random.Random(seed), 50)
    as_of = last_day(events)
    once = SHELF.build(state_of(events, as_of), items=True).to_dict()
    grown = SHELF.build(state_of(events, as_of, chunk=1), items=True).to_dict()
    assert json.dumps(once) == json.dumps(grown)


@pytest.mark.parametrize("seed", range(10))
def test_every_figure_is_what_its_tree_gives(seed):
    events = random_book(random.Random(seed), 80)
    state = state_of(events, last_day(events))
    for record in SHELF.build(state, items=True).records()[:6]:
        for name in (
            "left.whole", "lots", "jars_left", "used_per_week.low", "used_per_week.likely",
            "used_per_week.high", "weeks_left.low", "weeks_left.likely", "weeks_left.high",
            "reaches_next_supply", "target", "short_of_target", "past_best", "weeks_known", "eat_first",
        ):  # fmt: skip
            compare(state, record, name)
        for name in ("runs_out_on.early", "next_supply_on", "past_best_on", "best_until"):
            assert SHELF.why(state, key(record), name).value == get(record, name), name


@pytest.mark.parametrize("seed", range(6))
def test_every_day_over_time_is_what_its_tree_gives(seed):
    events = random_book(random.Random(seed), 60)
    state = state_of(events, last_day(events))
    named = SHELF.build(state, items=True).records()
    for item in [r["item"] for r in named][:3]:
        records = SHELF.build(state, over_time=item).records()
        for record in records[:2] + records[-3:]:
            for name in ("came", "went", "left", "low", "likely", "high"):
                compare(state, record, name)


def key(record):
    return record["why"].partition("/")[2]


def get(record, name):
    for part in name.split("."):
        record = record[part]
    return record


def compare(state, record, name):
    shown = get(record, name)
    if shown is None:
        return
    node = SHELF.why(state, key(record), name)
    assert math.isclose(node.value or 0.0, shown, rel_tol=1e-9, abs_tol=1e-6), name
    walk(node)


def walk(node):
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-6), node.label
    for part in node.parts:
        walk(part)


def made(uses, times, extra):
    """Return stored events: bought once, then used so much in each week."""
    told = {"item": "oat", "sort": "food", "measure": "mass"}
    line = {"item": "oat", "amount": "1 kg", "n": 1, "basis": "exact"}
    whole = (sum(uses) + extra) * 1_000_000 * times
    rows = [
        ("item_described", 0, told),
        ("bought", 0, {"lines": [line | {"whole": whole, "paid": "9"}]}),
    ]
    rows += [
        ("eaten", 7 * week + 2, {"ate": [line | {"whole": use * 1_000_000 * times}]})
        for week, use in enumerate(uses)
        if use
    ]
    return [
        {"seq": n, "id": str(uuid.UUID(int=n)), "kind": kind, "body": body,
         "on": (START + dt.timedelta(days=days)).isoformat(), "recorded_at": "2026-01-01T00:00:00Z"}
        for n, (kind, days, body) in enumerate(rows, 1)
    ]  # fmt: skip


@settings(max_examples=30, deadline=None)
@given(st.lists(st.integers(0, 3), min_size=2, max_size=110), st.integers(2, 4), st.integers(1, 30))
def test_scaling_all_amounts_scales_amounts_and_leaves_weeks(uses, times, extra):
    as_of = day(len(uses), -1)
    (one,) = SHELF.build(state_of(made(uses, 1, extra), as_of), items=True).records()
    (more,) = SHELF.build(state_of(made(uses, times, extra), as_of), items=True).records()
    for name in ("low", "likely", "high"):
        a, b = one["used_per_week"][name], more["used_per_week"][name]
        assert a is b is None or b == pytest.approx(a * times)
        assert one["weeks_left"][name] == pytest.approx(more["weeks_left"][name])
    assert one["lots"] == more["lots"] == 1
    low, likely, high = one["used_per_week"].values()
    assert low is likely is high is None or low <= likely <= high


def test_forty_years_are_no_trouble(book):
    rows = [
        {"kind": "bought", "on": f"{year}-{month:02d}-05",
         "body": {"lines": [{"item": "flour", "amount": "8 kg", "paid": "4"}]}}
        for year in range(1986, 2026) for month in (1, 5, 9)
    ]  # fmt: skip
    rows += [
        {"kind": "eaten", "on": f"{year}-{month:02d}-20",
         "body": {"ate": [{"item": "flour", "amount": "2 kg"}]}}
        for year in range(1986, 2026) for month in range(1, 13)
    ]  # fmt: skip
    rows.append(
        {
            "kind": "harvested",
            "on": "1986-01-01",
            "body": {"lines": [{"item": "flour", "amount": "9 kg"}]},
        }
    )
    rows.sort(key=lambda row: row["on"])
    book.import_events((n, n, row) for n, row in enumerate(rows, 1))
    one = items(book, "2025-12-31")[0]["flour"]
    assert 200 < one["weeks_known"] <= 260
    assert one["next_supply_on"] == "2026-01-05"
    assert one["weeks_left"]["low"] <= one["weeks_left"]["likely"] <= one["weeks_left"]["high"]


# -- over time ----------------------------------------------------------------------------------


def test_stock_over_time_steps_down_and_goes_on_as_a_range(book):
    as_of = weekly(book)
    answer = book.show("shelf", as_of=as_of, over_time="flour")
    past = [r for r in answer.records() if r["when"] == "past"]
    ahead = [r for r in answer.records() if r["when"] == "ahead"]
    assert [r["left"] for r in past[:3]] == pytest.approx([40 * KG, 39 * KG, 38 * KG], rel=1e-6)
    assert (past[0]["came"], past[0]["day"]) == (pytest.approx(40 * KG), day(0))
    assert ahead[0]["day"] == as_of
    assert ahead[0]["likely"] == pytest.approx(past[-1]["left"])
    assert [r["likely"] for r in ahead[1:3]] == pytest.approx([27 * KG, 26 * KG], rel=0.03)
    assert 29 < len(ahead) < 53
    assert ahead[-1]["high"] < 1.0
    assert all(r["low"] <= r["likely"] <= r["high"] for r in ahead)


def test_over_time_of_an_item_all_gone_has_no_range(book):
    as_of = weekly(book, stock="12 kg")
    records = book.show("shelf", as_of=as_of, over_time="flour").records()
    assert records[-1]["left"] == 0.0
    assert {r["when"] for r in records} == {"past"}


@pytest.mark.parametrize(
    ("options", "error", "words"),
    [
        ({"over_time": "flouur"}, NotFound, "Did you mean 'flour'"),
        ({"over_time": ""}, NotFound, "there is no item"),
        ({"over_time": "quart jar"}, NotFound, "not kept lot by lot"),
        ({"over_time": "flour", "items": True}, InputError, "by itself"),
        ({"items": True, "item": "gold"}, NotFound, "there is no item 'gold'"),
    ],
)
def test_bad_options_are_refused_by_name(book, options, error, words):
    weekly(book)
    line = {"item": "quart jar", "amount": "12", "paid": "9"}
    body = {"item": "quart jar", "sort": "jar", "measure": "count", "holds": "1 qt"}
    book.write("item_described", body, on=day(0))
    book.write("bought", {"lines": [line]}, on=day(0))
    with pytest.raises(error, match=words):
        book.show("shelf", **options)


@pytest.mark.parametrize(
    ("address", "field", "words"),
    [
        ("shelf/items/gold", None, "no item"),
        ("shelf/items/flour", "nonsense", "not a figure"),
        ("shelf/over-time/flour/never", None, "is no day"),
        ("shelf/over-time/flour/1999-01-01", None, "nothing is told"),
    ],
)
def test_bad_addresses_are_refused_by_name(book, address, field, words):
    as_of = weekly(book)
    with pytest.raises(NotFound, match=words):
        book.why(address, field, as_of=as_of)


# -- as a person reads it -----------------------------------------------------------------------


def test_table_fits_80_columns_and_ends_in_sentences(book, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    as_of = weekly(book)
    weekly(book, "sunflower seed bread flour", "30 kg", "1 kg", 12)
    book.write("target_set", {"item": "flour", "amount": "50 kg"}, on=day(1))
    status = main(["show", "shelf", "--items", "--as-of", as_of, "--book", str(book.log.path)])
    out = capsys.readouterr().out
    assert status == 0
    assert max(map(len, out.splitlines())) <= 80
    assert "Short of the target: flour 48 lb 8 oz." in out
    assert "When more comes is not known of" in out


def test_over_time_has_its_own_columns_in_csv(book, capsys):
    as_of = weekly(book)
    where = ["--as-of", as_of, "--book", str(book.log.path)]
    assert main(["show", "shelf", "--over-time", "flour", "--csv", *where]) == 0
    head, first, *_ = capsys.readouterr().out.splitlines()
    assert head.split(",")[:5] == ["why", "day", "when", "item", "unit"]
    assert first.split(",")[1:3] == [day(0), "past"]
    assert main(["show", "shelf", "--over-time", "flour", "--items", *where]) == 2
