"""What is known of each bought staple: its lots, use, target, cheapest pack, how long it keeps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.kinds import KINDS
from ledger.messages import sentence
from ledger.messages.units import amount
from ledger.questions.shared.common import listed_lots
from ledger.questions.shared.keeping import keeping_of
from ledger.questions.shared.use_by import days_of
from ledger.questions.shared.use_past import UsePast, is_use, use_past
from ledger.questions.targets import StockTarget, stock_targets
from ledger.replay import KEPT, ORIGINS
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

    Array = np.ndarray[Any, Any]

__all__ = ["LOOK_BACK", "Found", "Keeps", "Pack", "found"]

_DAY_BITS = 32
LOOK_BACK = 52
"""Weeks in which a staple must have been used, and a price seen."""

_SORTS = [SORTS.index(sort) for sort in ("food", "supply", "lid", "fuel")]
_BOUGHT = list(KINDS).index("bought")


@dataclass(frozen=True)
class Pack:
    """The cheapest pack seen: whole units, money, and the event that says so."""

    whole: int
    price: float
    ev: int


@dataclass(frozen=True)
class Keeps:
    """How long a new pack keeps where the last one was put.

    Attributes
    ----------
    day : int
        The last day of one bought now, since 1970.
    span : str
        Like ``12 months``.
    said : str
        Who says so, in words.
    source : str
        The document that says it; empty: the household.
    """

    day: int
    span: str
    said: str
    source: str = ""


@dataclass(frozen=True)
class Found:
    """The bought staples, a row each, by name.

    Attributes
    ----------
    items : ndarray of int, shape (staples,)
    lots : list of ndarray of int
        Those of each with something left.
    use : UsePast
    targets : list of StockTarget or None
        The household's own.
    packs : list of Pack or None
        None where no price was ever seen.
    keeps : list of Keeps or None
        None where nobody says.
    """

    items: Array
    lots: list[Array]
    use: UsePast
    targets: list[StockTarget | None]
    packs: list[Pack | None]
    keeps: list[Keeps | None]


def found(state: State, only: int | None = None) -> Found:
    """Return the bought staples, by name.

    A staple is food, supply, lids or fuel that was bought on two days or more (or has a target), is
    mostly bought and not the household's own, and was used within the last year (or has a target).
    """
    targets = state.once(stock_targets)
    several = _staples(state, targets, _used_lately(state))
    if only is not None:
        several = [item for item in several if item == only]
    several.sort(key=lambda item: state.facts.names[item])
    items = np.array(several, np.int64)
    packs, by_item, none = _packs(state, items), _lots_left(state), np.zeros(0, np.int64)
    return Found(
        items,
        [by_item.get(item, none) for item in several],
        use_past(state, items),
        [targets.get(item) for item in several],
        [packs.get(item) for item in several],
        [_keeps(state, item) for item in several],
    )


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
    days = np.sort(lots["item"][shop] << _DAY_BITS | lots["day"][shop])
    days = days[np.flatnonzero(np.diff(days, prepend=-1))]
    times = np.bincount(days >> _DAY_BITS, minlength=size)
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
    return set(np.unique(draws["item"][state.once(is_use) & recent]).tolist())


def _lots_left(state: State) -> dict[int, Array]:
    rows = listed_lots(state)
    rows = rows[np.argsort(state.lots["item"][rows], kind="stable")]
    items, starts = np.unique(state.lots["item"][rows], return_index=True)
    parts = np.split(rows, starts[1:]) if rows.size else []
    return {int(item): part for item, part in zip(items, parts, strict=True)}


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


def _keeps(state: State, item: int) -> Keeps | None:
    """Return how long a new pack keeps where the last one was put; None where nobody says."""
    lots = state.lots
    bought = np.flatnonzero((lots["item"] == item) & (lots["origin"] == ORIGINS.index("bought")))
    if not bought.size:
        return None
    last = int(bought[-1])
    code = int(lots["kept"][last])
    place = KEPT[code] if code >= 0 else None
    said = state.facts.facts[item].keeps or {}
    span, source = said.get(place or "shelf"), ""
    if span is None and place is None and len(said) == 1:
        span = next(iter(said.values()))
    if span is None:
        published = keeping_of(state, last)
        if published is None:
            return None
        span, source = published.low, published.source
        whose = sentence(
            "keeps-published-from", text=published.text, source=source, span=amount(span)
        )
    else:
        whose = sentence("keeps-household", span=amount(span))
    end = days_of(state.as_of_day, span)
    return None if end is None else Keeps(end, span, whose, source)
