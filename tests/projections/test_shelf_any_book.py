"""The shelf ahead, of any book: the same twice, grown, at two dates and scaled; each figure opens."""

from __future__ import annotations

import datetime as dt
import json
import random
import uuid

import pytest
from books import state_of
from hypothesis import given, settings
from hypothesis import strategies as st
from shelf_tools import SHELF, START, compare, day, eat, get, items, key, last_day, weekly
from strategies import random_book


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
