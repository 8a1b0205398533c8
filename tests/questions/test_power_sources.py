"""Power and water's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import pytest
from books import state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import TIMES, WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import random_book

from ledger.questions.power_and_water.question import PROJECTION

QUICK = settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck))
FREEZER = {"freezer": True}


def key_of(record):
    return record["why"].partition("/")[2]


def numbered(event):
    """Return an event with its price or its meter's reading TIMES as much; None: it has none."""
    if event["kind"] != "meter_read":
        return changed(event)
    number, _, unit = event["body"]["reads"].partition(" ")
    reads = f"{float(number) * TIMES:g} {unit}"
    return {**event, "body": {**event["body"], "reads": reads}}


def with_meter(events):
    """Return a book whose freezer was read on its first and last days, and its last day."""
    days = sorted(event["on"] for event in events)
    last = f"{int(days[-1][:4]) + 1}-01-01"
    read = {"kind": "meter_read", "v": 1, "at": None, "by": None, "replaces": None}
    more = [
        {**read, "seq": len(events) + n, "id": f"00000000-0000-0000-0000-00000000000{n}", "on": on,
         "recorded_at": "2099-01-01T00:00:00Z", "body": {"meter": "freezer", "reads": reads}}
        for n, (on, reads) in enumerate(((f"{last[:4]}-01-01", "900 kWh"), (f"{int(last[:4]) - 1}-06-01", "100 kWh")), 1)
    ]  # fmt: skip
    return [*events, *more], last


def proof(figure, unit, at, as_of):
    """Return how a figure of the freezer is opened, at one of the lots that have it."""

    def opened(events):
        state = base(events, as_of)
        found = [key_of(r) for r in PROJECTION.build(state, **FREEZER).rows() if r[figure]]
        key = found[at % len(found)] if found else None
        return key, key and PROJECTION.why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    return Proof(opened, valued, numbered, unit, as_of)


@pytest.mark.parametrize(("figure", "unit"), [("money", "money"), ("kwh", "kWh")])
@QUICK
@given(st.integers(0, 10_000), st.integers(40, 90), st.integers(0, 99))
def test_a_price_or_reading_outside_the_tree_moves_nothing(figure, unit, seed, size, at):
    events, as_of = with_meter(random_book(seed, size))
    proof(figure, unit, at, as_of).holds_outside(events)


@QUICK
@given(st.integers(0, 10_000), st.integers(40, 90), st.integers(0, 99))
def test_the_price_moves_the_cost_as_its_tree_says(seed, size, at):
    events, as_of = with_meter(random_book(seed, size))
    held = proof("money", "money", at, as_of)
    opened, tree = held.opened(events)
    price = [e for e in events if tree and e["body"].get("name") == "price_of_electricity"]
    for event in price:
        dearer = [numbered(e) if e is event else e for e in events]
        is_named = any(leaf.event and leaf.event.startswith(event["id"]) for leaf in leaves(tree))
        now = held.valued(state_of(dearer, as_of), opened)
        assert now == pytest.approx(tree.value * (TIMES if is_named else 1), rel=1e-9)


@pytest.mark.parametrize("options", [{}, FREEZER], ids=("batches", "freezer"))
@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed, options):
    events, as_of = with_meter(random_book(seed, 90))
    state = base(events, as_of)
    answer, seen = PROJECTION.build(state, **options), 0
    for record in answer.rows()[:6]:
        for column in answer.columns:
            if isinstance(record[column.name], float | int):
                tree = PROJECTION.why(state, key_of(record), column.name, deep=2)
                assert tree.value == pytest.approx(record[column.name])
                check_tree(tree)
                assert all(names_its_source(leaf) for leaf in leaves(tree)), column.name
                seen += 1
    assert seen or not answer.rows()
