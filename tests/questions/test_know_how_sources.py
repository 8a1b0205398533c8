"""Know-how's sources are proved: what its trees name moves a figure as they say, and nothing else does."""

from __future__ import annotations

import copy
import math
import statistics
from itertools import pairwise

import pytest
from books import state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from questions.proving import (
    ROUNDED,
    TIMES,
    WHOLE,
    Proof,
    base,
    changed,
    leaves,
    named_in,
    names_its_source,
)
from strategies import random_book

from ledger.days import day_number
from ledger.errors import NotFound
from ledger.methods.lapse import MIDDLING, keeps
from ledger.methods.learning import fit_curve
from ledger.questions.know_how.question import PROJECTION

QUICK = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
AS_OF, LATER = "2026-06-01", "2090-01-01"
BOOKS = given(st.integers(0, 10_000), st.integers(20, 80), st.integers(0, 99))
DOING = ("practised", "put_up", "harvested", "planted")
SHAPES = ("", "curve", "year_sheet")


def keys_of(state, figure, shape=""):
    """Return the keys of all records in a shape of the answer that have a figure, and the figure."""
    answer = PROJECTION.build(state)
    asked = {
        "": [{}],
        "curve": [{"curve": skill} for skill in {r["skill"] for r in answer.rows()}],
        "year_sheet": [{"year_sheet": year} for year in ("2024", "2025", "2026")],
    }[shape]
    rows = [row for options in asked for row in PROJECTION.build(state, **options).rows()]
    return sorted((r["why"].partition("/")[2], r[figure]) for r in rows if r[figure])


def valued(figure):
    def value(state, key):
        try:
            return PROJECTION.why(state, key, figure).value
        except NotFound:
            return 0  # nobody practised it

    return value


def proof(figure, at, change, unit="", *, shape="", off=0.0):
    """Return how a figure is opened, at one of the records that have it, and changed."""

    def opened(events):
        state = base(events, AS_OF)
        found = keys_of(state, figure, shape)
        if not found:
            return None, None
        key = found[at % len(found)][0]
        return key, PROJECTION.why(state, key, figure, deep=WHOLE)

    return Proof(opened, valued(figure), change, unit, AS_OF, off)


def more_made(event):
    """Return a batch with TIMES as much of all that it made; None: it is none."""
    if event["kind"] != "put_up":
        return None
    body = copy.deepcopy(event["body"])
    for line in body["made"]:
        for name in ("whole", "times", "jars"):
            if line.get(name):
                line[name] *= TIMES
    return {**event, "body": body}


def put_off(event):
    """Return a doing that is still to come; None: it is no doing."""
    return {**event, "on": LATER} if event["kind"] in DOING else None


def noted_later(event):
    """Return a note of practice that is still to come; None: it is none."""
    return put_off(event) if event["kind"] == "practised" else None


@pytest.mark.parametrize("figure", ["minutes_lately", "minutes_before", "minutes_per_unit_lately"])
@QUICK
@BOOKS
def test_minutes_changed_in_a_leaf_move_a_mean_as_its_tree_says(figure, seed, size, at):
    proof(figure, at, changed, "minutes").holds_inside(random_book(seed, size))


@QUICK
@BOOKS
def test_an_amount_changed_in_a_leaf_moves_what_was_made_as_its_tree_says(seed, size, at):
    proof("made", at, more_made, shape="curve", off=ROUNDED).holds_inside(random_book(seed, size))


@pytest.mark.parametrize(
    ("figure", "change"),
    [
        ("minutes_per_unit_lately", changed), ("learning_rate", changed), ("minutes_lately", changed),
        ("minutes_per_unit_lately", more_made), ("learning_rate", more_made),
        ("times", put_off), ("times_this_year", put_off), ("days_since", put_off),
        ("keeps_days", noted_later), ("went_lately", noted_later),
    ],
)  # fmt: skip
@QUICK
@BOOKS
def test_what_is_outside_the_tree_moves_nothing(figure, change, seed, size, at):
    proof(figure, at, change).holds_outside(random_book(seed, size))


