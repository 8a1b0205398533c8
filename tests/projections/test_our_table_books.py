"""our-table of any book: amounts as the plain engine's, shares of one, and every figure what its tree gives."""

from __future__ import annotations

import datetime as dt
import math
import random

import pytest
from books import FAR, replay_of, state_of
from hypothesis import HealthCheck, given, settings
from oracle import ORIGINS, reckon
from oracle.table import BASES, Table
from oracle.tape import Tape, line, lines
from our_table_tools import KG, OUR_TABLE, ask, by_key, close
from questions.recomputed import recompute
from strategies import books, random_book

SLOW = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))


def day(text):
    return dt.date.fromisoformat(text)


def agrees(events, first, last, as_of=None):
    """Hold one period of the answer to the plain engine."""
    table = Table(reckon(events, as_of))
    amounts, adjusted = table.eaten(day(first), day(last))
    answer = ask(state_of(events, as_of or FAR), from_=first, to=last)
    records = by_key(answer)
    for basis in BASES:
        total = sum(amounts[basis].values())
        for origin in ORIGINS:
            record = records.get((f"{first}/{last}", basis, origin), {})
            value = amounts[basis][origin]
            assert close(record.get("amount"), value), (basis, origin)
            if total and value:
                assert close(record["share_of_eaten"], value / total)
        grown = records.get((f"{first}/{last}", basis, "grown"), {})
        if adjusted is None:
            assert grown["feed_adjusted_share"] is None
        elif total and grown.get("amount") is not None:
            assert close(grown["feed_adjusted_share"], adjusted[basis] / total)


# -- against the plain engine ---------------------------------------------------------------


