"""Door and replay know the same of a book: items, names, settings, labels and entries."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import event, given, settings
from hypothesis import strategies as st

from ledger import Answers, Book
from ledger.days import day_number
from ledger.errors import LedgerError
from ledger.items import ItemFacts
from ledger.kinds import KINDS
from ledger.known import Catalogue

NAMES = ("plum", "Prune plum", "zwetschge", "garlic", "Knoblauch", "sugar")
STRUCK = list(KINDS).index("struck")
DAYS = ("2026-03-01", "2026-03-02", "2026-09-02")
TIMES = (None, "08:00", "18:30")

described = st.fixed_dictionaries(
    {"item": st.sampled_from(NAMES), "sort": st.sampled_from(["food", "supply"])},
    optional={
        "also": st.lists(st.sampled_from(NAMES), min_size=1, max_size=2),
        "measure": st.sampled_from(["mass", "volume", "count"]),
        "g_per": st.dictionaries(st.sampled_from(["clove", "cup"]), st.just("5"), min_size=1),
        "uses": st.sampled_from(["3", "20"]),
        "keeps": st.just({"shelf": "12 months"}),
    },
)
changed = st.one_of(
    st.fixed_dictionaries(
        {"name": st.just("altitude"), "value": st.sampled_from(["10 ft", "2600 ft", "900 m"])}
    ),
    st.fixed_dictionaries({"name": st.just("people"), "value": st.sampled_from(["2", "6"])}),
)
steps = st.lists(
    st.tuples(
        st.sampled_from(["new", "new", "correct", "strike"]),
        st.one_of(
            st.tuples(st.just("item_described"), described),
            st.tuples(st.just("setting_changed"), changed),
        ),
        st.sampled_from(DAYS),
        st.sampled_from(TIMES),
        st.integers(0, 7),
    ),
    max_size=10,
)


def take(book, step, written):
    """Write one step down; what the door refuses is none."""
    what, (kind, body), on, at, which = step
    old = written[which % len(written)] if written else None
    try:
        if what == "new" or old is None:
            one = book.write(kind, body, on=on, at=at, answers=Answers(yes=True))
            written.append((kind, one.event.id))
        elif what == "strike":
            book.write("struck", {"id": old[1], "why": "a slip"}, on=on)
        elif old[0] == kind:
            more = {"replaces": old[1], "answers": Answers(yes=True)}
            book.write(kind, body, on=on, at=at, **more)
    except LedgerError as error:
        event(f"refused: {type(error).__name__}")


def fresh(book):
    """Return a catalogue that reads the whole log in one go."""
    out = Catalogue()
    out.refresh(book.log, book.log.head().seq)
    return out


def same(catalogue, state, book):
    for name in NAMES:
        number = state.facts.find(name)
        known = None if number is None else state.facts.facts[number]
        # an item that was taken back is still a name of the log, of which nothing is known
        assert (catalogue.facts(name) or ItemFacts()) == (known or ItemFacts()), name
        assert catalogue.key(name) == state.facts.canonical(catalogue.key(name))
        if catalogue.facts(name) is not None:
            assert catalogue.name(name) == state.facts.names[number]
    for name in ("altitude", "people"):
        assert catalogue.setting(name) == state.settings.newest(name)
        for day in (*DAYS, "2025-01-01", "2027-01-01"):
            assert catalogue.setting(name, day) == state.settings.on(name, day_number(day)), day
    entries, journal = catalogue.entries(book.log), state.journal
    roots, kinds = (journal.tables["events"][one].tolist() for one in ("root", "kind"))
    for ev, kind in enumerate(kinds):
        if kind != STRUCK:
            assert entries.root(journal.id_of(ev)) == journal.id_of(roots[ev])


@given(steps)
@settings(max_examples=30)
def test_both_know_the_same_items_settings_and_entries(several):
    with tempfile.TemporaryDirectory() as folder, Book.open(Path(folder) / "book.sqlite") as book:
        written = []
        for step in several:
            take(book, step, written)
            book.catalogue().names()  # asked between, as commands and forms ask
        state = book.state(as_of="2030-01-01")
        same(book.catalogue(), state, book)
        same(fresh(book), state, book)


@pytest.mark.parametrize("order", [("08:00", "18:30"), ("18:30", "08:00")])
def test_of_one_day_the_later_time_holds(book, order):
    """Rule 2 orders a day by the time of day, whichever was written down first."""
    for at in order:
        book.write("setting_changed", {"name": "people", "value": at[1]}, on="2026-03-01", at=at)
    assert book.catalogue().setting("people") == "8"
    assert book.state().settings.newest("people") == "8"


@pytest.mark.parametrize("label", ["041", "S26-041", "S26-41", "9" * 20, "S26-" + "9" * 16])
def test_a_label_is_split_alike(book, yes, label):
    """What the door takes for a jar's label is what replay finds by it."""
    made = [{"jars": 3, "jar": "pint jar", "labels": {"from": "S26-041", "to": "S26-043"}}]
    body = {"makes": "plum jam", "method": "freeze", "used": [], "made": made}
    book.write("put_up", body, on="2026-03-01", answers=yes)
    line = {"item": "plum jam", "amount": "1 pint jar", "lot": label}
    try:
        book.write("eaten", {"ate": [line]}, on="2026-03-02")
        is_taken = True
    except LedgerError:
        is_taken = False
        book.write("eaten", {"ate": [line]}, on="2026-03-02", answers=yes)
    assert is_taken == (max(book.state().flows.draws["named"]) >= 0)
