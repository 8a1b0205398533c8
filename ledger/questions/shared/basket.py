"""The household's own basket in two periods: what was used of what was bought, and at what prices."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import InputError
from ledger.kinds import KINDS
from ledger.messages import Code, Message
from ledger.questions.shared.use_past import is_use
from ledger.replay import ORIGINS
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LEAST", "Basket", "Period", "basket_of", "periods_of"]

LEAST = 0.7
"""Below this part of spending there is no headline."""
_YEAR = 365
_BOUGHT = list(KINDS).index("bought")


@dataclass(frozen=True)
class Period:
    """Days from start to end, both included."""

    start: int
    end: int

    def holds(self, day: np.ndarray[Any, Any]) -> np.ndarray[Any, Any]:
        """Return which days lie in it."""
        return np.asarray((day >= self.start) & (day <= self.end))


@dataclass
class Basket:
    """Prices and quantities of both periods by item, and all that was used at its price."""

    prices: tuple[dict[int, float], dict[int, float]]
    points: tuple[
        dict[int, list[tuple[float, float, int]]], dict[int, list[tuple[float, float, int]]]
    ]
    used: tuple[dict[int, float], dict[int, float]]

    @property
    def items(self) -> list[int]:
        """Items priced in both periods and used in either."""
        both = set(self.prices[0]) & set(self.prices[1])
        return sorted(i for i in both if self.used[0].get(i) or self.used[1].get(i))

    def columns(self) -> tuple[list[float], list[float], list[float], list[float]]:
        """Return p0, p1, q0, q1 of the items."""
        p0, p1 = ([self.prices[n][i] for i in self.items] for n in (0, 1))
        q0, q1 = ([self.used[n].get(i, 0.0) for i in self.items] for n in (0, 1))
        return p0, p1, q0, q1

    @property
    def share(self) -> float | None:
        """Part of the later spending that the items are; None of no spending."""
        every = math.fsum(
            q * self.prices[1].get(i, self.prices[0].get(i, 0.0)) for i, q in self.used[1].items()
        )
        mine = math.fsum(self.used[1].get(i, 0.0) * self.prices[1][i] for i in self.items)
        return mine / every if every > 0 else None


def periods_of(
    state: State, year: str | int | None, base: str | int | None
) -> tuple[Period, Period, str]:
    """Return the year asked about, the one it is set against, and why where that is another."""
    if year is None and base is None:
        end = state.as_of_day
        return Period(end - 2 * _YEAR + 1, end - _YEAR), Period(end - _YEAR + 1, end), "last-year"
    later = _year(year if year is not None else day_text(state.as_of_day)[:4], "year")
    earlier = _year(base if base is not None else later - 1, "base")
    if earlier >= later:
        raise InputError(
            "base", Message.of("refusal-year-not-before", earlier=earlier, later=later)
        )
    return _of(earlier, state), _of(later, state), f"{earlier}-{later}"


def _year(text: str | int, field: str) -> int:
    if not str(text).isdigit() or not 1900 <= int(text) <= 9000:
        raise InputError(
            field,
            Message.of("refusal-not-a-year", text=Code(repr(text))),
            Message.of("refusal-like-year"),
        )
    return int(text)


def _of(year: int, state: State) -> Period:
    return Period(day_number(f"{year}-01-01"), min(day_number(f"{year}-12-31"), state.as_of_day))


def basket_of(state: State, before: Period, now: Period) -> Basket:
    """Return prices and quantities of both periods."""
    draw, lot, amount = state.allocations
    bought = state.lots["origin"][lot] == ORIGINS.index("bought")
    use = state.once(is_use)[draw] & bought
    item, day = state.lots["item"][lot], state.draws["day"][draw]
    used, prices, points = [], [], []
    for period in (before, now):
        rows = np.flatnonzero(use & period.holds(day))
        sums = (
            np.bincount(item[rows], amount[rows].astype(float), len(state.facts))
            if rows.size
            else np.zeros(0)
        )
        used.append({int(i): float(sums[i]) for i in np.flatnonzero(sums)})
        found = _points(state, period)
        points.append(found)
        prices.append(
            {
                i: math.fsum(m for m, _, _ in some) / math.fsum(w for _, w, _ in some)
                for i, some in found.items()
            }
        )
    return Basket((prices[0], prices[1]), (points[0], points[1]), (used[0], used[1]))


def _points(state: State, period: Period) -> dict[int, list[tuple[float, float, int]]]:
    """Return (money, whole units, event) of what was paid in a period by item, else of what was seen."""
    paid: dict[int, list[tuple[float, float, int]]] = {}
    seen: dict[int, list[tuple[float, float, int]]] = {}
    lots = state.lots
    kinds = state.journal.tables["events"]["kind"]
    rows = np.flatnonzero(
        (lots["origin"] == ORIGINS.index("bought"))
        & period.holds(lots["day"])
        & (lots["whole"] > 0)
    )
    for one in rows.tolist():
        money = float(lots["money"][one])
        if not math.isnan(money) and money > 0 and kinds[lots["ev"][one]] == _BOUGHT:
            paid.setdefault(int(lots["item"][one]), []).append(
                (money, float(lots["whole"][one]), int(lots["ev"][one]))
            )
    for ev in state.events("price_seen").tolist():
        if period.start <= int(state.moment.on[ev]) <= period.end:
            body = state.body(ev)
            item = state.facts.find(body["item"])
            if item is not None and item not in paid and body.get("whole"):
                seen.setdefault(item, []).append((float(body["price"]), float(body["whole"]), ev))
    return {**seen, **paid}
