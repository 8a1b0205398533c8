"""How a batch stands to what is published: before it is written down, and the mark on its jars after."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.danger import said_of
from ledger.door import Answers, Entry, Written
from ledger.errors import LedgerError
from ledger.published import GRAVE
from ledger.questions.shared.batch_marks import gravest_by_entry

__all__ = ["Stands", "stands_so", "would_stand"]


@dataclass(frozen=True)
class Stands:
    """How a batch stands, as the note on it says so.

    Attributes
    ----------
    marks, links : list of components
        What its jars bear, which comes first; its standing, the way to its findings.
    """

    marks: list[Component] = field(default_factory=list)
    links: list[Component] = field(default_factory=list)


def stands_so(ask: Ask, written: Written) -> Stands:
    """Return how a batch just written stands; nothing for another kind of entry."""
    event, book = written.event, ask.data.book
    if event.kind != "put_up":
        return Stands()
    batch = book.catalogue().entries(book.log).root(event.id) if event.replaces else event.id
    words = ask.words
    day = max(event.on, ask.data.today().isoformat())
    mark = book.state(as_of=day).once(gravest_by_entry).get(batch)
    links = [
        dcc.Link(
            words("forms.standing", standing=words.word("answers", row["standing"])),
            href=f"/as-published?batch={batch}#batch",
        )
        for row in ask.show("as-published", batch=batch).rows()
    ]
    marks = []
    if mark is not None:
        kind = "marked" if mark.is_grave else "marked open"
        marks.append(html.P(words("forms.marked", mark=said_of(ask, mark.text)), className=kind))
    return Stands(marks, links)


def would_stand(ask: Ask, entry: Entry) -> str | None:
    """Return the words that a batch's jars would bear for good, were it written down so; else None.

    Nothing is written. Lots that other entries beside it bring in are not there yet, so none is named.
    """
    used = [
        {name: text for name, text in line.items() if name != "lot"}
        for line in entry.body.get("used", ())
    ]
    tried = replace(entry, body={**entry.body, "used": used}, id=None)
    try:
        written, state = ask.data.book.trial(tried, Answers(yes=True))
    except LedgerError:  # what is still open is asked, and refused by the door
        return None
    mark = state.once(gravest_by_entry).get(written.event.id)
    return said_of(ask, mark.text) if mark is not None and mark.standing in GRAVE else None
