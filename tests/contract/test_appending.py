"""Writing to any store: numbers, chain, repeats, and all or nothing."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import uuid

import pytest
from conftest_events import canonical, event
from freezegun import freeze_time
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.log import COLUMNS, Head, NewEvent, StoredEvent


def rows(log, **kwargs):
    return [StoredEvent(*row) for chunk in log.read(**kwargs) for row in chunk]


def write(log, way, *new):
    """Append in one transaction, one by one, many at once, or as an export."""
    with log.writing() as tx:
        if way == "append_many":
            tx.append_many(new)
        else:
            for one in new:
                getattr(tx, way)(one)


WAYS = pytest.mark.parametrize("way", ["append", "append_many"])


def test_new_book_is_empty(log):
    assert (log.head(), log.count(), log.position(), rows(log)) == (Head(0, ""), 0, 0, [])
    assert log.households() == []


def test_append_returns_what_is_stored(log):
    new = event(at="08:30", by="Ada", replaces=str(uuid.uuid4()), typed_at="2026-09-02T10:30:00+02")
    with log.writing() as tx:
        stored = tx.append(new)
    assert rows(log) == [stored]
    assert log.get(new.id) == stored
    for name in ("id", "kind", "v", "on", "at", "by", "replaces", "typed_at", "body"):
        assert getattr(stored, name) == getattr(new, name)


def test_numbers_follow_without_a_gap(log):
    for _ in range(3):
        with log.writing() as tx:
            tx.append(event())
            tx.append_many([event(), event()])
    assert [one.seq for one in rows(log)] == list(range(1, 10))
    assert log.count() == log.position() == 9


def test_hash_is_the_documented_one(log):
    """Recomputed with the standard library alone, from the text of the design."""
    with log.writing() as tx:
        tx.append_many([event('plüm \u2028 \x7f "\\'), event(by="Ada\n\x01"), event()])
    before = ""
    for one in rows(log):
        fields = [getattr(one, name) for name in COLUMNS[:-1]]
        text = json.dumps([1, *fields], separators=(",", ":"), ensure_ascii=False)
        before = hashlib.sha256((before + text).encode()).hexdigest()
        assert one.hash == before
    assert log.head() == Head(3, before)


def test_same_event_again_writes_nothing(log):
    new = event()
    with log.writing() as tx:
        first = tx.append(new)
        assert tx.append(new) == first
    with log.writing() as tx:
        assert tx.append(new) == first
        assert tx.append_many([new, event(), new]) == 1
        assert (tx.written, tx.repeated) == (1, 3)
    assert log.count() == 2


@pytest.mark.parametrize(
    "change",
    [
        {"kind": "bought"},
        {"v": 2},
        {"on": "2026-09-03"},
        {"at": "07:00"},
        {"by": "Bo"},
        {"replaces": "x"},
        {"body": "{}"},
    ],
)
@WAYS
def test_same_id_with_other_content_is_refused(log, change, way):
    new = event()
    other = event(id=new.id, **{"body": new.body, **change})
    with log.writing() as tx:
        tx.append(new)
    with pytest.raises(InputError, match=new.id) as caught:
        write(log, way, event(), other)
    assert next(iter(change)) in str(caught.value)
    assert log.count() == 1


def test_twice_in_one_import_is_one_event(log):
    new = event()
    with log.writing() as tx:
        assert tx.append_many([new, event(), new]) == 2
    with pytest.raises(InputError, match=new.id), log.writing() as tx:
        tx.append_many([event(), event(id=new.id, on="2020-01-01")])
    assert log.count() == 2


def test_repeat_far_behind_in_one_import_is_found(log):
    new = event()
    with log.writing() as tx:
        assert tx.append_many(e for e in [new, *[event() for _ in range(6000)], new]) == 6001
    assert log.count() == 6001


def test_error_in_the_middle_rolls_all_back(log):
    with log.writing() as tx:
        tx.append(event())
    before = log.head()
    with pytest.raises(ZeroDivisionError), log.writing() as tx:
        tx.append_many(event() if n < 6000 else 1 / 0 for n in range(6001))
    assert log.head() == before
    with log.writing() as tx:
        assert tx.append(event()).seq == 2


def test_transaction_reads_what_it_appended(log):
    with log.writing() as tx:
        tx.append(event())
    with log.writing() as tx:
        new = event(kind="bought")
        stored = tx.append(new)
        assert tx.get(new.id) == stored
        assert [row[0] for chunk in tx.read() for row in chunk] == [1, 2]
        assert [row[1] for chunk in tx.read(kinds=["bought"]) for row in chunk] == [new.id]
        assert tx.get(new.id) == stored
        assert tx.head == Head(2, stored.hash)
        assert log.count() == 1
        assert log.get(new.id) is None


@pytest.mark.parametrize(
    "body",
    [
        "",
        "{",
        "[]",
        "1",
        '{"b":1,"a":2}',
        '{"a": 1}',
        '{"a":1.5}',
        '{"a":1e3}',
        '{"a":NaN}',
        '{"a":"\\u00e9"}',
        '{"a":1}\n{"a":2}',
        '{"a":1,"a":1}',
        '{"a":"x\\u0000"}',
        '{"a":"\x00"}',
        '{"a":"\ud800"}',
        '{"a":"\\ud800"}',
    ],
)
@WAYS
def test_body_that_is_not_canonical_is_refused(log, body, way):
    new = event(body=body)
    with pytest.raises(InputError, match="body") as caught:
        write(log, way, event(), new, event())
    assert new.id in caught.value.field
    assert log.count() == 0


def test_backslash_before_u0000_is_no_nul(log):
    body = canonical({"note": "\\u0000 as people write it"})
    with log.writing() as tx:
        tx.append(event(body=body))
    assert rows(log)[0].body == body


@pytest.mark.parametrize("field", ["kind", "on", "at", "by", "replaces", "typed_at"])
@pytest.mark.parametrize("bad", ["a\0b", "\ud800"])
def test_text_that_cannot_be_kept_is_named(log, field, bad):
    with pytest.raises(InputError, match=field), log.writing() as tx:
        tx.append(event(**{field: bad}))
    assert log.count() == 0


def test_recorded_at_never_goes_back(log):
    with freeze_time("2026-09-02 10:00:00") as clock, log.writing() as tx:
        tx.append(event())
        clock.move_to("2026-09-01 10:00:00")
    with freeze_time("2026-08-01"), log.writing() as tx:
        tx.append(event(recorded_at="2020-01-01T00:00:00.000000Z"))
    with freeze_time("2026-10-01"), log.writing() as tx:
        tx.append_many([event(), event()])
    assert [one.recorded_at[:10] for one in rows(log)] == [
        "2026-09-02",
        "2026-09-02",
        "2026-10-01",
        "2026-10-01",
    ]


def test_empty_book_keeps_the_moments_given(log):
    with log.writing() as tx:
        tx.append(event(recorded_at="2020-01-01T00:00:00.000000Z"))
        tx.append_many([event(recorded_at="2020-01-02T02:00:00+02:00")])
    assert [one.recorded_at for one in rows(log)] == [
        "2020-01-01T00:00:00.000000Z",
        "2020-01-02T00:00:00.000000Z",
    ]


@pytest.mark.parametrize("moment", ["2019-01-01T00:00:00Z", "yesterday", "2021-01-01T00:00:00"])
def test_moment_that_does_not_follow_is_refused(log, moment):
    first = event(recorded_at="2020-01-01T00:00:00.000000Z")
    with pytest.raises(InputError, match="recorded_at"):
        write(log, "append", first, event(recorded_at=moment))
    assert log.count() == 0


def test_one_transaction_is_one_moment(log):
    with freeze_time("2026-09-02", auto_tick_seconds=5), log.writing() as tx:
        tx.append(event())
        tx.append_many([event(), event()])
    assert len({one.recorded_at for one in rows(log)}) == 1


def test_export_goes_verbatim_into_an_empty_book(store, log):
    with log.writing() as tx:
        tx.append_many(event(str(n)) for n in range(30))
    other = store.open("neighbours")
    with other.writing() as tx:
        for one in rows(log):
            tx.append_verbatim(one)
    assert rows(other) == rows(log)


def test_export_that_was_changed_is_refused(store, log):
    with log.writing() as tx:
        tx.append_many(event(str(n)) for n in range(3))
    first, second, third = rows(log)
    other = store.open("neighbours")
    for bad, why in [
        ([first, third], "number 2"),
        ([first, StoredEvent(*[*_parts(second)[:4], "2026-01-01", *_parts(second)[5:]])], "hash"),
        ([second], "number 1"),
    ]:
        with pytest.raises(InputError, match=why):
            write(other, "append_verbatim", *bad)
    with pytest.raises(InputError, match="empty"):
        write(log, "append_verbatim", first)
    assert other.count() == 0


def _parts(one):
    return [getattr(one, name) for name in COLUMNS]


text = st.text(st.characters(blacklist_categories=["Cs"], blacklist_characters="\0"), max_size=20)
bodies = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**63), 2**63) | text,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(text, inner, max_size=4),
    max_leaves=8,
)
new_events = st.builds(
    NewEvent,
    id=st.uuids().map(str),
    kind=text.filter(bool),
    v=st.integers(1, 99),
    on=st.dates(dt.date(1900, 1, 1)).map(str),
    body=st.dictionaries(text, bodies, max_size=5).map(canonical),
    at=st.none() | st.times().map(lambda t: t.strftime("%H:%M")),
    by=st.none() | text,
    replaces=st.none() | st.uuids().map(str),
    typed_at=st.none() | text,
)


@settings(
    max_examples=40,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(st.lists(new_events, max_size=6, unique_by=lambda one: one.id), st.booleans())
def test_append_then_read_is_identity(store, new, one_by_one):
    log = store.open(f"home {uuid.uuid4()}")
    with log.writing() as tx:
        if one_by_one:
            for one in new:
                tx.append(one)
        else:
            tx.append_many(new)
    names = ("id", "kind", "v", "on", "body", "at", "by", "replaces", "typed_at")
    assert [[getattr(one, n) for n in names] for one in rows(log)] == [
        [getattr(one, n) for n in names] for one in new
    ]


@pytest.mark.parametrize("id", ["\ud83d", "Größe", "a\0b", ""])
def test_what_can_be_no_id_is_no_event(log, id):
    assert log.get(id) is None
