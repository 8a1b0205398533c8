"""What batches add of their own: labour, metered fuel, equipment and jar wear (rule 9).

Each is a few columns; the tuples with a label in words are made only for those who ask why.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.messages import sentence
from ledger.messages.words import fixed
from ledger.replay.columns import Array
from ledger.replay.durables import Durables, by_year, year_of
from ledger.replay.rows import Rows
from ledger.replay.tracing import COMPONENTS

if TYPE_CHECKING:
    from ledger.replay.state import State

__all__ = ["OwnCosts", "Part", "energy_price", "labour_rate"]

_EQUIPMENT = 2
"""The place of equipment among the parts."""
_KWH = {"gas": "why-kwh-of-gas", "electricity": "why-kwh-of-power"}
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


@dataclass(frozen=True)
class Part:
    """One component of what batches add, in columns of shape (charges,).

    Attributes
    ----------
    component : int
        Place in `COMPONENTS`.
    row : ndarray of int64
        The row of the system that bears it.
    money : ndarray of float
        0 where no price is known.
    ev : ndarray of int64
        Place of the batch's event.
    unpriced : ndarray of bool
    name, label : callable of int
        What the charge is for, and the charge in words, by its place here.
    said : dict of ndarray
        What it was worked out from: ``minutes``; ``gas, joules``; ``item, day, loads``; ``item, day,
        jars``.
    """

    component: int
    row: Array
    money: Array
    ev: Array
    unpriced: Array
    name: Callable[[int], str]
    label: Callable[[int], str]
    said: dict[str, Array]


class OwnCosts:
    """The own costs of every batch of one state.

    Attributes
    ----------
    parts : tuple of Part
        Labour, metered fuel, equipment, jar wear.
    """

    def __init__(self, state: State, rows: Rows, durables: Durables) -> None:
        self._state, self._rows, self._durables = state, rows, durables
        self.parts = (self._labour(), self._metered(), self._equipment(), self._wear())

    def grown(self, state: State, rows: Rows) -> OwnCosts:
        """Return the same at another moment at which the same batches and purchases count."""
        other = copy.copy(self)
        other._state, other._rows = state, rows
        return other

    @property
    def worn(self) -> Array:
        """The equipment of each load that was charged."""
        return self.parts[_EQUIPMENT].said["item"]

    def unpriced(self) -> Iterator[tuple[int, str, int]]:
        """Yield (row, name, event) of each charge without a price."""
        for part in self.parts:
            for i in np.flatnonzero(part.unpriced).tolist():
                yield int(part.row[i]), part.name(i), int(part.ev[i])

    def _known(self, table: str) -> tuple[Array, Array]:
        """Return rows of a table that this state knows, and the events they belong to."""
        ev = self._state.journal.tables[table]["ev"]
        rows = np.flatnonzero(ev < self._rows.pot_of.size)
        return rows, ev[rows].astype(np.int64)

    def _labour(self) -> Part:
        state = self._state
        table, people = state.journal.tables["work"], state.journal.people.texts
        at, ev = self._known("work")
        rate = state.settings.numbers("labour_rate", state.moment.on[ev], labour_rate)
        row = self._rows.pot_of[ev]
        keep = np.flatnonzero((row >= 0) & ~np.isnan(rate))
        minutes, person = table["minutes"][at[keep]], table["person"][at[keep]]
        return Part(
            COMPONENTS.index("labour"), row[keep], minutes * rate[keep], ev[keep],
            np.zeros(keep.size, bool), lambda i: "labour",
            lambda i: sentence("why-minutes-of-person", n=float(minutes[i]), name=people[int(person[i])]),
            {"minutes": minutes},
        )  # fmt: skip

    def _metered(self) -> Part:
        state = self._state
        table = state.journal.tables["metered"]
        at, ev = self._known("metered")
        row = self._rows.load_of[ev]
        keep = np.flatnonzero(row >= 0)
        at, ev, row = at[keep], ev[keep], row[keep]
        gas, joules = table["gas"][at], table["joules"][at]
        day = state.moment.on[ev]
        price = np.where(
            gas > 0,
            state.settings.numbers("price_of_gas", day, energy_price),
            state.settings.numbers("price_of_electricity", day, energy_price),
        )
        return Part(
            COMPONENTS.index("fuel"), row, joules * np.nan_to_num(price), ev,
            np.isnan(price), lambda i: _energy(int(gas[i])),
            lambda i: sentence(_KWH[_energy(int(gas[i]))], n=int(joules[i]) / 3.6e6),
            {"gas": gas, "joules": joules},
        )  # fmt: skip

    def _equipment(self) -> Part:
        """Charge each load, until the price of the equipment is used up."""
        state, moment = self._state, self._state.moment
        at, ev = self._known("equipment")
        keep = np.flatnonzero(self._rows.pot_of[ev] >= 0)
        item = state.facts.canon[state.journal.tables["equipment"]["item"][at[keep]]]
        ev = ev[keep]
        order = np.argsort(moment.rank[ev], kind="stable")
        ev, item = ev[order], item[order].astype(np.int64)
        day, loads = moment.on[ev], self._rows.loads_of[ev]
        yearly = by_year(item, day, loads.astype(float))
        money, charged = np.zeros(ev.size), dict.fromkeys(item.tolist(), 0.0)
        unpriced = np.zeros(ev.size, bool)
        several = zip(item.tolist(), day.tolist(), loads.tolist(), strict=True)
        for i, (one, on, load) in enumerate(several):
            per_load = self._durables.per_use(one, on, yearly[one, year_of(on)])
            if per_load is None:
                unpriced[i] = True
                continue
            left = self._durables.bought(one, on)[0] - charged[one]
            money[i] = min(per_load * load, max(left, 0.0))
            charged[one] += money[i]

        names = state.facts.names  # and not the state: labels outlive it

        def label(i: int) -> str:
            name = names[int(item[i])]
            return name if unpriced[i] else sentence("why-loads-of", n=int(loads[i]), name=name)

        return Part(
            COMPONENTS.index("equipment"), self._rows.load_of[ev], money, ev,
            unpriced, lambda i: names[int(item[i])], label,
            {"item": item, "day": day, "loads": loads},
        )  # fmt: skip

    def _wear(self) -> Part:
        facts, entries = self._state.facts, self._rows.entries
        keep = np.flatnonzero(entries["jar"] >= 0)
        row, jar, day, jars, ev = (
            entries[name][keep].astype(np.int64) for name in ("row", "jar", "day", "jars", "ev")
        )
        per_use = self._durables.per_uses(jar, day, jars.astype(float))
        return Part(
            COMPONENTS.index("jar_wear"), row, jars * np.nan_to_num(per_use), ev,
            np.isnan(per_use), lambda i: facts.names[int(jar[i])],
            lambda i: sentence("why-uses-of", n=int(jars[i]), name=fixed(facts.names[int(jar[i])])),
            {"item": jar, "day": day, "jars": jars},
        )  # fmt: skip


def _energy(gas: int) -> str:
    return "gas" if gas else "electricity"
