"""The record of one plot: its figures, in numbers and in words, and what they rest on."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import format_whole
from ledger.answers import Assumption
from ledger.messages import Day, joined, sentence
from ledger.messages.units import amount_later, together, unit
from ledger.questions.garden.plots import Plot, key_of
from ledger.reference.planting import METRES_PER_FOOT
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.figures import Figure
    from ledger.questions.garden.past import Earlier
    from ledger.questions.season.figures import Season

__all__ = ["Recorder", "cell"]


class Recorder:
    """Makes the records of one season.

    Attributes
    ----------
    rows : list of int
        The plots that are asked for, as rows of `Grown`.
    """

    def __init__(
        self, known: Season, season: int, crop: int | None = None, bed: str | None = None
    ) -> None:
        self.known, self.grown, self.season = known, known.grown, season
        self.field, self.state = self.grown.field, self.grown.state
        self.past = self.grown.past(season)
        first = self.grown.begins.get(season, 0)
        self.every = range(first, first + len(self.past.now))
        plots = self.grown.plots
        self.rows = [
            row
            for row in self.every
            if crop in (None, plots[row].crop) and bed in (None, plots[row].bed)
        ]
        self.names = self.state.facts.names
        self.measures = self.state.settings.newest("measures", "us") or "us"

    def plot(self, row: int) -> Plot:
        """Return the plot of a row."""
        return self.grown.plots[row]

    @cached_property
    def addresses(self) -> dict[str, int]:
        """The row of every plot by its key; of two alike the later is marked ``~2``."""
        out: dict[str, int] = {}
        for row in self.every:
            key = base = key_of(self.names, self.plot(row), whole=self.field.whole_crops)
            n = 1
            while key in out:
                n += 1
                key = f"{base}~{n}"
            out[key] = row
        return out

    @cached_property
    def _keys(self) -> dict[int, str]:
        return {row: key for key, row in self.addresses.items()}

    def record(self, row: int) -> dict[str, Any]:
        """Return the record of a plot; ``_mark`` and ``_assumed`` are for `build`."""
        plot = self.plot(row)
        days = self.field.picked["day"][plot.rows]
        last = self.past.last(row - self.every.start)
        figures = {name: cell(figure, row) for name, figure in self.known.of.items()}
        out: dict[str, Any] = {
            "why": f"season/{self._keys[row]}",
            "season": self.season,
            "crop": self.names[plot.crop],
            "variety": plot.variety,
            "bed": plot.bed,
            "first_on": day_text(int(days.min())) if plot.rows.size else None,
            "last_on": day_text(int(days.max())) if plot.rows.size else None,
            **figures,
            "plants": None if figures["plants"] is None else int(figures["plants"]),
            "last_season_in": None if last is None else _elsewhere(plot, last),
            "published_from": self.known.wishes.published_from(row),
            "provisional": not self.past.is_over,
            "_mark": self._mark(plot),
        }
        out["_assumed"] = self._assumed(plot, out)
        out.update(self._in_words(plot, out))
        return out

    def _mark(self, plot: Plot) -> int:
        """Return what the money of a plot rests on."""
        mark = 0
        _, ev, later = (column[plot.rows] for column in self.field.prices)
        for at in np.flatnonzero(later)[:1]:
            mark = self.state.costs.price_seen_later(plot.crop, int(ev[at]))
        lots = self.field.picked["lot"][plot.rows]
        for lot in lots[lots >= 0].tolist():
            mark |= self.state.costs.mark(lot)
        return mark

    def _assumed(self, plot: Plot, record: dict[str, Any]) -> list[Assumption]:
        name, state = self.names[plot.crop], self.state
        out = []
        if plot.standing:
            evs = tuple(state.event_id(p.ev) for p in plot.plantings)
            text = sentence("season-unplanted", name=name, n=self.season)
            out.append(Assumption(f"standing:{name}", text, evs))
        elif not plot.plantings and plot.plants is not None:
            text = sentence("season-plants-of-pickings", name=name)
            out.append(Assumption(f"plants-of-pickings:{name}", text))
        begins, first = self.past.book_begins, self.field.calendar.first_day(self.season - 1)
        if record["last_season_g"] is not None and begins is not None and begins > first:
            day = Day(day_text(begins))
            text = sentence("season-book-begins", day=day, n=self.season - 1)
            out.append(Assumption("book-begins", text))
        return out

    # -- in words -----------------------------------------------------------------------

    def say(self, grams: float | None, crop: int | None = None) -> str | None:
        """Return a weight as people say it; of a crop kept by the piece, the pieces: eggs."""
        if grams is None:
            return None
        facts = self.state.facts
        if crop is not None and facts.measure[crop] == "count":
            each = facts.grams_per_whole(crop)
            return None if not each else amount_later(format_whole(round(grams / each), "count"))
        return amount_later(format_whole(round(grams * 1000), "mass", measures=self.measures))

    def _in_words(self, plot: Plot, r: dict[str, Any]) -> dict[str, str | None]:
        last = r["last_season_g"] if self.past.is_over else r["last_season_to_date_g"]
        picked = self.say(r["picked_g"], plot.crop)
        if picked is None:  # no weight known: in its own measure
            strand, whole = (self.field.picked[name][plot.rows] for name in ("strand", "whole"))
            sums = [
                (int(whole[strand == one].sum()), self.state.facts.measure[one])
                for one in np.unique(strand).tolist()
            ] or [(0, self.state.facts.measure[plot.crop])]
            picked = together(
                [
                    amount_later(format_whole(many, measure, measures=self.measures))
                    for many, measure in sums
                ]
            )
        return {
            "in_words.picked": picked,
            "in_words.yield": self._yield(r),
            "in_words.last_season": self.say(last, plot.crop),
            "in_words.published": self._span(r["published_low_g"], r["published_high_g"]),
            "in_words.to_come": self._span(
                r["still_to_come_g.low"], r["still_to_come_g.high"], plot.crop
            ),
            "in_words.target": self.say(r["target_g"], plot.crop),
        }

    def _yield(self, r: dict[str, Any]) -> str | None:
        metric = self.measures == "metric"
        if not r["picked_g"]:
            return None
        if r["per_plant_g"] is not None:
            return self.say(r["per_plant_g"])
        if r["per_row_m_g"] is not None:
            per = r["per_row_m_g"] * (1 if metric else METRES_PER_FOOT)
            return joined("/", [self.say(per) or "", unit("m" if metric else "ft")])
        if r["per_m2_g"] is not None:
            per = r["per_m2_g"] * (1 if metric else METRES_PER_FOOT**2)
            return joined("/", [self.say(per) or "", unit("m2" if metric else "sq ft")])
        return None

    def _span(self, low: float | None, high: float | None, crop: int | None = None) -> str | None:
        if low is None or high is None:
            return None
        if crop is not None and self.state.facts.measure[crop] == "count":
            one, two = self.say(low, crop), self.say(high, crop)
            return one if one == two else amount_later(f"{one} to {two}")
        small, large, step = (
            ("g", "kg", 1.0) if self.measures == "metric" else ("oz", "lb", 28.349523125)
        )
        size, per = (
            (large, 16 * step if large == "lb" else 1000.0) if high > 1000 else (small, step)
        )
        one, two = (f"{x / per:.0f}" if x >= 10 * per else f"{x / per:.2g}" for x in (low, high))
        return amount_later(f"{one} {size}" if one == two else f"{one} to {two} {size}")


def cell(figure: Figure, row: int) -> float | None:
    """Return a row of a figure for an answer: None where nothing can be said."""
    value = figure.value(row)
    return None if np.isnan(value) else value


def _elsewhere(plot: Plot, last: Earlier) -> str | None:
    """Return the beds, or else the varieties, of last season's figure where they are others."""
    own, its = {plot.bed}, {p.bed for p in last.plots}
    if own == its:
        own, its = {plot.variety}, {p.variety for p in last.plots}
    return None if own == its else ", ".join(sorted(name or "not said" for name in its))
