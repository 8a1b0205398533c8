"""How a batch just written stands to what is published: the mark on its jars, and the way to its findings."""

from __future__ import annotations

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from ledger.door import Written
from ledger.questions.shared.standing import marks_by_entry

__all__ = ["stands_so"]


def stands_so(ask: Ask, written: Written) -> list[Component]:
    """Return what the jars of a batch just written bear, then its standing; nothing for another kind of entry."""
    event, book = written.event, ask.data.book
    if event.kind != "put_up":
        return []
    batch = book.catalogue().entries(book.log).root(event.id) if event.replaces else event.id
    words = ask.words
    day = max(event.on, ask.data.today().isoformat())
    mark = book.state(as_of=day).once(marks_by_entry).get(batch)
    links = [
        dcc.Link(
            words("forms.standing", standing=words.word("answers", row["standing"])),
            href=f"/as-published?batch={batch}#batch",
        )
        for row in ask.show("as-published", batch=batch).rows()
    ]
    marked = (
        html.P(words("forms.marked", mark=words.said(mark)), className="marked") if mark else None
    )
    return [one for one in (marked, html.P(links) if links else None) if one is not None]
