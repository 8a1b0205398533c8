"""The things of one clause, as gathered: lines, money, days, phrases and facts."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from ledger.saying.days import DayRead
from ledger.saying.money import Money
from ledger.saying.units import Quantity

__all__ = ["Phrase", "Span", "Thing", "Things"]

Span = tuple[int, int]


@dataclass(slots=True)
class Thing:
    """One line as said.

    Attributes
    ----------
    amounts : list of Quantity
        Of several, sizes of jars (``7 qts, 2 pts``) or parts of one amount.
    words : tuple of (int, int) or None
        Tokens of its name; None: of what was named last.
    mode : str
        ``main``, ``used`` (behind `from`) or ``other`` (the other side of a swap).
    extra : list of Quantity
        Bare numbers behind it.
    item : str or None
        What of the book is meant, where that is settled already.
    is_empty : bool
        Jars that stand alone in a list: the jars themselves, of no food.
    is_sized : bool
        Its containers and their size were said apart: ``2 bottles lemon juice 32 oz``.
    """

    amounts: list[Quantity] = field(default_factory=list)
    words: Span | None = None
    mode: str = "main"
    extra: list[Quantity] = field(default_factory=list)
    day: DayRead | None = None
    bed: str | None = None
    lot: str | None = None
    note: str | None = None
    joined: str = ""
    is_zero: bool = False
    is_parted: bool = False
    item: str | None = None
    is_empty: bool = False
    is_sized: bool = False


@dataclass(slots=True)
class Phrase:
    """A preposition and what stands behind it."""

    roles: frozenset[str]
    words: Span
    lines: int
    lead: str
    start: int


@dataclass(slots=True)
class Things:
    """Everything of one clause."""

    lines: list[Thing] = field(default_factory=list)
    money: list[tuple[Money, int]] = field(default_factory=list)
    phrases: list[Phrase] = field(default_factory=list)
    days: list[tuple[DayRead, int]] = field(default_factory=list)
    led: list[int] = field(default_factory=list)
    times: list[tuple[Fraction, bool]] = field(default_factory=list)
    facts: dict[str, Any] = field(default_factory=dict)
    spans: dict[str, Span] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    left: list[Span] = field(default_factory=list)
    subject: list[Span] = field(default_factory=list)
    is_done_with: bool = False  # a canner or an oven is named
    mended: bool = False
    lost_mend: Span | None = None
