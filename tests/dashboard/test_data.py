"""The data door: an answer is worked out once for an end of the log, a day and a moment; threads may ask."""

from __future__ import annotations

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from freezegun import freeze_time

from dashboard.data import NOW, Data, Moment
from ledger.errors import InputError, NotFound

PLUM = {"item": "plum", "amount": "31 lb"}


@pytest.fixture
def data(book, fixed_day):
    book.write("harvested", PLUM, on="2026-09-02")
    return Data(book)


@pytest.fixture
def asked(data, monkeypatch):
    """Return the list of questions that reached the book."""
    seen, show = [], data.book.show

    def counted(name, **options):
        seen.append((name, options))
        return show(name, **options)

    monkeypatch.setattr(data.book, "show", counted)
    return seen


def left(data, **more):
    frame = data.show("shelf", **more).frame
    return frame.set_index("item")["left.text"].to_dict()


def test_same_question_is_worked_out_once(data, asked):
    first = data.show("shelf", items=True)
    assert data.show("shelf", items=True) is first
    assert data.show("shelf") is not first
    assert len(asked) == 2


def test_new_event_gives_a_new_answer(data, asked):
    assert left(data) == {"plum": "31 lb"}
    data.book.write("eaten", {"ate": [{"item": "plum", "amount": "1 lb"}]}, on="2026-09-03")
    assert left(data) == {"plum": "30 lb"}
    assert len(asked) == 2


def test_refused_event_changes_no_answer(data, asked):
    first = data.show("shelf")
    with pytest.raises(InputError):
        data.book.write("harvested", {"item": "plum", "amount": "-3 lb"})
    assert data.show("shelf") is first


def test_next_day_is_another_answer(data, asked):
    data.show("shelf")
    with freeze_time("2026-11-02 12:00"):
        assert data.show("shelf").as_of == "2026-11-02"
    assert len(asked) == 2


def test_moments_and_options_are_kept_apart(data):
    data.book.write("eaten", {"ate": [{"item": "plum", "amount": "1 lb"}]}, on="2026-09-10")
    assert left(data, moment=Moment(as_of="2026-09-05")) == {"plum": "31 lb"}
    assert left(data, moment=Moment(as_of="2026-09-01")) == {}
    assert left(data, moment=Moment(known_at="2026-10-01")) == {}
    assert left(data) == left(data, moment=NOW) == {"plum": "30 lb"}
    assert left(data, moment=Moment(as_of="2026-09-05")) == {"plum": "31 lb"}
    assert NOW.is_now
    assert not Moment(known_at="2026-10-01").is_now


def test_option_that_only_looks_the_same_is_another_one(data, asked):
    made = []
    for key in (1, "1", True):
        data.kept(("mine", repr(key)), lambda key=key: made.append(key))
    assert made == [1, "1", True]


def test_refusal_is_not_kept(data):
    for _ in range(2):
        with pytest.raises(NotFound, match="no question"):
            data.show("no-such")
        with pytest.raises(InputError):
            data.show("season", season="x")


def test_few_answers_are_kept_and_the_ones_used_last_stay(data):
    made = []
    for n in range(70):
        data.kept((n,), lambda n=n: made.append(n))
        data.kept((0,), lambda: made.append(0))
    assert made == list(range(70))
    data.kept((1,), lambda: made.append(1))
    assert made[-1] == 1
    assert len(data._kept) <= 64


def test_two_phones_that_ask_at_once_are_answered_by_one_reckoning(data, asked):
    together = threading.Barrier(8)

    def ask(_):
        together.wait()
        return data.show("shelf")

    with ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(ask, range(8)))
    assert len({id(answer) for answer in answers}) == 1
    assert len(asked) == 1


def test_phones_that_ask_while_others_write_see_whole_entries(data):
    """Amounts seen never go back, and each belongs to an end of the log that there was."""
    writes, faults, seen = 12, [], {n: [] for n in range(4)}
    before = data.position()
    done = threading.Event()

    def reader(n):
        try:
            while not done.is_set():
                seen[n].append(float(data.show("shelf").frame["left.whole"].sum()))
                data.history()
        except Exception as error:
            faults.append(error)

    def writer(n):
        try:
            for i in range(writes):
                body = {"item": "plum", "amount": f"{i + 1} lb", "bed": f"bed {n}"}
                data.book.write("harvested", body, on="2026-09-03")
        except Exception as error:
            faults.append(error)

    readers = [threading.Thread(target=reader, args=(n,)) for n in seen]
    writers = [threading.Thread(target=writer, args=(n,)) for n in range(2)]
    for thread in (*readers, *writers):
        thread.start()
    for thread in writers:
        thread.join()
    done.set()
    for thread in readers:
        thread.join()
    assert faults == []
    assert data.position() == before + 2 * writes
    grams = 453.59237 * (31 + 2 * sum(range(1, writes + 1)))
    assert data.show("shelf").frame["left.whole"].sum() / 1000 == pytest.approx(grams, abs=0.1)
    sums = [31 + sum(range(1, i + 1)) + sum(range(1, j + 1)) for i in range(13) for j in range(13)]
    for amounts in seen.values():
        assert amounts == sorted(amounts)
        assert {round(amount / 453_592.37) for amount in amounts} <= set(sums)
    assert data.book.check().is_whole


def test_settings_and_day_are_the_households(data):
    assert data.setting("measures", "us") == "us"
    data.book.write("setting_changed", {"name": "measures", "value": "metric"}, on="2026-09-02")
    data.book.write(
        "setting_changed", {"name": "time_zone", "value": "Pacific/Auckland"}, on="2026-09-02"
    )
    assert data.setting("measures", "us") == "metric"
    assert data.today().isoformat() == "2026-11-02"  # there it is tomorrow at noon UTC


def test_history_grows_as_the_book_tells_it_anew(data):
    """Entries, corrections, strikes and what restores them, each after the last was looked at."""
    book = data.book

    def same():
        assert data.history() == book.history()
        return book.history()[0].id

    plum = same()
    book.write("bought", {"item": "sugar", "amount": "10 lb", "paid": "7.90"}, on="2026-09-02")
    sugar = same()
    book.write("harvested", {**PLUM, "amount": "13 lb"}, on="2026-09-02", replaces=plum)
    same()
    book.strike(sugar, "written twice")
    same()
    book.write("harvested", PLUM, on="2026-09-02")
    book.write("harvested", PLUM, on="2026-09-02")
    same()
    assert {row.state for row in data.history()} == {"holds", "corrected", "struck"}


def test_history_of_an_empty_book_begins_with_its_first_entry(book, fixed_day):
    data = Data(book)
    assert data.history() == []
    book.write("harvested", PLUM, on="2026-09-02")
    assert [row.kind for row in data.history()] == ["harvested", "item_described"]


def test_newest_bodies_are_those_of_the_log_whatever_was_read_before(data):
    import json

    def told(many):
        rows = [row for chunk in data.book.log.read() for row in chunk]
        return [(row[2], json.loads(row[10])) for row in rows[::-1][:many]]

    for n in range(7):
        if n:
            data.book.write("harvested", {"item": "plum", "amount": f"{n} lb"}, on="2026-09-03")
        if n in (1, 2, 6):  # several come in between, more than are asked for
            assert data.newest(2) == told(2)
            assert data.newest(4) == told(4)
