"""What did prices do to our own basket: the same as before, today's, and between the two?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.errors import InputError, NotFound
from ledger.events import KINDS
from ledger.methods.price_index import fisher, laspeyres, paasche
from ledger.projections._arithmetic import power, product, quotient, total
from ledger.projections._common import answer, event_node, whole_unit
from ledger.projections._use_past import is_use
from ledger.projections.base import Answer, Column, Node, Option, Projection
from ledger.replay import ORIGINS
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("item", "Item", "", "What was bought and used in both periods; all: the index of them together.", main=True),
    Column("price_0", "Before", "money a whole unit", "Mean price paid, else seen, in the earlier period, a mg, ul or thousandth."),
    Column("price_1", "Now", "money a whole unit", "The same in the later period."),
    Column("quantity_0", "Used before", "whole units", "Of what was bought, used in the earlier period."),
    Column("quantity_1", "Used now", "whole units", "The same in the later period."),
    Column("change", "Price", "index", "Price now / before, the earlier period being 100.", main=True),
    Column("share", "Of spending", "0 to 1", "Its part of what was used now, at its prices; of all the part of everything used that was bought.", main=True),
    Column("laspeyres", "Same basket", "index", "Of all: the earlier basket at both prices (Laspeyres).", main=True, rare=True),
    Column("paasche", "Today's basket", "index", "Of all: the later basket at both prices (Paasche).", main=True, rare=True),
    Column("fisher", "Between", "index", "Of all: the root of their product (Fisher), the headline; null below 70 per cent of spending.", main=True, rare=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_LEAST = 0.7
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


def build(state: State, *, year: str | int | None = None, base: str | int | None = None) -> Answer:
    """Return one record an item priced in both periods, and one of them together.

    Parameters
    ----------
    state : State
    year, base : text or int, optional
        Calendar years, the later and the earlier; default the last 365 days against those before.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.

    Raises
    ------
    InputError
        When a year is none, or the base is not before the other.
    """
    before, now, address = _periods(state, year, base)
    basket = _basket(state, before, now)
    p0, p1, q0, q1 = basket.columns()
    spent = math.fsum(p * q for p, q in zip(p1, q1, strict=True))
    records: list[dict[str, Any]] = [
        {
            "why": f"own-prices/{address}/{state.facts.names[item]}",
            "item": state.facts.names[item],
            "price_0": p0[n],
            "price_1": p1[n],
            "quantity_0": q0[n],
            "quantity_1": q1[n],
            "change": 100 * p1[n] / p0[n] if p0[n] else None,
            "share": p1[n] * q1[n] / spent if spent else None,
            "assumptions": ["prices"],
        }
        for n, item in enumerate(basket.items)
    ]
    records.sort(key=lambda r: (-(r["share"] or 0.0), r["item"]))
    low, high = laspeyres(p0, p1, q0), paasche(p0, p1, q1)
    enough = basket.share is not None and basket.share >= _LEAST
    middle = fisher(low, high) if enough else None
    if records:
        records.insert(0, {
            "why": f"own-prices/{address}/all", "item": "all", "share": basket.share, "laspeyres": low,
            "paasche": high, "fisher": middle, "assumptions": ["prices", "fisher"],
        })  # fmt: skip
    totals = {
        "from": day_text(before.start),
        "to": day_text(now.end),
        "in_words": _words(basket, low, middle, before, now),
    }
    if not records:
        totals["missing"] = ["Nothing was bought and used in both periods."]
    return answer(state, "own-prices", COLUMNS, records, totals=totals, assumptions=_notes())


def _words(
    basket: Basket, low: float | None, middle: float | None, before: Period, now: Period
) -> list[str]:
    if low is None:
        return []
    span = f"{day_text(now.start)} to {day_text(now.end)} against {day_text(before.start)} to {day_text(before.end)}"
    if middle is None:
        return [
            f"Not enough to say: the items priced in both periods are {basket.share or 0:.0%} of spending ({span})."
        ]
    return [
        f"Our own prices: {middle:.1f} ({span}; before: 100), the same basket {low:.1f}; it rests on {basket.share or 0:.0%} of spending."
    ]


def _notes() -> list[Assumption]:
    return [
        Assumption(
            "prices",
            "Prices are the mean paid by amount in each period, else the mean seen; quantities are what was used of what was bought, as it was.",
        ),
        Assumption(
            "fisher",
            "The headline lies between the two baskets (Fisher); below 70 per cent of spending priced in both periods there is none.",
        ),
    ]


def _periods(
    state: State, year: str | int | None, base: str | int | None
) -> tuple[Period, Period, str]:
    if year is None and base is None:
        end = state.as_of_day
        return Period(end - 2 * _YEAR + 1, end - _YEAR), Period(end - _YEAR + 1, end), "last-year"
    later = _year(year if year is not None else day_text(state.as_of_day)[:4], "year")
    earlier = _year(base if base is not None else later - 1, "base")
    if earlier >= later:
        raise InputError("base", f"{earlier} is not before {later}", "Write an earlier year")
    return _of(earlier, state), _of(later, state), f"{earlier}-{later}"


def _year(text: str | int, field: str) -> int:
    if not str(text).isdigit() or not 1900 <= int(text) <= 9000:
        raise InputError(field, f"{text!r} is not a year", "Write it like 2026")
    return int(text)


def _of(year: int, state: State) -> Period:
    return Period(day_number(f"{year}-01-01"), min(day_number(f"{year}-12-31"), state.as_of_day))


def _basket(state: State, before: Period, now: Period) -> Basket:
    """Return prices and quantities of both periods."""
    draw, lot, amount = state.allocations
    bought = state.lots["origin"][lot] == ORIGINS.index("bought")
    use = is_use(state)[draw] & bought
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


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree down to what was paid.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    address, _, name = key.partition("/")
    base, _, year = address.partition("-")
    if address == "last-year":
        base = year = ""
    if address != "last-year" and not (base.isdigit() and year.isdigit()):
        raise NotFound(
            "address",
            f"there is no record {key!r} of own-prices",
            "Take an address from `croftbook show own-prices --json`",
        )
    before, now, _ = _periods(state, year or None, base or None)
    basket = _basket(state, before, now)
    if name == "all":
        return _all(state, basket, field or "fisher")
    item = state.facts.find(name)
    if item is None or item not in basket.items:
        raise NotFound(
            "address",
            f"there is no record {key!r} of own-prices",
            "Take an address from `croftbook show own-prices --json`",
        )
    prices = [_price(state, basket, item, n) for n in (0, 1)]
    trees = {
        "change": product(
            "price now / before, in hundreds",
            "index",
            Node("before is", 100.0, "index"),
            quotient("now / before", "times", prices[1], prices[0]),
        ),
        "price_0": prices[0],
        "price_1": prices[1],
        "quantity_0": Node("used before", basket.used[0].get(item, 0.0), whole_unit(state, item)),
        "quantity_1": Node("used now", basket.used[1].get(item, 0.0), whole_unit(state, item)),
    }
    if field == "share":
        return _share(state, basket, item)
    figure = field or "change"
    if figure not in trees:
        raise NotFound(
            "figure", f"{figure!r} is not a figure of own-prices", f"It has: {', '.join(trees)}"
        )
    return trees[figure]


def _price(state: State, basket: Basket, item: int, n: int) -> Node:
    points = basket.points[n][item]
    money = total(
        "paid or seen", "money", *(event_node(state, ev, "", m, "money") for m, _, ev in points)
    )
    whole = total(
        "for", "whole units", *(event_node(state, ev, "", w, "whole units") for _, w, ev in points)
    )
    return quotient(
        "mean price before" if n == 0 else "mean price now", "money a whole unit", money, whole
    )


def _all(state: State, basket: Basket, figure: str) -> Node:
    trees = {name: _index(state, basket, n) for n, name in enumerate(("laspeyres", "paasche"))}
    both = product("their product", "", trees["laspeyres"], trees["paasche"])
    trees["fisher"] = power("between (Fisher)", "index", both, Node("root", 0.5, ""))
    if figure == "share":
        return _share(state, basket, None)
    if figure not in trees:
        raise NotFound(
            "figure", f"{figure!r} is not a figure of own-prices", f"It has: {', '.join(trees)}"
        )
    if figure == "fisher" and (basket.share or 0.0) < _LEAST:
        return Node("not enough to say", None, "index")
    return trees[figure]


def _share(state: State, basket: Basket, item: int | None) -> Node:
    """Return an item's part of what the priced items cost now; of all their part of everything used."""
    now, before = basket.prices[1], basket.prices[0]
    spent = [(i, basket.used[1].get(i, 0.0) * now[i]) for i in basket.items]
    mine = total(
        "priced in both periods",
        "money",
        *(Node(state.facts.names[i], money, "money") for i, money in spent if money),
    )
    if item is not None:
        money = next(money for i, money in spent if i == item)
        return quotient("part of spending", "0 to 1", Node("of it", money, "money"), mine)
    every = [(i, q * now.get(i, before.get(i, 0.0))) for i, q in basket.used[1].items()]
    whole = total(
        "all that was used",
        "money",
        *(Node(state.facts.names[i], money, "money") for i, money in every if money),
    )
    return quotient("part of spending", "0 to 1", mine, whole)


def _index(state: State, basket: Basket, of: int) -> Node:
    """Return the index of the basket of one period: its quantities at both prices."""
    sums = []
    for n in (1, 0):
        parts = [
            product(
                state.facts.names[i],
                "money",
                _price(state, basket, i, n),
                Node("used", basket.used[of].get(i, 0.0), "whole units"),
            )
            for i in basket.items
        ]
        sums.append(total("at prices now" if n else "at prices before", "money", *parts))
    label = "the earlier basket (Laspeyres)" if of == 0 else "today's basket (Paasche)"
    return product(
        label,
        "index",
        Node("before is", 100.0, "index"),
        quotient("now / before", "times", sums[0], sums[1]),
    )


PROJECTION = Projection(
    name="own-prices",
    title="Our prices",
    question="What did prices do to our own basket?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("year", "a calendar year instead of the last 365 days", "2026"),
        Option("base", "the earlier year that it is set against", "2025"),
    ),
)
