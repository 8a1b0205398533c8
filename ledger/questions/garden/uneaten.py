"""What was picked and never eaten, and what a glut that went to the animals replaced.

A harvest that is still in the book when its keeping is over is worth nothing any more: nobody ate
it, put it up or counted it since. What was fed to animals is worth the feed that it spared, not its shop
price; what was composted spared nothing that anybody pays for.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Spans, assumed, choose, nothing, said
from ledger.kinds import KINDS
from ledger.questions.costs.sources import Sources
from ledger.questions.food.contents import Contents
from ledger.questions.quantities import LISTED_FROM
from ledger.questions.shared.keeping import keeping_of
from ledger.questions.shared.use_by import days_of
from ledger.reference.storage import fresh_life
from ledger.replay import KEPT, ORIGINS, tables
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["FEED_KCAL_PER_G", "Fed", "Uneaten", "composted", "fed", "not_for_people", "uneaten"]

FEED_KCAL_PER_G = 2.9
"""Energy of feed where the household says none: 2,900 kcal a kilogram, the energy for which laying
rations are set out (US National Research Council, Nutrient Requirements of Poultry, 1994; from
memory)."""

_PICKED = [ORIGINS.index("grown"), ORIGINS.index("foraged")]
_DISCARDED = list(KINDS).index("discarded")
_COMPOSTED = tables.CAUSES.index("composted")
_FED = tables.CAUSES.index("fed to animals")


@dataclass(frozen=True)
class Uneaten:
    """Harvests whose keeping is over and of which something is left.

    Attributes
    ----------
    lot : ndarray of int, shape (harvests,)
    over : ndarray of int, shape (harvests,)
        The first day on which its keeping was over (days since 1970).
    share : ndarray of float, shape (harvests,)
        The part of the lot that nobody ate, 0 to 1.
    """

    lot: Array
    over: Array
    share: Array


def uneaten(state: State) -> Uneaten:
    """Return what was picked and never eaten, put up or counted until its keeping was over."""
    lots, facts = state.lots, state.facts
    least = np.array([LISTED_FROM[m] for m in facts.measure] or [1])
    here = np.flatnonzero(
        np.isin(lots["origin"], _PICKED) & (state.left >= np.maximum(least[lots["item"]], 1))
    )
    counted = _last_counts(state)
    found: list[tuple[int, int]] = []
    for lot in here.tolist():
        item = int(lots["item"][lot])
        if facts.sort[item] != SORTS.index("food"):
            continue
        start = max(int(lots["day"][lot]), counted.get(item, 0))
        over = _over_on(state, lot, start)
        if over is not None and over <= state.as_of_day:
            found.append((lot, over))
    rows, days = (np.array([pair[i] for pair in found], np.int64) for i in (0, 1))
    return Uneaten(rows, days, state.left[rows] / np.maximum(lots["whole"][rows], 1))


def _last_counts(state: State) -> dict[int, int]:
    """Return the last day on which a count found some of an item."""
    counts = state.flows.counts
    out: dict[int, int] = {}
    rows = np.flatnonzero(counts["whole"] > 0)
    days = state.moment.on[counts["ev"][rows]]
    for item, day in zip(counts["item"][rows].tolist(), days.tolist(), strict=True):
        out[item] = max(out.get(item, 0), day)
    return out


def _over_on(state: State, lot: int, start: int) -> int | None:
    """Return the first day on which neither the household nor a chart has it keep; None: unknown.

    The later of the household's word and the late end of the published period counts.
    """
    item = int(state.lots["item"][lot])
    place = KEPT[int(state.lots["kept"][lot])] or "shelf"
    said = (state.facts.facts[item].keeps or {}).get(place)
    days = [None if said is None else days_of(start, said)]
    keeping = keeping_of(state, lot)
    if keeping is not None:
        days.append(days_of(start, keeping.high))
    else:
        fresh = fresh_life(state.facts.names[item])
        if fresh is not None and place != "freezer":
            days.append(days_of(start, f"{float(fresh.high):g} {fresh.unit}"))
    known = [day for day in days if day is not None]
    return max(known) + 1 if known else None


@dataclass(frozen=True)
class Fed:
    """What went to the animals, taken as the feed that it spared; arrays of shape (takings,).

    Attributes
    ----------
    rows : ndarray of int
        The allocations.
    ev, lot : ndarray of int
    share : ndarray of float
        The part of the lot.
    worth : Figure
        Money: its energy at what a unit of energy in feed had cost until then; 0 where no feed
        was bought, or its energy is not known.
    """

    rows: Array
    ev: Array
    lot: Array
    share: Array
    worth: Figure

    @property
    def value(self) -> Array:
        """Money of the feed that each taking spared, shape (takings,)."""
        return self.worth.values


def fed(state: State) -> Fed:
    """Return what was fed to animals of the household's food, with the feed that it spared."""
    draw, lot, amount = state.allocations
    at, sources = np.flatnonzero(_thrown(state, _FED)), state.once(Sources)
    draw, lot, amount = draw[at], lot[at], amount[at]
    ev, item = state.draws["ev"][draw].astype(np.int64), state.lots["item"][lot]
    day, price = _feed_price(state, sources)
    taken = said(amount, sources.whole_of(item), ev)
    weight = (taken * sources.weight(item)).called("taken-weight")
    energy = (weight * state.once(Contents).kcal.at(item)).called("its-energy")
    until = np.maximum(np.searchsorted(day, state.draws["day"][draw], "right") - 1, 0)
    known = (np.nan_to_num(energy.values) > 0) & bool(day.size)
    worth = choose(known, energy * price.at(until if day.size else until - 1), nothing("money"))
    share = amount / np.maximum(state.lots["whole"][lot], 1)
    return Fed(at, ev, lot, share, worth.called("feed-spared"))


