"""The types that fields of event bodies are made of, and how they read what was typed.

A field is described once, where it stands: its type, and through `about` its label, its help
and an example. Command options, CSV headings, JSON Schema, forms and docs are made from that.
"""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

import msgspec

from ledger.amounts import pressure_psi
from ledger.days import iso_day
from ledger.errors import InputError
from ledger.messages import Code, Typed, sentence

__all__ = [
    "Amount",
    "Clock",
    "Day",
    "DecText",
    "Decimal",
    "Duration",
    "ItemName",
    "Kept",
    "Money",
    "Note",
    "Person",
    "PressText",
    "Pressure",
    "Rating",
    "Stored",
    "Text",
    "ValueText",
    "Whole",
    "about",
    "read_typed",
]

_DECIMAL = re.compile(r"\d{1,15}(\.\d{1,12})?")


class DecText(str):
    """A decimal number of zero or more, kept as the text that was typed: ``3.40``."""

    __slots__ = ()


class DayText(str):
    """A calendar day, ISO 8601."""

    __slots__ = ()


class PressText(str):
    """A pressure on a gauge, as it was read off: ``11``, ``76 kPa``."""

    __slots__ = ()


class ValueText(str):
    """The value of a setting, as text."""

    __slots__ = ()


def about(label: str, text: str, example: Any, kind: str = "") -> msgspec.Meta:
    """Return what a field says of itself: label, help, example and how a form shows it."""
    extra = {"as": kind} if kind else None
    return msgspec.Meta(title=label, description=text, examples=[example], extra=extra)


_text = msgspec.Meta(min_length=1, max_length=200, pattern=r"\S")

Text = Annotated[str, _text]
Note = Annotated[
    str, msgspec.Meta(min_length=1, max_length=4000), msgspec.Meta(extra={"as": "note"})
]
ItemName = Annotated[str, _text, msgspec.Meta(extra={"as": "item"})]
Amount = Annotated[str, _text, msgspec.Meta(extra={"as": "amount"})]
Person = Annotated[str, _text, msgspec.Meta(extra={"as": "person"})]
Duration = Annotated[str, _text, msgspec.Meta(extra={"as": "duration"})]
Clock = Annotated[str, msgspec.Meta(pattern=r"^([01]\d|2[0-3]):[0-5]\d$", extra={"as": "time"})]
Day = Annotated[DayText, msgspec.Meta(extra={"as": "day"})]
Decimal = Annotated[DecText, msgspec.Meta(extra={"as": "decimal"})]
Pressure = Annotated[PressText, msgspec.Meta(extra={"as": "pressure"})]
Money = Annotated[DecText, msgspec.Meta(extra={"as": "money"})]
Whole = Annotated[int, msgspec.Meta(ge=0, le=1_000_000)]
Rating = Annotated[int, msgspec.Meta(ge=1, le=5)]
Kept = Literal["shelf", "fridge", "freezer", "cellar"]
Stored = msgspec.Meta(extra={"as": "stored"})
"""Marks what the door adds to a line; nobody types it."""


def _decimal(value: Any) -> DecText:
    if isinstance(value, bool) or not isinstance(value, (int, str)):
        raise ValueError(sentence("refusal-number-like-money", text=Code(repr(value))))
    text = str(value).strip()
    if not _DECIMAL.fullmatch(text):
        raise ValueError(sentence("refusal-number-from-zero", text=Typed(text[:40])))
    return DecText(text)


def _day(value: Any) -> DayText:
    try:
        return DayText(iso_day(value).isoformat())
    except ValueError:
        raise ValueError(sentence("refusal-day-like", text=Code(repr(value)))) from None


def _pressure(value: Any) -> PressText:
    text = str(value).strip()
    if isinstance(value, bool) or not isinstance(value, (int, str)):
        raise ValueError(sentence("refusal-pressure-like", text=Code(repr(value))))
    try:
        pressure_psi(text)
    except InputError:
        raise ValueError(sentence("refusal-pressure-like", text=Typed(text[:40]))) from None
    return PressText(text)


def _value(value: Any) -> ValueText:
    if isinstance(value, dict):  # jars_per_load, by size
        return ValueText(", ".join(f"{size}: {jars}" for size, jars in value.items()))
    if isinstance(value, bool) or not isinstance(value, (int, str)) or not str(value).strip():
        raise ValueError(sentence("refusal-value-like", text=Code(repr(value))))
    return ValueText(str(value).strip())


_READERS: dict[type, Any] = {
    DecText: _decimal,
    PressText: _pressure,
    DayText: _day,
    ValueText: _value,
}


def read_typed(kind: type, value: Any) -> Any:
    """Read one field of our own types (the `dec_hook` of msgspec).

    Raises
    ------
    ValueError
        When `value` is not such a number or day, with a `Sentence`; msgspec adds where it stood.
    """
    return _READERS[kind](value)
