"""Figures: columns, bounds, units and trees, each worked on paper first."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from questions.recomputed import recompute

from ledger.figures import (
    EXACT,
    LESS,
    MORE,
    NO_ENTRY,
    Groups,
    Spans,
    assumed,
    at_least_none,
    choose,
    if_known,
    known_where,
    method,
    nothing,
    published,
    said,
    total,
    tree,
    work,
)
from ledger.figures.units import one_of, over, times


class Plain:
    """Says labels and events as they are."""

    def event(self, ev):
        return f"e{ev} bought"

    def label(self, id, about):
        return id.format(**about)


EV = np.arange(3)
PAID = said([6.0, 4.0, 0.0], "money", EV).called("paid")
JARS = said([3.0, 0.0, 2.0], "jars", EV).called("jars")
MISSING = assumed(np.zeros(3), "money", "unpriced:salt", MORE).called("salt")


def test_columns_are_worked_out_elementwise():
    np.testing.assert_array_equal((PAID / JARS).values, [2.0, np.nan, 0.0])
    np.testing.assert_array_equal((PAID - JARS).values, [3.0, 4.0, -2.0])
    np.testing.assert_array_equal(total(PAID, JARS, PAID).values, [15.0, 8.0, 2.0])
    np.testing.assert_array_equal(work("lowest", PAID, JARS).values, [3.0, 0.0, 0.0])
    np.testing.assert_array_equal(PAID.at(np.array([2, -1, 0])).values, [0.0, np.nan, 6.0])


def test_bounds_follow_the_arithmetic():
    cost = total(PAID, MISSING)
    assert cost.bound.tolist() == [MORE] * 3
    assert (PAID - cost).bound.tolist() == [LESS] * 3
    assert (PAID / cost).bound.tolist() == [LESS, LESS, EXACT]  # x / 0 cannot be said, nor bounded
    assert (JARS * cost).bound.tolist() == [MORE, EXACT, MORE]  # none of it is none, however dear
    assert PAID.bound.shape == ()  # all exact: nothing is kept a row
    assert Groups(np.array([0, 0, 1]), 2).sum(cost).bound.tolist() == [MORE, MORE]


def test_rows_of_one_table_add_up_to_another():
    groups = Groups(np.array([1, -1, 1]), 3)
    assert groups.sum(PAID).values.tolist() == [0.0, 6.0, 0.0]
    assert groups.first.tolist() == [-1, 0, -1]
    assert Spans(np.array([0, 1]), np.array([2, 1])).sum(PAID).values.tolist() == [10.0, 0.0]


def test_means_are_of_the_rows_that_there_are():
    mean = Groups(np.array([1, -1, 1]), 3).mean(total(PAID, MISSING))
    np.testing.assert_array_equal(mean.values, [np.nan, 3.0, np.nan])
    assert mean.bound.tolist() == [EXACT, MORE, EXACT]
    node = tree(mean.called("mean"), 1, Plain())
    assert (node.how, node.value, recompute(node)) == ("mean", 3.0, 3.0)


def test_what_cannot_be_said_tells_why():
    each = if_known((PAID / JARS).called("each"), "no jars")
    assert (tree(each, 0, Plain()).label, tree(each, 0, Plain()).value) == ("each", 2.0)
    assert (tree(each, 1, Plain()).label, tree(each, 1, Plain()).value) == ("no jars", None)


def test_a_folded_span_reads_none_of_its_rows():
    sums = Spans(np.array([0, 1, 2]), np.array([2, 2, 3])).sum(PAID).called("so far")
    assert [part.value for part in tree(sums, 0, Plain()).parts] == [6.0, 4.0]
    folded = sums.folds(lambda row: (f"day/{row}", "left"))
    assert tree(folded / JARS, 0, Plain()).parts[0].parts == []


def test_a_tree_follows_to_the_row_that_holds():
    both = known_where(np.array([True, False, True]), choose(EV > 0, JARS, PAID), "unknown")
    assert tree(both, 0, Plain()).event == "e0 bought"
    assert (tree(both, 1, Plain()).value, tree(both, 1, Plain()).label) == (None, "unknown")
    node = tree((PAID / JARS).called("each"), 0, Plain())
    assert (node.label, node.value, node.unit, node.how) == (
        "each",
        2.0,
        "money per jar",
        "quotient",
    )
    assert [part.label for part in node.parts] == ["paid", "jars"]


def test_sums_without_a_name_stand_in_the_one_around_them():
    node = tree(total(total(PAID, JARS), MISSING).called("all"), 1, Plain())
    assert [(part.label, part.value, part.mark) for part in node.parts] == [
        ("paid", 4.0, ""),
        ("salt", 0.0, "≥"),  # nothing paid is left out, but for what is not known
    ]


def test_nothing_says_what_it_rests_on():
    empty = Groups(np.zeros(0, np.int64), 1).sum(said(np.zeros(0), "jars", np.zeros(0)), "jars")
    none = said(np.zeros(3), "jars", EV)
    for figure in (empty, nothing("jars"), total(none, none)):
        node = tree(figure, 0, Plain())
        assert (node.value, node.parts, node.assumption) == (0, [], NO_ENTRY)
    # what a procedure gave stands, as no want of entries made it 0
    gave = method(lambda: np.zeros(3), "jars", "cheapest-first", [PAID])
    node = tree(total(gave, none), 0, Plain())
    assert (node.how, node.assumption, len(node.parts)) == ("method", "cheapest-first", 1)


def test_a_figure_that_ends_at_nothing():
    gap = at_least_none(JARS - PAID, "enough")
    np.testing.assert_array_equal(gap.values, [0.0, 0.0, 2.0])
    node = tree(gap, 0, Plain())
    assert (node.parts[1].label, node.parts[1].unit) == ("enough", "jars")
    assert node.parts[1].assumption


def test_what_has_an_address_is_one_line_until_it_is_opened():
    lot = total(PAID, JARS).called("lot").folds(lambda row: (f"lot/{row}", "cost"))
    whole = (lot * published(2.0, "", "C1").called("two")).called("whole")
    first = tree(whole, 0, Plain()).parts[0]
    assert (first.address, first.figure, first.parts) == ("lot/0", "cost", [])
    assert len(tree(whole, 0, Plain(), deep=1).parts[0].parts) == 2
    assert len(tree(lot, 0, Plain()).parts) == 2  # asked for by its address, it opens
    assert tree(whole, 0, Plain()).to_dict()["parts"][1]["source"] == "C1"


@given(st.integers(1, 40), st.integers(1, 10**9), st.data())
def test_rounding_down_is_that_of_whole_numbers(jars, whole, data):
    amount = data.draw(st.integers(0, whole))
    exact = (jars * amount * 1000 + whole) // (whole * 1000)
    assert work("rounded down", said([jars * (amount / whole)], "", EV)).values[0] == exact


@pytest.mark.parametrize(
    ("unit", "first", "second"),
    [
        ("money", "money per jar", "jars"),
        ("money per use", "money per piece", "piece per use"),
        ("mg", "0 to 1", "mg"),
    ],
)
def test_units_of_products(unit, first, second):
    assert one_of(times(first, second)) == unit


def test_units_of_quotients():
    assert over("minutes", "minutes per hour") == "hours"
    assert over("mg", "mg") == "0 to 1"
    assert over("money per piece", "uses per piece") == "money per use"
