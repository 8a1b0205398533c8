"""A trial shows what writing would give, and leaves the book as it was."""

from __future__ import annotations

import contextlib
import threading

import pytest

from ledger import Answers, Book, InputError
from ledger.door import Entry
from ledger.projections import PROJECTIONS
from ledger.replay import Replay

BATCH = {
    "makes": "plum butter",
    "method": "boiling water",
    "used": [{"item": "plum", "amount": "16 lb"}, {"item": "sugar", "amount": "3 lb"}],
    "made": [{"jars": 11, "jar": "half-pint jar"}],
}


@pytest.fixture
def stocked(book, fixed_day):
    book.write("bought", {"item": "sugar", "amount": "10 lb", "paid": "8.00"}, on="2026-09-01")
    book.write("harvested", {"item": "plum", "amount": "16 lb"}, on="2026-09-02")
    return book


def test_trial_costs_what_writing_then_costs(stocked):
    entry = Entry("put_up", BATCH, on="2026-09-02")
    _, state = stocked.trial(entry, Answers(yes=True))
    tried = PROJECTIONS["jar-cost"].build(state).records()
    stocked.enter(entry, Answers(yes=True))
    done = stocked.show("jar-cost").records()
    for record in (*tried, *done):
        for name in ("why", "lot", "batch"):
            record.pop(name)
    assert tried == done
    assert tried[0]["cost"]["bought_ingredients"] == pytest.approx(2.40)


def test_trial_leaves_book_and_answers_alone(stocked):
    head, shelf = stocked.log.head(), stocked.show("shelf").records()
    written, _ = stocked.trial(Entry("put_up", BATCH, on="2026-09-02"), Answers(yes=True))
    assert written.event.kind == "put_up"
    assert stocked.log.head() == head
    assert stocked.show("shelf").records() == shelf
    assert stocked.show("jar-cost").records() == []
    assert stocked.catalogue().is_item("plum butter") is False


def test_trial_refuses_as_writing_would(stocked):
    head = stocked.log.head()
    with pytest.raises(InputError):
        stocked.trial(Entry("put_up", {**BATCH, "method": "boiled"}), Answers(yes=True))
    assert stocked.log.head() == head


def test_what_another_writes_between_replay_and_trial_is_taken_in(tmp_path, monkeypatch):
    path = tmp_path / "book.sqlite"

    def picked(pounds, on):
        line = {"item": "plum", "amount": f"{pounds} lb"}
        return Entry("harvested", {"lines": [line]}, on=on)

    with Book.open(path) as book, Book.open(path) as other:
        book.enter(picked(20, "2026-08-01"), Answers())
        book.state()
        taken_in = Replay.refresh

        def and_then_another_writes(self, progress=None, upto=None):
            done = taken_in(self, progress)
            monkeypatch.setattr(Replay, "refresh", taken_in)
            other.enter(picked(5, "2026-08-02"), Answers())
            return done

        monkeypatch.setattr(Replay, "refresh", and_then_another_writes)
        _, then = book.trial(picked(3, "2026-08-03"), Answers())
        assert then.lots["whole"].tolist() == [9071847, 2267962, 1360777]
        assert other.show("shelf", as_of="2026-08-03").frame["left.whole"].sum() == 11339809


def test_trial_that_is_tried_again_waits_for_no_writer_who_waits_for_it(tmp_path, monkeypatch):
    """A writer has the log's turn and wants the book's, which a trial must not hold as it asks for the log's."""
    threads, writes = [], threading.Event()
    with Book.open(tmp_path / "book.sqlite") as book:

        def pick(pounds):
            line = {"item": "plum", "amount": f"{pounds} lb"}
            return book.write("harvested", {"lines": [line]}, on="2026-08-01")

        pick(20)
        writing, tries = book.log.writing, []

        @contextlib.contextmanager
        def in_the_way(what):
            if what != "trial":
                with writing(what) as tx:
                    writes.set()
                    yield tx
                return
            tries.append(what)
            if len(tries) == 2:
                writes.clear()
                threads.append(threading.Thread(target=pick, args=(7,)))
                threads[0].start()
                assert writes.wait(60)  # it has the log's turn
            with contextlib.ExitStack() as after:
                if len(tries) == 1:  # another writes and asks before the trial can go on
                    after.callback(book.replay)
                    after.callback(pick, 5)
                with writing(what) as tx:
                    yield tx

        monkeypatch.setattr(book.log, "writing", in_the_way)
        entry = Entry("harvested", {"lines": [{"item": "plum", "amount": "3 lb"}]}, on="2026-08-03")
        _, then = book.trial(entry, Answers())
        threads[0].join(60)
        assert len(tries) == 2
        assert then.lots["whole"].tolist() == [9071847, 2267962, 3175147, 1360777]
        assert len(book.history(kind="harvested")) == 3
