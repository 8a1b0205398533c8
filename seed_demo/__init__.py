"""An invented household of six in three generations, at Hollow End, 2,600 ft up.

Own names, places and shops; deterministic by seed. `events` tells three years of it as typed
events, `build` writes them into a book. Invented data shows what the book does; it tests nothing.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any

from ledger import clock
from seed_demo.plan import live

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.door.importing import Imported

__all__ = ["build", "events"]


def events(until: dt.date | None = None, seed: int = 7) -> Iterator[dict[str, Any]]:
    """Yield three years of events, typed, in the order in which they were written down.

    Parameters
    ----------
    until : datetime.date, optional
        The years end the day before; default: today.
    seed : int
        Another seed gives another household's luck; the same one gives the same events.

    Yields
    ------
    dict
        As one line of a file of events: ``kind``, ``on``, ``body``, ``id``, ``recorded_at`` and,
        where they apply, ``by``, ``at``, ``replaces``.
    """
    yield from live(until or clock.today(), seed)


def build(
    book: Book,
    until: dt.date | None = None,
    seed: int = 7,
    progress: Callable[[int], None] | None = None,
) -> Imported:
    """Write the household's three years into an empty book, all or nothing.

    Parameters
    ----------
    book : Book
        Best an empty one: only then are the days of writing kept.
    progress : callable, optional
        Called with the number of events so far, now and then.

    Raises
    ------
    RuntimeError
        When the book refuses a line, which would be the demo's fault; nothing is written then.
    """
    from ledger.door import Answers

    answers = Answers(importing=True, yes={"future"})
    # East of Greenwich the day before `until` may not be over at the demo's place: nothing is
    # written in the time to come, so the last entries are written now.
    now = clock.now()
    told = (
        event | {"recorded_at": _by(now, event["recorded_at"])} for event in events(until, seed)
    )
    lines = ((number, number, event) for number, event in enumerate(told, 1))
    done = book.import_events(lines, answers=answers, progress=progress)
    if done.bad_count:
        first = done.bad[0]
        raise RuntimeError(f"the demo's event {first.number} was refused: {first.problem}")
    return done


def _by(now: dt.datetime, moment: str) -> str:
    """Return a moment of writing, or the present one where it is still to come."""
    return moment if dt.datetime.fromisoformat(moment) <= now else clock.stamp(now)
