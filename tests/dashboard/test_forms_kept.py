"""Forms: an entry corrected by its own form, unchanged, is stored as it was."""

from __future__ import annotations

import tempfile
import uuid
from pathlib import Path

import pytest
from form_tools import accept_all, every_box
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import books

from dashboard.ask import words_of
from dashboard.data import Data
from dashboard.forms.reading import Typed
from dashboard.forms.specs import FORMS
from dashboard.forms.writing import write_form
from ledger import Answers, Book
from ledger.kinds import decode_stored

HOW_SAID = {"basis", "measure", "per", "times"} | {
    f"trimmed_{name}" for name in ("measure", "per", "times")
}


def plain(body, named):
    """Return a body as a correction must give it again.

    Labels that an import gave as texts are numbers when typed; a merged item has its name of now.
    """
    if isinstance(body, list):
        return [plain(one, named) for one in body]
    if not isinstance(body, dict):
        return body
    as_text = {"from": str, "to": str, "item": named}
    # what the first version stored in the item's measure is stored as it was said
    left_out = HOW_SAID if {"basis", "whole"} & set(body) else set()
    return {
        key: as_text.get(key, lambda v: plain(v, named))(value)
        for key, value in body.items()
        if key not in left_out
    }


def corrected(data, row):
    """Return an entry's body, and its body after it was corrected by its own form unchanged."""
    event = data.book.log.get(row.id)
    body = decode_stored(event.kind, event.v, event.body)
    said = every_box(data, row.kind, body=body, on=event.on, replaces=row.id)
    typed = Typed(row.kind, day=event.on, by=event.by, id=str(uuid.uuid4()), replaces=row.id, boxes=said)  # fmt: skip
    outcome = accept_all(lambda accepted: write_form(data, words_of(data), typed, accepted))
    assert outcome.written is not None, (row.line, outcome)
    assert outcome.written.is_new
    return body, outcome.written.body


def holding(data):
    return [row for row in data.history() if row.state == "holds" and row.kind in FORMS]


@pytest.fixture(scope="module")
def own_demo(demo_file, tmp_path_factory):
    path = tmp_path_factory.mktemp("own") / "book.sqlite"
    path.write_bytes(demo_file.read_bytes())
    with Book.open(path) as book:
        data = Data(book)
        yield data, holding(data)


def by_fields(data, rows):
    """Return rows by kind and by which fields their bodies have, at every depth."""

    def shape(part):
        if isinstance(part, dict):
            return tuple((key, shape(part[key])) for key in sorted(part))
        return (
            tuple(sorted({shape(one) for one in part}, key=repr)) if isinstance(part, list) else ""
        )

    found = {}
    for row in rows:
        event = data.book.log.get(row.id)
        found.setdefault((row.kind, shape(decode_stored(event.kind, event.v, event.body))), row)
    return found


def test_every_sort_of_entry_of_the_sample_book_survives_its_form(own_demo, fixed_day):
    """One entry of each kind and of each set of fields that its body may have."""
    data, rows = own_demo
    chosen = by_fields(data, rows)
    assert {kind for kind, _ in chosen} == set(FORMS)
    for row in chosen.values():
        before, after = (plain(body, str) for body in corrected(data, row))
        assert after == before, row.line
    assert len(chosen) > 60


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(n=st.integers(0, 10_000))
def test_any_entry_of_the_sample_book_survives_its_form(own_demo, fixed_day, n):
    data, rows = own_demo
    row = rows[n % len(rows)]
    latest = next(one for one in reversed(data.history()) if one.id == row.id)
    if latest.state == "holds":
        before, after = (plain(body, str) for body in corrected(data, latest))
        assert after == before, row.line


def can_be_typed(body, named):
    """Return whether a body can be typed at all: an import may bring what nobody can write.

    Left out are lots with spaces in their names, weights of units that nothing is known of by now,
    jars of one batch with lids of their own (neither the command nor the form has a place for them),
    and descriptions of what has become another item's name since.
    """
    if "sort" in body and named(body["item"]) != body["item"]:
        return False
    lids = {made["lids"] for made in body.get("made", ()) if "lids" in made}
    parts = [one for part in body.values() for one in (part if isinstance(part, list) else [part])]
    lines = [one for one in parts if isinstance(one, dict)]
    return (
        lids <= {body.get("lids", "lid")}
        and all(one.get("basis", "exact") == "exact" and " " not in one.get("lot", "") for one in [body, *lines])
    )  # fmt: skip


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(books(max_size=20))
def test_random_entries_survive_their_forms(random):
    with tempfile.TemporaryDirectory() as folder, Book.open(Path(folder) / "b.sqlite") as book:
        # whether a batch may be settled depends on how it stands by then: that has tests of its own
        left_out = {e["id"] for e in random if e["kind"] == "checked"}
        events = (
            {k: v for k, v in e.items() if v is not None and k != "seq"}
            for e in random
            if not left_out & {e["id"], e["replaces"], e["body"].get("id")}
        )
        done = book.import_events(
            ((n, 0, e) for n, e in enumerate(events, 1)), answers=Answers(yes=True)
        )
        assert done.bad == []
        data, named = Data(book), book.catalogue().name
        for row in holding(data):
            event = book.log.get(row.id)
            if can_be_typed(decode_stored(event.kind, event.v, event.body), named):
                before, after = corrected(data, row)
                assert plain(after, named) == plain(before, named), row.line
