"""Costs: what raw lots cost, what batches add of their own, and what each row takes and gives.

`cost_everything` works out rules 8 to 11 of the reckoning on the matched flows of one moment.
Longer than its neighbours because the four kinds of a batch's own costs stand side by side here.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import numpy as np

from ledger.answers import Assumption
from ledger.events import KINDS
from ledger.replay import _tables
from ledger.replay._columns import Array
from ledger.replay.durables import Durables, by_year, year_of
from ledger.replay.facts import SORTS
from ledger.replay.flows import ORIGINS
from ledger.replay.garden import Garden, Input, Season
from ledger.replay.prices import Prices
from ledger.replay.rows import Rows
from ledger.replay.tracing import COMPONENTS, WIDTH, carry_marks, solve

if TYPE_CHECKING:
    from ledger.replay.state import State

__all__ = ["PROVISIONAL", "Costs"]

PROVISIONAL = 1
"""The first mark: rests on a season that is still running. The others name unpriced things."""

_ROLE = {name: code for code, name in enumerate(_tables.ROLES)}
_ORIGIN = {name: code for code, name in enumerate(ORIGINS)}
_COMPONENT = {name: code for code, name in enumerate(COMPONENTS)}
_LID, _FUEL, _GARDEN = (SORTS.index(s) for s in ("lid", "fuel", "garden input"))
_ASSUMED = {
    "unpriced": "No price of {name} is known, so it counts 0 and the cost is at least this much.",
    "unrecorded": "{name} was used that nobody wrote down as coming in; it counts at the shop's price of that day.",
    "found": "More {name} was counted than the book had; it counts at the shop's price of that day.",
    "later": "The shop's price of {name} was first seen only after the day it is compared with.",
    "provisional": "A garden season is still running: what the harvest cost can still change.",
}
_JOULES = {"kwh": 3_600_000.0, "mj": 1_000_000.0, "therm": 105_505_585.262, "btu": 1055.05585262}


def energy_price(text: str | None) -> float | None:
    """Return money per joule of a price as set: ``0.17 per kWh``."""
    match = re.fullmatch(r"\s*([\d.]+)\s*(?:per|/)?\s*([a-z]*)\s*", (text or "").lower())
    if not match or (match[2] and match[2] not in _JOULES):
        return None
    return float(match[1]) / _JOULES[match[2] or "kwh"]


def labour_rate(text: str | None) -> float | None:
    """Return money per minute of a rate as set: ``12 per hour`` (a bare number is per hour)."""
    match = re.fullmatch(
        r"\s*([\d.]+)\s*(?:(?:per|/)\s*(hour|h|minute|min))?\s*", (text or "").lower()
    )
    if not match:
        return None
    return float(match[1]) / (1 if match[2] in ("minute", "min") else 60)


class Costs:
    """Figures of one state.

    Attributes
    ----------
    lot : ndarray of float, shape (lots, WIDTH)
        Figures of each whole lot; the origin columns of raw lots hold grams and kcal.
    prices, durables, garden, rows
        What the costs come from, for those who ask why.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        self._minutes: Array | None = None
        self.prices = Prices(state.journal, state.facts, state.moment)
        self.durables = Durables(state.journal, state.facts, state.moment)
        self._bits: dict[tuple[str, str], int] = {}
        self._events: dict[tuple[str, str], list[int]] = {}
        lots = state.lots
        self.lot = np.zeros((lots["ev"].size, WIDTH))
        self._lot_marks: dict[int, int] = {}
        self._weigh()
        self._raw()
        self._garden()
        self.rows = Rows(state)
        self._trace()

    def bit(self, kind: str, name: str, ev: int | None = None) -> int:
        """Return the mark of something a figure rests on: ``unpriced``, ``unrecorded``, ``later``."""
        key = (kind, name)
        if key not in self._bits:
            self._bits[key] = 1 << (len(self._bits) + 1)
        if ev is not None:
            self._events.setdefault(key, []).append(ev)
        return self._bits[key]

    def names_of(self, mark: int) -> list[str]:
        """Return the unpriced things named in a mark, sorted."""
        return sorted(
            name for (kind, name), bit in self._bits.items() if kind == "unpriced" and mark & bit
        )

    def assumed(self, mark: int) -> list[str]:
        """Return the ids of the assumptions in a mark, sorted."""
        ids = [f"{kind}:{name}" for (kind, name), bit in self._bits.items() if mark & bit]
        return sorted([*ids, *(["provisional"] if mark & PROVISIONAL else [])])

    def assumption(self, one: str) -> Assumption:
        """Return an assumption by its id, in words."""
        kind, _, name = one.partition(":")
        text = _ASSUMED[kind].format(name=name)
        events = self._events.get((kind, name), [])
        return Assumption(one, text, tuple(self.state.event_id(ev) for ev in events))

    def price_seen_later(self, item: int, ev: int) -> int:
        """Return the mark of a price that was first seen only later."""
        return self.bit("later", self.state.facts.names[item], ev)

    def minutes_of(self, ev: int) -> float:
        """Return the minutes of work written down with an event."""
        table = self.state.journal.tables["work"]
        if self._minutes is None:
            self._minutes = np.bincount(table["ev"], table["minutes"], len(self.state.journal))
        return float(self._minutes[ev]) if ev < self._minutes.size else 0.0

    # -- raw lots -----------------------------------------------------------------------

    def _weigh(self) -> None:
        """Grams and kcal in one whole unit of each item (rule 11)."""
        facts = self.state.facts
        count = len(facts)
        self.grams, self.kcal = np.zeros(count), np.zeros(count)
        for number in np.unique(self.state.lots["item"]).tolist():
            grams = facts.grams_per_whole(number)
            kcal = facts.kcal_per_gram(number)
            self.grams[number] = grams or 0.0
            self.kcal[number] = (grams or 0.0) * (kcal or 0.0)

    def _raw(self) -> None:
        lots, facts = self.state.lots, self.state.facts
        origin = lots["origin"]
        component = np.full(len(facts), _COMPONENT["bought_ingredients"])
        component[facts.sort == _LID] = _COMPONENT["lids"]
        component[facts.sort == _FUEL] = _COMPONENT["fuel"]
        bought = np.flatnonzero(origin == _ORIGIN["bought"])
        self.lot[bought, component[lots["item"][bought]]] = lots["money"][bought]
        given = np.flatnonzero(origin == _ORIGIN["given"])
        self.lot[given, _COMPONENT["given"]] = np.nan_to_num(lots["money"][given])
        guessed = np.flatnonzero((origin == _ORIGIN["found"]) | (origin == _ORIGIN["unrecorded"]))
        price, _, _ = self.prices.of(lots["item"][guessed], lots["day"][guessed])
        self.lot[guessed, component[lots["item"][guessed]]] = (
            np.nan_to_num(price) * lots["whole"][guessed]
        )
        for lot, each in zip(guessed.tolist(), price.tolist(), strict=True):
            name, ev = facts.names[int(lots["item"][lot])], int(lots["ev"][lot])
            kind = "unrecorded" if origin[lot] == _ORIGIN["unrecorded"] else "found"
            self._lot_marks[lot] = self.bit(kind, name, ev)
            if np.isnan(each):
                self._lot_marks[lot] |= self.bit("unpriced", name, ev)
        raw = np.flatnonzero(origin < _ORIGIN["batch"])
        item, whole = lots["item"][raw], lots["whole"][raw]
        self.lot[raw, 8 + origin[raw]] = whole * self.grams[item]
        self.lot[raw, 14 + origin[raw]] = whole * self.kcal[item]

    def _garden(self) -> None:
        state, lots = self.state, self.state.lots
        season = Season(state.settings.newest("season_starts"))
        rows = np.flatnonzero(lots["origin"] == _ORIGIN["grown"])
        item, whole, day = lots["item"][rows], lots["whole"][rows], lots["day"][rows]
        price, _, _ = self.prices.of(item, day)
        weights = [state.facts.grams_per_whole(i) for i in range(len(state.facts))]
        grams = (
            np.array([np.nan if w is None else w for w in weights])[item] * whole
            if rows.size
            else whole * 1.0
        )
        self.garden = Garden(season, self._inputs(), (item, day, whole, price * whole, grams))
        self.harvest_lots = rows
        self.lot[rows, _COMPONENT["garden"]] = self.garden.per_lot()
        provisional = self.garden.provisional(state.as_of_day)
        if not (provisional.any() or any(self.garden.marks.values())):
            return
        for lot, running, key in zip(
            rows.tolist(), provisional.tolist(), self.garden.keys(), strict=True
        ):
            mark = self.garden.marks.get(key, 0) | (PROVISIONAL if running else 0)
            if mark:
                self._lot_marks[lot] = mark

    def _inputs(self) -> list[Input]:
        """Return garden inputs bought, then what was sown from stock at the cost it was bought for."""
        state, facts, durables = self.state, self.state.facts, self.durables
        table = state.journal.tables["supplies"]
        out = []
        rows = state.moment.of(table["ev"])
        kind = state.journal.tables["events"]["kind"][table["ev"][rows]]
        item = facts.canon[table["item"][rows]]
        keep = (
            (facts.sort[item] == _GARDEN) & (kind == list(KINDS).index("bought"))
            if rows.size
            else []
        )
        for row, number in zip(rows[keep].tolist(), item[keep].tolist(), strict=True):
            ev = int(table["ev"][row])
            day = int(state.moment.on[ev])
            code = int(table["for_crop"][row])
            crop = int(facts.canon[code]) if code >= 0 else facts.find(facts.facts[number].feeds)
            own = float(table["years"][row])
            years = durables.fact(number, "years", day) if np.isnan(own) else own
            out.append(
                Input(
                    ev,
                    -1 if crop is None else crop,
                    day,
                    float(table["money"][row]),
                    years,
                    facts.names[number],
                )
            )
        return out + self._seed_inputs()

    def _seed_inputs(self) -> list[Input]:
        state = self.state
        draws, lots, (draw, lot, amount) = state.draws, state.lots, state.allocations
        crop_of = dict(
            zip(
                state.journal.tables["planted"]["ev"].tolist(),
                state.journal.tables["planted"]["crop"].tolist(),
                strict=True,
            )
        )
        sown = np.flatnonzero(draws["role"][draw] == _ROLE["seed"])
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
            raw = lots["origin"][source] < _ORIGIN["batch"]
            by_draw[number] = (
                before + (money if raw else 0.0),
                mark | (self._lot_marks.get(source, 0) if raw else 0),
            )
        out = []
        for number, (money, mark) in by_draw.items():
            ev = int(draws["ev"][number])
            if money > 0 or mark:
                crop = int(state.facts.canon[crop_of[ev]])
                name = f"{state.facts.names[int(draws['item'][number])]} sown"
                out.append(Input(ev, crop, int(state.moment.on[ev]), money, None, name, mark))
        return out

    # -- batches ------------------------------------------------------------------------

    def _trace(self) -> None:
        state, rows = self.state, self.rows
        lots, draws, (draw, lot, amount) = state.lots, state.draws, state.allocations
        own = np.zeros((rows.count, WIDTH))
        marks: dict[int, int] = {}
        for row, component, money, mark, _, _ in self.own_costs():
            own[row, component] += money
            if mark:
                marks[row] = marks.get(row, 0) | mark
        into = rows.of_draw[draw]
        share = amount / lots["whole"][lot]
        made = lots["origin"][lot] == _ORIGIN["batch"]
        raw = np.flatnonzero((into >= 0) & ~made)
        is_food = (draws["role"] != _ROLE["lids"]) & (draws["role"] != _ROLE["fuel"])
        self._add_raw(
            own, into[raw], lot[raw], amount[raw], (draws["day"][draw[raw]], is_food[draw[raw]])
        )
        for row, source in zip(into[raw].tolist(), lot[raw].tolist(), strict=True):
            mark = self._lot_marks.get(source, 0)
            if mark:
                marks[row] = marks.get(row, 0) | mark
        take = np.flatnonzero((into >= 0) & made)
        takes = (into[take], rows.number_of_lot[lot[take]], share[take])
        traced = solve(own, takes, rows.gives, rows.made_lots.size)
        if not is_food[draw[take]].all():
            # Home-made fuel or lids bring their cost along, but nothing that is eaten.
            eaten = tuple(part[is_food[draw[take]]] for part in takes)
            food = solve(own, (eaten[0], eaten[1], eaten[2]), rows.gives, rows.made_lots.size)
            traced.rows[:, 8:], traced.lots[:, 8:] = food.rows[:, 8:], food.lots[:, 8:]
        self.lot[rows.made_lots] = traced.lots
        _, made_marks = carry_marks(
            rows.count, marks, takes[:2], rows.gives[:2], rows.made_lots.size
        )
        for lot_row, mark in zip(rows.made_lots.tolist(), made_marks, strict=True):
            if mark:
                self._lot_marks[lot_row] = mark

    def _add_raw(
        self, own: Array, row: Array, lot: Array, amount: Array, use: tuple[Array, Array]
    ) -> None:
        """Add to each row its shares of raw lots; shop value is that of the day of use."""
        lots = self.state.lots
        day, is_food = use
        share = amount / lots["whole"][lot]
        for column in range(8 + 6 + 6):
            values = self.lot[lot, column] * share
            if column >= 8:
                values = values * is_food
            if values.any():
                own[:, column] += np.bincount(row, values, own.shape[0])
        at = np.flatnonzero(is_food)
        price, _, _ = self.prices.of(lots["item"][lot[at]], day[at])
        np.add.at(own, (row[at], 20 + lots["origin"][lot[at]]), np.nan_to_num(price) * amount[at])

    def own_costs(self) -> list[tuple[int, int, float, int, int, str]]:
        """Return what batches add of their own: (row, component, money, mark, event, label)."""
        if not hasattr(self, "_own_costs"):
            self._own_costs = [*self._labour(), *self._metered(), *self._equipment(), *self._wear()]
        return self._own_costs

    def _labour(self) -> list[tuple[int, int, float, int, int, str]]:
        state = self.state
        table = state.journal.tables["work"]
        out = []
        rates: dict[int, float | None] = {}
        for ev, person, minutes in zip(
            table["ev"].tolist(), table["person"].tolist(), table["minutes"].tolist(), strict=True
        ):
            pot = self.rows.pot.get(ev)
            if pot is None:
                continue
            day = int(state.moment.on[ev])
            if day not in rates:
                rates[day] = labour_rate(state.settings.on("labour_rate", day))
            rate = rates[day]
            if rate is not None:
                label = f"{minutes:g} minutes of {state.journal.people.texts[person]}"
                out.append((pot, _COMPONENT["labour"], minutes * rate, 0, ev, label))
        return out

    def _metered(self) -> list[tuple[int, int, float, int, int, str]]:
        state = self.state
        table = state.journal.tables["metered"]
        out = []
        for ev, gas, joules in zip(
            table["ev"].tolist(), table["gas"].tolist(), table["joules"].tolist(), strict=True
        ):
            row = self.rows.for_load(ev)
            if row is None:
                continue
            name = "gas" if gas else "electricity"
            price = energy_price(state.settings.on(f"price_of_{name}", int(state.moment.on[ev])))
            mark = self.bit("unpriced", name, ev) if price is None else 0
            out.append(
                (
                    row,
                    _COMPONENT["fuel"],
                    joules * (price or 0.0),
                    mark,
                    ev,
                    f"{joules / 3.6e6:g} kWh of {name}",
                )
            )
        return out

    def _equipment(self) -> list[tuple[int, int, float, int, int, str]]:
        """Charge each load, until the price of the equipment is used up."""
        state = self.state
        table = state.journal.tables["equipment"]
        uses = [
            (int(state.moment.rank[ev]), ev, int(state.facts.canon[item]))
            for ev, item in zip(table["ev"].tolist(), table["item"].tolist(), strict=True)
            if ev in self.rows.pot
        ]
        loads = self.rows.loads
        items, evs = (
            np.array([u[2] for u in uses], np.int64),
            np.array([u[1] for u in uses], np.int64),
        )
        yearly = (
            by_year(items, state.moment.on[evs], np.array([float(loads[u[1]]) for u in uses]))
            if uses
            else {}
        )
        charged: dict[int, float] = {}
        out = []
        for _, ev, item in sorted(uses, key=lambda use: use[0]):
            day = int(state.moment.on[ev])
            per_load = self.durables.per_use(item, day, yearly[item, year_of(day)])
            name = state.facts.names[item]
            row = self.rows.for_load(ev)
            assert row is not None
            if per_load is None:
                out.append(
                    (row, _COMPONENT["equipment"], 0.0, self.bit("unpriced", name, ev), ev, name)
                )
                continue
            left = self.durables.bought(item, day)[0] - charged.get(item, 0.0)
            money = min(per_load * loads[ev], max(left, 0.0))
            charged[item] = charged.get(item, 0.0) + money
            out.append((row, _COMPONENT["equipment"], money, 0, ev, f"{loads[ev]} loads of {name}"))
        return out

    def _wear(self) -> list[tuple[int, int, float, int, int, str]]:
        state, rows = self.state, self.rows
        entries = rows.entries
        filled = (
            by_year(entries["jar"], entries["day"], entries["jars"].astype(float))
            if entries["jar"].size
            else {}
        )
        cache: dict[tuple[int, int], float | None] = {}
        out = []
        for row, jar, day, jars, ev in zip(
            *(entries[name].tolist() for name in ("row", "jar", "day", "jars", "ev")), strict=True
        ):
            if jar < 0:
                continue
            if (jar, day) not in cache:
                cache[jar, day] = self.durables.per_use(jar, day, filled[jar, year_of(day)])
            per_use, name = cache[jar, day], state.facts.names[jar]
            mark = self.bit("unpriced", name, ev) if per_use is None else 0
            out.append(
                (
                    row,
                    _COMPONENT["jar_wear"],
                    jars * (per_use or 0.0),
                    mark,
                    ev,
                    f"{jars} uses of {name}",
                )
            )
        return out

    def mark(self, lot: int) -> int:
        """Return the marks of a lot."""
        return self._lot_marks.get(lot, 0)
