"""Rows that say settings, kept in a file: what is read is what the log holds, and nothing wrong is believed."""

from __future__ import annotations

import hashlib

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ledger import Answers, Book
from ledger.cache import folder
from ledger.known import KeptRows, kept

KINDS = ("setting_changed", "struck")


class Log:
    """A log of a few kinds whose hashes cover every event before, and which counts what is read."""

    def __init__(self, kinds, salt=""):
        self.rows = [(n + 1, f"{salt}{n}", kind, 1, "2026-01-01") for n, kind in enumerate(kinds)]
        self.looked_at = 0

    def read(self, after=0, upto=None, kinds=None, **_):
        for row in self.rows[after:upto]:
            self.looked_at += 1
            if kinds is None or row[2] in kinds:
                yield [row]

    def kinds(self, after=0):
        return []

    def hash_at(self, seq):
        if not 0 < seq <= len(self.rows):
            return None
        return hashlib.sha256(repr(self.rows[:seq]).encode()).hexdigest()


@pytest.fixture(autouse=True)
def _kept_from_the_first_event_on(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr(kept, "_LEAST", 1)


def read(log, upto=None):
    rows = KeptRows(log, log.hash_at).read(0, upto or len(log.rows), KINDS)
    return [row for chunk in rows for row in chunk]


def plain(log, upto=None):
    return [row for chunk in log.read(0, upto or len(log.rows), KINDS) for row in chunk]


def the_file():
    return next(folder("settings").iterdir())


BOOKS = st.lists(st.sampled_from((*KINDS, "eaten", "eaten")), min_size=1, max_size=30)


@given(BOOKS, st.integers(1, 30), st.integers(1, 30))
@settings(deadline=None, suppress_health_check=list(HealthCheck))
def test_rows_are_those_of_the_log_however_far_it_was_read_before(kinds, first, second):
    log = Log(kinds)
    first, second = (min(one, len(kinds)) for one in (first, second))
    for upto in (first, second, len(kinds)):
        assert read(log, upto) == plain(log, upto)


def test_what_is_kept_is_not_read_again():
    log = Log(["setting_changed", *["eaten"] * 50])
    assert read(log) == plain(log)
    log.looked_at = 0
    assert read(log) == log.rows[:1]
    assert log.looked_at == 0
    log.rows += Log(["eaten"] * 52 + ["struck"]).rows[52:]
    wanted = plain(log)
    log.looked_at = 0
    assert read(log) == wanted
    assert log.looked_at == len(log.rows) - 51


@pytest.mark.parametrize("where", [0.0, 0.3, 0.6, 0.999])
def test_a_file_with_one_bit_changed_is_not_believed(where):
    log = Log(["setting_changed", "eaten", "struck"])
    read(log)
    whole = bytearray(the_file().read_bytes())
    whole[int(where * len(whole))] ^= 4
    the_file().write_bytes(whole)
    assert read(log) == plain(log)


def test_another_end_is_not_believed():
    """A book put back from a backup, with other events since: the first is the same."""
    log = Log(["eaten", "setting_changed", "struck"])
    read(log)
    log.rows[2] = (3, "other", "setting_changed", 1, "2026-02-02")
    assert read(log) == plain(log)
    assert read(log, 2) == plain(log, 2)


def test_rows_of_a_book_put_in_its_place_meanwhile_are_not_kept():
    log, other = Log(["eaten", "setting_changed"]), Log(["eaten", "struck"], "other")

    def replaced(*_, **__):
        log.rows = other.rows
        return iter([other.rows[1:]])

    log.read = replaced
    read(log)
    assert not list(folder("settings").glob("*"))


def test_a_setting_is_the_same_with_the_file_and_without(book):
    for zone in ("Europe/Vienna", "Europe/Oslo"):
        book.write(
            "setting_changed", {"name": "time_zone", "value": zone}, answers=Answers(yes=True)
        )
        for _ in range(2):
            with Book.open(book.log.path) as again:
                assert again.setting("time_zone") == zone
    assert the_file().stat().st_mode & 0o077 == 0
