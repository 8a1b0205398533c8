"""The figures of jar-cost: units, bounds and leaves follow from the formulas; folded lines open."""

from __future__ import annotations

import math
import random

import pytest
from books import FAR, state_of
from questions.recomputed import recompute
from strategies import random_book

from ledger.errors import NotFound
from ledger.figures.units import one_of
from ledger.projections import PROJECTIONS
from ledger.questions import ADDRESSED
from ledger.questions.costs.addresses import why as why_cost
from ledger.questions.jar_cost import COLUMNS, why
from ledger.questions.jar_cost.figures import figures

BOUND = {1: "≥", 2: "≤"}


@pytest.fixture(scope="module", params=range(8))
def told(request):
    """A random book's state and its records of jar-cost."""
    state = state_of(random_book(random.Random(request.param), 80), FAR)
    return state, PROJECTIONS["jar-cost"].build(state).rows()


def nodes(node):
    return [node, *(one for part in node.parts for one in nodes(part))]


def test_units_worked_out_are_those_declared(told):
    state, records = told
    known = state.once(figures)
    for column in COLUMNS:
        if column.name in known and records:
            assert one_of(known[column.name].unit_of(0)) == one_of(column.unit), column.name


def test_bounds_worked_out_are_at_least_and_at_most(told):
    state, records = told
    known = state.once(figures)
    declared = {column.name: column.bound for column in COLUMNS}
    for name in ("cost.all_in", "cost_per_jar", "cost_per_quart", "saved", "saved_per_quart"):
        for row, record in enumerate(records):
            if record[name] is not None:
                expected = declared[name] if record["at_least"] else ""
                assert BOUND.get(known[name].bound_of(row), "") == expected, (name, row)


def test_every_leaf_says_where_it_comes_from(told):
    state, records = told
    silent = {"no price known", "no weight known", "not in jars", "not kept by volume"}
    for record in records[::4]:
        for name in state.once(figures):
            for node in nodes(why(state, record["lot"], name)):
                if node.parts:
                    continue
                said = node.event or node.source or node.assumption or node.address
                nothing = node.how == "sum" and node.value == 0
                assert said or nothing or (node.value is None and node.label in silent), node


def test_a_bound_survives_into_the_tree(told):
    state, records = told
    for record in [r for r in records if r["at_least"]][:5]:
        tree = why(state, record["lot"], "cost.all_in", deep=99)
        assert tree.mark == "≥"
        unpriced = {n.assumption for n in nodes(tree) if n.assumption and n.mark and not n.parts}
        assert unpriced >= {f"unpriced:{name}" for name in record["unpriced"]}


def test_folded_lines_open_to_their_value(told):
    state, records = told
    seen = set()
    for record in records[::3]:
        for node in nodes(why(state, record["lot"], "cost.all_in", deep=1)):
            table = node.address and node.address.partition("/")[0]
            if node.address is None or (table, node.figure) in seen:
                continue
            seen.add((table, node.figure))
            assert table in ADDRESSED
            opened = why_cost(state, node.address, node.figure)
            assert math.isclose(opened.value, node.value, rel_tol=1e-9, abs_tol=1e-9)
            for part in nodes(opened):
                value = recompute(part)
                assert value is None or math.isclose(value, part.value, rel_tol=1e-9, abs_tol=1e-9)


@pytest.mark.parametrize(
    "address", ["lot/nothing:1", "garden/2026/nothing", "garden/x", "garden/1900", "durable/jar/x"]
)
def test_an_address_of_nothing_is_refused(told, address):
    with pytest.raises(NotFound, match="names nothing of this book"):
        why_cost(told[0], address)
