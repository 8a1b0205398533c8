"""Came true's sources are proved: what was said opens to the book of then, what came to its events."""

from __future__ import annotations

import contextlib
import copy
import random

import pytest
from books import state_of
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import (
    ROUNDED,
    TIMES,
    WHOLE,
    Proof,
    base,
    leaves,
    moved,
    named_in,
    names_its_source,
    with_event,
)
from strategies import random_book

from ledger.errors import NotFound
from ledger.questions.came_true.question import PROJECTION
from ledger.questions.came_true.scores import CHANCES, graded
from ledger.replay import day_text

QUICK = settings(
    max_examples=6,
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=[
        Phase.explicit,
        Phase.generate,
    ],  # a smaller book is not worth the minutes it takes to find
)
BOOKS = given(st.integers(0, 10_000), st.integers(60, 120), st.integers(0, 99))
AS_OF = "2026-12-31"
TRIED = 12
"""Things said of which one is looked for that has the figure: each opens the book of another day."""
AMOUNTS = ("g", "ml", "pieces", "kJ")
FIGURES = (
    "graded",
    "held",
    "share_held",
    "expected",
    "below",
    "above",
    "score",
    "score_of_base",
    "open",
)


def book_of(seed, size):
    return random_book(random.Random(seed), size)


def eaten_more(event):
    """Return a meal with TIMES as much of everything; None: it is none."""
    if event["kind"] != "eaten":
        return None
    body = copy.deepcopy(event["body"])
    for line in body["ate"]:
        for name in ("whole", "times"):
            if line.get(name):
                line[name] *= TIMES
    return {**event, "body": body}


def key_of(address):
    return address.partition("/")[2]


def said_of(state, kinds):
    """Return the keys of single things said of some kinds, of which it is known what came."""
    records = {key_of(row["why"]) for row in PROJECTION.build(state).rows()} & set(kinds)
    return [
        key_of(part.address)
        for kind in sorted(records)
        for part in PROJECTION.why(state, kind, "graded").parts
    ]


def is_widened(tree):
    """Return whether a line leads on to how all earlier ranges held: all use before stands behind it."""
    return any(leaf.assumption == "widened" for leaf in leaves(tree))


def proof(figure, at, kind):
    """Return how a figure of one thing said is opened."""

    def opened(events):
        state = base(events, AS_OF)
        keys = said_of(state, [kind])
        begin = at % max(len(keys), 1)
        several = (keys[begin:] + keys[:begin])[:TRIED]
        known = (key for key in several if PROJECTION.why(state, key, figure).value is not None)
        key = next(known, None)
        tree = key and PROJECTION.why(state, key, figure, deep=WHOLE)
        return (None, None) if tree and is_widened(tree) else (key, tree)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    return Proof(opened, valued, eaten_more, lambda _: AMOUNTS, AS_OF, ROUNDED / 1000)


@pytest.mark.parametrize("figure", ["base", "came"])
@QUICK
@BOOKS
def test_an_amount_in_a_leaf_moves_use_as_its_tree_says(figure, seed, size, at):
    """Use before a moment, and after it. Where more is eaten there may be none: nothing is said then."""
    events = book_of(seed, size)
    held = proof(figure, at, "used-a-week")
    key, tree = held.opened(events)
    used = tree and tree.parts[0]
    for event in events if tree else ():
        new = eaten_more(event) if event["id"] in named_in(used) else None
        if new is None:
            continue
        with contextlib.suppress(NotFound):
            again = PROJECTION.why(state_of(with_event(events, new), AS_OF), key, figure)
            says = moved(used, event["id"], AMOUNTS)
            assert again.parts[0].value == pytest.approx(says, rel=1e-9, abs=held.off * TIMES)


@pytest.mark.parametrize(
    ("figure", "kind"),
    [("came", "used-a-week"), ("base", "used-a-week"), ("low", "used-a-week"), ("came", "runs-out"),
     ("base", "runs-out"), ("held", "lasts-till-more-comes"), ("came", "keeps"), ("held", "keeps")],
)  # fmt: skip
@QUICK
@BOOKS
def test_what_is_outside_the_tree_moves_nothing(figure, kind, seed, size, at):
    with contextlib.suppress(NotFound):  # of what is not there any more nothing was said
        proof(figure, at, kind).holds_outside(book_of(seed, size))


def values_of(one):
    """Return what one thing said has to be opened to, from what graded it."""
    is_chance = one.kind in CHANCES
    ends = () if is_chance else one.said
    return {
        "held": one.held,
        **dict(zip(("low", "likely", "high"), ends, strict=False)),
        **({"chance": one.said[0]} if is_chance else {}),
        "came": one.came,
        "base": one.base if one.base > 0 else None,
    }


@pytest.mark.parametrize("seed", range(6))
def test_each_thing_said_opens_to_what_graded_it(seed):
    """What the book said, asked again, is what the book of then has; what came is what its events make."""
    state, seen = base(book_of(seed, 100), AS_OF), 0
    for one in graded(state)[::7]:
        key = f"@{day_text(one.day)}/{one.kind.replace(' ', '-')}/{one.of}"
        for figure, value in values_of(one).items():
            tree = PROJECTION.why(state, key, figure, deep=WHOLE)
            assert tree.value == (None if value is None else pytest.approx(float(value))), figure
            check_tree(tree)
            for leaf in leaves(tree):
                assert names_its_source(leaf), (key, figure, leaf)
            seen += 1
    assert seen > 20


@pytest.mark.parametrize("seed", range(6))
def test_column_and_tree_are_the_same_and_every_leaf_names_its_source(seed):
    state = base(book_of(seed, 100), AS_OF)
    for row in PROJECTION.build(state, by="item").rows():
        for figure in FIGURES:
            tree = PROJECTION.why(state, key_of(row["why"]), figure)
            assert tree.value == row[figure], (row["why"], figure)
            check_tree(tree)
            for leaf in leaves(tree):
                assert names_its_source(leaf), (figure, leaf)


def folded(node):
    own = [node] if node.address else []
    return [*own, *(line for part in node.parts for line in folded(part))]


@pytest.mark.parametrize("seed", range(3))
def test_a_folded_line_opens_as_the_book_was_then(seed):
    """Lines of an earlier moment are behind its day, whatever question they are of."""
    state, names = base(book_of(seed, 100), AS_OF), set()
    for key in said_of(state, ("runs-out", "used-a-week", "yield", "keeps"))[::5]:
        for figure in ("held", "low", "base", "score"):
            lines = folded(PROJECTION.why(state, key, figure, deep=1))
            for line in lines[:6]:
                assert line.address.startswith("came-true/")
                opened = PROJECTION.why(state, key_of(line.address), line.figure)
                assert opened.value == pytest.approx(line.value), line.address
                names.add(line.address.split("/")[2])
    assert "shelf" in names


@pytest.mark.parametrize(
    "key", ["@2026-01-01/shelf/items/bean", "@soon/shelf/items/bean", "@2026-01-01/runs-out/bean", "@2026-01-01/"],
)  # fmt: skip
def test_a_moment_at_which_nothing_was_said_is_refused(key):
    with pytest.raises(NotFound):
        PROJECTION.why(state_of(book_of(1, 100), AS_OF), key, "held")
