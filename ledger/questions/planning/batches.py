"""What is to be put up next season, week by week: batches as the harvest comes in."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ledger.door import jars_per_load
from ledger.figures import Figure, Groups, choose
from ledger.kinds import CANNING
from ledger.questions.costs.sources import Sources
from ledger.questions.planning.plan import KEEPING, CropPlan, Plan
from ledger.questions.shared.jars import jar_totals

__all__ = ["Batches", "Store", "Week"]


@dataclass
class Week:
    """One thing put up in one week.

    Attributes
    ----------
    day : int or None
        Its Monday (days since 1970); None where nobody knows when the crop is picked.
    item : int
    year : float
        Whole units of it that the whole year takes.
    share : float
        Part of that made this week.
    batches, loads : int
        `loads` of the canner; None for other methods.
    jars : int or None
    crop : CropPlan
        The crop that most of it is.
    jars_there, lids_there : int or None
        What earlier weeks leave of them.
    """

    day: int | None
    item: int
    year: float
    share: float
    batches: int
    loads: int | None
    jars: int | None
    crop: CropPlan
    jars_there: int | None = None
    lids_there: int | None = None

    @property
    def amount(self) -> float:
        """Whole units made this week."""
        return self.year * self.share


@dataclass
class Store:
    """Jars or lids of one kind: wanted, there empty, there full (None for lids), and to get."""

    wanted: int
    there: int
    full: int | None = None

    @property
    def to_get(self) -> int:
        """How many are lacking."""
        return max(0, self.wanted - self.there - (self.full or 0))


class Batches:
    """The putting up that a plan implies.

    Attributes
    ----------
    weeks : list of Week
        By day, then by name; those of no known week last.
    jars, lids : dict of str to Store
    """

    def __init__(self, plan: Plan) -> None:
        self.plan, self.state = plan, plan.state
        self.per_load = jars_per_load(self.state.settings.newest("jars_per_load"))
        self.weeks = [week for item in sorted(plan.recipes.made) for week in self._of(item)]
        names = self.state.facts.names
        self.weeks.sort(key=lambda w: (w.day is None, w.day or 0, names[w.item]))
        self.jars: dict[str, Store] = {}
        self.lids: dict[str, Store] = {}
        self._stores()

    def jar(self, item: int) -> str | None:
        """Return the jar that an item goes into."""
        made = self.plan.recipes.made[item]
        return None if made.jar is None else self.state.facts.names[made.jar]

    def lid(self, item: int) -> str:
        """Return the lid that its jars take."""
        made = self.plan.recipes.made[item]
        return "lid" if made.lids is None else self.state.facts.names[made.lids]

    @cached_property
    def whole_year(self) -> Figure:
        """How much of each made item the year takes, also for other things made of it, shape (made,)."""
        rates, wants = self.plan.recipes.rates, self.plan.wants
        made = np.array(list(rates.row), np.int64)
        pairs = rates.pairs(wants.items.tolist(), made.tolist())
        want, row = np.nonzero((pairs >= 0) | (wants.items[:, None] == made))
        pair = pairs[want, row]
        sources = self.state.once(Sources)
        unit, name = sources.whole_of(made), sources.name_of(made)
        whole = wants.whole[1].at(want)
        for_it = (whole * rates.take[1].at(pair)).called("for-it", name=sources.name_of(made[row]))
        of_item = Groups(row, made.size).sum(choose(pair >= 0, for_it, whole), unit)
        return of_item.called("year-of", name=name)

    def year(self, item: int) -> float:
        """Return how much of a made item the year takes."""
        return self.whole_year.value(self.plan.recipes.rates.row[item])

    def crop_of(self, item: int) -> CropPlan | None:
        """Return the crop that most of an item is, by weight; None where no crop goes in."""
        best, most = None, 0.0
        for crop in self.plan.crops:
            per = self.state.facts.grams_per_whole(crop.item) or 0.0
            grams = self.plan.recipes.take(item, crop.item, 1) * per
            if grams > most:
                best, most = crop, grams
        return best

    def _of(self, item: int) -> list[Week]:
        """Return the weeks of one item: a batch as soon as enough of its crop has come in."""
        made = self.plan.recipes.made[item]
        size, crop = self.plan.recipes.size(item), self.crop_of(item)
        year = self.year(item)
        if made.method not in KEEPING or crop is None or year <= 0 or not size:
            return []
        count = max(1, math.ceil(year / size - 1e-6))
        harvest = self._harvest(crop)
        out: dict[int | None, Week] = {}
        done = 0.0
        for number in range(count):
            amount = min(size, year - number * size)
            done += amount
            day = next((d for d, share in harvest if share >= done / year - 1e-9), None)
            week = out.setdefault(day, Week(day, item, year, 0.0, 0, None, None, crop))
            week.share += amount / year
            week.batches += 1
            if made.per_jar:
                jars = math.ceil(amount / made.per_jar - 1e-6)
                week.jars = (week.jars or 0) + jars
                per = self.per_load.get(self.jar(item) or "")
                if made.method in CANNING and per:
                    week.loads = (week.loads or 0) + math.ceil(jars / per)
        return list(out.values())

    def _harvest(self, crop: CropPlan) -> list[tuple[int, float]]:
        """Return the Mondays of the harvest with the share come in by the end of their weeks.

        Each season so far, moved to the planned one day by day, counts as much as the others.
        """
        garden = self.plan.garden
        shares: dict[int, float] = {}
        seasons = garden.full_seasons(crop.item)
        for plot in seasons:
            whole = garden.field.picked["whole"][plot.rows].astype(np.float64)
            moved = garden.calendar.first_day(garden.next) - garden.calendar.first_day(plot.season)
            days = garden.field.picked["day"][plot.rows] + moved
            for day, part in zip((days - (days + 3) % 7).tolist(), (whole / whole.sum()).tolist(), strict=True):  # fmt: skip
                shares[day] = shares.get(day, 0.0) + part / len(seasons)
        out, so_far = [], 0.0
        for day in sorted(shares):
            so_far += shares[day]
            out.append((day, so_far))
        return out

    def _stores(self) -> None:
        """Go through the weeks with the jars and lids there are; full jars are empty by then."""
        state = self.state
        rows = state.once(jar_totals)
        for week in self.weeks:
            jar = self.jar(week.item)
            if week.jars is None or jar is None:
                continue
            row = rows.get(jar, {})
            jars = self.jars.setdefault(jar, Store(0, row.get("empty", 0), row.get("full", 0)))
            lid = self.lid(week.item)
            lids = self.lids.setdefault(lid, Store(0, self._left(lid)))
            week.jars_there = max(0, jars.there + (jars.full or 0) - jars.wanted)
            week.lids_there = max(0, lids.there - lids.wanted)
            jars.wanted += week.jars
            lids.wanted += week.jars

    def _left(self, name: str) -> int:
        item = self.state.facts.find(name)
        if item is None:
            return 0
        return int(self.state.left[self.state.lots["item"] == item].sum()) // 1000
