"""Costs: what raw lots cost and weigh, and what each batch and meal carries of them.

`Costs` works out rules 8 to 11 of the reckoning on the matched flows of one moment.
"""

from __future__ import annotations

import copy
import math
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.answers import Assumption
from ledger.kinds import KINDS
from ledger.replay import tables
from ledger.replay.columns import Array
from ledger.replay.durables import Durables
from ledger.replay.facts import SORTS
from ledger.replay.flows import ORIGINS
from ledger.replay.garden import Garden, Input
from ledger.replay.marks import PROVISIONAL, Marks
from ledger.replay.own_costs import OwnCosts, labour_rate
from ledger.replay.prices import Prices
from ledger.replay.regrown import Before, changed_rows, kept_columns, traced_again
from ledger.replay.rows import Rows
from ledger.replay.seasons import Season
from ledger.replay.tracing import COMPONENTS, GRAMS, KCAL, VALUE, WIDTH, Traced, solve

if TYPE_CHECKING:
    from ledger.replay.state import State

__all__ = ["PROVISIONAL", "Costs", "labour_rate"]

_ROLE = {name: code for code, name in enumerate(tables.ROLES)}
_ORIGIN = {name: code for code, name in enumerate(ORIGINS)}
_COMPONENT = {name: code for code, name in enumerate(COMPONENTS)}
_LID, _FUEL, _GARDEN = (SORTS.index(s) for s in ("lid", "fuel", "garden input"))
_GRAMS, _KCAL, _VALUE = GRAMS.start, KCAL.start, VALUE.start
"""The first columns of weight, energy and shop value; one for each origin."""
_ASKED = ("item", "whole", "origin", "money", "came", "day")
_NONE = np.zeros(0, np.int64)
_FEW_ROWS = 100_000
"""Rows of the system up to which their figures are kept for the next moment."""


