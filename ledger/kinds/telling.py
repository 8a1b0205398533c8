"""Saying lines in words, for the one readable line of each event.

A line is told in English, as fast as an f-string, for every event of a book; few are ever shown. What is
shown in another language is said by the message of the same kind, which is made then, see `SaidLater`.
"""

from __future__ import annotations

import re
from typing import Any

from ledger.amounts import parse_amount
from ledger.errors import LedgerError
from ledger.messages import Choice, Day, Measured, Message, Price, Row, Sentence

__all__ = [
    "count",
    "day",
    "jar_said",
    "jar_word",
    "lines",
    "lines_said",
    "made",
    "made_said",
    "measure",
    "named",
    "plain_amount",
    "price",
    "texts",
    "word",
]


def count(many: Any, noun: str) -> str:
    """Return ``1 hen`` or ``6 hens``."""
    return f"{many} {noun}{'' if str(many) == '1' else 's'}"


def lines(several: list[dict[str, Any]] | None, most: int = 4) -> str:
    """Return ``31 lb plum, 3 lb sugar``; what exceeds `most` is counted."""
    several = several or []
    shown = [
        f"{one.get('amount', '')} {one.get('item') or one.get('metered') or ''}".strip()
        for one in several[:most]
    ]
    rest = len(several) - most
    return ", ".join(shown) + (f" and {rest} more" if rest > 0 else "")


def lines_said(several: list[dict[str, Any]] | None, most: int = 4) -> Row | Message:
    """Return what `lines` says."""
    several = several or []
    shown = Row(tuple(_line(one) for one in several[:most]), ", ")
    rest = len(several) - most
    return Message.of("told-and-more", lines=shown, n=rest) if rest > 0 else shown


def plain_amount(line: dict[str, Any]) -> str:
    """Return a stored line's amount with a decimal point, which may have been typed with a comma.

    What ``1,250 kg`` was is told by the whole units beside it.
    """
    text = str(line.get("amount", ""))
    if "," not in text:
        return text
    try:
        is_decimal = parse_amount(text, comma=True).whole == line.get("whole")
    except LedgerError:
        return text
    return text.replace(",", ".") if is_decimal else text


def _line(one: dict[str, Any]) -> Row:
    amount, name = plain_amount(one), str(one.get("item") or one.get("metered") or "")
    what: str | Message = (
        Message.of("told-jar", jar=Choice(_SIZES[name])) if name in _SIZES else name
    )
    parts: list[Any] = [_amount(amount)] if amount else []
    return Row((*parts, *([what] if what else [])), " ")


_JARS = re.compile(r"(\d+) (\S.* jars?|jars?)")
_METRIC = re.compile(r"(\d[\d,]*(?:\.\d+)?) (ml|l) jars?")


def _amount(text: str) -> Any:
    found = _JARS.fullmatch(text)
    if found:
        return jar_said(found[2], int(found[1]))
    return Measured(text) if "/" in text else figure(text)


def made(several: list[dict[str, Any]]) -> str:
    """Return ``11 half-pint jars, 1 cup (fridge)``."""
    out = []
    for one in several:
        if one.get("jars"):
            s = "" if one["jars"] == 1 else "s"
            out.append(f"{one['jars']} {one.get('jar', 'jar')}{s}")
        else:
            out.append(f"{one.get('amount', '')} ({one.get('kept', 'shelf')})")
    return ", ".join(out)


def made_said(several: list[dict[str, Any]]) -> Row:
    """Return what `made` says."""
    return Row(tuple(_made(one) for one in several), ", ")


def _made(one: dict[str, Any]) -> Message:
    if one.get("jars"):
        return jar_said(str(one.get("jar", "jar")), int(one["jars"]))
    amount = _amount(plain_amount(one))
    return Message.of("told-made", amount=amount, place=word(str(one.get("kept", "shelf"))))


_SIZES = {
    "jar": "jar",
    "half-pint jar": "half-pint",
    "pint jar": "pint",
    "1.5-pint jar": "pint-and-half",
    "quart jar": "quart",
    "half-gallon jar": "half-gallon",
}
"""Jars that each language has its own word for, and how a message chooses it."""


def jar_said(name: str, n: int | None = None) -> Message:
    """Return what `jar_word` says."""
    one = name.removesuffix("s") if name.endswith("jars") else name
    metric = _METRIC.fullmatch(name)
    if size := _SIZES.get(one):
        jar = Choice(size)
        return (
            Message.of("told-jar", jar=jar) if n is None else Message.of("told-jars", n=n, jar=jar)
        )
    if metric:
        holds = Measured(f"{metric[1]} {metric[2]}")
        if n is None:
            return Message.of("told-jar-metric", holds=holds)
        return Message.of("told-jars-metric", n=n, holds=holds)
    if n is None:
        return Message.of("told-jar-named", jar=one)
    return Message.of("told-jars-named", n=n, jar=one)


def jar_word(name: str, n: int | None = None) -> Sentence:
    """Return a jar as people name it, ``quart jar``, or so many of them, ``7 quart jars``."""
    from ledger.messages import speaker

    said = jar_said(name, n)
    return Sentence(speaker("en").text(said), said)


def word(value: str, family: str = "word") -> Message | str:
    """Return a fixed word of the ledger; anything else as it is."""
    from ledger.messages import speaker

    id_ = f"{family}-{value.replace(' ', '-').replace('_', '-')}"
    return Message.of(id_) if value and speaker("en").has(id_) else value


def day(iso: str) -> Day:
    """Return a day, as a message is given it."""
    return Day(iso)


def measure(text: str) -> Measured:
    """Return an amount, a price or another figure as it was written down."""
    return Measured(text)


def price(text: str) -> Price:
    """Return money as it was written down, as a message is given it."""
    return Price(text)


def figure(text: str) -> Any:
    """Return a figure with what stands behind it, ``3.50 per hour``, as a message is given it."""
    from ledger.messages.units import amount

    said = amount(text)
    return said.says if isinstance(said, Sentence) else said


def named(*words: str | None) -> Row:
    """Return names one after another: a crop, and its variety where there is one."""
    return Row(tuple(one for one in words if one), " ")


def texts(several: list[Any]) -> Row:
    """Return texts with commas between."""
    return Row(tuple(several), ", ")
