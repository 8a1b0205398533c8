"""What one plant of a crop brings: the household's own seasons and the published yield, weighed."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, Groups, said
from ledger.methods.yields import Household, Seasons, YieldAhead, household_of, yield_ahead
from ledger.questions.garden.grown import UNITS, crops_grown
from ledger.questions.garden.plots import Planting, Plot
from ledger.reference.planting import PublishedRange, published_range

if TYPE_CHECKING:
    from ledger.questions.garden.field import Field
    from ledger.replay.columns import Array

__all__ = ["SIZES", "Garden", "Growth", "SeasonYield"]

SIZES = {"plants": "plant", "row_m": "metre of row", "area_m2": "square metre"}
"""What a planting is measured by, the first one known being taken, and one of it in words."""


@dataclass(frozen=True)
class SeasonYield:
    """What one plant (or metre, or square metre) brought in a season: grams as picked.

    `row` is its plot's, among the plots of all seasons.
    """

    season: int
    each: float
    row: int


@dataclass
class Growth:
    """What is known of a crop's growing.

    Attributes
    ----------
    size : str or None
        Which of `SIZES` it is measured by; None where no planting says any.
    seasons : list of SeasonYield
        The finished seasons of that size; of size 1 (the whole season) where `size` is None.
    ahead : YieldAhead or None
        Of one plant; None where neither an own season nor a published yield tells.
    published : PublishedRange or None
        Of one plant; None where none fits.
    unplanted : bool
        Whether the answer is in row, as no planting says how much was planted.
    space_m2 : float or None
        Ground of one plant; None where no planting gives both.
    standing : Plot or None
        Plants of an earlier season that still bear (trees, perennials).
    """

    size: str | None = None
    seasons: list[SeasonYield] = field(default_factory=list)
    ahead: YieldAhead | None = None
    published: PublishedRange | None = None
    space_m2: float | None = None
    standing: Plot | None = None
    unplanted: bool = False

    @property
    def known(self) -> Seasons:
        """The seasons as the method takes them."""
        middle = None if self.published is None else self.published.middle_g
        return Seasons(tuple(one.each for one in self.seasons), middle)

    @property
    def good(self) -> int:
        """How many seasons brought something."""
        return sum(one.each > 0 for one in self.seasons)

    @property
    def source(self) -> str | None:
        """Where the yield comes from, in words; None where nothing tells."""
        if self.ahead is None:
            return None
        if self.published is None:
            return "own seasons"
        return "own seasons and published yields" if self.good else "published yields"


class Garden:
    """The seasons behind the plan.

    Parameters
    ----------
    field : Field
        With whole crops.

    Attributes
    ----------
    grown : Grown
        Its plots, season by season, as figures.
    each : dict of str or None to Figure
        What one of each size brought, and the whole season, shape (plots,).
    next : int
        The season to plan: the running one until something is planted in it, then the one after.
    crops : set of int or None
        Which of what is picked are crops, and not what animals give; None: all.
    """

    def __init__(self, field: Field) -> None:
        self.field, self.state = field, field.state
        self.grown = self.state.once(crops_grown)
        self._rows = {(p.season, p.crop): row for row, p in enumerate(self.grown.plots)}
        self.calendar = field.calendar
        self.now = int(self.calendar.of(np.array([self.state.as_of_day]))[0])
        self.plots: dict[int, list[Plot]] = {}
        for season in field.seasons():
            for plot in field.of(season):
                self.plots.setdefault(plot.crop, []).append(plot)
        self.crops: set[int] | None = None
        self.next = self.now + self._has_begun()
        self._first = self._first_event()

    def _has_begun(self) -> bool:
        plantings = [p for plots in self.plots.values() for plot in plots for p in plot.plantings]
        if not plantings:
            return any(p.season == self.now for plots in self.plots.values() for p in plots)
        return max(p.day for p in plantings) >= self.calendar.first_day(self.now)

    def _first_event(self) -> int:
        counted = np.flatnonzero(self.state.moment.rank >= 0)
        return int(self.state.moment.on[counted].min()) if counted.size else self.state.as_of_day

    # -- one crop ------------------------------------------------------------------------

    def growth(self, crop: int) -> Growth:
        """Return what one plant of a crop brings and how much ground it takes."""
        out = self._growths[crop] if crop in self._growths else self._growth(crop)
        out.ahead = yield_ahead(out.known, self.household)
        return out

    @cached_property
    def household(self) -> Household:
        """What all crops together say of yields."""
        of = self.crops
        return household_of([g.known for c, g in self._growths.items() if of is None or c in of])

    @cached_property
    def _growths(self) -> dict[int, Growth]:
        return {crop: self._growth(crop) for crop in self.plots}

    def _growth(self, crop: int) -> Growth:
        plots, name = self.plots.get(crop, []), self.state.facts.names[crop]
        out = Growth()
        if plots and plots[-1].standing and plots[-1].season >= self.next - 1:
            out.standing = plots[-1]
        sizes = [size for size in SIZES if any(getattr(p, size) for p in plots)]
        for size in (*sizes, None):
            out.size, out.seasons = size, self._seasons(plots, size)
            out.published = self._published(name, crop, size)
            if out.good or out.published is not None:
                break
        else:
            out.size, out.unplanted = (sizes[0] if sizes else None), True
            out.published = published_range(name, row_m=1.0)
            if out.published is not None and out.standing is None:
                out.size, out.seasons = "row_m", []
            else:
                out.published, out.unplanted = None, False
                out.seasons = self._seasons(plots, out.size)
        if out.size is not None:
            out.space_m2 = self.per(crop, out.size, "area_m2")
        return out

    def row(self, plot: Plot) -> int:
        """Return the row of a plot among those of all seasons."""
        return self._rows[plot.season, plot.crop]

    @cached_property
    def each(self) -> dict[str | None, Figure]:
        """What one of each size brought, and the whole season, as picked."""
        return {**{size: self.grown.per(size) for size in SIZES}, None: self.grown.picked_g}

    def _seasons(self, plots: list[Plot], size: str | None) -> list[SeasonYield]:
        out = []
        for plot in plots:
            row = self.row(plot)
            each = self.each[size].value(row)
            if plot.season < self.next and not math.isnan(each) and self._is_whole(plot, plots):
                out.append(SeasonYield(plot.season, each, row))
        if any(plot.standing for plot in plots):  # a young tree does not fail, it is not there yet
            bears = next((at for at, one in enumerate(out) if one.each > 0), len(out))
            out = out[bears:]
        return out

    def _is_whole(self, plot: Plot, plots: list[Plot]) -> bool:
        """Whether a season is over and was written down from its first picking on."""
        first = self.calendar.first_day(plot.season)
        others = [p for p in plots if p.season != plot.season and p.rows.size]
        days = [self.field.picked["day"][p.rows] - self.calendar.first_day(p.season) for p in others]  # fmt: skip
        if plot.season >= self.now:
            over = self.state.as_of_day >= self.calendar.last_day(plot.season)
            past = bool(days) and self.state.as_of_day - first > max(int(d.max()) for d in days)
            if not over and not past:
                return False
        opened = min((int(d.min()) for d in days), default=0)
        return self._first <= first + opened or bool(plot.plantings)

    def _published(self, name: str, crop: int, size: str | None) -> PublishedRange | None:
        """Return the published yield of the row or the ground of one plant."""
        if size is None:
            return None
        row, area = (self.per(crop, size, other) for other in ("row_m", "area_m2"))
        found = published_range(name, row_m=row, area_m2=area)
        return None if found is None or found.middle_g <= 0 else found

    # -- sizes of plantings ---------------------------------------------------------------

    @cached_property
    def place(self) -> dict[int, int]:
        """The row of each crop, in the figures of plantings."""
        return {crop: row for row, crop in enumerate(self.plots)}

    @cached_property
    def _planted(self) -> list[tuple[int, Planting]]:
        """Each planting with its crop's row, once however long it stands."""
        return [
            (row, planting)
            for row, plots in enumerate(self.plots.values())
            for planting in dict.fromkeys(p for plot in plots for p in plot.plantings)
        ]

    def ratio(self, size: str, other: str) -> Figure:
        """Return how much of `other` one of `size` takes, of the plantings that give both, by crop."""
        if (size, other) not in self._ratios:
            self._ratios[size, other] = self._ratio(size, other)
        return self._ratios[size, other]

    @cached_property
    def _ratios(self) -> dict[tuple[str, str], Figure]:
        return {}

    def _ratio(self, size: str, other: str) -> Figure:
        both = [(row, p) for row, p in self._planted if getattr(p, size) and getattr(p, other)]
        of = Groups(np.array([row for row, _ in both], np.int64), len(self.plots))
        ev = np.array([p.ev for _, p in both], np.int64)
        of_other, of_size = (
            of.sum(said(np.array([getattr(p, name) for _, p in both], np.float64), UNITS[name], ev))
            for name in (other, size)
        )
        return (of_other.called("planted-on") / of_size.called("planted")).called(
            f"{other}-for-one"
        )

    def per(self, crop: int, size: str, other: str) -> float | None:
        """Return how much of `other` one of `size` of a crop takes; None where nothing gives both."""
        value = self.ratio(size, other).value(self.place[crop]) if crop in self.place else math.nan
        return None if math.isnan(value) else value

    def full_seasons(self, crop: int) -> list[Plot]:
        """Return the finished seasons with a harvest; without any, those with some of one."""
        picked = [p for p in self.plots.get(crop, []) if p.season < self.next and p.rows.size]
        plots = self.plots.get(crop, [])
        return [p for p in picked if self._is_whole(p, plots)] or picked

    def trim_rows(self, crop: int) -> Array:
        """Return the pickings of a crop in the measure in which most were said."""
        rows = np.flatnonzero(self.field.picked["item"] == crop)
        strand, many = np.unique(self.field.picked["strand"][rows], return_counts=True)
        if strand.size < 2:
            return rows
        return np.asarray(rows[self.field.picked["strand"][rows] == strand[many.argmax()]])

    def trimmed(self, crop: int) -> tuple[int, int]:
        """Return whole units picked and, of these, trimmed off, in all seasons."""
        rows, picked = self.trim_rows(crop), self.field.picked
        return int(picked["whole"][rows].sum()), int(picked["trimmed"][rows].sum())

    # -- beds ----------------------------------------------------------------------------

    @cached_property
    def beds(self) -> tuple[dict[str, float], dict[str, list[Planting]], list[str]]:
        """Return the ground of each bed (m2), the plantings that show it, and beds without any.

        A bed is as large as all that was planted in it in the season in which that was most.
        """
        texts = self.state.journal.garden.texts
        by: dict[tuple[int, int], list[Planting]] = {}
        named: set[int] = set()
        for plots in self.plots.values():
            for plot in plots:
                for one in plot.plantings:
                    if one.pair[1] < 0:
                        continue
                    named.add(one.pair[1])
                    if one.area_m2:
                        by.setdefault((one.pair[1], plot.season), []).append(one)
        area: dict[str, float] = {}
        shown: dict[str, list[Planting]] = {}
        for (bed, _), several in sorted(by.items()):
            ground = sum(p.area_m2 or 0.0 for p in several)
            if ground > area.get(texts[bed], 0.0):
                area[texts[bed]], shown[texts[bed]] = ground, several
        return area, shown, sorted(texts[b] for b in named if texts[b] not in area)

    def grew(self, bed: str) -> set[int]:
        """Return the crops that stood in a bed in the season before the planned one."""
        texts = self.state.journal.garden.texts
        return {
            plot.crop
            for plots in self.plots.values()
            for plot in plots
            if plot.season == self.next - 1
            and any(p.pair[1] >= 0 and texts[p.pair[1]] == bed for p in plot.plantings)
        }
