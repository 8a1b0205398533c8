"""What a harvest cost, as figures: garden inputs spread over the crop's season (rule 8)."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ledger.figures import (
    Array,
    Figure,
    Groups,
    choose,
    said,
    unpriced,
)
from ledger.questions.costs.sources import unit_factor
from ledger.questions.telling import label_day

if TYPE_CHECKING:
    from ledger.questions.costs.sources import Sources
    from ledger.replay import State
    from ledger.replay.garden import Part

__all__ = ["Bearing", "GardenFigures"]

_PLACE = (1 << 24) - 1


class Bearing(NamedTuple):
    """What strands took of the parts of inputs, a row a strand and part.

    Attributes
    ----------
    place, part : ndarray of int, shape (rows,)
        The strand's season, and the place among `GardenFigures.parts`.
    money, share : Figure
        What it took; its share, NaN where it took all.
    """

    place: Array
    part: Array
    money: Figure
    share: Figure


class GardenFigures:
    """Inputs, pickings and shares of one state.

    Parameters
    ----------
    bought : Figure
        Of each lot: what it cost where it was bought, found or used without being written down.

    Attributes
    ----------
    cost : Figure
        Of each harvest lot: its part of what its crop took that season.
    inputs, worth, picked : Figure
        Of each strand's season: what it took, and what was picked, in money and in whole units.
    """

    def __init__(self, state: State, sources: Sources, bought: Figure) -> None:
        self.state, self.sources, self.bought = state, sources, bought
        self.garden, self.lots = state.costs.garden, state.costs.harvest_lots
        key = self.garden.key
        self.season, self.strand = key >> 24, key & _PLACE
        self._groups = Groups(self.garden.which, key.size)
        amount = sources.amount.at(self.lots)
        self.picked = (
            self._groups.sum(amount)
            .called("all-picked", item=self._name, season=self._year)
            .folds(self._address("harvest"))
        )

    @cached_property
    def cost(self) -> Figure:
        """What each harvest lot bears, shape (harvest lots,)."""
        which = self.garden.which
        day = self.state.lots["day"][self.lots]
        share = self.sources.amount.at(self.lots) / self.picked.at(which)
        return (share.called("this-picking") * self.inputs.at(which)).called(
            "picked",
            item=lambda row: self._name(int(which[row])),
            day=lambda row: label_day(int(day[row])),
        )

    # -- names --------------------------------------------------------------------------

    def _name(self, place: int) -> str:
        return self.state.facts.names[int(self.strand[place])]

    def _year(self, place: int) -> int:
        return int(self.season[place])

    def _address(self, figure: str) -> Callable[[int], tuple[str, str]]:
        def address(place: int) -> tuple[str, str]:
            name = self.state.facts.strand_name(int(self.strand[place]))
            return f"garden/{self._year(place)}/{name}", figure

        return address

    def find(self, season: int, strand: int) -> int | None:
        """Return the place of a strand's season, or None where nothing of it was picked."""
        rows = np.flatnonzero(self.garden.key == (season << 24 | strand))
        return int(rows[0]) if rows.size else None

    # -- inputs -------------------------------------------------------------------------

    @cached_property
    def _parts(self) -> list[tuple[int, int]]:
        """Places of the parts that fell into a season, each with how many came before it."""
        out: list[tuple[int, int]] = []
        before: dict[int, int] = {}
        for at, part in enumerate(self.garden.parts):
            step = before.get(id(part.source), 0)
            before[id(part.source)] = step + 1
            if part.season is not None:
                out.append((at, step))
        return out

    @cached_property
    def bearing(self) -> Bearing:
        """What each strand took of each part of an input."""
        parts = self.parts
        row, part_of, share_of = [], [], []
        for number, part in enumerate(parts):
            season, crop = int(part.season or 0), part.crop
            for strand in self.garden.shares(season, crop):
                place = self.find(season, strand)
                assert place is not None
                row.append(place)
                part_of.append(number)
                share_of.append(self._shared.get((season, crop, strand), -1))
        of_part, of_share = np.array(part_of, np.int64), np.array(share_of, np.int64)
        whole, share = self.money.at(of_part), self._share.at(of_share)
        each = choose(of_share < 0, whole, share * whole).called(
            "input",
            name=lambda one: parts[part_of[one]].source.label,
            season=lambda one: parts[part_of[one]].season,
        )
        return Bearing(np.array(row, np.int64), of_part, each, share)

    @cached_property
    def inputs(self) -> Figure:
        """What each strand took in a season, shape (strands' seasons,)."""
        return (
            Groups(self.bearing.place, self.season.size)
            .sum(self.bearing.money)
            .called("garden-inputs", item=self._name, season=self._year)
            .folds(self._address("inputs"))
        )

    @property
    def parts(self) -> list[Part]:
        """The parts of inputs that fell into a season."""
        return [self.garden.parts[at] for at, _ in self._parts]

    @cached_property
    def money(self) -> Figure:
        """Money of each of `parts`: all of an input, or a season's part of what lasts."""
        parts = self.parts
        return self._money.called(
            "input",
            name=lambda number: parts[number].source.label,
            season=lambda number: parts[number].season,
        )

    @cached_property
    def _money(self) -> Figure:
        """The same without a name."""
        state, table, parts = self.state, self.state.journal.tables["supplies"], self.parts
        ev, row, draw = (
            np.array([getattr(part.source, name) for part in parts], np.int64)
            for name in ("ev", "row", "draw")
        )
        paid = said(table["money"][np.maximum(row, 0)] if row.size else row, "money", ev)
        drawn, lot, _ = state.allocations
        sown = Groups(drawn, state.draws["ev"].size).sum(
            (self.sources.share_taken * self.bought.at(lot)).called(
                "taken", item=lambda at: self.sources.name_of(state.lots["item"])(int(lot[at]))
            )
        )
        whole = choose(draw >= 0, sown.at(draw), paid)
        years, step = self._lasting(ev, row)
        yearly = (whole / years).called("a-season")
        money = np.array([part.money for part in parts], np.float64)
        source = np.array([part.source.money for part in parts], np.float64)
        lasts = money < source
        with np.errstate(invalid="ignore"):
            is_rest = lasts & ~np.isclose(money, source / np.maximum(years.values, 1e-9), 1e-9)
        rest = whole - (yearly * step).called("charged-before")
        return choose(lasts, choose(is_rest, rest, yearly), whole)

    def _lasting(self, ev: Array, row: Array) -> tuple[Figure, Figure]:
        """Return the years that each input lasts, and how many seasons bore it before."""
        found = [self.years_of(*one) for one in zip(ev.tolist(), row.tolist(), strict=True)]
        values, told = [years for years, _ in found], [by for _, by in found]
        steps = np.array([step for _, step in self._parts], np.float64)
        return (
            said(np.array(values, np.float64), "", np.array(told, np.int64)).called("lasts"),
            said(steps, "", ev).called("seasons-before"),
        )

    def years_of(self, ev: int, supply: int) -> tuple[float, int]:
        """Return the years that what was bought lasts, and the event that says so."""
        state, durables = self.state, self.state.costs.durables
        table = state.journal.tables["supplies"]
        own = float(table["years"][supply]) if supply >= 0 else np.nan
        if supply < 0 or not np.isnan(own):
            return own, ev
        number = int(state.facts.canon[table["item"][supply]])
        fact = number, "years", int(state.moment.on[ev])
        said_by = self.sources.newest_of.get(durables.fact_from(*fact), -1)
        return durables.fact(*fact) or np.nan, said_by

    # -- shares -------------------------------------------------------------------------

    @cached_property
    def _shared(self) -> dict[tuple[int, int, int], int]:
        """Row of `_share` by season, crop (the whole garden: -1) and strand."""
        keys = [
            (season, crop, strand)
            for (season, crop), bases in self.garden.bases.items()
            for strand in bases
        ]
        return {key: row for row, key in enumerate(keys)}

    @cached_property
    def worth(self) -> Figure:
        """What was picked of each strand in a season, at the shop's prices of the day."""
        lots = self.state.lots
        item, day = lots["item"][self.lots], lots["day"][self.lots]
        price, ev, _ = self.state.costs.prices.of(item, day)
        unit = self.sources.whole_of(item)
        each = said(price, lambda row: f"money per {unit(row)}", ev)
        return (
            self._groups.sum((self.sources.amount.at(self.lots) * each).called("a-picking"))
            .called("worth", item=self._name, season=self._year)
            .folds(self._address("worth"))
        )

    @cached_property
    def weight(self) -> Figure:
        """What was picked of each strand in a season, in kilograms; NaN where no weight is known."""
        amount = self.sources.amount.at(self.lots)
        grams = self.sources.weight(self.state.lots["item"][self.lots])
        kilos = self._groups.sum((amount * grams).called("a-picking")).called(
            "all-grams"
        ) / unit_factor(1000.0, "g per kg", "g-per-kg")
        return kilos.called("picked-weight", item=self._name, season=self._year).folds(
            self._address("weight")
        )

    @cached_property
    def average(self) -> Figure:
        """The average price of a season's harvest by weight, by place of any of its strands."""
        seasons, which = np.unique(self.season, return_inverse=True)
        both = ~np.isnan(self.worth.values) & (np.nan_to_num(self.weight.values) > 0)
        groups = Groups(np.where(both, which, -1), seasons.size)
        price = groups.sum(self.worth).called("all-worth") / groups.sum(self.weight).called(
            "all-weight"
        )
        return (
            price.called("average", season=lambda at: int(seasons[at]))
            .folds(lambda at: (f"garden/{int(seasons[at])}", "average"))
            .at(which)
        )

    @cached_property
    def _share(self) -> Figure:
        """The share of a strand in what its crop, or the garden, took; a row as in `_shared`."""
        keys = list(self._shared)
        place = np.array([self.find(season, strand) for season, _, strand in keys], np.int64)
        basis = np.array([self.garden.bases[s, c][one] for s, c, one in keys], dtype=object)
        ev = self.state.lots["ev"][self.lots][np.maximum(self._groups.first, 0)]
        one = said(np.ones(place.size), "", ev[place] if place.size else place)
        value, kilos = self.worth.at(place), self.weight.at(place)
        by_average = (kilos * self.average.at(place)).called("by-weight")
        name = self.sources.name_of(self.strand)
        none = unpriced("0 to 1", lambda row: name(int(place[row])), place.size)
        weighed = choose(
            basis == "value",
            value,
            choose(basis == "average", by_average, choose(basis == "even", one, kilos)),
        )
        several, which = np.unique(
            np.array([s << 24 | (c & _PLACE) for s, c, _ in keys], np.int64), return_inverse=True
        )
        groups = Groups(np.where(basis == "none", -1, which), several.size)
        share = weighed / groups.sum(weighed).at(which).called("all-shares")
        return choose(basis == "none", none, share).called(
            "input-share", item=lambda row: self._name(int(place[row]))
        )
