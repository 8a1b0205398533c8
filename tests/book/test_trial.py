"""A trial shows what writing would give, and leaves the book as it was."""

from __future__ import annotations

import pytest

from ledger import Answers, InputError
from ledger.door import Entry
from ledger.projections import PROJECTIONS

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
