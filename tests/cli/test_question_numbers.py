"""Numbers of open questions stay with their question: an answer given late or twice meets no other one."""

from __future__ import annotations

import pytest

from ledger import Book
from ledger.cli import _numbers
from ledger.errors import InputError
from ledger.saying.waiting import Waiting


@pytest.fixture
def book(tmp_path, monkeypatch):
    monkeypatch.setattr(_numbers, "folder", lambda name: tmp_path / name)
    with Book.open(tmp_path / "book.sqlite") as book:
        yield book


def weighs(item):
    return Waiting("weight", f"What does a bucket of {item} weigh?", [], item, "bucket")


APPLE, PEAR, QUINCE = weighs("apple"), weighs("pear"), weighs("quince")


def test_a_new_question_takes_the_next_number_and_no_other_moves(book):
    assert _numbers.numbered(book, [APPLE, PEAR]) == [(1, APPLE), (2, PEAR)]
    assert _numbers.numbered(book, [QUINCE, PEAR]) == [(2, PEAR), (3, QUINCE)]
    assert _numbers.question_of(book, [QUINCE, PEAR], 2) is PEAR


def test_an_answered_question_is_refused_with_what_would_be_right(book):
    _numbers.numbered(book, [APPLE, PEAR])
    with pytest.raises(InputError, match="not open any more"):
        _numbers.question_of(book, [PEAR, QUINCE], 1)
    with pytest.raises(InputError, match="croftbook questions"):
        _numbers.question_of(book, [PEAR, QUINCE], 3)  # never shown under a number


def test_numbers_begin_anew_when_all_are_answered(book):
    _numbers.numbered(book, [APPLE, PEAR])
    assert _numbers.numbered(book, [QUINCE]) == [(1, QUINCE)]


def test_without_a_list_the_order_is_that_of_the_list(book):
    assert _numbers.question_of(book, [APPLE, PEAR], 2) is PEAR
