"""The public face: opening, short ids, history, threads, days, checks and backups."""

from __future__ import annotations

import json
import threading
import tracemalloc

import pytest

import ledger
from ledger import Answers, Book, InputError, NeedsAnswer
from ledger.errors import BookError, BookReadOnly, NotABook, NotFound

PLUM = {"item": "plum", "amount": "3 lb"}


def test_public_names_are_sorted_and_there():
    assert ledger.__all__ == sorted(ledger.__all__)
    assert all(hasattr(ledger, name) for name in ledger.__all__)
    with pytest.raises(AttributeError):
        ledger.nothing_of_the_kind  # noqa: B018


def test_book_is_found_by_the_environment(tmp_path, monkeypatch):
    monkeypatch.setenv("CROFTBOOK", str(tmp_path / "ours.sqlite"))
    with Book.open() as book:
        assert book.log.path == tmp_path / "ours.sqlite"


def test_missing_book_is_not_made_when_it_should_be_there(tmp_path):
    with pytest.raises((BookError, InputError)):
        Book.open(tmp_path / "none.sqlite", create=False)
    assert not (tmp_path / "none.sqlite").exists()


def test_file_of_another_kind_is_no_book(tmp_path):
    path = tmp_path / "letter.txt"
    path.write_text("Dear Ada, the plums are ripe. " * 50)
    before = path.read_bytes()
    with pytest.raises(NotABook):
        Book.open(path).write("harvested", PLUM)
    assert path.read_bytes() == before


def test_short_id_is_enough_where_it_is_one(book, fixed_day):
    written = book.write("harvested", PLUM)
    assert book.find(written.event.id[:8].upper()) == written.event.id
    assert book.strike(written.event.id[:8], "never was").body["id"] == written.event.id
    for short in ("0000", "ffffffff-0"):
        with pytest.raises(NotFound):
            book.find(short)
    with pytest.raises(NotFound, match="not an id"):
        book.find("plum")


def test_id_that_begins_several_is_refused(book, fixed_day):
    for last in "12":
        book.write("harvested", PLUM, id=f"5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c1{last}")
    with pytest.raises(NotFound, match="2 ids begin"):
        book.find("5f0c0a0e")


def test_history_says_what_became_of_each_event(book, fixed_day):
    first = book.write("harvested", PLUM).event.id
    second = book.write("harvested", {**PLUM, "amount": "4 lb"}, replaces=first).event.id
    strike = book.strike(first, "never was").event.id
    assert states(book) == {first: "corrected", second: "corrected", strike: "holds"} | {
        first: "struck", second: "struck",
    }  # fmt: skip
    third = book.write("harvested", PLUM, replaces=second).event.id
    assert states(book) == {
        first: "corrected", second: "corrected", strike: "corrected", third: "holds",
    }  # fmt: skip
    assert {row.entry for row in book.history() if row.kind != "item_described"} == {first}


def states(book):
    return {row.id: row.state for row in book.history() if row.kind != "item_described"}


def test_history_of_one_item_follows_its_names(book, fixed_day):
    book.write("harvested", PLUM)
    book.write("bought", {"item": "sugar", "amount": "1 lb", "paid": 1})
    book.write("item_described", {"item": "plum", "sort": "food", "also": ["zwetschge"]})
    assert [row.kind for row in book.history(item="Zwetschge")] == [
        "item_described", "harvested", "item_described",
    ]  # fmt: skip


def test_python_numbers_and_days_are_written_as_typed(book, fixed_day):
    import datetime as dt
    from decimal import Decimal

    line = {"item": "sugar", "amount": "1 lb", "paid": 3.4}
    written = book.write("bought", line, on=dt.date(2026, 9, 2))
    assert (written.event.on, written.body["lines"][0]["paid"]) == ("2026-09-02", "3.4")
    priced = book.write("price_seen", item="sugar", amount="1 lb", price=Decimal("1E+1"))
    assert priced.body["price"] == "10"


def test_today_is_the_households(book, fixed_day):
    fixed_day.move_to("2026-11-02 03:00:00")
    book.write("setting_changed", {"name": "time_zone", "value": "America/Denver"})
    assert book.today().isoformat() == "2026-11-01"
    assert book.write("harvested", PLUM).event.on == "2026-11-01"


def test_refused_entry_leaves_nothing_learnt(book, fixed_day):
    lines = [{"item": "quince", "amount": "1 lb"}, {"item": "medlar", "amount": "3 smidgen"}]
    with pytest.raises(InputError):
        book.write("harvested", {"lines": lines})
    assert book.log.position() == 0
    assert not book.catalogue().is_item("quince")