@pytest.mark.parametrize("seed", range(40))
def test_amounts_are_those_of_the_plain_engine(seed):
    events = random_book(random.Random(seed), 90)
    days = sorted(e["on"] for e in events)
    agrees(events, days[0], days[-1])
    agrees(events, days[len(days) // 3], days[len(days) // 2])
    agrees(events, days[0], days[len(days) // 2], days[len(days) // 2])


@SLOW
@given(books(max_size=60))
def test_any_book_agrees_and_its_shares_add_to_one(events):
    days = sorted(e["on"] for e in events) or ["2026-01-01"]
    agrees(events, days[0], days[-1])
    state = state_of(events, days[-1])
    for answer in (ask(state), ask(state, by="month"), ask(state, by="year")):
        sums = {}
        for record in answer["records"]:
            if record["share_of_eaten"] is not None:
                key = record["period"], record["basis"]
                sums[key] = sums.get(key, 0.0) + record["share_of_eaten"]
        assert all(math.isclose(one, 1.0, rel_tol=1e-9) for one in sums.values())


@pytest.mark.parametrize("seed", range(10))
def test_months_and_years_add_up_to_the_whole(seed):
    events = random_book(random.Random(seed), 90)
    state = state_of(events, max(e["on"] for e in events))
    whole = by_key(ask(state))
    for by in ("month", "year"):
        sums = {}
        for record in ask(state, by=by)["records"]:
            key = record["basis"], record["origin"]
            sums[key] = sums.get(key, 0.0) + (record["amount"] or 0.0)
        for (_, basis, origin), record in whole.items():
            assert close(record["amount"], sums.get((basis, origin), 0.0))


@pytest.mark.parametrize("seed", range(20))
def test_paths_hold_all_that_came_in_and_the_table_s_part_is_what_was_eaten(seed):
    events = random_book(random.Random(seed), 90)
    days = sorted(e["on"] for e in events)
    first, last = days[len(days) // 4], days[3 * len(days) // 4]
    state = state_of(events)
    paths = ask(state, from_=first, to=last, paths=True)
    for name in ("grams", "kcal"):
        total = paths["totals"][name]
        assert close(total["there_before"] + total["came_in"], total["paths"])
    eaten = by_key(ask(state, from_=first, to=last))
    for basis, name in (("weight", "grams"), ("energy", "kcal"), ("value", "value")):
        for origin in ORIGINS:
            record = eaten.get((f"{first}/{last}", basis, origin), {"amount": 0.0})
            way = sum(
                one[name] or 0.0
                for one in paths["records"]
                if one["to"] == "table" and one["origin"] == origin
            )
            assert close(record["amount"], way), (basis, origin)


@pytest.mark.parametrize("seed", range(8))
def test_growing_event_by_event_gives_the_same_answer(seed):
    events = random_book(random.Random(seed), 50)
    replay = replay_of(events)
    for options in ({}, {"by": "year"}, {"paths": True}):
        assert ask(replay.state(as_of=FAR), **options) == ask(state_of(events), **options)


@pytest.mark.parametrize("seed", range(6))
def test_what_was_known_then_is_the_answer_of_then(seed):
    events = random_book(random.Random(seed), 60)
    cut = events[len(events) // 2]["recorded_at"]
    prefix = [event for event in events if event["recorded_at"] <= cut]
    then, now = ask(state_of(events, FAR, cut)), ask(state_of(prefix))
    assert {**then, "known_at": None} == now


# -- every figure opens ---------------------------------------------------------------------


def check(node):
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), node.label
    if not node.parts:
        assert node.how in ("as written", "sum")
    for part in node.parts:
        check(part)


@pytest.mark.parametrize("seed", range(8))
def test_every_figure_is_what_its_tree_gives(seed):
    state = state_of(random_book(random.Random(seed), 90), "2030-01-01")
    for options in ({}, {"by": "year"}, {"paths": True}):
        for record in ask(state, **options)["records"][:24]:
            key = record["why"].removeprefix("our-table/")
            for field, shown in record.items():
                if isinstance(shown, float):
                    node = OUR_TABLE.why(state, key, field)
                    assert math.isclose(node.value, shown, rel_tol=1e-9, abs_tol=1e-9), field
                    check(node)


@pytest.mark.parametrize("seed", range(30))
def test_books_of_one_event_answer(seed):
    events = [e for e in random_book(random.Random(seed), 40) if e["replaces"] is None]
    event = {**random.Random(seed).choice(events), "seq": 1}
    if event["kind"] == "struck":
        return
    state = state_of([event])
    for options in ({}, {"by": "month"}, {"by": "year"}, {"paths": True}):
        assert isinstance(ask(state, **options)["records"], list)


@pytest.mark.parametrize("seed", range(6))
def test_scaling_all_amounts_scales_amounts_and_leaves_shares(seed):
    """Everything ten times as much: amounts ten times as much, shares as they were."""
    tape, big = Tape(), Tape()
    rng = random.Random(seed)
    for book, times in ((tape, 1), (big, 10)):
        rng.seed(seed)
        book.item("plum", kcal_per_100g="46")
        book.item("sugar", kcal_per_100g="387")
        book.item("jam", kcal_per_100g="250")
        book("price_seen", "2026-08-01", line("plum", KG, price="3"))
        for _ in range(6):
            a, b, c = (rng.randint(1, 9) * KG * times for _ in range(3))
            book("harvested", "2026-08-01", lines(("plum", a)))
            book("bought", "2026-08-01", lines(("sugar", b), paid=str(2 * times)))
            made = {"makes": "jam", "method": "cook", "made": [{"n": 1, "whole": a + b}]}
            book("put_up", "2026-08-02", {**made, "used": [line("plum", a), line("sugar", b, 2)]})
            book("eaten", "2026-08-03", {"ate": [line("jam", c)]})
    once, tenfold = (by_key(ask(state_of(one.events, "2026-08-31"))) for one in (tape, big))
    assert set(once) == set(tenfold)
    for key, record in once.items():
        assert close(tenfold[key]["amount"], record["amount"] * 10)
        assert close(tenfold[key]["share_of_eaten"], record["share_of_eaten"])
