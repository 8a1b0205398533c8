"""Reading any store: order, spans, kinds, several households."""

from __future__ import annotations

import pytest
from conftest_events import event

from ledger.errors import InputError
from ledger.log import BARE, COLUMNS, StoredEvent, open_log


@pytest.fixture
def filled(log):
    with log.writing() as tx:
        tx.append_many(
            event(str(n), kind=["harvested", "bought", "eaten"][n % 3]) for n in range(25)
        )
    return log


def seqs(log, **kwargs):
    return [[row[0] for row in chunk] for chunk in log.read(**kwargs)]


def test_rows_are_plain_and_in_column_order(filled):
    row = next(filled.read())[0]
    assert type(row) is tuple
    assert len(row) == len(COLUMNS)
    assert filled.get(row[1]) == StoredEvent(*row)
    assert StoredEvent.__struct_fields__ == COLUMNS


def test_spans_and_chunks(filled):
    assert seqs(filled, chunk=10) == [
        list(range(1, 11)),
        list(range(11, 21)),
        list(range(21, 26)),
    ]
    assert seqs(filled, after=23) == [[24, 25]]
    assert seqs(filled, after=3, upto=5) == [[4, 5]]
    assert seqs(filled, after=25) == []
    assert seqs(filled, upto=0) == []
    assert seqs(filled, chunk=25) == [list(range(1, 26))]


def test_kinds_are_picked(filled):
    assert seqs(filled, kinds=["bought"], after=5, upto=15) == [[8, 11, 14]]
    assert seqs(filled, kinds=["bought", "eaten"], chunk=3, upto=9) == [[2, 3, 5], [6, 8, 9]]
    assert seqs(filled, kinds=[]) == []
    assert seqs(filled, kinds=["none of these"]) == []


def test_some_are_read_by_their_numbers(filled):
    every = [row for chunk in filled.read() for row in chunk]
    assert filled.numbered([7, 3, 9_000]) == [every[2], every[6]]
    assert filled.numbered([]) == []


def test_ids_and_numbers_lead_to_each_other(filled):
    written = filled.written_between(0, 100)
    assert written == [(row[1], row[6]) for chunk in filled.read() for row in chunk]
    assert filled.written_between(3, 5) == written[3:5]
    assert filled.written_between(25, 30) == []
    ids = [id_ for id_, _ in written]
    said = [ids[6], "nobody", ids[2], "half a character \ud800", "nul \0"]
    assert filled.numbers_of(said) == {ids[6]: 7, ids[2]: 3}
    assert filled.numbers_of([]) == {}


def test_a_bare_row_is_what_a_replay_reads(filled):
    whole, bare = (next(filled.read(bare=one)) for one in (False, True))
    at = [COLUMNS.index(name) for name in BARE]
    assert bare == [tuple(row[one] for one in at) for row in whole]
    assert seqs(filled, bare=True, after=3, upto=9, chunk=4) == [[4, 5, 6, 7], [8, 9]]


def test_unknown_id_is_none(filled):
    assert filled.get("nobody") is None


def test_events_that_come_while_reading_are_read(filled):
    chunks = filled.read(chunk=20)
    next(chunks)
    with filled.writing() as tx:
        tx.append(event())
    assert [row[0] for row in next(chunks)] == [21, 22, 23, 24, 25, 26]


def test_reading_left_half_way_holds_nothing(filled):
    next(filled.read(chunk=2))
    with filled.writing() as tx:
        assert tx.append(event()).seq == 26


def test_households_share_a_database_and_nothing_else(store):
    home, other = store.open("home"), store.open("Großmutter's")
    new = event()
    with home.writing() as tx:
        tx.append(new)
        tx.append(event())
    with other.writing() as tx:
        assert tx.append(new).seq == 1
    assert home.households() == ["Großmutter's", "home"]
    assert (home.count(), other.count()) == (2, 1)
    assert home.get(new.id) == other.get(new.id) or home.get(new.id).seq == other.get(new.id).seq
    third = home.for_household("third")
    assert third.count() == 0


def test_position_changes_with_the_log(store, log):
    before = log.position()
    with store.open("other").writing() as tx:
        tx.append(event())
    assert log.position() == before
    with store.open().writing() as tx:
        tx.append(event())
    assert log.position() != before


def test_opening_again_finds_the_same(store, filled):
    head = filled.head()
    assert store.open().head() == head
    assert store.open(create=False).head() == head


@pytest.mark.parametrize("name", ["", "a\0b", "\ud800"])
def test_household_without_a_usable_name_is_refused(store, name):
    with pytest.raises(InputError, match="household"):
        open_log(store.address, name)