def composted(state: State) -> Array:
    """Return which part of each lot was composted, shape (lots,)."""
    _, lot, amount = state.allocations
    at = _thrown(state, _COMPOSTED)
    share = amount[at] / np.maximum(state.lots["whole"][lot[at]], 1)
    return np.bincount(lot[at], share, state.lots["ev"].size)


def not_for_people(state: State) -> Array:
    """Return which allocations went to animals or to the compost, shape (allocations,)."""
    return _thrown(state, _FED) | _thrown(state, _COMPOSTED)


def _thrown(state: State, cause: int) -> Array:
    draw, _, _ = state.allocations
    ev = state.draws["ev"][draw]
    events = state.journal.tables["events"]
    return np.asarray((events["kind"][ev] == _DISCARDED) & (events["cause"][ev] == cause))


def _feed_price(state: State, sources: Sources) -> tuple[Array, Figure]:
    """Return days of buying feed, and the mean money per kcal of all feed bought by then."""
    facts, durables = state.facts, state.costs.durables
    bought: list[tuple[int, int, int, float, float]] = []
    for number, fact in enumerate(facts.facts):
        if facts.find(fact.feeds) is None or not facts.grams_per_whole(number):
            continue
        rows = durables.rows(number, state.as_of_day)
        columns = (
            durables.day[rows],
            durables.ev[rows],
            durables.paid[rows],
            durables.pieces[rows],
        )
        for at, ev, paid, thousands in zip(*(c.tolist() for c in columns), strict=True):
            bought.append((at, number, ev, paid, thousands * 1000))
    bought.sort(key=lambda one: one[0])
    day, item, ev = (np.array([one[i] for one in bought], np.int64) for i in (0, 1, 2))
    paid, whole = (np.array([one[i] for one in bought], np.float64) for i in (3, 4))
    energy = state.once(Contents).kcal.at(item)
    unsaid = assumed(np.full(item.size, FEED_KCAL_PER_G), "kcal per g", "fed-for-feed")
    energy = choose(~np.isnan(energy.values), energy, unsaid)
    amount = said(whole, sources.whole_of(item), ev)
    so_far = Spans(np.zeros(item.size, np.int64), np.arange(1, item.size + 1))
    weight = (amount * sources.weight(item)).called("taken-weight")
    kcal = so_far.sum((weight * energy).called("its-energy"))
    price = so_far.sum(said(paid, "money", ev)).called("paid-for-feed") / kcal.called(
        "energy-bought"
    )
    return day, price.called("price-of-feed")
