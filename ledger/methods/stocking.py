"""Laying in staples: so many extra packs a trip within a budget, and what a crisis would cost."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from ledger.errors import InputError
from ledger.messages import Message
from ledger.methods.ratios import ratio

__all__ = ["PackPlan", "Staple", "Trip", "extra_packs"]

_NOTHING = 0.02
"""Part of a pack for which none is bought: a fiftieth is less than a household measures (our own choice)."""


@dataclass(frozen=True)
class Staple:
    """A bought staple.

    Attributes
    ----------
    name : str
        Its name; one entry a staple.
    held, per_week : float
        What is in the house and what a week takes, in one unit.
    target_weeks : float
        How many weeks the household wants in the house.
    pack, price : float
        What a pack holds, in that unit, above 0, and the cheapest price seen for it; money.
    keeps_weeks : float
        Best-before of a new pack, in weeks; inf where it has none.
    """

    name: str
    held: float
    per_week: float
    target_weeks: float
    pack: float
    price: float
    keeps_weeks: float = math.inf

    def weeks(self) -> float | None:
        """Return how many weeks are in the house; None where none is used."""
        return ratio(self.held, self.per_week)

    def packs_wanted(self) -> int:
        """Return the packs missing to the target, no more than are eaten before their date."""
        short = self.per_week * self.target_weeks - self.held
        packs = math.ceil(short / self.pack - _NOTHING)
        if math.isinf(self.keeps_weeks):
            return max(0, packs)
        room = self.per_week * self.keeps_weeks - self.held
        most = math.floor(room / self.pack + 1e-9)
        return max(0, min(packs, most))


@dataclass(frozen=True)
class Trip:
    """What to buy besides on one trip: packs by staple, and what they cost."""

    packs: dict[str, int] = field(default_factory=dict)
    cost: float = 0.0


@dataclass(frozen=True)
class PackPlan:
    """The trips in order, and what still lacks after them.

    Attributes
    ----------
    trips : list of Trip
        One a trip.
    cost : float
        Money in all.
    packs_short : dict of str to int
        Packs that the budget did not reach to.
    kept_out : dict of str to int
        Packs to the target that would pass their best-before date before they are eaten.
    """

    trips: list[Trip]
    cost: float
    packs_short: dict[str, int]
    kept_out: dict[str, int]


def extra_packs(staples: Sequence[Staple], *, trips: int, budget: float) -> PackPlan:
    """Return a plan of extra packs, beyond what the trips' own weeks take.

    On each trip the staple whose next week costs least comes first, as far as the budget goes.

    Parameters
    ----------
    staples : sequence of Staple
        What is to be laid in.
    trips : int
        How many trips to plan, 0 or more.
    budget : float
        Money for extra packs on one trip, 0 or more.

    Returns
    -------
    PackPlan

    Raises
    ------
    InputError
        When a pack is not above zero, a price or use is negative, or a staple comes twice.
    """
    _check(staples, trips, budget)
    wanted = {s.name: s.packs_wanted() for s in staples}
    to_target = {
        s.name: max(0, math.ceil((s.per_week * s.target_weeks - s.held) / s.pack - 1e-9))
        for s in staples
    }
    kept_out = {name: to_target[name] - n for name, n in wanted.items() if to_target[name] > n}
    order = sorted(staples, key=lambda s: (s.price / s.pack * s.per_week, s.name))
    planned = []
    for _ in range(trips):
        left, packs = budget, {}
        for staple in order:
            taken = wanted[staple.name]
            if taken * staple.price > left:
                taken = math.floor(left / staple.price + 1e-9)
            if taken:
                packs[staple.name] = taken
                wanted[staple.name] -= taken
                left -= taken * staple.price
        planned.append(Trip(packs, budget - left))
    return PackPlan(
        planned,
        math.fsum(trip.cost for trip in planned),
        {name: n for name, n in wanted.items() if n},
        kept_out,
    )


def _check(staples: Sequence[Staple], trips: int, budget: float) -> None:
    if trips < 0 or budget < 0:
        raise InputError("budget", Message.of("refusal-trips-at", n=trips, money=budget))
    names = [staple.name for staple in staples]
    for staple in staples:
        if not staple.pack > 0 or min(staple.price, staple.per_week, staple.held) < 0:
            raise InputError(staple.name, Message.of("refusal-staple-below"))
        if names.count(staple.name) > 1:
            raise InputError(staple.name, Message.of("refusal-staple-twice"))
