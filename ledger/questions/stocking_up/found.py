"""What is known of each bought staple: stock, use a week, target, cheapest pack, how long it keeps."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.kinds import KINDS
from ledger.messages import sentence
from ledger.messages.units import amount
from ledger.methods.stocking import Staple
from ledger.methods.supply import past_best
from ledger.questions.shared.keeping import keeping_of
from ledger.questions.shared.use_by import days_of, use_by_of
from ledger.questions.shared.use_past import UsePast, is_use, use_past
from ledger.questions.targets import StockTarget, stock_targets
from ledger.replay import KEPT, ORIGINS
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

    Array = np.ndarray[Any, Any]

__all__ = ["LOOK_BACK", "Pack", "Stock", "stocks"]

LOOK_BACK = 52
"""Weeks in which a staple must have been used, and a price seen."""

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
class Stock:
    """One bought staple; amounts are whole units.

    Attributes
    ----------
    item : int
    lots : ndarray of int
        Those with something left.
    late : list of float
        How much of each passes its date before it is eaten.
    use : UsePast
        Of this and the other staples; `row` is its place there.
    per_week : float or None
        Whole units likely used a week over the coming weeks, as on the shelf; 0 where none was
        used, None where too little is known.
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
    use: UsePast
    row: int
    per_week: float | None
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
        """Return how much is wanted in the house; None where use or the people are not known."""
        if self.target is None:
            return None if self.per_week is None else self.per_week * self.weeks_wanted
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
        if self.pack is None or not self.per_week or wanted is None:
            return None
        return Staple(
            name,
            held=self.held,
            per_week=self.per_week,
            target_weeks=wanted / self.per_week,
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
    items = _staples(state, targets, _used_lately(state))
    if only is not None:
        items = [item for item in items if item == only]
    packs = _packs(state, np.array(items, np.int64))
    by_item = _lots_left(state)
    none = np.zeros(0, np.int64)
    out = []
    items.sort(key=lambda item: state.facts.names[item])
    use = use_past(state, np.array(items, np.int64))
    for row, item in enumerate(items):
        per_week = _per_week(use, row)
        lots = by_item.get(item, none)
        keeps, said = _keeps(state, item)
        left = [int(left) for left in state.left[lots]]
        until = [_weeks_until(state, int(lot)) for lot in lots]
        late = past_best([float(amount) for amount in left], until, per_week or 0.0)
        out.append(
            Stock(
                item, lots, left, late, use, row, per_week, targets.get(item), weeks, state.as_of_day,
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


def _used_lately(state: State) -> set[int]:
    """Return the items of which some was used within `LOOK_BACK`."""
    draws = state.draws
    recent = draws["day"] > state.as_of_day - 7 * LOOK_BACK
    return set(np.unique(draws["item"][is_use(state) & recent]).tolist())


def _per_week(use: UsePast, row: int) -> float | None:
    if use.too_few(row):
        return None
    likely = float(use.per_week[1, row])
    return 0.0 if math.isnan(likely) else likely * 1000


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
        item, whole = facts.lines(table, rows)
        some = np.isin(item, items)
        rows, item, whole = rows[some], item[some], whole[some]
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
    span = said.get(place or "shelf")
    if span is None and place is None and len(said) == 1:
        span = next(iter(said.values()))
    if span is None:
        published = keeping_of(state, last)
        if published is None:
            return None, ""
        span = published.low
        whose = sentence(
            "keeps-published-from",
            text=published.text,
            source=published.source,
            span=amount(span),
        )
    else:
        whose = sentence("keeps-household", span=amount(span))
    end = days_of(state.as_of_day, span)
    return (None, "") if end is None else ((end - state.as_of_day) / 7, whose)
