"""Every plot of every season, with the pickings, plantings and work that belong to it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import Array, Figure, Groups, choose, known_where, said
from ledger.questions.costs import CostFigures
from ledger.questions.garden.field import crops_of, field_of
from ledger.questions.garden.past import Past
from ledger.questions.garden.plots import key_of

if TYPE_CHECKING:
    from ledger.questions.garden.field import Field
    from ledger.questions.garden.plots import Plot
    from ledger.replay import State

__all__ = ["UNITS", "Grown", "beds_grown", "crops_grown", "floats", "where"]

UNITS = {"plants": "plants", "area_m2": "m2", "row_m": "m"}
"""The sizes of a planting, with their units."""


class Grown:
    """The plots of a field: a row each, season by season.

    Attributes
    ----------
    plots : list of Plot
    crop, season : ndarray of int, shape (plots,)
    same : ndarray of int, shape (plots,)
        The crop's season that each plot is of; `crops` of them.
    of : ndarray of int, shape (pickings,)
        The plot of each picking.
    """

    def __init__(self, field: Field) -> None:
        self.field, self.state = field, field.state
        self.costs = self.state.once(CostFigures)
        self.sources, self.picked = self.costs.sources, field.picked
        self.plots: list[Plot] = [p for season in field.seasons() for p in field.of(season)]
        self.crop, self.season = (
            np.array([getattr(p, name) for p in self.plots], np.int64)
            for name in ("crop", "season")
        )
        _, self.same = np.unique(self.season << 32 | self.crop, return_inverse=True)
        self.crops = int(self.same.max()) + 1 if self.plots else 0
        self.of = np.full(self.picked["ev"].size, -1, np.int64)
        for at, plot in enumerate(self.plots):
            self.of[plot.rows] = at

    @property
    def count(self) -> int:
        """How many plots there are."""
        return len(self.plots)

    def name(self, at: int) -> str:
        """Return the name of a plot's crop."""
        return self.state.facts.names[int(self.crop[at])]

    def address(self, at: int) -> str:
        """Return what a plot of a whole crop is addressed by in `season`."""
        return f"season/{key_of(self.state.facts.names, self.plots[at], whole=True)}"

    @cached_property
    def begins(self) -> dict[int, int]:
        """The first row of each season."""
        seasons, first = np.unique(self.season, return_index=True)
        return dict(zip(seasons.tolist(), first.tolist(), strict=True))

    def past(self, season: int) -> Past:
        """Return a season beside earlier ones."""
        if season not in self._pasts:
            self._pasts[season] = Past(self.field, season)
        return self._pasts[season]

    @cached_property
    def _pasts(self) -> dict[int, Past]:
        return {}

    # -- pickings -----------------------------------------------------------------------

    def said(self, column: str) -> Figure:
        """Return ``whole`` or ``trimmed`` of each picking, in whole units."""
        unit = self.sources.whole_of(self.picked["strand"])
        return said(self.picked[column], unit, self.picked["ev"])

    @cached_property
    def was_trimmed(self) -> Array:
        """Which pickings lost something at once, shape (pickings,)."""
        return np.asarray(self.picked["trimmed"] > 0)

    @cached_property
    def grams(self) -> Figure:
        """Grams in one whole unit of each picking."""
        return self.sources.weight(self.picked["strand"])

    @cached_property
    def shop(self) -> Figure:
        """The shop's price of one whole unit, on the day of each picking."""
        price, ev, later = self.field.prices
        return self.sources.shop_price(self.picked["strand"], price, ev, later)

    def among(self, *conditions: Array) -> Groups:
        """Return the pickings of each plot for which every condition holds."""
        return Groups(where(self.of, *conditions), self.count)

    @cached_property
    def weighed(self) -> Array:
        """Which pickings have a weight, shape (pickings,)."""
        return ~np.isnan(self.picked["grams"])

    @cached_property
    def priced(self) -> Array:
        """Which pickings have a shop's price, shape (pickings,)."""
        return np.asarray(self.field.prices[1] >= 0)

    @cached_property
    def has_weight(self) -> Array:
        """Whether anything of a plot can be weighed, shape (plots,)."""
        known, rows = self._counts(self.weighed), self._counts(np.ones(self.of.size, bool))
        own = ~np.isnan(self.state.facts.grams[self.crop]) if self.count else np.zeros(0, bool)
        return np.asarray((known > 0) | ((rows == 0) & own))

    @cached_property
    def has_price(self) -> Array:
        """Whether a plot's worth can be said, shape (plots,): nothing picked is worth nothing."""
        rows = self._counts(np.ones(self.of.size, bool))
        return np.asarray((rows == 0) | (self._counts(self.priced) > 0))

    def _counts(self, which: Array) -> Array:
        return np.bincount(self.of[which & (self.of >= 0)], minlength=self.count)

    def of_crop(self, *conditions: Array) -> Groups:
        """Return the pickings of each crop's season for which every condition holds."""
        of = np.where(self.of >= 0, self.same[self.of], -1) if self.count else self.of
        return Groups(where(of, *conditions), self.crops)

    def weight(self, amount: Figure) -> Figure:
        """Return the weight of an amount of each picking, by plot, of those that have a weight."""
        each = (amount * self.grams).called("this-picking")
        return known_where(
            self.has_weight, self.among(self.weighed).sum(each, "g"), "no-weight-of", "g"
        )

    @cached_property
    def picked_g(self) -> Figure:
        """The weight of each plot as picked."""
        return self.weight(self.said("whole")).called("picked", crop=self.name)

    # -- plantings ----------------------------------------------------------------------

    @cached_property
    def _plantings(self) -> list[tuple[int, Any]]:
        return [(at, one) for at, plot in enumerate(self.plots) for one in plot.plantings]

    @cached_property
    def planted(self) -> Groups:
        """The plantings of each plot."""
        return Groups(np.array([at for at, _ in self._plantings], np.int64), self.count)

    @cached_property
    def planting_ev(self) -> Array:
        """The event of each planting."""
        return np.array([one.ev for _, one in self._plantings], np.int64)

    @cached_property
    def sizes(self) -> dict[str, Figure]:
        """The sizes of each plot: ``plants``, ``area_m2`` and ``row_m``."""
        return {name: self._size(name) for name in UNITS}

    def per(self, size: str) -> Figure:
        """Return what one plant, square metre or metre of row of each plot brought, as picked."""
        return self.picked_g / self.sizes[size]

    def _size(self, name: str) -> Figure:
        """Return ``plants``, ``area_m2`` or ``row_m`` of each plot; NaN where it is not known."""
        each = [getattr(one, name) for _, one in self._plantings]
        of = said(floats(each), UNITS[name], self.planting_ev)
        whole = self.planted.sum(of, UNITS[name])
        if name == "plants":
            most = [self._most(plot) for plot in self.plots]
            named = said(floats([plot.plants_picked for plot in self.plots]), "plants", _ints(most))
            bare = np.array([not plot.plantings for plot in self.plots], bool)
            whole = choose(bare, named, whole)
        known = np.array([getattr(plot, name) is not None for plot in self.plots], bool)
        return known_where(known, whole, "no-size").called(name, unit=UNITS[name])

    def _most(self, plot: Plot) -> int:
        """Return the event of the picking that names most plants."""
        rows = plot.rows
        return (
            int(self.picked["ev"][rows[self.picked["plants"][rows].argmax()]]) if rows.size else -1
        )

    # -- work ---------------------------------------------------------------------------

    @cached_property
    def worked(self) -> Groups:
        """Pickings of each plot with work."""
        return self.among(~np.isnan(self.picked["minutes"]))

    @cached_property
    def work_part(self) -> Figure:
        """The part of its event's work that each picking bears: by weight, else evenly."""
        ev = self.picked["ev"]
        events, which = np.unique(ev, return_inverse=True)
        lines = np.bincount(which, minlength=events.size)
        weight = (self.said("whole") * self.grams).called("this-picking")
        every = Groups(which, events.size).sum(weight, "g").called("all-of-picking").at(which)
        even = said(1 / lines[which] if ev.size else np.zeros(0), "0 to 1", ev).called("evenly")
        by_weight = ~np.isnan(every.values) & (every.values > 0)
        return choose(by_weight, weight / every, even).called("work-part")

    @cached_property
    def alone(self) -> Array:
        """Which pickings bear all the work of their event, shape (pickings,)."""
        return np.asarray(self.picked["share"] == 1.0)

    def minutes(self, ev: Array) -> Figure:
        """Return the minutes of work of events."""
        return self.sources.minutes.at(ev)

    @cached_property
    def planting_work(self) -> Groups:
        """Plantings of each plot, of this season, with work."""
        minutes = self.field.minutes[self.planting_ev]
        standing = np.array([self.plots[at].standing for at, _ in self._plantings], bool)
        return Groups(where(self.planted.by, ~np.isnan(minutes), ~standing), self.count)

    @cached_property
    def has_work(self) -> Array:
        """Whether any work of a plot was written down, shape (plots,)."""
        counts = [np.bincount(g.by[g.by >= 0], minlength=self.count) for g in self._work]
        return np.asarray(sum(counts) > 0)

    @property
    def _work(self) -> tuple[Groups, Groups]:
        return self.worked, self.planting_work


def beds_grown(state: State) -> Grown:
    """Return the plots of every crop, variety and bed."""
    return Grown(field_of(state))


def crops_grown(state: State) -> Grown:
    """Return the plots of every crop, varieties and beds together."""
    return Grown(crops_of(state))


def where(of: Array, *conditions: Array) -> Array:
    """Return where each row belongs, -1 where a condition fails."""
    out = np.array(of, np.int64)
    for one in conditions:
        out[~one] = -1
    return out


def floats(values: list[Any]) -> Array:
    """Return numbers, NaN for None."""
    return np.array([np.nan if one is None else one for one in values], np.float64)


def _ints(values: list[int]) -> Array:
    return np.array(values, np.int64)
