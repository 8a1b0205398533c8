"""What is unusual of a reading against the book: a repeat, ten times as much, a price far off.

The bounds are our own choice (common practice, no source). Nothing is replayed: lines are compared
as they were said, within one dimension.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from statistics import median
from typing import Any

from ledger.amounts import parse_amount
from ledger.errors import LedgerError
from ledger.messages import Day, joined, measured, sentence
from ledger.saying.asking import Draft, Question, Reading
from ledger.saying.known import Known
from ledger.saying.settled import Settled

__all__ = ["LEAVE_OUT", "ask_unusual"]

_TIMES = 10
"""So many times the usual amount, or price of a unit, is asked about."""
_FAR = 4
"""So many times the last price is asked about; and so small a part of it."""

LEAVE_OUT = "leave it out"

Line = dict[str, Any]


def ask_unusual(reading: Reading, known: Known, settled: Settled) -> None:
    """Add the questions that the book's past raises to a reading."""
    out: list[Question] = []
    gone: list[Draft] = []
    for place, entry in enumerate(reading.entries):
        asked = _repeat(entry, known)
        found = [asked] if asked is not None else [*_much(entry, known), *_dear(entry, known)]
        for one in found:
            one.entry, one.key = place, settled.key(one.code, one.about)
            answer = settled.answers.get(one.key)
            if answer is None:
                out.append(one)
            elif answer == LEAVE_OUT:
                gone.append(entry)
    reading.questions += out
    for one in reading.questions:
        if (
            one.entry is not None
            and one.entry < len(reading.entries)
            and reading.entries[one.entry] in gone
        ):
            one.entry = None
    reading.entries = [entry for entry in reading.entries if not any(entry is one for one in gone)]


def _lines(body: dict[str, Any]) -> list[Line]:
    for name in ("lines", "ate"):
        if body.get(name):
            return [one for one in body[name] if one.get("item")]
    if body.get("made"):
        return [{"item": body["makes"], "amount": _made(one)} for one in body["made"]]
    if body.get("crop"):
        return [{"item": body["crop"], "amount": str(body.get("plants") or body.get("row") or "")}]
    return [body] if body.get("item") else []


def _made(one: dict[str, Any]) -> str:
    return (
        f"{one['jars']} {one['jar']}"
        if one.get("jars") and one.get("jar")
        else str(one.get("amount", ""))
    )


def _same_line(known: Known, one: Line, other: Line) -> bool:
    if known.catalogue.key(one["item"]) != known.catalogue.key(other["item"]):
        return False
    first, second = one.get("amount"), other.get("amount")
    if first == second:
        return bool(first)
    said = [_whole(str(text), known.measures) for text in (first, second)]
    return said[0] is not None and said[0] == said[1]


def _repeat(entry: Draft, known: Known) -> Question | None:
    """Ask about the same kind, day, item and amount as an entry in the book."""
    mine = _lines(entry.body)
    rows = known.about(entry.kind, mine[0]["item"], entry.on) if mine else []
    for _, on, body, _ in rows:
        if on != entry.on:
            continue
        for one in mine:
            if any(_same_line(known, one, other) for other in _lines(body)):
                text = sentence("asked-repeat", text=_said(one), day=Day(entry.on))
                options: list[str] = [sentence("asked-another"), sentence("asked-leave-out")]
                return Question(one["item"], text, options, code="repeat")
    return None


def _much(entry: Draft, known: Known) -> Iterator[Question]:
    """Ask about ten times what is usual of an item in entries of this kind."""
    for n, one in enumerate(_lines(entry.body)):
        said = _whole(str(one.get("amount", "")), known.measures)
        if said is None or not said[1]:
            continue
        usual = [
            size[1]
            for _, line in _past(entry.kind, one["item"], known, entry.on)
            if (size := _whole(str(line.get("amount", "")), known.measures)) is not None
            and size[0] == said[0]
            and size[1]
        ]
        if usual and said[1] >= _TIMES * median(usual):
            text = sentence("asked-far-more", text=_said(one))
            right = sentence("asked-is-right", amount=measured(one["amount"]))
            yield Question(one["item"], text, [right], code="much", line=n)


def _dear(entry: Draft, known: Known) -> Iterator[Question]:
    """Ask about a price of a unit far from the last one."""
    for n, one in enumerate(_lines(entry.body)):
        price = _price(one, known)
        if price is None:
            continue
        last = None
        for kind in ("bought", "price_seen"):
            for on, line in _past(kind, one["item"], known, entry.on):
                other = _price(line, known)
                if other is not None and other[0] == price[0] and (last is None or on >= last[0]):
                    last = on, other[1]
        if last is None or last[1] / _FAR < price[1] < last[1] * _FAR:
            continue
        paid = measured(f"{one.get('paid') or one.get('price')}")
        text = sentence("asked-far-price", n=paid, text=_said(one))
        right = sentence("asked-is-right", amount=paid)
        yield Question(one["item"], text, [right], code="dear", line=n)


def _said(one: Line) -> str:
    """Return a line in words: how much of what."""
    amount = one.get("amount", "")
    return joined(" ", [measured(amount), one["item"]] if amount else [one["item"]])


def _past(kind: str, item: str, known: Known, on: str) -> Iterator[tuple[str, Line]]:
    wanted = known.catalogue.key(item)
    for _, day, body, _ in known.about(kind, item, on):
        for line in _lines(body):
            if known.catalogue.key(line["item"]) == wanted:
                yield day, line


def _price(line: Line, known: Known) -> tuple[str, Fraction] | None:
    """Return the dimension and the price of one whole unit of it, or None."""
    paid = line.get("paid") or line.get("price")
    size = _whole(str(line.get("amount", "")), known.measures)
    if not paid or size is None or not size[1]:
        return None
    try:
        value = Fraction(str(paid))
    except ValueError:
        return None
    return (size[0], value / size[1]) if value else None


@lru_cache(maxsize=65536)
def _whole(text: str, measures: str) -> tuple[str, int] | None:
    """Return what an amount measures and how much it is, in whole units; None where it is none."""
    try:
        said = parse_amount(text, measures=measures, zero=True)
    except LedgerError:
        head, _, unit = text.partition(" ")
        return (
            (unit, round(Fraction(head) * 1000))
            if unit and head.replace(".", "", 1).isdigit()
            else None
        )
    if said.measure == "count" and said.unit not in ("piece", "dozen", "gross"):
        return said.unit, said.whole
    return said.measure, said.whole
