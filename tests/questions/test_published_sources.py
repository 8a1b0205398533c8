"""As published: sources are proved, and column and tree of every figure are the same.

What a batch says moves its figures as their trees say; no event that a tree leaves out moves a figure, or
how the batch stands.
"""

from __future__ import annotations

import copy
import random
import re

import pytest
from books import FAR
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from published_room.worse import BASES
from questions.proving import TIMES, WHOLE, Proof, base, leaves, names_its_source
from strategies import random_book

from ledger.amounts import parse_amount
from ledger.questions.as_published.question import PROJECTION

QUICK = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
BOOKS = given(st.integers(0, 10_000), st.integers(30, 90), st.integers(0, 99))
UNITS = {"done.minutes": "minutes", "done.psi": "psi", "done.headspace_in": "in"}
FIGURES = tuple(
    f"{side}.{name}"
    for side in ("published", "done")
    for name in ("minutes", "psi", "headspace_in", "acid")
)
ALL = ("standing", *FIGURES)


def canned(rng, body):
    """Return a batch as a published line, cell and recipe say, with what a household leaves out or does otherwise."""
    line, _, printed = rng.choice(BASES)
    out = {**body, **copy.deepcopy(printed)}
    for name, part in (("used", "n"), ("made", "n")):
        for n, one in enumerate(out[name], 1):
            one |= {part: n, "basis": "exact"}
    for one in out["used"]:
        one["whole"] = parse_amount(one["amount"]).whole
    for one in out["made"]:
        one["whole"] = 473_176 * one["jars"]
    otherwise = {
        "minutes": rng.choice(("10", "20", "25", "90")),
        "psi": rng.choice(("10 psi", "12 psi", "13.5 psi")),
        "headspace": rng.choice(("1 in", "0.25 in", "1 cm")),
    }
    for name, value in otherwise.items():
        if rng.random() < 0.3 and (name != "psi" or line.gauge):
            out[name] = value
    for name in ("altitude", "altitude", "gauge", "psi", "pack", "acid"):
        if rng.random() < 0.3:
            out.pop(name, None)
    return out


def canning(seed, size):
    """Return a random book that cans by published lines, in a kitchen with an altitude, a gauge and its tests."""
    rng, events = random.Random(seed), random_book(random.Random(seed), size)
    first = min(event["on"] for event in events)
    kitchen = [("setting_changed", {"name": "altitude", "value": rng.choice(("900 ft", "2600 ft"))}),
               ("setting_changed", {"name": "gauge", "value": "dial"}),
               ("gauge_tested", {"gauge": "dial", "reads": rng.choice(("+0 psi", "+1 psi", "+2.5 psi"))})]  # fmt: skip
    for event in events:
        if event["kind"] == "put_up" and rng.random() < 0.8:
            event["body"] = canned(rng, event["body"])
    for n, (kind, body) in enumerate(kitchen, 1):
        id_ = f"00000000-0000-0000-0000-00000000000{n}"
        events.append({**events[0], "seq": len(events) + 1, "id": id_, "kind": kind, "on": first,
                       "replaces": None, "v": 1, "body": body})  # fmt: skip
    return events


def times(text):
    return re.sub(r"\d+(?:\.\d+)?$|\d+(?:\.\d+)?(?= )", lambda n: f"{float(n[0]) * TIMES:g}", text)


def changed(event):
    """Return an event whose figures of a process, altitude, gauge or weight are TIMES as much; None: it has none."""
    body = copy.deepcopy(event["body"])
    names = {
        "put_up": ("minutes", "psi", "headspace", "altitude"),
        "gauge_tested": ("reads",),
        "setting_changed": ("value",) if body.get("name") == "altitude" else (),
        "item_described": ("g_per",),
    }.get(event["kind"], ())
    found = [name for name in names if body.get(name)]
    for name in found:
        value = body[name]
        if name == "g_per":
            body[name] = {unit: f"{float(grams) * TIMES!r}" for unit, grams in value.items()}
        else:
            body[name] = (
                value * TIMES if isinstance(value, int) else times(value.replace("1/2", "0.5"))
            )
    return {**event, "body": body} if found else None


def key_of(record):
    return record["why"].partition("/")[2]


def valued(figure):
    return lambda state, key: PROJECTION.why(state, key, figure).value


def is_of_nothing_judged(state, key):
    """Return whether nothing went into a batch that is judged itself: that would open by its own address."""
    return all(part.address is None for part in PROJECTION.why(state, key).parts)


def proof(figure, at, has=lambda *_: True):
    """Return how a figure is opened at one of the batches that have it."""

    def opened(events):
        state = base(events, FAR)
        rows = [row for row in PROJECTION.build(state).rows() if row[figure] is not None]
        found = [key for key in map(key_of, rows) if has(state, key)]
        key = found[at % len(found)] if found else None
        return key, key and PROJECTION.why(state, key, figure, deep=WHOLE)

    return Proof(opened, valued(figure), changed, UNITS.get(figure, ""), FAR)


@pytest.mark.parametrize("figure", UNITS)
@QUICK
@BOOKS
def test_a_number_in_a_leaf_moves_what_was_done_as_its_tree_says(figure, seed, size, at):
    proof(figure, at).holds_inside(canning(seed, size))


@pytest.mark.parametrize("figure", FIGURES)
@QUICK
@BOOKS
def test_what_is_outside_the_tree_moves_no_figure(figure, seed, size, at):
    proof(figure, at).holds_outside(canning(seed, size))


@QUICK
@BOOKS
def test_what_is_outside_the_tree_moves_no_standing(seed, size, at):
    proof("standing", at, is_of_nothing_judged).holds_outside(canning(seed, size))


@pytest.mark.parametrize("seed", range(8))
def test_column_and_tree_are_the_same_and_every_leaf_names_its_source(seed):
    state = base(canning(seed, 90), FAR)
    rows, seen = PROJECTION.build(state).rows(), 0
    for row in rows:
        for figure in ALL:
            tree = PROJECTION.why(state, key_of(row), figure, deep=2)
            assert tree.value == row[figure], figure
            check_tree(tree)
            for leaf in leaves(tree):
                assert names_its_source(leaf), (figure, leaf)
            seen += 1
    assert seen == len(rows) * len(ALL) > 0
