"""The figures of a year's putting up, week by week: amounts, jars, raw produce and work."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING
from urllib.parse import quote

import numpy as np

from ledger.figures import (
    Array,
    Figure,
    assumed,
    at_least_none,
    choose,
    known_where,
    method,
    said,
)
from ledger.messages.units import unit as unit_name
from ledger.questions.costs.sources import Sources, unit_factor
from ledger.questions.garden.grown import floats
from ledger.questions.next_season.stores import Stores
from ledger.questions.telling import label_day
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.questions.planning.batches import Batches, Week

__all__ = ["Weeks"]

_OWN = "batches-as-before"
Parts = list[tuple[Figure, int]]
Given = Sequence[Figure] | Callable[[int], Parts]


class Weeks:
    """Figures of the weeks of a plan, a row a week and product.

    Attributes
    ----------
    batches : Batches
    of : dict of str to Figure
        By the name of the column.
    raw : Figure, shape (takes,)
        Each crop that each takes, as picked; `raw_of` has the rows of a week, with the crops' places.
    """

    def __init__(self, batches: Batches) -> None:
        self.batches, self._weeks, self._plan = batches, batches.weeks, batches.plan
        self._state, self.stores = batches.state, Stores(batches)
        self._sources = self._state.once(Sources)
        self._item = np.array([week.item for week in self._weeks], np.int64)
        rows = self._plan.recipes.rates.row
        self._made = np.array([rows[item] for item in self._item.tolist()], np.int64)
        self._unit, self._name = (
            of(self._item) for of in (self._sources.whole_of, self._sources.name_of)
        )
        self._year, self._size = batches.whole_year.at(self._made), self._batch_size()
        share = method(self._column("share"), "0 to 1", "weeks-as-before", self._harvest)
        self._amount = (self._year * share.called("part-this-week")).called(
            "this-week", name=self._name, unit=self._unit
        )
        self.raw = self._raw()
        main = [week.crop.row for week in self._weeks]
        at = [self._takes.get((row, crop), -1) for row, crop in enumerate(main)]
        self.of: dict[str, Figure] = {
            "batches": self._by("batches", "batches", _OWN, [self._amount, self._size]),
            **self._in_jars(),
            "raw_g": self.raw.at(np.array(at, np.int64)),
            "hours": self._hours(),
        }

    def raw_of(self, row: int) -> list[tuple[str, float]]:
        """Return each crop that a week takes, with its weight as picked."""
        names = {crop.row: crop.name for crop in self._plan.crops}
        return [(names[c], self.raw.value(at)) for (w, c), at in self._takes.items() if w == row]

    def _column(self, name: str) -> Callable[[], Array]:
        return lambda: floats([getattr(week, name) for week in self._weeks])

    def _by(self, name: str, unit: str, how: str, given: Given) -> Figure:
        return method(self._column(name), unit, how, given).called(name)

    # -- batches --------------------------------------------------------------------------

    def _batch_size(self) -> Figure:
        """Return what one batch gives, by one's own so far, else by the recipe."""
        recipes = self._plan.recipes
        rows: list[tuple[int, float]] = []
        at: list[list[int]] = []
        for item in self._item.tolist():
            made = recipes.made[item]
            some = (
                (made.jarred or made.batches) if made.batches else {made.recipe: recipes.size(item)}
            )
            at.append(list(range(len(rows), len(rows) + len(some))))
            rows += [(int(ev or 0), float(whole or 0)) for ev, whole in some.items()]
        ev, whole = np.array(rows, np.float64).reshape(-1, 2).T
        of = [row for row, some in enumerate(at) for _ in some]
        gave = said(whole, lambda one: self._unit(of[one]), ev.astype(np.int64))
        size = method(
            lambda: floats([recipes.size(item) for item in self._item.tolist()]),
            self._unit,
            _OWN,
            lambda row: [(gave, one) for one in at[row]],
        )
        return size.called("batch-size", name=self._name)

    def _harvest(self, row: int) -> Parts:
        """Return what the week of a batch goes by: the year's amount, batches, and past harvests."""
        garden, grown = self._plan.garden, self._plan.garden.grown
        picked = grown.picked_g.folds(lambda at: (grown.address(at), "picked_g")).called(
            "picked-season", crop=grown.name, season=lambda at: int(grown.season[at])
        )
        seasons = garden.full_seasons(self._weeks[row].crop.item)
        return [(self._year, row), (self._size, row), *((picked, garden.row(p)) for p in seasons)]

    # -- jars -----------------------------------------------------------------------------

    def _in_jars(self) -> dict[str, Figure]:
        per_jar = self._plan.recipes.rates.per_jar.at(self._made)
        jars = self._known("jars", "jars", _OWN, [self._amount, per_jar, self._size], "not-put-up")
        load = self._known(
            "loads", "loads", "loads-by-setting", [jars, self._per_load()], "no-loads"
        )
        out = {"jars": jars, "loads": load}
        for name, is_lid in (("jars", False), ("lids", True)):
            there = self._known(
                f"{name}_there",
                name,
                "weeks-in-turn",
                self._before(jars, is_lid=is_lid),
                "not-in-jars",
            )
            wanted = jars.called("wanted-this-week", unit=name, what=unit_name(name))
            lacking = (wanted - there).called("lacking")
            get = at_least_none(lacking, "enough")
            known = ~np.isnan(there.values)
            out[f"{name}_there"] = there
            out[f"{name}_to_get"] = known_where(known, get, "not-in-jars").called(
                f"{name}_to_get", unit=name, what=unit_name(name)
            )
        return out

    def _known(self, name: str, unit: str, how: str, given: Given, reason: str) -> Figure:
        known = np.array([getattr(week, name) is not None for week in self._weeks], bool)
        return known_where(known, self._by(name, unit, how, given), reason)

    def _per_load(self) -> Figure:
        """Return how many jars the canner holds at once, by the setting or as usual."""
        per = [self.batches.per_load.get(self.batches.jar(w.item) or "") for w in self._weeks]
        ev = np.full(len(per), self._sources.newest("jars_per_load"), np.int64)
        usual = assumed(floats(per), "jars per load", "jars-per-load")
        return choose(ev >= 0, said(floats(per), "jars per load", ev), usual).called("per-load")

    def _before(self, jars: Figure, *, is_lid: bool) -> Callable[[int], Parts]:
        """Return what earlier weeks leave goes by: what is in the house, what they take, and into which jars."""
        batches, per_jar = self.batches, self._plan.recipes.rates.per_jar
        kind = batches.lid if is_lid else batches.jar
        earlier = jars.called(
            "jars-of-week", item=self._name, day=lambda row: label_day(self._weeks[row].day or 0)
        ).folds(lambda row: (self.address(self._weeks[row]), "jars"))

        def parts(row: int) -> Parts:
            own = kind(self._weeks[row].item)
            there = self.stores.row(own or "", is_lid=is_lid)
            before = [
                (earlier, at)
                for at, week in enumerate(self._weeks[:row])
                if week.jars_there is not None and kind(week.item) == own
            ]
            into = dict.fromkeys(self._made[: row + 1].tolist())
            first = {made: at for at, made in reversed(list(enumerate(self._made.tolist())))}
            planned = [part for at in first.values() for part in self._harvest(at)]
            jars = ((per_jar, made) for made in into)
            return [(self.stores.there, there), *before, *jars, *dict.fromkeys(planned)]

        return parts

    def address(self, week: Week) -> str:
        """Return the address of a week's figures, with what was asked otherwise."""
        day = "unknown" if week.day is None else day_text(week.day)
        name = quote(self._state.facts.strand_name(week.item), safe=" @")
        return self._plan.address_of(f"week={day}", name)

    # -- raw produce and work -------------------------------------------------------------

    def _raw(self) -> Figure:
        """Return each crop that each week takes, as picked."""
        needs, rates = self._plan.needs, self._plan.recipes.rates
        pairs = rates.pairs(self._item.tolist(), needs.items)
        rows = {crop.row for crop in self._plan.crops}
        week, crop = np.nonzero(pairs >= 0)
        kept = np.array([row in rows for row in crop.tolist()], bool)
        week, crop = week[kept], crop[kept]
        self._takes = {
            pair: at for at, pair in enumerate(zip(week.tolist(), crop.tolist(), strict=True))
        }
        name = self._sources.name_of(np.array(needs.items, np.int64)[crop])
        take = rates.take[1].at(pairs[week, crop])
        whole = (self._amount.at(week) * take).called("in-all")
        inside = (whole * needs.per.at(crop)).called("in-it", name=name)
        return (inside / needs.of["kept"].at(crop)).called("as-picked", name=name)

    def _hours(self) -> Figure:
        each = self._plan.recipes.rates.minutes.at(self._made)
        minutes = (self._amount * each).called("minutes")
        hours = (minutes / unit_factor(60.0, "minutes per hour", "per-hour")).called("hours")
        return known_where(_known(each), hours, "no-work", "hours")


def _known(figure: Figure) -> Array:
    return ~np.isnan(figure.values)
