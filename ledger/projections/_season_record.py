"""The record of one plot: its figures, in numbers and in words, and what they rest on."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import format_whole
from ledger.answers import Assumption
from ledger.projections._season_money import Money
from ledger.projections._season_past import Earlier, Past
from ledger.projections._season_plots import Plot
from ledger.reference.planting import METRES_PER_FOOT, published_range
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.projections._season_field import Field

__all__ = ["Recorder", "key_of", "slug"]


def key_of(names: list[str], plot: Plot, *, whole: bool = False) -> str:
    """Return what follows ``season/`` in a plot's address: ``2026/tomato/red-egg/south-bed``."""
    words = [slug(names[plot.crop])]
    if whole:
        words.append("all")
    elif plot.variety is not None or plot.bed is not None:
        words += [slug(plot.variety or "-"), slug(plot.bed or "-")]
    return "/".join([str(plot.season), *words])


def slug(text: str) -> str:
    """Return a name as it stands in an address."""
    return "-".join(text.casefold().replace("/", "-").split())


class Recorder:
    """Makes the records of one season.

    Attributes
    ----------
    plots : list of Plot
    places : list of int
        Which of them are asked for.
    """

    def __init__(self, field: Field, season: int) -> None:
        self.field, self.season, self.state = field, season, field.state
        self.past, self.money = Past(field, season), Money(field)
        self.plots = self.past.now
        shown = {id(p) for p in field.shown(season)}
        self.places = [at for at, p in enumerate(self.plots) if id(p) in shown]
        self.names = field.state.facts.names
        self.measures = field.state.settings.newest("measures", "us") or "us"

    @cached_property
    def addresses(self) -> dict[str, int]:
        """The place of every plot by its key; of two alike the later is marked ``~2``."""
        out: dict[str, int] = {}
        for at, plot in enumerate(self.plots):
            key = base = key_of(self.names, plot, whole=self.field.whole_crops)
            n = 1
            while key in out:
                n += 1
                key = f"{base}~{n}"
            out[key] = at
        return out

    @cached_property
    def _keys(self) -> list[str]:
        return list(self.addresses)  # made in the order of the places

    def record(self, at: int) -> dict[str, Any]:
        """Return the record of the plot at a place; ``_mark`` and ``_assumed`` are for `build`."""
        plot = self.plots[at]
        key = self._keys[at]
        out = {
            "why": f"season/{key}",
            "season": self.season,
            "crop": self.names[plot.crop],
            "variety": plot.variety,
            "bed": plot.bed,
            **self._picked(plot),
            **self._money(plot),
            **self._past(at),
            **self._published(plot),
            **self._target(plot),
            "provisional": not self.past.is_over,
        }
        out["_assumed"] = self._assumed(plot, out)
        out.update(self._in_words(plot, out))
        return out

    def _picked(self, plot: Plot) -> dict[str, Any]:
        picked, rows = self.field.picked, plot.rows
        grams = self.field.grams(rows, "whole", plot.crop)
        days = picked["day"][rows]
        return {
            "plants": plot.plants,
            "area_m2": plot.area_m2,
            "row_m": plot.row_m,
            "picked_g": grams,
            "trimmed_g": self.field.grams(rows, "trimmed", plot.crop),
            "kept_g": self.field.grams(rows, "kept", plot.crop),
            "per_plant_g": _ratio(grams, plot.plants),
            "per_m2_g": _ratio(grams, plot.area_m2),
            "per_row_m_g": _ratio(grams, plot.row_m),
            "first_on": day_text(int(days.min())) if rows.size else None,
            "last_on": day_text(int(days.max())) if rows.size else None,
        }

    def _money(self, plot: Plot) -> dict[str, Any]:
        value, mark = self.money.shop_value(plot)
        inputs, hours = self.money.inputs(plot), self.money.hours(plot)
        for lot in self.money.lots(plot).tolist():
            mark |= self.state.costs.mark(lot)
        too_long, glut = (
            None if value is None else sum(money for _, money in off(plot))
            for off in (self.money.too_long, self.money.glut)
        )  # fmt: skip
        net = None if value is None else value - (too_long or 0.0) - (glut or 0.0) - inputs
        return {
            "_mark": mark,
            "inputs": inputs,
            "shop_value": value,
            "kept_too_long": too_long,
            "glut": glut,
            "net": net,
            "hours": hours,
            "net_per_hour": _ratio(net, hours),
            **{f"where_it_went.{k}": v for k, v in self.money.where_it_went(plot).items()},
        }

    def _past(self, at: int) -> dict[str, Any]:
        last, to_come = self.past.last(at), self.past.to_come(at)
        plot = self.plots[at]
        return {
            "last_season_g": None if last is None else _known(self.past.grams(last.rows).sum()),
            "last_season_to_date_g": None if last is None else _known(self.past.to_date(last)),
            "last_season_in": None if last is None else _elsewhere(plot, last),
            **{
                f"still_to_come_g.{name}": None if to_come is None else _known(getattr(to_come, name))
                for name in ("low", "likely", "high")
            },
        }  # fmt: skip

    def _published(self, plot: Plot) -> dict[str, Any]:
        found = published_range(self.names[plot.crop], row_m=plot.row_m, area_m2=plot.area_m2)
        if found is None:
            return {"published_low_g": None, "published_high_g": None, "published_from": None}
        sources = "; ".join(map(str, found.sources))
        return {
            "published_low_g": found.low_g,
            "published_high_g": found.high_g,
            "published_from": f"{sources} ({found.note})",
        }

    def _target(self, plot: Plot) -> dict[str, Any]:
        target = self.money.target(plot.crop, self.season)
        if target is None or target.grams is None:
            return {"target_g": None, "short_of_target_g": None}
        part, whole = self.money.share(plot)
        kept = self.money.kept_grams(plot.crop, self.season)
        return {
            "target_g": target.grams * part / whole,
            "short_of_target_g": max(target.grams - kept, 0.0) * part / whole,
        }

    def _assumed(self, plot: Plot, record: dict[str, Any]) -> list[Assumption]:
        name, state = self.names[plot.crop], self.state
        out = []
        if plot.standing:
            evs = tuple(state.event_id(p.ev) for p in plot.plantings)
            text = f"No planting of {name} was written down for season {self.season}; what was planted before is taken to stand and bear."
            out.append(Assumption(f"standing:{name}", text, evs))
        elif not plot.plantings and plot.plants is not None:
            text = f"No planting of {name} was written down; its plants are the most that one picking names."
            out.append(Assumption(f"plants-of-pickings:{name}", text))
        begins, first = self.past.book_begins, self.field.calendar.first_day(self.season - 1)
        if record["last_season_g"] is not None and begins is not None and begins > first:
            text = f"The book begins on {day_text(begins)}: what season {self.season - 1} brought before that day is not in it."
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
            return None if not each else format_whole(round(grams / each), "count")
        return format_whole(round(grams * 1000), "mass", measures=self.measures)

    def _in_words(self, plot: Plot, r: dict[str, Any]) -> dict[str, str | None]:
        last = r["last_season_g"] if self.past.is_over else r["last_season_to_date_g"]
        picked = self.say(r["picked_g"], plot.crop)
        if picked is None:  # no weight known: in its own measure
            strand, whole = (self.field.picked[name][plot.rows] for name in ("strand", "whole"))
            picked = " and ".join(
                format_whole(
                    int(whole[strand == one].sum()),
                    self.state.facts.measure[one],
                    measures=self.measures,
                )
                for one in np.unique(strand).tolist()
            ) or format_whole(0, self.state.facts.measure[plot.crop], measures=self.measures)
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
            return f"{self.say(per)}/{'m' if metric else 'ft'}"
        if r["per_m2_g"] is not None:
            per = r["per_m2_g"] * (1 if metric else METRES_PER_FOOT**2)
            return f"{self.say(per)}/{'m2' if metric else 'sq ft'}"
        return None

    def _span(self, low: float | None, high: float | None, crop: int | None = None) -> str | None:
        if low is None or high is None:
            return None
        if crop is not None and self.state.facts.measure[crop] == "count":
            one, two = self.say(low, crop), self.say(high, crop)
            return one if one == two else f"{one} to {two}"
        small, large, step = (
            ("g", "kg", 1.0) if self.measures == "metric" else ("oz", "lb", 28.349523125)
        )
        unit, per = (
            (large, 16 * step if large == "lb" else 1000.0) if high > 1000 else (small, step)
        )
        one, two = (f"{x / per:.0f}" if x >= 10 * per else f"{x / per:.2g}" for x in (low, high))
        return f"{one} {unit}" if one == two else f"{one} to {two} {unit}"


def _ratio(above: float | None, below: float | None) -> float | None:
    return above / below if above is not None and below else None


def _known(value: float) -> float | None:
    return None if np.isnan(value) else float(value)


def _elsewhere(plot: Plot, last: Earlier) -> str | None:
    """Return the beds, or else the varieties, of last season's figure where they are others."""
    own, its = {plot.bed}, {p.bed for p in last.plots}
    if own == its:
        own, its = {plot.variety}, {p.variety for p in last.plots}
    return None if own == its else ", ".join(sorted(name or "not said" for name in its))
