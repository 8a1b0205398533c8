"""How much of each raw thing goes into one of what is made: own batches of a year, else recipes."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from ledger.amounts import parse_amount
from ledger.errors import LedgerError
from ledger.kinds.methods import METHODS
from ledger.questions.planning.rates import Rates
from ledger.questions.planning.wants import Level
from ledger.questions.targets import YEAR_DAYS
from ledger.replay import ORIGINS, tables
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Made", "Part", "Recipes"]

_USED = tables.ROLES.index("used")


@dataclass
class Part:
    """What one made item takes of one other, in whole units of it for each whole unit made.

    Attributes
    ----------
    rate : (float, float, float)
        Of the batch that took least, of all together, of the batch that took most.
    used : dict of int to int
        Whole units by batch; empty where a recipe says it.
    recipe : (int, int, int) or None
        Event of the recipe, whole units used, whole units made.
    """

    rate: tuple[float, float, float] = (0.0, 0.0, 0.0)
    used: dict[int, int] = field(default_factory=dict)
    recipe: tuple[int, int, int] | None = None


@dataclass
class Made:
    """How an item is made: by the batches of the year up to the newest one, else by a recipe.

    Attributes
    ----------
    item : int
    batches : dict of int to int
        Whole units made, by batch, oldest first.
    parts : dict of int to Part
        By item that goes in.
    method : str
    jar : int or None
        The jar that most of it went into.
    per_jar : float or None
        Whole units in one.
    by_recipe : float or None
        Whole units in one, as its recipe says.
    in_jars : dict of int to list of int
        Lots that are in jars, by the jar.
    jarred : dict of int to int
        Whole units that went into jars, by batch.
    lids : int or None
        The lid that the newest of them took.
    recipe : int or None
        Event of the recipe that stands in for batches.
    """

    item: int
    batches: dict[int, int] = field(default_factory=dict)
    parts: dict[int, Part] = field(default_factory=dict)
    method: str = ""
    jar: int | None = None
    per_jar: float | None = None
    by_recipe: float | None = None
    in_jars: dict[int, list[int]] = field(default_factory=dict)
    jarred: dict[int, int] = field(default_factory=dict)
    lids: int | None = None
    recipe: int | None = None


class Recipes:
    """Everything that is made at home, and what it takes of the crops.

    Parameters
    ----------
    state : State
    crops : set of int
        Items that grow here; they are taken as they are, never as made.
    """

    def __init__(self, state: State, crops: set[int]) -> None:
        self.state, self.crops = state, crops
        self.made: dict[int, Made] = {}
        self._batches()
        self._written()
        self._break_circles()
        self.rates = Rates(self)
        self._take_over()

    def take(self, made: int, of: int, level: Level) -> float:
        """Return what one whole unit of `made` takes of `of`; 1 of itself."""
        if made == of:
            return 1.0
        place = self.rates.place
        if made not in place or of not in place:
            return 0.0
        return float(self.rates.takes[level][place[made], place[of]])

    def size(self, item: int) -> float | None:
        """Return what one batch gives, in whole units: of what goes in jars, that part of it."""
        made = self.made[item]
        if made.batches:
            some = made.jarred or made.batches
            return sum(some.values()) / len(some)
        gives = next((p.recipe[2] for p in made.parts.values() if p.recipe), None)
        return None if gives is None else float(gives)

    def minutes(self, item: int) -> tuple[dict[int, float], float]:
        """Return the minutes of work of the batches that say them, and what these gave together."""
        made = self.made[item]
        some = made.jarred or made.batches
        minutes = {ev: self.state.costs.minutes_of(ev) for ev in some}
        known = {ev: m for ev, m in minutes.items() if m > 0}
        return known, float(sum(some[ev] for ev in known))

    def minutes_each(self, item: int) -> float | None:
        """Return the minutes of work for one whole unit, cooking beforehand included."""
        known, gave = self.minutes(item)
        if not known or not gave:
            return None
        before = sum(
            part.rate[1] * (self.minutes_each(one) or 0.0)
            for one, part in self.cooked_for(item).items()
        )
        return sum(known.values()) / gave + before

    def cooked_for(self, item: int) -> dict[int, Part]:
        """Return what is cooked just to go into an item (a puree for the sauce)."""
        return {
            one: part
            for one, part in self.made[item].parts.items()
            if one in self.made and self.made[one].method == "cook" and part.rate[1] > 0
        }

    def _take_over(self) -> None:
        """Keep what the figures give, to be looked up by item."""
        rates, levels = self.rates, (one.values.tolist() for one in self.rates.straight)
        makes, goes_in = rates.makes.tolist(), rates.goes_in.tolist()
        for item, part, low, likely, high in zip(makes, goes_in, *levels, strict=True):
            self.made[item].parts[part].rate = low, likely, high
        for item, per_jar in zip(self.made, rates.per_jar.values.tolist(), strict=True):
            self.made[item].per_jar = per_jar if per_jar > 0 else None

    # -- from batches --------------------------------------------------------------------

    def _batches(self) -> None:
        state, lots, draws = self.state, self.state.lots, self.state.draws
        made = np.flatnonzero((lots["origin"] == ORIGINS.index("batch")) & np.isnan(lots["share"]))
        made = made[~np.isin(lots["item"][made], list(self.crops))]
        if not made.size:
            return
        count = state.moment.rank.size
        makes, whole = np.full(count, -1, np.int64), np.zeros(count, np.int64)
        made = made[~_mixed(lots["ev"][made], lots["item"][made], count)]
        makes[lots["ev"][made]] = lots["item"][made]
        np.add.at(whole, lots["ev"][made], lots["whole"][made])
        newest = np.full(len(state.facts), -(10**9), np.int64)
        np.maximum.at(newest, lots["item"][made], lots["day"][made])
        ev = np.flatnonzero(whole > 0)
        ev = ev[state.moment.on[ev] > newest[makes[ev]] - YEAR_DAYS]
        ev = ev[np.argsort(state.moment.rank[ev])]
        method = self._methods(count)
        for one in ev.tolist():
            entry = self.made.setdefault(int(makes[one]), Made(int(makes[one])))
            entry.batches[one] = int(whole[one])
            entry.method = METHODS[int(method[one])]
        rows = np.flatnonzero((draws["role"] == _USED) & np.isin(draws["ev"], ev))
        columns = (makes[draws["ev"]], draws["ev"], draws["item"], draws["whole"])
        for into, at, item, took in zip(*(one[rows].tolist() for one in columns), strict=True):
            if item != into:
                part = self.made[into].parts.setdefault(item, Part())
                part.used[at] = part.used.get(at, 0) + took
        self._jars(made, ev)

    def _methods(self, count: int) -> Array:
        table = self.state.journal.tables["batches"]
        out = np.full(count, METHODS.index("cook"), np.int64)
        rows = self.state.moment.of(table["ev"])
        out[table["ev"][rows]] = table["method"][rows]
        return out

    def _jars(self, made: Array, ev: Array) -> None:
        """Find the jar that most of each item goes into."""
        lots, supplies = self.state.lots, self.state.journal.tables["supplies"]
        rows = made[(lots["jars"][made] > 0) & np.isin(lots["ev"][made], ev)]
        count: dict[int, dict[int, list[int]]] = {}
        canon = self.state.facts.canon
        for lot in rows.tolist():
            row = int(lots["row"][lot])
            jar, lids = int(supplies["jar"][row]), int(supplies["lids"][row])
            if jar < 0:
                continue
            item, jar = int(lots["item"][lot]), int(canon[jar])
            one = count.setdefault(item, {}).setdefault(jar, [0, 0])
            one[0] += int(lots["jars"][lot])
            one[1] += int(lots["whole"][lot])
            self.made[item].in_jars.setdefault(jar, []).append(lot)
            jarred, at = self.made[item].jarred, int(lots["ev"][lot])
            jarred[at] = jarred.get(at, 0) + int(lots["whole"][lot])
            if lids >= 0:
                self.made[item].lids = int(canon[lids])
        for item, jars in count.items():
            self.made[item].jar, _ = max(jars.items(), key=lambda pair: pair[1])

    # -- from recipes --------------------------------------------------------------------

    def _written(self) -> None:
        """Take recipes of what was never made; the newest of each holds."""
        facts = self.state.facts
        for ev, body in self.state.bodies("recipe_written"):
            item = facts.find(body["makes"])
            known = self.made.get(item) if item is not None else None
            if item is None or item in self.crops or (known is not None and known.batches):
                continue
            try:
                gives = parse_amount(
                    body["yields"], measures=self.state.settings.newest("measures", "us") or "us"
                )
            except LedgerError:  # what an older version wrote down
                continue
            yields = {"whole": gives.whole, "measure": gives.dimension, "per": gives.unit}
            strand, gives_whole, _ = facts.comes(item, {**yields, "times": gives.times})
            if strand != item or gives_whole <= 0:
                continue
            entry = Made(item, method=body.get("method") or "cook", recipe=ev)
            for line in body["uses"]:
                part = facts.find(line["item"])
                if part is not None and part != item and line.get("whole"):
                    number, whole, _ = facts.comes(part, line)
                    if number == part:
                        entry.parts[part] = Part(recipe=(ev, whole, gives_whole))
            if gives.jar is not None and gives.jars:
                entry.jar = facts.find(gives.jar)
                entry.by_recipe = float(gives.exact / gives.jars)
            self.made[item] = entry

    def _break_circles(self) -> None:
        """Leave out what leads back to itself (starter fed with starter)."""
        done: set[int] = set()
        for start in self.made:
            stack = [(start, iter(list(self.made[start].parts)))]
            open_: list[int] = [start]
            while stack:
                item, rest = stack[-1]
                for part in rest:
                    if part in open_:
                        del self.made[item].parts[part]
                    elif part in self.made and part not in done:
                        open_.append(part)
                        stack.append((part, iter(list(self.made[part].parts))))
                        break
                else:
                    done.add(item)
                    open_.pop()
                    stack.pop()


def _mixed(ev: Array, strand: Array, count: int) -> Array:
    """Return which lots are of a batch that made several strands: no one of them took it all."""
    low, high = np.full(count, np.iinfo(np.int64).max), np.full(count, -1, np.int64)
    np.minimum.at(low, ev, strand)
    np.maximum.at(high, ev, strand)
    return np.asarray((low < high)[ev])
