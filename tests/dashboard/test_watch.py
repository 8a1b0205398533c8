"""What the pages say of a damaged book, a restored one, and one that somebody else writes into."""

from __future__ import annotations

import contextlib
import sqlite3
import threading
import time

import pytest
from page_tools import draw, text_of

from dashboard.ask import words_of
from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page
from dashboard.forms.callbacks import outcome_shown
from dashboard.forms.reading import Typed
from dashboard.forms.writing import write_form
from ledger import Book
from ledger.errors import BookLocked

assert draw


@pytest.fixture
def kitchen(tmp_path):
    with Book.open(tmp_path / "book.sqlite", wait=0.3) as book:
        for n in range(4):
            book.write("harvested", item="plum", amount=f"{n + 1} lb", on="2026-09-02")
        yield Data(book)


def page(data, path="/shelf"):
    return text_of(draw_page(ask_of(data, path)))


def spoil(path, statement):
    raw = sqlite3.connect(path)
    for (name,) in raw.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
        raw.execute(f"DROP TRIGGER {name}")
    raw.execute(statement)
    raw.commit()
    raw.close()


def test_well_book_has_no_banner(kitchen):
    assert kitchen.watch.check() == []
    assert "may not be all" not in page(kitchen)


def test_failed_daily_check_is_said_on_every_page(kitchen):
    spoil(kitchen.book.log.path, "UPDATE events SET body = body || ' ' WHERE seq = 3")
    assert kitchen.watch.check()
    for path in ("/", "/shelf", "/write", "/history"):
        assert "may not be all that was written down" in page(kitchen, path)
        assert "Event 3 is the first that does not hold" in page(kitchen, path)


def test_cut_book_is_said_without_waiting_for_the_check(kitchen):
    spoil(kitchen.book.log.path, "DELETE FROM events WHERE seq > 3")
    assert "2 events are missing" in page(kitchen)


def test_restored_book_is_read_anew(kitchen, tmp_path):
    book = kitchen.book
    book.backup(tmp_path / "copy.sqlite")
    before, mark = page(kitchen), kitchen.mark()
    book.write("harvested", item="quince", amount="9 lb", on="2026-09-02")
    assert "quince" in page(kitchen)
    assert len(kitchen.history()) == 7
    Book.restore(tmp_path / "copy.sqlite", book.log.path)
    assert page(kitchen) == before
    assert kitchen.mark() != mark
    assert len(kitchen.history()) == 5
    assert "quince" not in book.catalogue().names()
    assert book.write("harvested", item="plum", amount="1 lb", on="2026-09-02").event.seq == 6


def test_book_copied_over_is_noticed(kitchen, tmp_path):
    book = kitchen.book
    book.backup(tmp_path / "copy.sqlite")
    for n in range(200):
        book.write("harvested", item="quince", amount=f"{n + 1} lb", on="2026-09-02")
    assert "quince" in page(kitchen)
    book.log.path.write_bytes((tmp_path / "copy.sqlite").read_bytes())
    said = page(kitchen)
    assert "events are missing" in said
    assert "quince" not in said.partition("events are missing")[2]


def test_waiting_writer_does_not_hold_up_a_reader(kitchen):
    """While another program holds the book, a form waits and three pages are drawn."""
    page(kitchen)
    with Book.open(kitchen.book.log.path) as other, other.log.writing("import"):
        slow = Book.open(kitchen.book.log.path, wait=20.0)
        data = Data(slow)
        page(data)
        waits = threading.Thread(target=_locked, args=(slow,))
        waits.start()
        time.sleep(0.2)
        drawn = [page(data, path) for path in ("/", "/shelf", "/history")]
        assert waits.is_alive()
        assert all("plum" in text for text in drawn[1:])
    waits.join(30)
    slow.close()


def _locked(book):
    with contextlib.suppress(BookLocked):
        book.write("harvested", item="plum", amount="1 lb", on="2026-09-02")


def test_form_says_that_somebody_else_writes_and_is_tried_again(kitchen):
    words = words_of(kitchen)
    typed = Typed("harvested", day="2026-09-02", by=None, boxes={("lines", 0): "1 lb plum"}, id="5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11")  # fmt: skip
    with Book.open(kitchen.book.log.path) as other, other.log.writing("import"):
        outcome = write_form(kitchen, words, typed)
        assert outcome.is_locked
        shown = outcome_shown(ask_of(kitchen, "/write"), outcome)
        assert shown.className == "again"
        assert "Somebody else is writing" in text_of(shown)
        assert "stays here" in text_of(shown)
    assert write_form(kitchen, words, typed).written.is_new
    assert not write_form(kitchen, words, typed).written.is_new
