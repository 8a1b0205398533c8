"""The figures of our-table: units, bounds and leaves follow from the formulas; folded lines open."""

from __future__ import annotations

import math
import random

import pytest
from books import FAR, state_of
from questions.recomputed import recompute
from strategies import random_book

from ledger.errors import NotFound
from ledger.projections import PROJECTIONS
from ledger.questions import ADDRESSED
from ledger.questions.food import BASES, SIX, FoodFigures
from ledger.questions.food.addresses import why as why_food
from ledger.questions.our_table import why
from ledger.questions.our_table.figures import figures
from ledger.questions.our_table.gather import Table
from ledger.questions.periods import periods_of

UNITS = {"energy": "kcal", "weight": "g", "value": "money"}
SILENT = {
    "no figure is known of it", "not known", "people or kcal_per_person_day is not set", "nothing says what the animals were given",
}  # fmt: skip


@pytest.fixture(scope="module", params=range(6))
def told(request):
    """A random book's state, its records by month and its paths."""
    state = state_of(random_book(random.Random(request.param), 80), FAR)
    build = PROJECTIONS["our-table"].build
    return state, build(state, by="month").rows(), build(state, paths=True).rows()


def key_of(record):
    return record["why"].partition("/")[2]


def nodes(node):
    return [node, *(one for part in node.parts for one in nodes(part))]


def shown(record):
    return [name for name, value in record.items() if isinstance(value, float)]


def holds(node, path):
    """Hold a node to its parts: its value, and that a bound of a part is not lost on the way."""
    value = recompute(node)
    assert value is None or math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-9), path
    if node.how == "sum" and node.parts and node.value is not None:
        assert bool(node.mark) == any(part.mark for part in node.parts), path


def test_every_leaf_says_where_it_comes_from(told):
    state, records, paths = told
    for record in [*records[::7], *paths[::5]]:
        for name in shown(record):
            for node in nodes(why(state, key_of(record), name, deep=99)):
                holds(node, (record["why"], name, node.label))
                if node.parts:
                    continue
                said = node.event or node.source or node.assumption
                nothing = node.how == "sum" and node.value == 0
                assert said or nothing or (node.value is None and node.label in SILENT), node


def test_what_cannot_be_said_says_so(told):
    state, records, paths = told
    for record in [r for r in records if r["amount"] is None][:6]:
        tree = why(state, key_of(record), "amount")
        assert (tree.value, tree.label) == (None, "no figure is known of it")
    for record in [r for r in paths if r["value"] is None][:6]:
        assert why(state, key_of(record), "value").value is None


def test_a_bound_survives_into_the_tree(told):
    state, records, _ = told
    known = [r for r in records if r["amount"] is not None]
    for record in [r for r in known if r["at_least"]][:5] + [r for r in known if not r["at_least"]][:5]:  # fmt: skip
        tree = why(state, key_of(record), "amount", deep=99)
        assert tree.mark == ("≥" if record["at_least"] else "")
        lacking = {n.assumption for n in nodes(tree) if n.assumption and n.mark and not n.parts}
        assert lacking <= set(record["assumptions"]), record["why"]
        assert bool(lacking) == record["at_least"]


def test_units_worked_out_are_those_of_the_bases(told):
    state, _, _ = told
    table = Table(state, periods_of(state.as_of_day - 4000, state.as_of_day, None))
    for basis in BASES:
        for origin in SIX:
            known = figures(table, basis)[origin]
            assert known["amount"].unit_of(0) == UNITS[basis]
            assert known["share_of_eaten"].unit_of(0) == "0 to 1"


def test_folded_lines_open_to_their_value(told):
    state, records, paths = told
    seen = set()
    for record in [*records[::5], *paths[::5]]:
        for name in shown(record):
            for node in nodes(why(state, key_of(record), name, deep=1)):
                table = node.address and node.address.partition("/")[0]
                if node.address is None or (table, node.figure) in seen:
                    continue
                seen.add((table, node.figure))
                if table == "our-table":
                    opened = why(state, node.address.partition("/")[2], node.figure)
                else:
                    assert ADDRESSED[table] == "ledger.questions.food.addresses"
                    opened = why_food(state, node.address, node.figure)
                assert math.isclose(opened.value, node.value, rel_tol=1e-9, abs_tol=1e-9)
                assert opened.mark == node.mark


def test_made_lots_carry_what_their_trees_say(told):
    """What one solve gives for all lots is what the formula gives for one, bounds as well."""
    state, _, _ = told
    food = state.once(FoodFigures)
    made = food.web.rows.made_lots
    for basis in BASES:
        named = [(f"{basis}.{origin}", food.made.of(basis, origin)) for origin in SIX]
        named.append((f"{basis}.bought_feed", food.made.bought_feed[basis]))
        for name, figure in named:
            for number in range(0, made.size, 3):
                tree = why_food(state, f"food/{state.lot_id(int(made[number]))}", name, deep=99)
                assert math.isclose(tree.value, figure.column.value(number), rel_tol=1e-9, abs_tol=1e-9)  # fmt: skip
                for node in nodes(tree):
                    holds(node, (name, node.label))


@pytest.mark.parametrize("address", ["food/nothing:1", "feed/x", "feed/1900"])
def test_an_address_of_nothing_is_refused(told, address):
    with pytest.raises(NotFound, match="names nothing of this book"):
        why_food(told[0], address)


@pytest.mark.parametrize("rest", ["nothing", "plum/more", "%ff"])
def test_a_dish_that_was_not_eaten_is_refused(told, rest):
    with pytest.raises(NotFound, match="there is no record"):
        why(told[0], f"2024-01-01/2024-12-31/energy/grown/{rest}")
