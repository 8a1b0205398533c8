"""What is asked of enough: of the pantry, of what was eaten, or of next season's plan; for how long."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ledger.errors import InputError
from ledger.messages import Code, Day, Message, Names, Typed
from ledger.questions.periods import day_of
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LEAST_KNOWN", "OF", "Asked", "asked_of", "number_of"]

OF = ("pantry", "eaten", "next season")
LEAST_KNOWN = 0.7
"""Below this part of the weight known there is no headline."""
_DAYS = 30.0
_SEASON = 365.0


@dataclass(frozen=True)
class Asked:
    """One asking: `days` the horizon; `start` and `end` days since 1970, for what was eaten."""

    of: str
    days: float
    start: int
    end: int

    @property
    def address(self) -> str:
        """How it stands in an address."""
        if self.of == "eaten":
            return f"eaten/{day_text(self.start)}/{day_text(self.end)}"
        return f"{self.of.replace(' ', '-')}/{self.days:g}"

    @property
    def kind(self) -> str:
        """Of what it is asked, as messages choose by it."""
        return self.of.replace(" ", "-")


def number_of(value: str | float | None, field: str, default: float, *, most: float) -> float:
    """Return an option as a number above 0.

    Raises
    ------
    InputError
        Naming `field`.
    """
    if value is None:
        return default
    try:
        number = float(value)
    except ValueError:
        number = math.nan
    if not 0 < number <= most:
        raise InputError(
            field,
            Message.of(
                "refusal-not-up-to", text=Code(repr(value)), most=most, example=Code(f"{default:g}")
            ),
        )
    return number


def asked_of(
    state: State,
    of: str | None,
    days: str | float | None,
    start: str | None,
    end: str | None,
) -> Asked:
    """Return what is asked.

    Raises
    ------
    InputError
        When `of`, `days` or a day is not what it may be.
    """
    of = of or "pantry"
    if of not in OF:
        raise InputError(
            "of", Message.of("refusal-not-one-of", text=Typed(of), words=Names(tuple(OF)))
        )
    horizon = number_of(days, "days", _SEASON if of == "next season" else _DAYS, most=3660)
    if of != "eaten":
        return Asked(of, horizon, state.as_of_day, state.as_of_day)
    last = day_of(end, "to")
    last = state.as_of_day if last is None else min(last, state.as_of_day)
    first = day_of(start, "from")
    first = last - int(_DAYS) + 1 if first is None else first
    if first > last:
        raise InputError(
            "from",
            Message.of("refusal-day-after", day=Day(day_text(first)), on=Day(day_text(last))),
            Message.of("refusal-first-of-period"),
        )
    return Asked(of, float(last - first + 1), first, last)
