"""What is known of each bought staple: stock, use a week, target, cheapest pack, how long it keeps."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.events import KINDS
from ledger.methods.stocking import Staple
from ledger.methods.supply import past_best
from ledger.projections._keeping import keeping_of
from ledger.projections._stock_targets import StockTarget, stock_targets
from ledger.projections._use_by import days_of, use_by_of
from ledger.projections._use_weeks import is_use
from ledger.replay import KEPT, ORIGINS
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

    Array = np.ndarray[Any, Any]

__all__ = ["LOOK_BACK", "Pack", "Stock", "Use", "stocks"]

LOOK_BACK = 52
"""Whole weeks over which use is averaged, and in which a price must have been seen."""

_WEEKS_A_YEAR = 365 / 7
_SORTS = [SORTS.index(sort) for sort in ("food", "supply", "lid", "fuel")]
_BOUGHT = list(KINDS).index("bought")


@dataclass(frozen=True)
class Pack:
    """The cheapest pack seen: whole units, money, and the event that says so."""

    whole: int
    price: float
    ev: int


@dataclass(frozen=True)
class Use:
    """Use over the last whole weeks: how many weeks, and the draws in them."""

    weeks: int
    draws: Array
    whole: float

    @property
    def per_week(self) -> float:
        """Return whole units a week."""
        return self.whole / self.weeks if self.weeks else 0.0


@dataclass(frozen=True)
class Stock:
    """One bought staple; amounts are whole units.

    Attributes
    ----------
    item : int
    lots : ndarray of int
        Those with something left.
    late : list of float
        How much of each passes its date before it is eaten.
    use : Use
    target : StockTarget or None
        The household's own; else so many weeks.
    weeks_wanted : float
        By the option.
    pack : Pack or None
        None where no price was ever seen.
    keeps_weeks : float or None
        Of a new pack; None where nobody says.
    keeps_said : str
    """

    item: int
    lots: Array
    left: list[int]
    late: list[float]
    use: Use
    target: StockTarget | None
    weeks_wanted: float
    today: int
    pack: Pack | None
    keeps_weeks: float | None
    keeps_said: str

    @property
    def held(self) -> float:
        """Return what is there and will be used in time."""
        return sum(self.left) - math.fsum(self.late)

    def target_whole(self) -> float | None:
        """Return how much is wanted in the house; None where the people are not known."""
        if self.target is None:
            return self.use.per_week * self.weeks_wanted
        times = self.target.times
        if times is None:
            return None
        amount = self.target.amount * 1000 * times
        ahead = self.target.by is not None and self.today <= self.target.by
        return amount if self.target.per is None or ahead else self.target_share() * amount

    def target_share(self) -> float:
        """Return which part of a year's amount the weeks wanted are."""
        return self.weeks_wanted / _WEEKS_A_YEAR

    def staple(self, name: str) -> Staple | None:
        """Return it as the planning method takes it; None where use, price or target is not known."""
        wanted = self.target_whole()
        if self.pack is None or self.use.per_week <= 0 or wanted is None:
            return None
        return Staple(
            name,
            held=self.held,
            per_week=self.use.per_week,
            target_weeks=wanted / self.use.per_week,
            pack=float(self.pack.whole),
            price=self.pack.price,
            keeps_weeks=math.inf if self.keeps_weeks is None else self.keeps_weeks,
        )


def stocks(state: State, weeks: float, only: int | None = None) -> list[Stock]:
    """Return the bought staples, by name.

    A staple is food, supply, lids or fuel that was bought on two days or more (or has a target), is
    mostly bought and not the household's own, and was used within the last year (or has a target).
    """
    targets = stock_targets(state)
    use = _use(state)
    items = _staples(state, targets, {item for item, one in use.items() if one.whole > 0})
    if only is not None:
        items = [item for item in items if item == only]
    packs = _packs(state, np.array(items, np.int64))
    by_item = _lots_left(state)
    none = np.zeros(0, np.int64)
    out = []
    for item in sorted(items, key=lambda item: state.facts.names[item]):
        mine = use.get(item) or Use(_weeks_seen(state), none, 0.0)
        lots = by_item.get(item, none)
        keeps, said = _keeps(state, item)
        left = [int(left) for left in state.left[lots]]
        until = [_weeks_until(state, int(lot)) for lot in lots]
        late = past_best([float(amount) for amount in left], until, mine.per_week)
        out.append(
            Stock(
                item, lots, left, late, mine, targets.get(item), weeks, state.as_of_day,
                packs.get(item), keeps, said,
            )
        )  # fmt: skip
    return out