def test_writers_in_several_threads_lose_nothing(book, fixed_day):
    failed = []

    def work(name):
        try:
            for _ in range(8):
                book.write("harvested", {"item": name, "amount": "1 lb"}, by=name)
                book.show("shelf")
        except Exception as error:
            failed.append(error)

    threads = [threading.Thread(target=work, args=(n,)) for n in ("plum", "bean", "garlic")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failed == []
    assert book.log.position() == 3 * 8 + 3
    assert book.check().is_whole


def test_another_process_writing_is_taken_in(tmp_path, fixed_day):
    with Book.open(tmp_path / "b.sqlite") as one, Book.open(tmp_path / "b.sqlite") as other:
        one.write("harvested", PLUM)
        assert other.catalogue().is_item("plum")
        first = other.write("harvested", PLUM).event.id
        one.strike(first, "never was")
        with pytest.raises(InputError, match="taken back already"):
            other.strike(first, "again")


def test_count_on_an_impossible_day_is_one_message(book, fixed_day):
    book.write("harvested", PLUM)
    with pytest.raises(InputError) as refused:
        book.write("counted", PLUM, on="2026-02-30")
    assert refused.value.field == "on"


def test_import_reports_counts_that_named_lots_contradict(book, fixed_day, tmp_path):
    written = book.write("harvested", {"item": "plum", "amount": "30 lb"}, on="2026-09-01")
    ate = {"item": "plum", "amount": "20 lb", "lot": f"{written.event.id}:1"}
    book.write("eaten", {"ate": [ate]}, on="2026-09-10")
    path = tmp_path / "count.jsonl"
    body = {"item": "plum", "amount": "5 lb"}
    path.write_text(json.dumps({"kind": "counted", "on": "2026-09-05", "body": body}))
    done = book.import_file(path)
    assert (done.written, done.bad) == (1, [])
    assert "count of plum is less" in done.notes[-1]
    with pytest.raises(NeedsAnswer):
        book.write("counted", body, on="2026-09-05")


def test_read_only_book_says_so_once(book, fixed_day, tmp_path):
    book.write("harvested", PLUM)
    path = tmp_path / "more.jsonl"
    path.write_text(json.dumps({"kind": "harvested", "on": "2026-09-05", "body": PLUM}))
    book.log.read_only = True
    with pytest.raises(BookReadOnly):
        book.import_file(path, keep_good=True)


def test_trouble_with_the_book_is_no_bad_line(book, fixed_day, tmp_path, monkeypatch):
    from ledger.door import importing

    def full(*_args):
        raise BookReadOnly("the disk is full")

    monkeypatch.setattr(importing, "write", full)
    path = tmp_path / "more.jsonl"
    path.write_text(json.dumps({"kind": "harvested", "on": "2026-09-05", "body": PLUM}))
    with pytest.raises(BookReadOnly):
        book.import_file(path, keep_good=True)


def test_bad_line_kept_out_leaves_no_item_behind(book, fixed_day, tmp_path):
    path = tmp_path / "half.jsonl"
    lines = [{"item": "quince", "amount": "1 lb"}, {"item": "medlar", "amount": "nothing"}]
    event = {"kind": "harvested", "on": "2026-09-05"}
    path.write_text(
        json.dumps({**event, "body": {"lines": lines}}) + "\n" + json.dumps({**event, "body": PLUM})
    )
    done = book.import_file(path, keep_good=True)
    assert (done.written, done.bad_count, done.described) == (1, 1, 1)
    assert book.catalogue().names() == ["plum"]


def test_bad_lines_are_told_up_to_some_hundreds(book, fixed_day, tmp_path):
    path = tmp_path / "bad.jsonl"
    path.write_text("{\n" * 1000)
    done = book.import_file(path)
    assert (done.bad_count, len(done.bad), done.bad[-1].number) == (1000, 300, 300)


def test_memory_of_an_import_does_not_grow_with_the_file(tmp_path, fixed_day):
    def peak(events):
        path = tmp_path / f"{events}.jsonl"
        lot = {"item": "plum", "amount": "1 lb", "lot": "S26-041"}  # a note for every line
        event = {"kind": "eaten", "on": "2026-09-05", "body": {"ate": [lot]}}
        path.write_text((json.dumps(event) + "\n") * events)
        with Book.open(tmp_path / f"{events}.sqlite") as book:
            tracemalloc.start()
            try:
                done = book.import_file(path, answers=Answers())
                assert (done.written, len(done.notes)) == (events, 1000)
                assert done.more_notes == events - 1000
                return tracemalloc.get_traced_memory()[1]
            finally:
                tracemalloc.stop()

    peak(1_000)  # what is loaded once
    assert peak(6_500) < 1.3 * peak(4_000)  # from 5,000 on it is as good as flat


def test_progress_tells_bytes_read(book, fixed_day, tmp_path):
    path = tmp_path / "long.jsonl"
    line = json.dumps({"kind": "harvested", "on": "2026-09-05", "body": PLUM}) + "\n"
    path.write_text(line * 1200)
    seen = []
    book.import_file(path, progress=seen.append)
    assert seen == [500 * len(line), 1000 * len(line)]


def test_backup_is_a_book(book, fixed_day, tmp_path):
    book.write("harvested", PLUM)
    book.backup(tmp_path / "copy.sqlite")
    with Book.open(tmp_path / "copy.sqlite") as copy:
        assert copy.log.head() == book.log.head()
        assert copy.check(head=tmp_path / "copy.sqlite").is_whole


@pytest.mark.parametrize("kind", [["null"], {"kind": "bought"}, 7, None])
def test_a_kind_that_is_no_text_is_refused(book, kind):
    """Found by fuzzing the Python door at its full count."""
    with pytest.raises(InputError, match="not a text"):
        book.write(kind, {"item": "plum"})
    assert book.log.position() == 0


def test_a_day_that_is_none_is_refused(book):
    book.write("harvested", item="plum", amount="3 lb", on="2026-09-01")
    with pytest.raises(InputError, match="not a day"):
        book.write("counted", {"item": "plum", "amount": "2 lb"}, on=10**30)
