"""What was asked, and the plan of extra packs as figures."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import InputError
from ledger.figures import Array, Figure, assumed, method, total
from ledger.messages import Code, Message, Typed
from ledger.methods.stocking import Staple, extra_packs

if TYPE_CHECKING:
    from ledger.questions.stocking_up.gather import Staples

__all__ = ["OVER_WEEKS", "Asked", "Packs", "asked_of"]

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


_GIVEN = ("per_week.whole", "target_weeks", "pack.whole", "price", "keeps_weeks")
_SHARED = {"packs_wanted": "packs-of", "price_per_week": "week-of", "price": "price-of"}
"""What the plan goes by, and what it is called of each staple."""


class Packs:
    """What the procedure gives: whole packs to the target, and the plan of the trips.

    Parameters
    ----------
    staples : Staples
    known : mapping of str to Figure
        What it is given, by the names of the columns, and ``held``.

    Attributes
    ----------
    plannable : ndarray of bool, shape (staples,)
        Of which use, price and target are known.
    plan : PackPlan or None
        None where no budget was given.
    """

    def __init__(self, staples: Staples, known: Mapping[str, Figure]) -> None:
        self._staples, self._known = staples, known
        values = {name: known[name].values for name in ("held", *_GIVEN)}
        self.plannable: Array = staples.has_pack & staples.uses & staples.target_known
        self._rows = np.flatnonzero(self.plannable).tolist()
        self._given = [
            Staple(
                staples.names[row],
                held=float(values["held"][row]),
                per_week=float(values["per_week.whole"][row]),
                target_weeks=float(values["target_weeks"][row]),
                pack=float(values["pack.whole"][row]),
                price=float(values["price"][row]),
                keeps_weeks=float(values["keeps_weeks"][row])
                if staples.keeps_known[row]
                else math.inf,
            )
            for row in self._rows
        ]
        asked = staples.asked
        self.plan = (
            None
            if asked.budget is None
            else extra_packs(self._given, trips=asked.trips, budget=asked.budget)
        )

    def to_target(self) -> Figure:
        """Return the whole packs missing to the target, however long they keep."""
        endless = [replace(one, keeps_weeks=math.inf).packs_wanted() for one in self._given]
        given = [self._known[name] for name in ("target.whole", "held", "pack.whole")]
        return method(lambda: self._column(endless), "packs", "whole-packs", given)

    def in_time(self, to_target: Figure) -> Figure:
        """Return how many of them are used before their date."""
        packs = [one.packs_wanted() for one in self._given]
        names = ("keeps_weeks", "per_week.whole", "held", "pack.whole")
        given = [to_target, *(self._known[name] for name in names)]
        return method(lambda: self._column(packs), "packs", "used-before-date", given)

    def planned(self, wanted: Figure) -> Figure:
        """Return the packs of all trips of the plan."""
        assert self.plan is not None
        return total(*(self._trip(number, wanted) for number in range(len(self.plan.trips))))

    def _trip(self, number: int, wanted: Figure) -> Figure:
        """Return the packs bought on a trip of the plan: all staples share its money."""
        assert self.plan is not None
        bought = self.plan.trips[number].packs
        packs = [bought.get(one.name, 0) for one in self._given]
        asked, names = self._staples.asked, self._staples.names
        budget = assumed(asked.budget, "money", "budget").called("budget")
        known = {**self._known, "packs_wanted": wanted}
        each = [
            known[name]
            .called(label, item=lambda row: names[row])
            .folds(lambda row, n=name: (f"stocking-up/{names[row]}/{asked.address}", n))  # type: ignore[misc]
            for name, label in _SHARED.items()
        ]
        given = [(budget, 0), *((one, row) for row in self._rows for one in each)]
        return method(
            lambda: self._column(packs), "packs", "cheapest-week-first", lambda _: given
        ).called("trip", n=number + 1, n2=asked.budget)

    def _column(self, packs: list[int]) -> Array:
        out = np.full(self._staples.count, np.nan)
        out[self._rows] = packs
        return out