class Costs:
    """Figures of one state.

    Attributes
    ----------
    lot : ndarray of float, shape (lots, WIDTH)
        Figures of each whole lot; the origin columns of raw lots hold grams and kcal.
    grams, kcal : ndarray of float, shape (items,)
        In one whole unit of each item; 0 where not known.
    guessed : ndarray of int64
        Found and unrecorded lots; `no_price`, shape (lots,), says which have no price either.
    component : ndarray of int64, shape (lots,)
        Where the cost of a raw lot stands in `COMPONENTS`.
    harvest_lots : ndarray of int64
        The lots that `garden` knows, in its order.
    traced : Traced or None
        Figures of the rows, for the moment that grows from this one.
    prices, durables, garden, rows, own, bought_inputs
        What the costs come from, for those who ask why.
    """

    grams: Array
    kcal: Array
    traced: Traced | None

    def __init__(self, state: State) -> None:
        self.state = state
        of = (state.journal, state.facts, state.moment)
        kept = state.priced
        self.prices = (kept and kept[0]) or Prices(*of)
        self.durables = kept[1] if kept else Durables(*of)
        self.bought_inputs = kept[2] if kept else self._bought_inputs()
        # with the bits of the moment before, as the garden's seasons are marked by them
        was = None if state.before is None else state.before.costs
        self.marks: Marks = Marks(self, state, None if was is None else was.marks)
        if state.before is not None:
            self._grow(state.before)
            return
        count = state.lots["ev"].size
        # Column by column, as most columns of most lots stay empty and are never touched then.
        self.lot = np.zeros((WIDTH, count)).T
        self.component = np.zeros(count, np.int64)
        self.no_price = np.zeros(count, bool)
        self.grams, self.kcal = (np.zeros(len(state.facts)) for _ in range(2))
        self._weigh(np.flatnonzero(np.bincount(state.lots["item"], minlength=len(state.facts))))
        self.guessed = self._raw(np.arange(count))
        self._garden()
        self.rows = Rows(state)
        self.own = OwnCosts(state, self.rows, self.durables)
        self._trace()

    def _grow(self, before: Before) -> None:
        """Take over what the entries since leave as it was (`ledger.replay.regrown`)."""
        state, was = self.state, before.costs
        source = before.source(state.lots["item"])
        anew = np.flatnonzero(source < 0)
        self.lot = kept_columns(was.lot, source, anew)
        self.lot[before.lots[was.rows.made_lots]] = 0.0  # as seed they cost nothing, till traced
        self.component, self.no_price = was.component[source], was.no_price[source]
        self.grams, self.kcal = was.grams.copy(), was.kcal.copy()
        self._weigh(np.flatnonzero(before.touched))
        guessed = self._raw(anew)
        stays = before.lots[was.guessed[~before.touched[was.state.lots["item"][was.guessed]]]]
        self.guessed = np.sort(np.concatenate([stays, guessed]))
        garden = self.lot[:, _COMPONENT["garden"]].copy()
        self._garden(was.garden if self.prices is was.prices else None)
        other = self.lot[self.harvest_lots, _COMPONENT["garden"]] != garden[self.harvest_lots]
        self.rows = was.rows.grown(state, before.lots)
        self.own = was.own.grown(state, self.rows)
        changed = self._trace(before, self.harvest_lots[other])
        if changed is not None:
            self.marks.take_over(was.marks, before, changed)

    def moved(self, state: State) -> Costs:
        """Return these costs for another day on which the same events count.

        Only whether a season is over depends on the day, and marks are followed from there.
        """
        other = copy.copy(self)
        other.state, other.marks = state, Marks(other, state, self.marks)
        vars(other).pop("_own_costs", None)
        return other

    # -- what figures rest on -----------------------------------------------------------

    def mark(self, lot: int) -> int:
        """Return the marks of a lot: a bit set of what its figures rest on."""
        return self.marks.of(int(lot))

    def bit(self, kind: str, name: str) -> int:
        """Return the mark of something a figure rests on: ``unpriced``, ``unrecorded``."""
        return self.marks.bit(kind, name)

    def names_of(self, mark: int) -> list[str]:
        """Return the unpriced things named in a mark, sorted."""
        return self.marks.names_of(mark)

    def assumed(self, mark: int) -> list[str]:
        """Return the ids of the assumptions in a mark, sorted."""
        return self.marks.assumed(mark)

    def assumption(self, one: str) -> Assumption:
        """Return an assumption by its id, in words."""
        return self.marks.assumption(one)

    def price_seen_later(self, item: int, ev: int) -> int:
        """Return the mark of a price that was first seen only later."""
        return self.marks.later(self.state.facts.names[item], ev)

    @property
    def worn(self) -> Array:
        """Items that batches wear: jars and equipment, by number, each as often as it is named."""
        return np.concatenate([self.rows.entries["jar"], self.own.worn])

    # -- work ---------------------------------------------------------------------------

    @cached_property
    def _minutes(self) -> Array:
        table = self.state.journal.tables["work"]
        return np.bincount(table["ev"], table["minutes"], len(self.state.journal))

    def minutes_of(self, ev: int) -> float:
        """Return the minutes of work written down with an event."""
        return float(self._minutes[ev]) if ev < self._minutes.size else 0.0

    def own_costs(self) -> list[tuple[int, int, float, int, int, str]]:
        """Return what batches add of their own: (row, component, money, mark, event, label)."""
        return self._own_costs

    @cached_property
    def _own_costs(self) -> list[tuple[int, int, float, int, int, str]]:
        return [
            (
                int(part.row[i]),
                part.component,
                float(part.money[i]),
                self.bit("unpriced", part.name(i)) if part.unpriced[i] else 0,
                int(part.ev[i]),
                part.label(i),
            )
            for part in self.own.parts
            for i in range(part.row.size)
        ]

    # -- raw lots -----------------------------------------------------------------------

    def _weigh(self, there: Array) -> None:
        """Grams and kcal in one whole unit of some items (rule 11)."""
        facts = self.state.facts
        self.grams[there] = np.nan_to_num(facts.grams[there])
        kcal = [facts.kcal_per_gram(number) or 0.0 for number in there.tolist()]
        self.kcal[there] = self.grams[there] * np.array(kcal)

    def _raw(self, some: Array) -> Array:
        """Work out what some lots cost and hold, if they are raw; return those that were guessed."""
        facts = self.state.facts
        lots = self.state.lots
        if some.size < lots["ev"].size:
            lots = {name: lots[name][some] for name in _ASKED}
        item, whole, origin = lots["item"], lots["whole"], lots["origin"]
        component = np.full(len(facts), _COMPONENT["bought_ingredients"])
        component[facts.sort == _LID] = _COMPONENT["lids"]
        component[facts.sort == _FUEL] = _COMPONENT["fuel"]
        given, grown = origin == _ORIGIN["given"], origin == _ORIGIN["grown"]
        mine = component[item] if item.size else np.zeros(0, np.int64)
        mine[given], mine[grown] = _COMPONENT["given"], _COMPONENT["garden"]
        self.component[some] = mine
        unpaid = (origin == _ORIGIN["bought"]) & np.isnan(lots["money"])
        guessed = np.flatnonzero(
            (origin == _ORIGIN["found"]) | (origin == _ORIGIN["unrecorded"]) | unpaid
        )
        price, _, _ = self.prices.of(item[guessed], lots["day"][guessed])
        self.no_price[some] = False
        self.no_price[some[guessed]] = np.isnan(price)
        money = np.zeros(item.size)
        paid = np.flatnonzero(given | ((origin == _ORIGIN["bought"]) & ~unpaid))
        money[paid] = lots["money"][paid]
        money[given] = np.nan_to_num(money[given])
        money[guessed] = np.nan_to_num(price) * whole[guessed]
        raw = np.flatnonzero(origin < _ORIGIN["batch"])
        self.lot[some[raw], mine[raw]] = money[raw]
        came = lots["came"]
        self.lot[some[raw], _GRAMS + came[raw]] = whole[raw] * self.grams[item[raw]]
        self.lot[some[raw], _KCAL + came[raw]] = whole[raw] * self.kcal[item[raw]]
        return np.asarray(some[guessed])

    def _garden(self, before: Garden | None = None) -> None:
        state, lots = self.state, self.state.lots
        season = Season(state.settings.newest("season_starts"))
        rows = np.flatnonzero(lots["origin"] == _ORIGIN["grown"])
        item, whole, day = lots["item"][rows], lots["whole"][rows], lots["day"][rows]

        def worth(some: Array) -> tuple[Array, Array]:
            price, _, _ = self.prices.of(item[some], day[some])
            return price * whole[some], state.facts.grams[item[some]] * whole[some]

        harvest = item, day, whole
        inputs = self.bought_inputs + self._seed_inputs()
        self.garden = Garden(season, inputs, harvest, state.facts.item_of, worth, before)
        self.harvest_lots = rows
        self.lot[rows, _COMPONENT["garden"]] = self.garden.per_lot()

    def _bought_inputs(self) -> list[Input]:
        state, facts, durables = self.state, self.state.facts, self.durables
        table = state.journal.tables["supplies"]
        rows = state.moment.rows(state.journal, "supplies")
        if not rows.size:
            return []
        rows = rows[facts.sort[facts.canon[table["item"][rows]]] == _GARDEN]
        kind = state.journal.tables["events"]["kind"][table["ev"][rows]]
        rows = rows[kind == list(KINDS).index("bought")]
        rows = rows[~np.isnan(table["money"][rows])]
        ev, number = table["ev"][rows], facts.canon[table["item"][rows]]
        code = table["for_crop"][rows]
        crop = np.where(code >= 0, facts.canon[code], -1)
        for at in np.flatnonzero(code < 0).tolist():
            fed = facts.find(facts.facts[int(number[at])].feeds)
            crop[at] = -1 if fed is None else fed
        columns = (ev, crop, state.moment.on[ev], table["money"][rows], table["years"][rows])
        several = zip(*(one.tolist() for one in (*columns, number, rows)), strict=True)
        out = []
        for of, grown, day, money, own, item, row in several:
            years = durables.fact(item, "years", day) if math.isnan(own) else own
            out.append(Input(of, grown, day, money, years, facts.names[item], row=row))
        return out

    def _seed_inputs(self) -> list[Input]:
        """Return what was sown from stock, at the cost it was bought for."""
        state = self.state
        draws, lots, (draw, lot, amount) = state.draws, state.lots, state.allocations
        sown = np.flatnonzero((draws["role"] == _ROLE["seed"])[draw])
        if not sown.size:
            return []
        planted = state.journal.tables["planted"]
        crop_of = dict(zip(planted["ev"].tolist(), planted["crop"].tolist(), strict=True))
        cost = (
            self.lot[lot[sown], _COMPONENT["bought_ingredients"]]
            * amount[sown]
            / lots["whole"][lot[sown]]
        )
        by_draw: dict[int, tuple[float, int]] = {}
        for number, source, money in zip(
            draw[sown].tolist(), lot[sown].tolist(), cost.tolist(), strict=True
        ):
            before, mark = by_draw.get(number, (0.0, 0))
            by_draw[number] = (before + money, mark | self.marks.of_guessed(source))
        out = []
        for number, (money, mark) in by_draw.items():
            ev = int(draws["ev"][number])
            if money > 0 or mark:
                crop = int(state.facts.canon[crop_of[ev]])
                name = f"{state.facts.names[int(draws['item'][number])]} sown"
                day = int(state.moment.on[ev])
                out.append(Input(ev, crop, day, money, None, name, mark, draw=number))
        return out

    # -- batches ------------------------------------------------------------------------

    def _trace(self, before: Before | None = None, other: Array = _NONE) -> Array | None:
        """Carry figures through the rows; those that nothing changed are taken over.

        Returns which rows may hold others than before, shape (rows,); None where all were solved.

        Parameters
        ----------
        before : Before, optional
        other : ndarray of int64
            Lots of items that were not matched anew and cost something else than before.
        """
        state, rows = self.state, self.rows
        lots, draws, (draw, lot, amount) = state.lots, state.draws, state.allocations
        into = rows.of_draw[draw]
        used = np.flatnonzero(into >= 0)
        draw, lot, amount, into = draw[used], lot[used], amount[used], into[used]
        role = draws["role"][draw]
        is_food = (role != _ROLE["lids"]) & (role != _ROLE["fuel"])
        made = rows.number_of_lot[lot]
        raw, take = np.flatnonzero(made < 0), np.flatnonzero(made >= 0)
        takes = (into[take], made[take], amount[take] / lots["whole"][lot[take]])
        only_food = bool(is_food[take].all())
        earlier = before.costs.traced if before is not None and only_food else None
        number = anew = np.arange(rows.count)
        changed: Array | None = None
        if before is not None and earlier is not None:
            changed = changed_rows(before, state, rows, other, takes)
            number, anew = np.cumsum(changed) - 1, np.flatnonzero(changed)
            raw = raw[changed[into[raw]]]
        own = np.zeros((WIDTH, anew.size)).T
        for part in self.own.parts:
            if part.row.size:
                own[:, part.component] += np.bincount(part.row, part.money, rows.count)[anew]
        self._add_raw(
            own, number[into[raw]], lot[raw], amount[raw], draws["day"][draw[raw]], is_food[raw]
        )
        if earlier is not None:
            traced = traced_again(earlier, own, anew, takes, rows)
        else:
            traced = solve(own, takes, rows.gives, rows.made_lots.size)
        self.traced = traced if only_food and rows.count <= _FEW_ROWS else None
        if not only_food:
            # Home-made fuel or lids bring their cost along, but nothing that is eaten.
            eaten = tuple(part[is_food[take]] for part in takes)
            food = solve(own, (eaten[0], eaten[1], eaten[2]), rows.gives, rows.made_lots.size)
            traced.rows[:, _GRAMS:], traced.lots[:, _GRAMS:] = (
                food.rows[:, _GRAMS:],
                food.lots[:, _GRAMS:],
            )
        self.lot[rows.made_lots] = traced.lots
        return changed

    def _add_raw(
        self, own: Array, row: Array, lot: Array, amount: Array, day: Array, is_food: Array
    ) -> None:
        """Add to each row its shares of raw lots; shop value is that of the day of use."""
        lots, component = self.state.lots, self.component
        # A raw lot has one component of cost and one origin: four cells of its row are filled.
        share = amount / lots["whole"][lot]
        food = np.flatnonzero(is_food)
        from_food, count = lot[food], own.shape[0]
        origin = lots["came"][from_food].astype(np.int64)
        at = origin * count + row[food]
        price, _, _ = self.prices.of(lots["item"][from_food], day[food])
        cell = np.concatenate(
            [component[lot] * count + row]
            + [at + first * count for first in (_GRAMS, _KCAL, _VALUE)]
        )
        value = np.concatenate(
            [
                self.lot[lot, component[lot]] * share,
                self.lot[from_food, _GRAMS + origin] * share[food],
                self.lot[from_food, _KCAL + origin] * share[food],
                np.nan_to_num(price) * amount[food],
            ]
        )
        own += np.bincount(cell, value, own.size).reshape(WIDTH, count).T