@QUICK
@BOOKS
def test_each_event_that_a_count_names_counts_once(seed, size, at):
    """An event that is put off counts no more; what corrects it, or is corrected, is left alone."""
    events = random_book(seed, size)
    key, tree = proof("times", at, put_off).opened(events)
    tied = {event.get("replaces") for event in events} | {e["body"].get("id") for e in events}
    for event in events:
        if tree is None or event["id"] not in named_in(tree) or event["id"] in tied:
            continue
        if event.get("replaces") is None and (new := put_off(event)):
            book = [new if one is event else one for one in events]
            assert valued("times")(state_of(book, AS_OF), key) == tree.value - 1, event


def nodes(node):
    return [node, *(one for part in node.parts for one in nodes(part))]


def practices(node):
    """Return day and quality of the practices that a node lists: how one went stands behind its day."""
    out = []
    for part in node.parts:
        if part.unit == "day since 1970":
            out.append((part.value, 1.0))
        elif part.value <= 3:
            out[-1] = (out[-1][0], MIDDLING)
    return out


def fitted(parts):
    """Return the curve through the repetitions and minutes for one that a node lists."""
    numbers, each = parts[::2], parts[1::2]
    told = {int(number.value): one.value for number, one in zip(numbers, each, strict=True)}
    return fit_curve([told.get(n) for n in range(1, max(told) + 1)])


def again(figure, node):
    """Return what a procedure gives of the parts that its node names."""
    if figure == "keeps_days":
        return math.ceil(keeps(practices(node)))
    if figure == "fitted_likely":
        return fitted(node.parts[1:]).minutes(int(node.parts[0].value))
    if figure == "rusts_in_days":
        limit, last = node.parts
        return last.value + limit.value
    return getattr(fitted(node.parts), figure.removeprefix("learning_"))


RATES = ("learning_rate", "learning_rate_low", "learning_rate_high")


@pytest.mark.parametrize("figure", ["keeps_days", "rusts_in_days", *RATES, "fitted_likely"])
def test_what_a_procedure_gave_comes_again_of_its_parts(figure):
    seen, shape = 0, "curve" if figure == "fitted_likely" else ""
    for seed in range(12):
        state = base(random_book(seed, 140), AS_OF)
        for key, _ in keys_of(state, figure, shape)[:12]:
            for node in nodes(PROJECTION.why(state, key, figure)):
                if node.how == "method":
                    assert again(figure, node) == pytest.approx(node.value), key
                    seen += 1
                    break
    assert seen


@pytest.mark.parametrize("seed", range(6))
def test_rhythm_and_means_against_a_plain_reckoning(seed):
    state = base(random_book(seed, 120), AS_OF)
    for record in [one for one in PROJECTION.build(state).rows() if one["person"] is None]:
        rows = PROJECTION.build(state, curve=record["skill"]).rows()
        days = sorted({day_number(row["on"]) for row in rows})
        gaps = [b - a for a, b in pairwise(days)]
        assert record["rhythm_days"] == (statistics.median(gaps) if gaps else None)
        for name in ("minutes", "minutes_per_unit"):
            told = [row[name] for row in rows if row[name] is not None]
            for end, some in (("lately", told[-3:]), ("before", told[:-3])):
                mean = statistics.fmean(some) if some else None
                assert record[f"{name}_{end}"] == (mean and pytest.approx(mean)), (name, end)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed, shape):
    state, seen = base(random_book(seed, 90), AS_OF), 0
    columns = PROJECTION.variants[shape] if shape else PROJECTION.columns
    for column in columns:
        if column.unit in ("", "day", "yes or no") and column.name not in (
            "standing",
            "target_met",
        ):
            continue
        for key, _ in keys_of(state, column.name, shape)[:6]:
            for deep in (0, WHOLE):
                for leaf in leaves(PROJECTION.why(state, key, column.name, deep=deep)):
                    assert names_its_source(leaf), (column.name, leaf)
                    seen += 1
    assert seen
