"""Out of which lots a batch took, where others could be meant: last year's apples, this year's."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from ledger.amounts import format_whole
from ledger.messages import Day, Names, measured, sentence
from ledger.replay import ORIGINS, day_text

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.door import Written
    from ledger.replay import State

__all__ = ["drawn", "left_alone"]

_FRESH = 7
"""Days: what came in so shortly before is likely what was meant. Our own choice."""
_LITTLE = 0.02
"""A part of what was taken that is no news: the rest of an old lot."""
_CAME = [ORIGINS.index(name) for name in ("grown", "foraged", "given")]


def drawn(book: Book, written: Written) -> list[str]:
    """Return a sentence for each item of which older lots were taken though a fresh one was there.

    Nothing is said of what was bought, where it matters little which bag it was, nor of lines that
    name their lot.
    """
    state = book.state(as_of=max(written.event.on, book.today().isoformat()))
    ev = written.event.seq - 1
    draws = np.flatnonzero(state.draws["ev"] == ev)
    out = []
    for item in np.unique(state.draws["item"][draws]).tolist():
        text = _of_item(state, item, draws[state.draws["item"][draws] == item])
        if text:
            out.append(text)
    return out


def left_alone(book: Book, written: Written) -> list[str]:
    """Return what a count left as it was: the same item, kept in a measure that it did not name."""
    state = book.state(as_of=max(written.event.on, book.today().isoformat()))
    measures = state.settings.newest("measures", "us") or "us"
    out, seen = [], set()
    for line in written.body["lines"]:
        item = state.facts.find(line["item"])
        if item is None or item in seen:
            continue
        seen.add(item)
        counted = {
            state.facts.comes(item, one)[0]
            for one in written.body["lines"]
            if state.facts.find(one["item"]) == item
        }
        for strand in state.facts.strands.several(item):
            left = int(state.left[state.lots["item"] == strand].sum())
            if strand not in counted and left > 0:
                said = format_whole(left, state.facts.measure[strand], measures=measures)
                name = state.facts.names[item]
                out.append(f"{said} of {name} stay as they were: the count is in another measure")
    return out


def _of_item(state: State, item: int, draws: NDArray[np.int64]) -> str | None:
    draw, lot, amount = state.allocations
    rows = np.flatnonzero(np.isin(draw, draws))
    day = int(state.draws["day"][draws[0]])
    lots = state.lots
    fresh = (lots["item"] == item) & (lots["day"] <= day) & (lots["day"] > day - _FRESH)
    fresh &= np.isin(lots["origin"], _CAME) & (lots["ev"] != state.draws["ev"][draws[0]])
    old = rows[lots["day"][lot[rows]] <= day - _FRESH]
    taken = int(amount[rows].sum())
    if (
        not fresh.any()
        or int(amount[old].sum()) <= _LITTLE * taken
        or not (state.left[fresh] > 0).any()
    ):
        return None
    measures = state.settings.newest("measures", "us") or "us"

    def said(whole: int) -> str:
        return format_whole(whole, state.facts.measure[item], measures=measures)

    parts = [
        sentence(
            "cli-drawn-lot",
            amount=measured(said(int(amount[row]))),
            day=Day(day_text(int(lots["day"][lot[row]]))),
        )
        for row in rows[np.argsort(lots["day"][lot[rows]], kind="stable")]
    ]
    newest = day_text(int(lots["day"][np.flatnonzero(fresh)[-1]]))
    return sentence(
        "cli-drawn", name=state.facts.names[item], lots=Names(tuple(parts)), day=Day(newest)
    )
