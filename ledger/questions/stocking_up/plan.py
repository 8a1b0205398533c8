"""The plan of extra packs, and what a dearer or an empty shop would mean."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ledger.errors import InputError
from ledger.messages import Code, Message, Typed
from ledger.methods.stocking import (
    PackPlan,
    Staple,
    extra_packs,
    price_rise_cost,
    weeks_uncovered,
)

__all__ = ["OVER_WEEKS", "Asked", "asked_of", "packs_to_target", "plan_of", "risk_of"]

OVER_WEEKS = 52
"""Weeks over which a price rise is told: a year."""

_TRIPS, _WEEKS = 4, 4


@dataclass(frozen=True)
class Asked:
    """The options of the question, read."""

    budget: float | None = None
    trips: int = _TRIPS
    weeks: float = float(_WEEKS)
    price_rise: float | None = None
    shortage: float | None = None

    @property
    def address(self) -> str:
        """Return what goes behind an item's address, so that `why` answers for the same plan."""
        parts = [f"weeks={self.weeks:g}", f"trips={self.trips}"]
        parts += [f"budget={self.budget!r}"] if self.budget is not None else []
        parts += [f"price-rise={self.price_rise!r}"] if self.price_rise is not None else []
        parts += [f"shortage={self.shortage!r}"] if self.shortage is not None else []
        return "/".join(parts)


def asked_of(
    budget: object = None,
    trips: object = None,
    weeks: object = None,
    price_rise: object = None,
    shortage: object = None,
) -> Asked:
    """Return the options read from text or numbers.

    Raises
    ------
    InputError
        Naming the option, what was given and what would be right.
    """
    count = _read("trips", trips, Message.of("refusal-give-trips"), 104)
    if count is not None and (count != int(count) or count < 1):
        raise InputError("trips", Message.of("refusal-trips-number", text=Code(repr(trips))))
    empty = _read("shortage", shortage, Message.of("refusal-give-shortage"), 520)
    return Asked(
        _read("budget", budget, Message.of("refusal-give-budget"), 1e9),
        _TRIPS if count is None else int(count),
        _or(_read("weeks", weeks, Message.of("refusal-give-weeks"), 520), _or(empty, _WEEKS)),
        _read("price-rise", price_rise, Message.of("refusal-give-rise"), 1e6),
        empty,
    )


def _or(value: float | None, default: float) -> float:
    return default if value is None else value


def _read(name: str, given: object, wanted: Message, most: float) -> float | None:
    if given is None:
        return None
    text = str(given).strip()
    try:
        value = float(text.removesuffix("%").strip())
    except ValueError:
        value = math.nan
    if not 0 <= value <= most:
        raise InputError(
            name,
            Message.of("refusal-not-from-zero-to", text=Typed(text[:40]), most=round(most)),
            wanted,
        )
    return value


def packs_to_target(staple: Staple) -> int:
    """Return the packs missing to the target, however long they keep."""
    return replace(staple, keeps_weeks=math.inf).packs_wanted()


def plan_of(staples: list[Staple], asked: Asked) -> PackPlan | None:
    """Return the plan of extra packs; None where no budget was given."""
    if asked.budget is None:
        return None
    return extra_packs(staples, trips=asked.trips, budget=asked.budget)


def risk_of(staple: Staple, asked: Asked, planned: int) -> dict[str, float | None]:
    """Return what a price rise would cost and a shortage leave uncovered, now and after the plan."""
    after = replace(staple, held=staple.held + planned * staple.pack)
    out: dict[str, float | None] = {}
    for name, one in (("", staple), ("_after_plan", after)):
        if asked.price_rise is not None:
            out[f"rise_cost{name}"] = price_rise_cost(one, asked.price_rise, OVER_WEEKS)
        if asked.shortage is not None:
            out[f"uncovered_weeks{name}"] = weeks_uncovered(one, asked.shortage)
    return out
