"""The hens' sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import copy
import datetime as dt
import random

import pytest
from books import state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import TIMES, WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import random_book
from strategies.catalog import ITEMS
from strategies.winters import with_more

from ledger.questions.hens.question import PROJECTION

QUICK = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
UNITS = {"flock_counted": "hens", "harvested": "eggs", "bought": "lb of feed"}
AS_OF = "2025-03-20"


def yard_book(seed, size=60):
    """Return a random book with flocks, feed and eggs on days of its own."""
    rng = random.Random(seed)

    def line(item, whole):
        return {"n": 1, "item": item, "amount": f"{whole}", "whole": whole, "basis": "exact"}

    def day():
        return (dt.date(2024, 2, 1) + dt.timedelta(days=rng.randrange(400))).isoformat()

    said = [
        ("item_described", {"item": item, **ITEMS[item]}, "2024-01-01")
        for item in ("egg", "hen feed")
    ]
    for _ in range(rng.randint(0, 4)):
        flock = rng.choice(({}, {"flock": "brown"}))
        said.append(("flock_counted", {"hens": rng.randint(0, 9), **flock}, day()))
    for _ in range(rng.randint(0, 5)):
        feed = {**line("hen feed", rng.randint(1, 90) * 1_000_000), "paid": "12.40"}
        said.append(("bought", {"lines": [feed]}, day()))
    for _ in range(rng.randint(0, 9)):
        eggs = line("egg", rng.randint(1, 40) * 1000)
        said.append(("harvested", {"lines": [eggs]}, day()))
    return with_more(random_book(seed, size), seed, said)


def more(event):
    """Return an event with its hens, eggs or feed TIMES as much; None: it has none."""
    if event["kind"] not in UNITS:
        return None
    body = copy.deepcopy(event["body"])
    for one, names in ((body, ("hens",)), *((one, _AMOUNTS) for one in body.get("lines", ()))):
        one |= {name: one[name] * TIMES for name in names if name in one}
    return {**event, "body": body}


_AMOUNTS = ("whole", "times", "trimmed_whole", "trimmed_times")


def paid(event):
    """Return a purchase with its prices changed; None: it is none."""
    return changed(event) if event["kind"] == "bought" else None


def key_of(record):
    return record["why"].partition("/")[2]


def proof(figure, number, unit, at, **options):
    """Return how a figure of the hens is opened, at one of the periods that have it."""

    def opened(events):
        state = base(events, AS_OF)
        found = [key_of(r) for r in PROJECTION.build(state, **options).rows() if r[figure]]
        key = found[at % len(found)] if found else None
        return key, key and PROJECTION.why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    # half a thousandth of an egg, TIMES as much of it and as rounded anew
    return Proof(opened, valued, number, unit, AS_OF, off=0.002)


FIGURES = ("lay", "hens", "eggs", "feed_lb", "feed_per_dozen_lb", "feed_days")
BOOK = st.builds(yard_book, st.integers(0, 10_000), st.integers(10, 60))


@pytest.mark.parametrize("figure", FIGURES)
@QUICK
@given(BOOK, st.integers(0, 99))
def test_an_amount_changed_in_a_leaf_moves_the_figure_as_its_tree_says(figure, events, at):
    proof(figure, more, lambda event: UNITS[event["kind"]], at).holds_inside(events)


@pytest.mark.parametrize("figure", FIGURES)
@QUICK
@given(BOOK, st.integers(0, 99))
def test_an_amount_changed_outside_the_tree_moves_nothing(figure, events, at):
    proof(figure, more, "", at).holds_outside(events)


@QUICK
@given(BOOK)
def test_a_price_moves_the_cost_as_its_tree_says_and_no_other(events):
    held = proof("cost_per_dozen", paid, "money", 0)
    held.holds_inside(events)
    held.holds_outside(events)


@QUICK
@given(BOOK)
def test_feed_as_asked_rests_on_hens_and_what_each_eats(events):
    held = proof("feed_days", more, lambda event: UNITS[event["kind"]], 0, feed="50 lb")
    held.holds_inside(events)
    held.holds_outside(events)


def test_the_books_have_what_is_proved():
    states = [state_of(yard_book(seed), AS_OF) for seed in range(30)]
    years = [row for state in states for row in PROJECTION.build(state).rows()[:1]]
    for figure in (*FIGURES, "cost_per_dozen"):
        assert sum(bool(row[figure]) for row in years) > 5, figure


@pytest.mark.parametrize("options", [{}, {"feed": "50 lb"}], ids=("left", "asked"))
@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed, options):
    """And every node is what its parts give; the column and the root are one."""
    state = base(yard_book(seed, 90), AS_OF)
    answer, seen = PROJECTION.build(state, **options), 0
    for record in answer.rows():
        for column in answer.columns:
            if isinstance(record[column.name], float | int):
                tree = PROJECTION.why(state, key_of(record), column.name)
                assert tree.value == pytest.approx(record[column.name], rel=1e-12)
                check_tree(tree)
                assert all(names_its_source(leaf) for leaf in leaves(tree)), column.name
                for leaf in leaves(tree):
                    if leaf.address:
                        key = leaf.address.partition("/")[2]
                        assert PROJECTION.why(state, key, leaf.figure).value == leaf.value
                seen += 1
    assert seen or not answer.rows()
