"""What a plot cost and was worth, the hours it took, where it went, and what was wanted of it."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.projections._common import goes
from ledger.projections._season_plots import Plot
from ledger.projections._stock_targets import target_of
from ledger.projections._uneaten import composted, fed, uneaten
from ledger.replay import COMPONENTS
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.projections._season_field import Field
    from ledger.replay import State

__all__ = ["FATES", "FATE_OF", "Money", "Target"]

FATES = ("eaten fresh", "put up", "given", "lost", "sown", "on hand")
FATE_OF = {
    "eaten": "eaten fresh", "used": "put up", "fuel": "put up", "lids": "put up",
    "given": "given", "discarded": "lost", "lost": "lost", "seed": "sown",
}  # fmt: skip
"""What became of a draw, in the words of this answer."""

_GARDEN = COMPONENTS.index("garden")


@dataclass(frozen=True)
class Target:
    """What the household wants of a crop in a season: a target's event, its amount, and how often.

    `grams` is None where the amount has no known weight, or nobody said for how many people.
    """

    ev: int
    whole: int
    times: float | None
    grams: float | None


class Money:
    """Figures of plots that come from the reckoning.

    Parameters
    ----------
    field : Field
    """

    def __init__(self, field: Field) -> None:
        self.field, self.state = field, field.state

    def lots(self, plot: Plot) -> Array:
        """Return the lots that a plot's pickings came in as."""
        lots = self.field.picked["lot"][plot.rows]
        return np.asarray(lots[lots >= 0])

    def inputs(self, plot: Plot) -> float:
        """Return what the plot took of its crop's garden inputs (rule 8)."""
        return float(self.state.costs.lot[self.lots(plot), _GARDEN].sum())

    def shop_value(self, plot: Plot) -> tuple[float | None, int]:
        """Return the worth at the shop's price of each day, and the mark of what it rests on."""
        rows = plot.rows
        price, ev, later = (column[rows] for column in self.field.prices)
        mark = 0
        for at in np.flatnonzero(later)[:1]:
            mark = self.state.costs.price_seen_later(plot.crop, int(ev[at]))
        if rows.size and not (ev >= 0).any():
            return None, mark
        priced = ev >= 0  # of strands that have a price
        return float((price * self.field.picked["kept"][rows])[priced].sum()), mark

    def too_long(self, plot: Plot) -> list[tuple[int, float]]:
        """Return (row, money) of its pickings that were never eaten until their keeping was over."""
        late = self.state.once(uneaten)
        return self._off(plot, dict(zip(late.lot.tolist(), late.share.tolist(), strict=True)), {})

    def glut(self, plot: Plot) -> list[tuple[int, float]]:
        """Return (row, money) of what was fed to animals or composted, less the feed that it spared."""
        spared = self.state.once(fed)
        value = np.bincount(spared.lot, spared.value, self.state.left.size)
        share = np.bincount(spared.lot, spared.share, self.state.left.size)
        rotted = self.state.once(composted)
        gone = {lot: float(share[lot] + rotted[lot]) for lot in self.lots(plot).tolist()}
        return self._off(plot, gone, {lot: float(value[lot]) for lot in gone})

    def _off(
        self, plot: Plot, share: dict[int, float], worth: dict[int, float]
    ) -> list[tuple[int, float]]:
        """Return what a share of each picking is worth at the shop, less what else it was worth."""
        price, ev, _ = self.field.prices
        out = []
        for row in plot.rows.tolist():
            lot = int(self.field.picked["lot"][row])
            part = share.get(lot, 0.0)
            if part > 0 and ev[row] >= 0:
                money = float(price[row] * self.field.picked["kept"][row]) * part
                out.append((row, max(money - worth.get(lot, 0.0), 0.0)))
        return out

    def hours(self, plot: Plot) -> float | None:
        """Return the hours written down with its plantings and pickings; None where none were."""
        minutes = self.field.picked["minutes"][plot.rows]
        planted = [] if plot.standing else [self.field.minutes[p.ev] for p in plot.plantings]
        every = np.concatenate([minutes, np.array(planted, float)])
        return None if np.isnan(every).all() else float(np.nansum(every)) / 60

    def where_it_went(self, plot: Plot) -> dict[str, float | None]:
        """Return grams by fate; together what was picked less what was trimmed."""
        lots = self.lots(plot)
        each = self.state.facts.grams[self.state.lots["item"][lots]] if lots.size else np.zeros(0)
        known = ~np.isnan(each)
        if not known.any() and self.field.grams(plot.rows, "kept", plot.crop) is None:
            return dict.fromkeys(FATES)
        grams = self.state.once(_fates)[lots[known]] * each[known, None]
        return dict(zip(FATES, grams.sum(axis=0).tolist(), strict=True))

    def share(self, plot: Plot) -> tuple[int, int]:
        """Return the plot's part of its crop in the season, as two whole numbers.

        By amount after trimming; before anything was picked, evenly.
        """
        same = [p for p in self.field.of(plot.season) if p.crop == plot.crop]
        kept, strand = self.field.picked["kept"], self.field.picked["strand"]
        every = np.concatenate([strand[p.rows] for p in same])
        if np.unique(every).size > 1:  # by weight then, of what has one
            each = np.nan_to_num(self.field.picked["grams"]) * 1000
            kept = np.round(kept * each).astype(np.int64)
        total = sum(int(kept[p.rows].sum()) for p in same)
        return (int(kept[plot.rows].sum()), total) if total else (1, len(same))

    def kept_grams(self, crop: int, season: int) -> float:
        """Return what a crop brought in a season, after trimming; 0 where it has no weight."""
        every = [p.rows for p in self.field.of(season) if p.crop == crop]
        rows = np.concatenate(every) if every else np.zeros(0, np.int64)
        return self.field.grams(rows, "kept", crop) or 0.0

    def target(self, crop: int, season: int) -> Target | None:
        """Return the target for a crop that holds in a season: the newest set by its last day."""
        calendar, facts = self.field.calendar, self.state.facts
        last = calendar.last_day(season)
        newest = None
        for ev, body in self._targets.get(crop, []):
            by = body.get("by")
            in_season = by is None or calendar.of(np.array([_day(by)]))[0] == season
            if self.state.moment.on[ev] <= last and (in_season or body.get("per")):
                newest = (ev, body)
        if newest is None:
            return None
        ev, body = newest
        times = self._times(body.get("per"), season)
        strand, whole = target_of(self.state, crop, ev, body)
        per = None if strand is None else facts.grams_per_whole(strand)
        grams = None if per is None or times is None else whole * times * per
        return Target(ev, whole, times, grams)

    def _times(self, per: str | None, season: int) -> float | None:
        calendar = self.field.calendar
        first, last = calendar.first_day(season), calendar.last_day(season)
        if per == "week":
            return (last - first + 1) / 7
        if per == "person year":
            people = self.state.settings.on("people", last)
            return None if people is None else float(people)
        return 1.0

    @cached_property
    def _targets(self) -> dict[int, list[tuple[int, dict[str, Any]]]]:
        out: dict[int, list[tuple[int, dict[str, Any]]]] = {}
        for ev, body in self.state.bodies("target_set"):
            crop = self.state.facts.find(body.get("item"))
            if crop is not None and body.get("whole") is not None:
                out.setdefault(crop, []).append((ev, body))
        return out

    def carried_forward(self) -> dict[str, float]:
        """Return, by crop, the money whose next harvest is still to come (rule 8)."""
        out: dict[str, float] = {}
        for part in self.state.costs.garden.parts:
            if part.season is None and part.money and not math.isnan(part.money):
                name = self.state.facts.names[part.crop] if part.crop >= 0 else "no crop"
                out[name] = out.get(name, 0.0) + part.money
        return out


def _day(text: object) -> int:
    return (dt.date.fromisoformat(str(text)) - dt.date(1970, 1, 1)).days


def _fates(state: State) -> Array:
    """Return whole units of each lot by fate, shape (lots, fates)."""
    out = np.zeros((state.lots["ev"].size, len(FATES)), np.int64)
    draw, lot, amount = state.allocations
    words = state.once(goes)
    code = np.zeros(words.size, np.int64)
    for word, fate in FATE_OF.items():
        code[words == word] = FATES.index(fate)
    np.add.at(out, (lot, code[draw]), amount)
    out[:, FATES.index("on hand")] = state.left
    return out
