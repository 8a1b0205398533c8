"""Check and backup on any store: the first bad event, the kept head, the copy read back."""

from __future__ import annotations

import sqlite3

import pytest
from conftest_events import event

from ledger.errors import BookDamaged, InputError
from ledger.log import Head, backup, open_log, read_heads, verify


@pytest.fixture
def filled(store):
    """A log that no head is kept of (test_kept_heads.py has those of which one is)."""
    log = store.open(keeps_head=False)
    with log.writing() as tx:
        tx.append_many(event(str(n)) for n in range(50))
    return log


def tamper(store, *statements):
    """Change the database as somebody could who also takes the triggers away."""
    with store.bare() as raw:
        if store.name == "sqlite":
            for (name,) in raw.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'"):
                raw.execute(f"DROP TRIGGER {name}")
        else:
            raw.execute("ALTER TABLE events DISABLE TRIGGER ALL")
        for statement in statements:
            raw.execute(statement)


def test_whole_log_is_whole(filled):
    seen = []
    report = verify(filled, progress=lambda done, total: seen.append((done, total)))
    assert report.whole
    assert (report.events, report.first_bad, report.head) == (50, None, filled.head())
    assert report.tail == "no head kept"
    assert seen[-1] == (50, 50)


def test_empty_log_is_whole(log):
    report = verify(log)
    assert (report.whole, report.events, report.head) == (True, 0, Head(0, ""))


@pytest.mark.parametrize(
    ("change", "seq", "why"),
    [
        ("UPDATE events SET body = '{}' WHERE seq = 17", 17, "hash"),
        ("UPDATE events SET recorded_at = '1999-01-01T00:00:00.000000Z' WHERE seq = 9", 9, "hash"),
        ("UPDATE events SET \"by\" = 'Eve' WHERE seq >= 40", 40, "hash"),
        ("DELETE FROM events WHERE seq = 20", 20, "missing"),
        ("DELETE FROM events WHERE seq = 1", 1, "missing"),
        ("UPDATE events SET hash = 'x' WHERE seq = 50", 50, "hash"),
    ],
)
def test_first_bad_event_is_named(store, filled, change, seq, why):
    tamper(store, change)
    report = verify(filled)
    assert report.first_bad is not None
    assert report.first_bad[0] == seq
    assert why in report.first_bad[1]
    assert report.events == seq - 1
    assert not report.whole


def test_cut_off_tail_shows_only_against_a_kept_head(store, filled):
    kept = filled.head()
    tamper(store, "DELETE FROM events WHERE seq > 45")
    assert verify(filled).tail == "no head kept"
    report = verify(filled, kept)
    assert (report.first_bad, report.tail, report.whole) == (None, "cut off after 45", False)
    assert report.kept == kept


def test_log_that_went_on_is_whole_against_an_older_head(filled):
    kept = filled.head()
    with filled.writing() as tx:
        tx.append(event())
    report = verify(filled, kept)
    assert (report.whole, report.tail) == (True, "whole as far as the kept head tells")
    assert verify(filled, [Head(0, ""), kept]).whole


def test_chain_written_anew_shows_against_a_kept_head(store, filled):
    kept = filled.head()
    tamper(store, "DELETE FROM events WHERE seq > 30")
    with filled.writing() as tx:
        tx.append_many(event() for _ in range(40))
    report = verify(filled, kept)
    assert (report.first_bad, report.tail) == (None, "rewritten at or before 50")
    assert not report.whole


def test_bad_event_before_the_kept_head_leaves_the_tail_open(store, filled):
    kept = filled.head()
    tamper(store, "UPDATE events SET body = '{}' WHERE seq = 10")
    assert verify(filled, kept).tail.startswith("not told")


def test_backup_holds_the_book_and_its_heads(store, filled, tmp_path):
    """A file is one book, with every household in it; in a database the book is one household's."""
    other = store.open("other")
    with other.writing() as tx:
        tx.append_many(event() for _ in range(7))
    target = tmp_path / "copies" / "copy.db"
    heads = backup(filled, target)
    copied = (filled, other) if store.name == "sqlite" else (filled,)
    assert heads == {one.household: one.head() for one in copied} == read_heads(target)
    for source in copied:
        with open_log(target, source.household, create=False) as copy:
            assert copy.households() == sorted(heads)
            assert list(copy.read()) == list(source.read())
            assert verify(copy).tail == "whole as far as the kept head tells"
    assert sorted(p.name for p in target.parent.iterdir()) == ["copy.db", "copy.db.head"]


def test_backup_can_be_written_to_as_a_book(filled, tmp_path):
    target = tmp_path / "copy.db"
    backup(filled, target)
    with open_log(target) as copy:
        with copy.writing() as tx:
            assert tx.append(event()).seq == 51
        assert verify(copy).whole
    with pytest.raises(sqlite3.DatabaseError, match="never changed"):
        sqlite3.connect(target).execute("UPDATE events SET body = ''")


def test_backup_never_overwrites_unasked(filled, tmp_path):
    target = tmp_path / "copy.db"
    target.write_text("something dear")
    with pytest.raises(InputError, match="there already"):
        backup(filled, target)
    assert target.read_text() == "something dear"
    backup(filled, target, force=True)
    assert read_heads(target)["home"] == filled.head()


def test_backup_of_a_damaged_book_is_refused(store, filled, tmp_path):
    tamper(store, "UPDATE events SET body = '{}' WHERE seq = 17")
    with pytest.raises((BookDamaged, InputError), match="event 17"):
        backup(filled, tmp_path / "copy.db")
    assert not [p for p in tmp_path.iterdir() if "copy" in p.name]


def test_backup_while_others_write(store, filled, tmp_path):
    def write(_done, _total):
        with store.open().writing() as tx:
            tx.append(event())

    heads = backup(filled, tmp_path / "copy.db", progress=write)
    assert heads["home"].seq >= 50
    with open_log(tmp_path / "copy.db", create=False) as copy:
        assert verify(copy).whole
    assert filled.count() > 50
