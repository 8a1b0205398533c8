"""Named lots: asked about when typed, reported by an import, when they are not what a line means."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from ledger.door.answers import Answers
from ledger.errors import NeedsAnswer, NotFound
from ledger.kinds import KINDS, Kind, decode_stored, kind_of
from ledger.known.catalogue import Catalogue
from ledger.labels import split_label
from ledger.log import StoredEvent, Writing
from ledger.messages import sentence

__all__ = ["OPENING", "Place", "check_lots", "full_key", "full_lots"]

OPENING = {name: kind.opening for name, kind in KINDS.items() if kind.opening is not None}
"""Kinds that may take from a marked jar, and the list that does; discarded only where fed to animals."""

_LOT = re.compile(r"(?P<entry>[0-9a-f-]{36}):(?P<n>\d{1,9})(?P<mark>[fuc]?)")
_SHORT = re.compile(r"(?P<id>[0-9a-f-]{4,35})(?P<rest>:.+)|(?P<alone>[0-9a-f]{8}[0-9a-f-]{0,27})")
_NOON = "12:00"


@dataclass(frozen=True)
class Place:
    """Where an entry stands in the order of things: its day, time and number.

    `seq` is the number of the entry's first event; None for one that is only being written.
    """

    on: str
    at: str | None = None
    seq: int | None = None


def full_key(text: str, find: Callable[[str], str]) -> str:
    """Return ``5f0c0a0e:1`` with the whole of its id; as it stands where no single id begins so.

    Parameters
    ----------
    find : callable
        ``find(beginning)`` gives an event's id, or raises NotFound.
    """
    match = _SHORT.fullmatch(text.strip().lower())
    if match is None:
        return text
    try:
        return find(match["id"] or match["alone"]) + (match["rest"] or "")
    except NotFound:
        return text


def full_lots(kind: str, body: dict[str, Any], find: Callable[[str], str]) -> dict[str, Any]:
    """Return a typed body in which each lot that a line names has its whole id."""

    def whole(line: Any) -> Any:
        if isinstance(line, dict) and isinstance(line.get("lot"), str):
            return {**line, "lot": full_key(line["lot"], find)}
        return line

    out = whole(body)
    for name in KINDS[kind].draws if kind in KINDS else ():
        several = out.get(name)
        if several:
            is_list = isinstance(several, list)
            out = {**out, name: [whole(one) for one in several] if is_list else whole(several)}
    return out  # type: ignore[no-any-return]


def check_lots(
    tx: Writing,
    catalogue: Catalogue,
    event: tuple[Kind, dict[str, Any]],
    place: Place,
    answers: Answers,
) -> None:
    """Ask about every line that names a lot which it cannot draw on.

    Such a line is drawn oldest first like any other.
    """
    kind, body = event
    for name in kind.draws:
        several = body.get(name) or []
        is_single = isinstance(several, dict)
        for i, line in enumerate([several] if is_single else several):
            if not isinstance(line, dict) or not line.get("lot"):
                continue
            problem = _problem(tx, catalogue, line, (place, kind.phase))
            if problem:
                field = f"{name}.lot" if is_single else f"{name}[{i}].lot"
                question = sentence(
                    "doubt-lot-instead", lot=line["lot"], problem=problem, item=line["item"]
                )
                answers.settle(NeedsAnswer("lot", field, question, sentence("doubt-oldest")))


def _problem(
    tx: Writing, catalogue: Catalogue, line: dict[str, Any], draw: tuple[Place, int]
) -> str | None:
    match = _LOT.fullmatch(line["lot"])
    if not match:
        return _label_problem(catalogue, line, draw[0])
    if match["mark"] in ("u", "c"):
        return sentence("doubt-lot-made-up")
    entries = catalogue.entries(tx)
    root = entries.root(match["entry"])
    first, newest = tx.get(root), tx.get(entries.newest(root))
    if first is None or newest is None:
        return sentence("doubt-lot-none")
    if entries.is_struck(root):
        return sentence("doubt-lot-struck")
    kind, body = kind_of(newest.kind), decode_stored(newest.kind, newest.v, newest.body)
    supplied = _supplied(kind, body, int(match["n"]), match["mark"])
    if supplied is None:
        return sentence("doubt-lot-none")
    if catalogue.key(supplied) != catalogue.key(line["item"]):
        return sentence("doubt-lot-of-other", item=supplied)
    return _late(first, newest, kind.phase, draw)


def _supplied(kind: Kind, body: dict[str, Any], n: int, mark: str) -> str | None:
    """Return which item the lot number `n` of a body is, or None."""
    for name in kind.supplies:
        for line in body.get(name) or ():
            if line.get("n") == n and (not mark or line.get("unsealed")):
                return str(line.get("item") or body.get("makes"))
    return None


def _late(
    first: StoredEvent, newest: StoredEvent, phase: int, draw: tuple[Place, int]
) -> str | None:
    """Say so where a lot comes in only after the line that names it (the reckoning, rule 2)."""
    place, draw_phase = draw
    comes = (newest.on, phase, newest.at or _NOON, first.seq)
    seq = place.seq if place.seq is not None else first.seq + 1
    goes = (place.on, draw_phase, place.at or _NOON, seq)
    return None if comes < goes else sentence("doubt-lot-late")


def _label_problem(catalogue: Catalogue, line: dict[str, Any], place: Place) -> str | None:
    prefix, number = split_label(line["lot"])
    usual = catalogue.setting("jar_label_prefix") or ""
    if number is None or ":" in prefix:
        return sentence("doubt-lot-none") if ":" in line["lot"] else sentence("doubt-lot-no-label")
    found = [
        label
        for label in catalogue.labels(line["item"])
        if prefix in (label.prefix, label.prefix or usual) and label.low <= number <= label.high
    ]
    if not found:
        return sentence("doubt-lot-label-of-none", item=line["item"])
    if any(label.on <= place.on for label in found):
        return None
    return sentence("doubt-lot-jar-late")
