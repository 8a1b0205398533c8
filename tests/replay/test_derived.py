"""The journal kept in a file: answers are those without it, and nothing wrong is believed."""

from __future__ import annotations

import hashlib
import random

import pytest
from books import FAR, ListLog, answer_of, state_of
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from strategies import books, random_book
from test_growing import assert_equal_states

import ledger.replay
from ledger import Answers, Book
from ledger.cache import folder
from ledger.errors import TooLarge
from ledger.replay import Replay, building, derived

ANY = list(HealthCheck)


class Hashed(ListLog):
    """A log whose hashes cover every event before."""

    def hash_at(self, seq):
        if seq > len(self.rows):
            return None
        return hashlib.sha256(repr(self.rows[:seq]).encode()).hexdigest() if seq else ""


@pytest.fixture(autouse=True)
def _kept_from_the_first_event_on(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr(derived, "_LEAST", 1)


def replayed(events):
    """Return a replay that may begin with the file, and how many events it took from there."""
    log = Hashed(events)
    replay = Replay(log, log.hash_at)
    new = replay.refresh()
    return replay, len(events) - new


def the_file():
    return next(folder("journal").glob("*.columns"))


@given(books(max_size=20), st.data())
@settings(max_examples=12, deadline=None, suppress_health_check=ANY)
def test_a_book_begun_from_the_file_is_the_book(events, data):
    """Corrections, strikes and late entries behind what is kept, and earlier moments."""
    assume(events)
    first = data.draw(st.integers(1, len(events)))
    replayed(events[:first])
    replay, taken = replayed(events)
    assert taken >= first - first // 10
    # texts are numbered as they come, chunk by chunk: the same two chunks without a file
    log = ListLog(events[:taken], len(events))
    plain = Replay(log)
    plain.refresh()
    log.rows = Hashed(events).rows
    plain.refresh()
    for at in (None, events[first // 2]["recorded_at"]):
        assert_equal_states(*(one.state(as_of=FAR, known_at=at) for one in (replay, plain)))
    mine, other = replay.state(as_of=FAR), plain.state(as_of=FAR)
    assert answer_of(mine, "jar-cost") == answer_of(other, "jar-cost")


@pytest.fixture
def kept_book():
    events = random_book(random.Random(3), 80)
    replayed(events)
    assert replayed(events)[1] == len(events)
    return events


@pytest.mark.parametrize("where", [0.0, 0.01, 0.3, 0.6, 0.999])
def test_a_file_with_one_bit_changed_is_not_believed(kept_book, where):
    place = the_file()
    whole = bytearray(place.read_bytes())
    whole[int(where * len(whole))] ^= 4
    place.write_bytes(whole)
    replay, taken = replayed(kept_book)
    assert taken == 0
    assert_equal_states(replay.state(as_of=FAR), state_of(kept_book))


@pytest.mark.parametrize("length", [0, 10, 60, 500])
def test_a_file_cut_off_is_not_believed(kept_book, length):
    place = the_file()
    place.write_bytes(place.read_bytes()[:length])
    assert replayed(kept_book)[1] == 0
    assert replayed(kept_book)[1] == len(kept_book)  # and is written anew


def test_another_book_program_or_end_is_not_believed(kept_book, monkeypatch):
    other = [*kept_book[:-1], {**kept_book[-1], "by": "Nobody"}]
    assert replayed(other)[1] == 0
    replayed(kept_book)
    assert replayed(kept_book[:-5])[1] == 0  # a book put back from a backup
    replayed(kept_book)
    monkeypatch.setattr(derived, "made_by", lambda: "another program")
    assert replayed(kept_book)[1] == 0


def test_moments_grow_from_the_one_that_is_kept(monkeypatch):
    """Nothing is matched anew where the file's moment holds; answers are those without it."""
    events = random_book(random.Random(5), 80)
    wanted = state_of(events)
    replayed(events)
    monkeypatch.setattr(building, "build_flows", None)
    replay, taken = replayed(events)
    assert taken == len(events)
    assert_equal_states(replay.state(as_of=FAR), wanted)


def test_what_no_moment_grows_from_is_written_anew(book, monkeypatch):
    """A new name gives items other numbers: the file follows at once, not at a tenth more."""
    for _ in range(30):
        book.write(
            "harvested", {"lines": [{"item": "plum", "amount": "1 lb"}]}, answers=Answers(yes=True)
        )
    book.show("shelf")
    book.write(
        "harvested", {"lines": [{"item": "quince", "amount": "1 lb"}]}, answers=Answers(yes=True)
    )
    told = book.show("shelf").to_dict()
    monkeypatch.setattr(building, "build_flows", None)
    with Book.open(book.log.path) as again:
        assert again.show("shelf").to_dict() == told


def test_a_book_whose_amounts_are_too_large_is_kept_without_a_moment(monkeypatch):
    events = random_book(random.Random(6), 40)

    def refuse(*_, **__):
        raise TooLarge("0", 1)

    monkeypatch.setattr(ledger.replay, "build_state", refuse)
    replayed(events)
    monkeypatch.undo()
    replay, taken = replayed(events)
    assert taken in (0, len(events))
    assert_equal_states(replay.state(as_of=FAR), state_of(events))


def test_a_folder_that_cannot_be_written_is_done_without(monkeypatch, tmp_path):
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    events = random_book(random.Random(4), 40)
    for _ in range(2):
        assert replayed(events)[1] == 0


def test_columns_read_from_the_file_grow_and_leave_it_as_it_is(kept_book):
    before = the_file().read_bytes()
    replay, _ = replayed(kept_book)
    for table in replay.journal.tables.values():
        for name in table.dtypes:
            table[name][:] = 0
    assert the_file().read_bytes() == before
    assert replayed(kept_book)[1] == len(kept_book)


def test_a_book_of_its_own_is_kept_and_its_backup_holds_none(book, tmp_path):
    book.write("bought", {"lines": [{"item": "sugar", "amount": "1 lb", "paid": "1"}]},
               answers=Answers(yes=True))  # fmt: skip
    told = book.show("shelf").to_dict()
    assert the_file().stat().st_mode & 0o077 == 0
    backup = tmp_path / "backup.sqlite"
    book.backup(backup)
    assert derived._MAGIC not in backup.read_bytes()
    with Book.open(book.log.path) as again:
        assert again.show("shelf").to_dict() == told