def _staples(state: State, targets: dict[int, StockTarget], used: set[int]) -> list[int]:
    lots, size = state.lots, len(state.facts)
    if not size:
        return []
    origin = lots["origin"]
    recent = lots["day"] > state.as_of_day - 7 * LOOK_BACK
    shop = origin == ORIGINS.index("bought")
    own = ~shop & (origin < ORIGINS.index("found")) | (origin == ORIGINS.index("batch"))
    own &= np.isnan(lots["share"])
    whole = lots["whole"].astype(float)

    def total(which: Array) -> Array:
        return np.bincount(lots["item"][which], whole[which], size)

    bought, made = total(shop & recent), total(own & recent)
    # Nothing came in for a year: go by all that ever came.
    still = (bought + made) == 0
    bought, made = np.where(still, total(shop), bought), np.where(still, total(own), made)
    days = np.unique(np.stack([lots["item"][shop], lots["day"][shop]]), axis=1)
    times = np.bincount(days[0], minlength=size)
    keep = (bought > made) & np.isin(state.facts.sort, _SORTS)
    return [
        item
        for item in np.flatnonzero(keep).tolist()
        if item in targets or (times[item] > 1 and item in used)
    ]


def _weeks_seen(state: State) -> int:
    """Return the whole weeks that the book goes back, up to `LOOK_BACK`."""
    if not state.lots["day"].size:
        return 0
    return int(min((state.as_of_day - state.lots["day"].min() + 1) // 7, LOOK_BACK))


def _use(state: State) -> dict[int, Use]:
    """Return the use of each item over the last whole weeks since it was first there."""
    draws, lots = state.draws, state.lots
    size = len(state.facts)
    if not size or not lots["item"].size:
        return {}
    first = np.full(size, state.as_of_day + 1)
    np.minimum.at(first, lots["item"], lots["day"])
    weeks = np.clip((state.as_of_day + 1 - first) // 7, 0, LOOK_BACK)
    start = state.as_of_day - 7 * weeks  # the day before the first of them
    rows = np.flatnonzero(is_use(state) & (draws["day"] > start[draws["item"]]))
    rows = rows[np.argsort(draws["item"][rows], kind="stable")]
    item = draws["item"][rows]
    bounds = np.searchsorted(item, np.arange(size + 1))
    sums = np.bincount(item, draws["whole"][rows].astype(float), size)
    return {
        one: Use(int(weeks[one]), rows[bounds[one] : bounds[one + 1]], float(sums[one]))
        for one in np.flatnonzero(sums > 0).tolist()
    }


def _lots_left(state: State) -> dict[int, Array]:
    rows = np.flatnonzero(state.left > 0)
    rows = rows[np.argsort(state.lots["item"][rows], kind="stable")]
    items, starts = np.unique(state.lots["item"][rows], return_index=True)
    parts = np.split(rows, starts[1:]) if rows.size else []
    return {int(item): part for item, part in zip(items, parts, strict=True)}


def _weeks_until(state: State, lot: int) -> float:
    day, _ = use_by_of(state, lot)
    return math.inf if day is None else (day - state.as_of_day) / 7


def _packs(state: State, items: Array) -> dict[int, Pack]:
    """Return the pack with the lowest price by amount: of the last year, else the newest seen."""
    journal, facts, moment = state.journal, state.facts, state.moment
    parts = []
    for name in ("supplies", "prices"):
        table, rows = journal.tables[name], moment.rows(journal, name)
        if name == "supplies":
            rows = rows[journal.tables["events"]["kind"][table["ev"][rows]] == _BOUGHT]
        item = facts.canon[table["item"][rows]].astype(np.int64)
        rows, item = rows[np.isin(item, items)], item[np.isin(item, items)]
        whole = facts.wholes(item, table["whole"][rows], table["per"][rows], table["times"][rows])
        ev = table["ev"][rows].astype(np.int64)
        parts.append((item, whole, table["money"][rows], ev))
    item, whole, money, ev = (np.concatenate(several) for several in zip(*parts, strict=True))
    keep = (whole > 0) & (money > 0)
    item, whole, money, ev = item[keep], whole[keep], money[keep], ev[keep]
    day = moment.on[ev]
    old = day <= state.as_of_day - 7 * LOOK_BACK
    each = np.where(old, 0.0, money / np.maximum(whole, 1))
    order = np.lexsort((-moment.rank[ev], -day, each, old, item))
    found, first = np.unique(item[order], return_index=True)
    at = order[first]
    return {
        int(one): Pack(int(whole[i]), float(money[i]), int(ev[i]))
        for one, i in zip(found, at, strict=True)
    }


def _keeps(state: State, item: int) -> tuple[float | None, str]:
    """Return how many weeks a new pack keeps where the last one was put, and who says so."""
    lots = state.lots
    bought = np.flatnonzero((lots["item"] == item) & (lots["origin"] == ORIGINS.index("bought")))
    if not bought.size:
        return None, ""
    last = int(bought[-1])
    code = int(lots["kept"][last])
    place = KEPT[code] if code >= 0 else None
    said = state.facts.facts[item].keeps or {}
    span, who = said.get(place or "shelf"), "the household says it keeps"
    if span is None and place is None and len(said) == 1:
        span = next(iter(said.values()))
    if span is None:
        published = keeping_of(state, last)
        if published is None:
            return None, ""
        span, who = published.low, f"{published.text} ({published.source}):"
    end = days_of(state.as_of_day, span)
    return (None, "") if end is None else ((end - state.as_of_day) / 7, f"{who} {span}")
