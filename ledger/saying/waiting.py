"""Open questions of a book: what was written down though something was not known, and its answer.

They are found in the book itself: a price that was not said, a bucket of unknown weight, what went
into a batch, who worked, where the opening stock came from. `answering` writes the answers.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from ledger.kinds import KINDS, Phase
from ledger.kinds.counted import OPENING_DAYS
from ledger.messages import Day, Names, measured, sentence
from ledger.messages.units import unit as unit_said
from ledger.saying.known import Known
from ledger.saying.language import language

__all__ = ["LISTS", "NOT_KNOWN", "Waiting", "waiting"]

NOT_KNOWN = "not known"
"""In the note of an entry: nobody knows, so it is asked no more."""
LISTS = {
    name: kind.row
    for name, kind in KINDS.items()
    if kind.row in kind.lists and kind.phase != Phase.FACTS
}
"""The kinds that tell of amounts of things, each with the list that does."""


@dataclass(frozen=True)
class Waiting:
    """One open question.

    Attributes
    ----------
    code : str
        ``weight``, ``jar``, ``price``, ``used``, ``who``, ``opening`` or ``other``.
    text : str
    entries : list of (str, str, str, dict)
        Kind, id, day and body of the entries that wait for it.
    item, unit : str
    line : int
    """

    code: str
    text: str
    entries: list[tuple[str, str, str, dict[str, Any]]] = field(default_factory=list)
    item: str = ""
    unit: str = ""
    line: int = 0


def waiting(known: Known) -> list[Waiting]:
    """Return the open questions of a book, the newest first; each is asked once."""
    found = [
        *_weights(known), *_prices(known), *_batches(known), *_workers(known), *_opening(known),
        *_spending(known),
    ]  # fmt: skip
    return sorted(found, key=lambda one: max(day for _, _, day, _ in one.entries), reverse=True)


def _weights(known: Known) -> Iterator[Waiting]:
    """Find containers whose content nobody said, by item and container."""
    asked = {unit for code in ("en", "de") for unit in language(code).data["unknown"]} | {"jar"}
    found: dict[tuple[str, str], Waiting] = {}
    for kind, name in LISTS.items():
        for id_, on, body, _ in known.rows(kind):
            for line in body.get(name) or ():
                unit = str(line.get("per") or "")
                if unit not in asked or known.weighs(line["item"], unit) or _is_closed(body):
                    continue
                item = known.catalogue.name(line["item"])
                text = (
                    sentence("asked-weight", unit=unit_said(unit), name=item)
                    if unit != "jar"
                    else sentence("asked-jar-size", name=item)
                )
                code = "jar" if unit == "jar" else "weight"
                one = found.setdefault(
                    (known.catalogue.key(item), unit), Waiting(code, text, [], item, unit)
                )
                one.entries.append((kind, id_, on, body))
    yield from found.values()


def _prices(known: Known) -> Iterator[Waiting]:
    for id_, on, body, _ in known.rows("bought"):
        for n, line in enumerate(body["lines"]):
            if line.get("paid") is None and not _is_closed(body):
                text = sentence(
                    "asked-cost-then",
                    amount=measured(line["amount"]),
                    name=line["item"],
                    day=Day(on),
                )
                yield Waiting("price", text, [("bought", id_, on, body)], line["item"], "", n)


def _batches(known: Known) -> Iterator[Waiting]:
    for id_, on, body, _ in known.rows("put_up"):
        if not body["used"] and not _is_closed(body):
            text = sentence("asked-used-then", name=body["makes"], day=Day(on))
            yield Waiting("used", text, [("put_up", id_, on, body)], body["makes"])


def _workers(known: Known) -> Iterator[Waiting]:
    for kind in ("harvested", "planted", "put_up"):
        for id_, on, body, _ in known.rows(kind):
            for n, one in enumerate(body.get("work") or ()):
                if one["person"] == "household" and not _is_closed(body):
                    text = sentence("asked-who-worked-then", n=one["minutes"], day=Day(on))
                    yield Waiting("who", text, [(kind, id_, on, body)], line=n)


def _opening(known: Known) -> Iterator[Waiting]:
    """Find what was counted in the book's first weeks: what of it is home-made is asked once."""
    first = min((row[4] for row in _began(known)), default=None)
    if first is None:
        return
    until = (dt.date.fromisoformat(first) + dt.timedelta(days=OPENING_DAYS)).isoformat()
    entries, names = [], []
    for id_, on, body, _ in known.rows("counted"):
        if on < until and body.get("home_made") is None and not _is_closed(body):
            foods = [one["item"] for one in body["lines"] if known.sort(one["item"]) == "food"]
            if foods:
                entries.append(("counted", id_, on, body))
                names += [known.catalogue.name(one) for one in foods]
    if entries:
        named = Names(tuple(dict.fromkeys(names)), most=8)
        text = sentence("asked-opening", names=named)
        yield Waiting("opening", text, entries)


def _began(known: Known) -> list[Any]:
    """Return the first events that are about things, not about items and settings."""
    for chunk in known.past.read() if known.past is not None else ():
        rows = [row for row in chunk if row[2] not in ("item_described", "setting_changed")]
        if rows:
            return rows
    return []


def _spending(known: Known) -> Iterator[Waiting]:
    """Find other spending on a receipt: whether it belongs into the book is asked once by its words."""
    found: dict[str, Waiting] = {}
    for id_, on, body, _ in known.rows("bought"):
        for one in body.get("other") or ():
            if one.get("belongs") is None and not _is_closed(body):
                text = sentence(
                    "asked-other-spending", text=one["words"], n=measured(f"{one['paid']}")
                )
                waits = found.setdefault(
                    one["words"].casefold(), Waiting("other", text, [], one["words"])
                )
                waits.entries.append(("bought", id_, on, body))
    yield from found.values()


def _is_closed(body: dict[str, Any]) -> bool:
    return NOT_KNOWN in (body.get("note") or "")
