"""Releasing: the rules between two releases, and the budget, kept as events in a log that stays.

The event is written in the transaction that checks the budget, and before any noise is drawn: a crash
in between loses budget, never privacy.
"""

from __future__ import annotations

import contextlib
import json
import uuid
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ledger import clock
from ledger.circle.merge import LEAST, class_cells, rounded_down
from ledger.circle.release import CLASS, PUBLIC, Release
from ledger.errors import InputError
from ledger.log import Log, NewEvent, Writing, open_log
from ledger.messages import Code, Message

if TYPE_CHECKING:
    from ledger.circle.keep import Circle

__all__ = ["BUDGET", "CARDS", "budget", "log_of", "tell"]

BUDGET = 1000
"""Epsilon of a call, in thousandths."""
CARDS = 500
"""Cards from which on the public is told: where noise comes down to the error of sampling."""
_KIND = "released"


def log_of(folder: Path, *, create: bool = False) -> Log:
    """Return the log of a circle's releases."""
    return open_log(folder / "log.sqlite", "circle", create=create)


@contextlib.contextmanager
def _log(circle: Circle) -> Iterator[Log]:
    with log_of(circle.folder) as log:
        yield log


def _released(source: Log | Writing, call: str) -> list[dict[str, Any]]:
    """Return the bodies of a call's releases, oldest first."""
    rows = (row for chunk in source.read(kinds=[_KIND]) for row in chunk)
    bodies = (json.loads(row[10]) for row in rows)
    return [body for body in bodies if body["call"] == call]


def budget(circle: Circle) -> tuple[int, int]:
    """Return the epsilon spent and left, in thousandths."""
    with _log(circle) as log:
        spent = sum(one["epsilon_milli"] for one in _released(log, circle.call.digest))
    return spent, BUDGET - spent


def tell(circle: Circle, *, private: bool = False, epsilon: float = 1.0) -> Release:
    """Return a release for the class, or with noise for the public.

    Raises
    ------
    InputError
        A rule forbids it: too few, too little changed, the other way was taken, the budget is spent.
    """
    return _to_public(circle, epsilon) if private else _to_class(circle)


def _refuse_other_way(released: list[dict[str, Any]], way: str) -> None:
    if any(one["for"] != way for one in released):
        other = CLASS if way == PUBLIC else PUBLIC
        raise InputError(
            "for",
            Message.of("refusal-figures-told", other=Code(other), way=Code(way)),
        )


def _append(tx: Writing, circle: Circle, way: str, sheets: int, **more: Any) -> None:
    body = {"for": way, "call": circle.call.digest, "sheets": sheets, **more}
    text = json.dumps(body, sort_keys=True, separators=(",", ":"))
    on = clock.today().isoformat()
    tx.append(NewEvent(id=str(uuid.uuid4()), kind=_KIND, v=1, on=on, body=text))


# The class


def _to_class(circle: Circle) -> Release:
    with circle.writing() as raw, _log(circle) as log:
        held = circle.held()
        if len(held) < LEAST:
            raise InputError("sheets", Message.of("refusal-sheets-few", n=len(held), least=LEAST))
        digest, changed = circle.sheets_digest(), circle.changed()
        with log.writing("a release") as tx:
            released = _released(tx, circle.call.digest)
            _refuse_other_way(released, CLASS)
            if not released or released[-1]["digest"] != digest:
                if released and changed < LEAST:
                    raise InputError(
                        "sheets",
                        Message.of("refusal-sheets-unchanged", n=changed, least=LEAST),
                    )
                _append(tx, circle, CLASS, len(held), epsilon_milli=0, digest=digest)
        raw.execute("DELETE FROM changed")
        cells = class_cells(circle.call, held)
    return Release.of(circle.call, CLASS, rounded_down(len(held)), cells)


# The public


def _to_public(circle: Circle, epsilon: float) -> Release:
    milli = round(epsilon * 1000) if 0 < epsilon <= 1 else 0
    if not milli or abs(milli - epsilon * 1000) > 1e-6:
        wanted = Message.of("refusal-epsilon-range")
        raise InputError("epsilon", Message.of("refusal-epsilon-unspendable", n=epsilon), wanted)
    cards = len(circle.members())
    if cards < CARDS:
        wanted = Message.of("refusal-public-from", n=CARDS)
        raise InputError("cards", Message.of("refusal-cards-given", n=cards), wanted)
    from ledger.circle.private import histograms, how_many, needs_library

    figures = how_many(cards, milli, circle.call)
    needs_library()
    with _log(circle) as log, log.writing("a release") as tx:
        released = _released(tx, circle.call.digest)
        _refuse_other_way(released, PUBLIC)
        left = BUDGET - sum(one["epsilon_milli"] for one in released)
        if milli > left:
            problem = Message.of("refusal-epsilon-spent", asked=milli / 1000, left=left / 1000)
            raise InputError("epsilon", problem, Message.of("refusal-spent-for-good"))
        sheets = len(circle.held())
        _append(tx, circle, PUBLIC, sheets, epsilon_milli=milli, figures=figures)
    cells = histograms(circle.call, circle.held(), figures, milli)
    return Release.of(circle.call, PUBLIC, cards, cells, milli / 1000)
