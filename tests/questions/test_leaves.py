"""Every leaf of every question says where it comes from: an event, a source, an assumption, or an address."""

from __future__ import annotations

import inspect
import random

import pytest
from books import state_of
from projections.test_no_question_fails import ASKED
from questions.proving import leaves, names_its_source
from strategies import garden_book, random_book
from strategies.winters import winter_book

from ledger import Book
from ledger.errors import NotFound
from ledger.projections import PROJECTIONS

TODAY = "2026-11-01"
MORE = [
    ("our-table", {"by": "month"}),
    ("our-table", {"paths": True}),
    ("season", {"weeks": True}),
    ("worth-it", {"prices": True}),
    ("worth-it", {"durables": True}),
]
"""Shapes of answers beside those that no question fails in."""
ALL = [*ASKED, *MORE]
WITHOUT_TREES = {"mentions", "month-ends", "month-by-month"}
"""What was written down, in another order: its records name entries, or the figures of other questions."""
BOOKS = {
    "any book": lambda: random_book(random.Random(1), 90),
    "a garden": lambda: garden_book(2, 90),
    "a winter": lambda: winter_book(1, 90),
}
ROWS = 2
"""Records of each answer, of which every figure is opened."""


@pytest.fixture(scope="module")
def sample(demo_file):
    """The state of the sample household's book."""
    with Book.open(demo_file) as book:
        yield book.state(as_of=TODAY)


@pytest.fixture(scope="module", params=BOOKS)
def drawn(request):
    """The state of a random book."""
    return state_of(BOOKS[request.param](), "2026-06-01")


def opened(state, name, options, deep):
    """Yield the column's name and the tree of each figure of some records, so many levels unfolded."""
    question = PROJECTIONS[name]
    answer = question.build(state, **options)
    more = {"deep": deep} if "deep" in inspect.signature(question.why).parameters else {}
    rows = answer.rows()
    for record in random.Random(1).sample(rows, min(ROWS, len(rows))):
        for column in answer.columns:
            value = record[column.name]
            if not column.unit or isinstance(value, bool | list | dict | None):
                continue
            try:
                key = record["why"].partition("/")[2]
                yield column.name, question.why(state, key, column.name, **more)
            except NotFound:
                assert column.unit in ("day", "seasons"), column.name


def unnamed(state, name, options, deep):
    """Return what the leaves that say nothing of where they come from are called, by column."""
    assert (PROJECTIONS[name].why is None) == (name in WITHOUT_TREES)
    if name in WITHOUT_TREES:
        return []
    return [
        (column, leaf.label, leaf.value)
        for column, tree in opened(state, name, options, deep)
        for leaf in leaves(tree)
        if not names_its_source(leaf)
    ]


@pytest.mark.parametrize(("name", "options"), ALL)
def test_every_leaf_of_the_sample_household_names_where_it_comes_from(sample, name, options):
    assert unnamed(sample, name, options, 0) == []


@pytest.mark.parametrize(("name", "options"), ALL)
def test_every_leaf_of_a_drawn_book_names_where_it_comes_from(drawn, name, options):
    assert unnamed(drawn, name, options, 1) == []
