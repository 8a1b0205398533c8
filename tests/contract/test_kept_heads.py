"""The head kept on every commit: what happened to the end of a book is noticed on opening it."""

from __future__ import annotations

import json
import stat

import pytest
from conftest_events import event
from test_checking import tamper

from ledger.errors import BookDamaged
from ledger.log import verify


@pytest.fixture
def filled(log):
    with log.writing() as tx:
        tx.append_many(event(str(n)) for n in range(50))
    return log


def refused(log):
    before = log.head()
    with pytest.raises(BookDamaged, match="Nothing was written") as caught, log.writing() as tx:
        tx.append(event())
    assert log.head() == before
    return str(caught.value)


def test_head_is_kept_on_each_commit(filled):
    for _ in range(3):
        with filled.writing() as tx:
            tx.append(event())
        kept = filled.keeper.read()["home"]
        assert kept.head == filled.head()
        assert filled.standing().is_known
        assert filled.standing().fault == ""
    report = verify(filled)
    assert (report.tail, report.reasons) == ("whole as far as the kept head tells", [])


def test_what_is_undone_keeps_no_head(filled):
    before = filled.keeper.read()["home"].head
    with pytest.raises(ZeroDivisionError), filled.writing() as tx:
        _ = tx.append(event()).seq / 0
    assert filled.keeper.read()["home"].head == before == filled.head()


def test_head_file_is_for_its_owner_alone(filled):
    file = filled.keeper.file
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert stat.S_IMODE(file.parent.stat().st_mode) == 0o700


def test_each_household_has_its_own(store, filled):
    other = store.open("other")
    with other.writing() as tx:
        tx.append(event())
    assert other.keeper.read().keys() == {"home", "other"}
    tamper(store, "DELETE FROM events WHERE household = 'other'")
    assert "holds no entries of other, and held 1" in store.open("other").standing().fault
    assert store.open().standing().fault == ""


def test_cut_off_tail_is_noticed_on_opening(store, filled):
    tamper(store, "DELETE FROM events WHERE seq > 45")
    again = store.open()
    standing = again.standing()
    assert standing.missing == 5
    for part in ("ends at event 45", "held 50", "5 events are missing", "croftbook restore"):
        assert part in standing.fault
    assert "45" in refused(again)
    report = verify(again)
    assert (report.tail, report.whole) == ("cut off after 45", False)
    assert any("5 events are missing" in reason for reason in report.reasons)
    assert sum(len(chunk) for chunk in again.read()) == 45


def test_book_that_was_emptied_is_noticed(store, filled):
    tamper(store, "DELETE FROM events")
    again = store.open()
    assert "50 events are missing" in again.standing().fault
    refused(again)


def test_chain_written_anew_is_noticed_on_opening(store, filled):
    tamper(store, "DELETE FROM events WHERE seq > 30")
    with store.open(keeps_head=False).writing() as tx:
        tx.append_many(event() for _ in range(40))
    again = store.open()
    assert "Event 50" in again.standing().fault
    assert "changed or replaced" in refused(again)
    report = verify(again)
    assert (report.first_bad, report.tail) == (None, "rewritten at or before 50")


def test_book_that_went_on_elsewhere_is_well(store, filled):
    with store.open(keeps_head=False).writing() as tx:
        tx.append_many(event() for _ in range(7))
    assert filled.standing().fault == ""
    with filled.writing() as tx:
        tx.append(event())
    assert filled.keeper.read()["home"].head.seq == 58


def test_unknown_head_is_said_not_to_be_known(store, filled):
    filled.keeper.file.unlink()
    assert not filled.standing().is_known
    report = verify(filled)
    assert (report.tail, report.is_head_known, report.whole) == ("no head kept", False, True)
    with filled.writing() as tx:
        tx.append(event())
    assert filled.standing().is_known


def test_every_flipped_bit_of_the_head_file_is_noticed_or_harmless(filled):
    raw = filled.keeper.file.read_bytes()
    kept = filled.keeper.read()
    noticed = 0
    for at in range(0, len(raw) * 8, 7):
        flipped = bytearray(raw)
        flipped[at // 8] ^= 1 << at % 8
        filled.keeper.file.write_bytes(bytes(flipped))
        found = filled.keeper.read()
        assert found is None or found == kept
        noticed += found is None
    assert noticed > len(raw)
    assert "is damaged" in refused(filled)
    assert verify(filled).tail == "not told: the kept head is damaged"


def test_head_file_of_something_else_is_noticed(filled):
    for text in ("", "[]", "{", json.dumps({"sum": "x"}), "[" * 100_000):
        filled.keeper.file.write_text(text)
        assert "damaged" in filled.standing().fault


def test_missing_guards_are_noticed_on_opening_and_set_anew(store, filled):
    tamper(store)
    again = store.open()
    assert again.faults
    assert "guards" in refused(again)
    assert any("guards" in reason for reason in verify(again).reasons)


def test_changed_guard_is_noticed(store, filled):
    if store.name != "sqlite":
        pytest.skip("on a server it is its enabling that is looked at")
    with store.bare() as raw:
        raw.execute("DROP TRIGGER events_stay")
        raw.execute(
            "CREATE TRIGGER events_stay BEFORE UPDATE ON events BEGIN SELECT 'nothing'; END"
        )
        raw.execute("CREATE TRIGGER mine AFTER INSERT ON events BEGIN SELECT 'more'; END")
    faults = " ".join(store.open().faults)
    assert "changed: events_stay" in faults
    assert "no part of a book: mine" in faults
