"""The garden at one moment: every planting and picking, gathered into plots by season."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import InputError
from ledger.messages import Code, Message, Names, Typed
from ledger.questions.garden.plots import Pair, Planting, Plot, fit, measured, settle
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Field", "crops_of", "field_of"]


class Field:
    """Everything that the garden saw at one moment of a book.

    Parameters
    ----------
    state : State
    whole_crops : bool
        One plot a crop, varieties and beds together.

    Attributes
    ----------
    picked : dict of ndarray, shape (harvest lines,)
        ``ev, lot (-1: none), item, whole (as picked), trimmed, kept, day, season, grams (of one
        whole unit; NaN), minutes (NaN: none written), share (of its event)``.
    """

    def __init__(self, state: State, *, whole_crops: bool = False) -> None:
        self.state = state
        self.calendar = state.costs.garden.season
        self._texts = state.journal.garden.texts
        self.whole_crops = whole_crops
        first: dict[str, int] = {}
        self._same = [
            first.setdefault(" ".join(t.casefold().split()), i) for i, t in enumerate(self._texts)
        ]
        self.picked = self._pick_lines()
        self._plantings = self._planted()
        self._of: dict[int, list[Plot]] = {}

    # -- what was picked and planted ----------------------------------------------------

    def _canon(self, codes: Array) -> Array:
        return np.array([*self._same, -1], np.int64)[codes]

    def _pick_lines(self) -> dict[str, Array]:
        state, facts = self.state, self.state.facts
        tables = state.journal.tables
        table, more = tables["supplies"], tables["picked"]
        at = np.flatnonzero(np.isin(more["row"], state.moment.of(table["ev"])))
        at = at[np.argsort(state.moment.rank[table["ev"][more["row"][at]]], kind="stable")]
        row = more["row"][at]
        ev = table["ev"][row].astype(np.int64)
        strand, whole = facts.lines(table, row)
        item = facts.item_of[strand]
        trimmed = facts.trimmed(row, whole)
        lot_of = np.full(len(table), -1, np.int64)
        lot_rows = state.lots["row"]
        lot_of[lot_rows[lot_rows >= 0]] = np.flatnonzero(lot_rows >= 0)
        grams = np.full(len(facts), np.nan)
        for number in np.unique(strand).tolist():
            known = facts.grams_per_whole(number)
            grams[number] = np.nan if known is None else known
        day = state.moment.on[ev]
        minutes, share = self._work(ev, grams[strand] * whole)
        return {
            "ev": ev, "lot": lot_of[row], "item": item, "strand": strand, "whole": whole, "trimmed": trimmed,
            "kept": whole - trimmed, "day": day, "grams": grams[strand], "minutes": minutes,
            "share": share, "plants": more["plants"][at],
            "season": self.calendar.of(day) if day.size else np.zeros(0, np.int64),
            "variety": self._canon(more["variety"][at]), "bed": self._canon(more["bed"][at]),
        }  # fmt: skip

    def grams(self, rows: Array, column: str, crop: int) -> float | None:
        """Return the weight of pickings of a crop, of those that have one; None where none has.

        Parameters
        ----------
        column : {'whole', 'trimmed', 'kept'}
        """
        each, wholes = self.picked["grams"][rows], self.picked[column][rows]
        known = ~np.isnan(each)
        if not known.any():
            own = self.state.facts.grams_per_whole(crop)
            return None if rows.size or own is None else 0.0
        if (each[known] == each[known][0]).all():
            return int(wholes[known].sum()) * float(each[known][0])
        return float((wholes * each)[known].sum())

    @cached_property
    def minutes(self) -> Array:
        """Minutes of work of each event, shape (events,); NaN where none were written down."""
        table, count = self.state.journal.tables["work"], len(self.state.journal)
        minutes = np.bincount(table["ev"], table["minutes"], count)
        written = np.bincount(table["ev"], minlength=count) > 0
        return np.where(written, minutes, np.nan)

    @cached_property
    def prices(self) -> tuple[Array, Array, Array]:
        """Shop price, its event and whether it was seen later, of every picking."""
        return self.state.costs.prices.of(self.picked["strand"], self.picked["day"])

    def _work(self, ev: Array, grams: Array) -> tuple[Array, Array]:
        """Share each event's minutes over its lines by weight; evenly where one has none."""
        count = len(self.state.journal)
        if not ev.size:
            return np.zeros(0), np.zeros(0)
        lines = np.bincount(ev, minlength=count)
        total = np.bincount(ev, grams, count)  # NaN where one weight is not known
        even = np.isnan(total) | (total <= 0)
        share = np.where(even[ev], 1 / lines[ev], grams / np.where(even, 1.0, total)[ev])
        return self.minutes[ev] * share, share

    def _planted(self) -> list[Planting]:
        table, state = self.state.journal.tables["planted"], self.state
        rows = state.moment.of(table["ev"])
        rows = rows[np.argsort(state.moment.rank[table["ev"][rows]])]
        ev = table["ev"][rows]
        columns = (
            ev, state.facts.canon[table["crop"][rows]], self._canon(table["variety"][rows]),
            self._canon(table["bed"][rows]), state.moment.on[ev],
            table["plants"][rows], table["area"][rows], table["length"][rows],
        )  # fmt: skip
        return [
            Planting(
                at, crop, (variety, bed), day, plants if plants >= 0 else None,
                self._size(area, "area"), self._size(length, "length"),
            )
            for at, crop, variety, bed, day, plants, area, length in zip(
                *(column.tolist() for column in columns), strict=True
            )
        ]  # fmt: skip

    def _size(self, code: int, wanted: str) -> float | None:
        return None if code < 0 else measured(self._texts[code], wanted)

    # -- plots --------------------------------------------------------------------------

    def seasons(self) -> list[int]:
        """Return the seasons in which something was planted or picked, rising."""
        return self._seasons

    @cached_property
    def _seasons(self) -> list[int]:
        return sorted({*np.unique(self.picked["season"]).tolist(), *self._planted_in})

    def of(self, season: int) -> list[Plot]:
        """Return the plots of a season, by crop, variety and bed."""
        if season not in self._of:
            self._of[season] = self._plots(season)
        return self._of[season]

    def _plots(self, season: int) -> list[Plot]:
        by_crop: dict[int, dict[Pair, list[Array]]] = {}
        for crop, pair, rows in self._groups.get(season, []):
            by_crop.setdefault(crop, {}).setdefault(pair, []).append(rows)
        planted: dict[int, list[Planting]] = {}
        for one in self._planted_in.get(season, []):
            planted.setdefault(one.crop, []).append(one)
        out = []
        for crop in {*by_crop, *planted}:
            out += self._plots_of(season, crop, by_crop.get(crop, {}), planted.get(crop, []))
        names = self.state.facts.names
        return sorted(out, key=lambda p: (names[p.crop], p.variety or "", p.bed or ""))

    def _plots_of(
        self, season: int, crop: int, picked: dict[Pair, list[Array]], planted: list[Planting]
    ) -> list[Plot]:
        standing = [] if planted else self._standing(season, crop)
        goal = settle({*picked, *(p.pair for p in planted)})
        if self.whole_crops:
            goal = dict.fromkeys(goal, (-1, -1))
        plots: dict[Pair, Plot] = {}
        for pair in dict.fromkeys(goal.values()):
            rows = [r for own, several in picked.items() if goal[own] == pair for r in several]
            at = np.sort(np.concatenate(rows)) if rows else np.zeros(0, np.int64)
            plots[pair] = Plot(
                season, crop, self._text(pair[0]), self._text(pair[1]), at,
                [p for p in planted if goal[p.pair] == pair],
                plants_picked=self._most_plants(at),
            )  # fmt: skip
        for one in standing:
            fits = [pair for pair in plots if self.whole_crops or fit(pair, one.pair)]
            if len(fits) == 1:
                plots[fits[0]].plantings.append(one)
                plots[fits[0]].standing = True
        return list(plots.values())

    def _text(self, code: int) -> str | None:
        return None if code < 0 else self._texts[code]

    def _most_plants(self, rows: Array) -> int | None:
        most = int(self.picked["plants"][rows].max()) if rows.size else -1
        return most if most >= 0 else None

    @cached_property
    def _groups(self) -> dict[int, list[tuple[int, Pair, Array]]]:
        """Rows of the pickings by season: (crop, pair, rows)."""
        p, texts = self.picked, len(self._texts) + 1
        key = p["season"] * (len(self.state.facts) + 1) + p["item"]
        key = (key * texts + p["variety"] + 1) * texts + p["bed"] + 1
        order = np.argsort(key, kind="stable")
        starts = np.flatnonzero(np.r_[True, np.diff(key[order]) != 0])[: key.size]
        out: dict[int, list[tuple[int, Pair, Array]]] = {}
        for rows in np.split(order, starts[1:]) if key.size else []:
            at = int(rows[0])
            pair = (int(p["variety"][at]), int(p["bed"][at]))
            out.setdefault(int(p["season"][at]), []).append((int(p["item"][at]), pair, rows))
        return out

    @cached_property
    def _last_pick(self) -> dict[int, dict[int, int]]:
        """Last day of picking of each crop in each season."""
        out: dict[int, dict[int, int]] = {}
        for season, groups in self._groups.items():
            for crop, _, rows in groups:
                days = out.setdefault(crop, {})
                last = int(self.picked["day"][rows].max())
                days[season] = max(days.get(season, last), last)
        return out

    @cached_property
    def _planted_in(self) -> dict[int, list[Planting]]:
        """Plantings by the season that they are of: the next one where they wait for it."""
        by_crop: dict[int, list[tuple[int, Planting]]] = {}
        days = np.array([one.day for one in self._plantings], np.int64)
        for one, season in zip(self._plantings, self.calendar.of(days).tolist(), strict=True):
            by_crop.setdefault(one.crop, []).append((season, one))
        out: dict[int, list[Planting]] = {}
        for crop, several in by_crop.items():
            for season, one in several:
                out.setdefault(self._season_of(crop, season, one.day, several), []).append(one)
        return out

    def _season_of(
        self, crop: int, season: int, day: int, several: list[tuple[int, Planting]]
    ) -> int:
        """Return the season of a planting: garlic of October is of the next one's picking.

        It waits for the next season where it came after this one's last picking, and stays where
        the crop was planted anew before it was picked.
        """
        picked = self._last_pick.get(crop, {})
        if picked.get(season, day - 1) >= day:
            return season
        later = min((s for s in picked if s > season), default=None)
        if later is None:
            return season + 1 if season in picked else season
        anew = any(s > season and day < p.day <= picked[later] for s, p in several)
        return season if anew or later > season + 1 else later

    def _standing(self, season: int, crop: int) -> list[Planting]:
        """Return earlier plantings that may still bear: of a crop planted in one season only."""
        own = [(s, p) for s, several in self._planted_in.items() for p in several if p.crop == crop]
        if len({s for s, _ in own}) != 1 or own[0][0] > season:
            return []
        return [p for _, p in own]

    # -- names --------------------------------------------------------------------------

    def crop_called(self, name: str | None) -> int | None:
        """Return the number of the crop of a name; None of none.

        Raises
        ------
        InputError
            When no crop of the book is called so.
        """
        if name is None:
            return None
        known = {*np.unique(self.picked["item"]).tolist(), *(p.crop for p in self._plantings)}
        number = self.state.facts.find(name)
        if number not in known:
            raise _unknown("crop", name, [self.state.facts.names[n] for n in known])
        return number

    def bed_called(self, bed: str | None) -> str | None:
        """Return a bed as the book writes it; None of none.

        Raises
        ------
        InputError
            When no bed of the book is called so.
        """
        if bed is None:
            return None
        codes = {*self.picked["bed"].tolist(), *(p.pair[1] for p in self._plantings)} - {-1}
        wanted = " ".join(bed.casefold().split())
        beds: dict[str, str] = {
            " ".join(self._texts[c].casefold().split()): self._texts[c] for c in codes
        }
        if wanted not in beds:
            raise _unknown("bed", bed, list(beds.values()))
        return beds[wanted]


def _unknown(what: str, name: str, known: list[str]) -> InputError:
    from ledger.items import near_misses

    near = near_misses(name, known)
    hint = (
        Message.of("refusal-did-you-mean", name=Typed(near[0]))
        if near
        else Message.of("refusal-known", names=Names(tuple(sorted(known))) if known else None)
    )
    return InputError(
        what, Message.of("refusal-none-called", what=Code(what), text=Typed(name)), hint
    )


def field_of(state: State) -> Field:
    """Return the plots of every crop and bed."""
    return state.once(Field)


def crops_of(state: State) -> Field:
    """Return the plots of every crop, whatever its beds and varieties."""
    return state.once(_of_whole_crops)


def _of_whole_crops(state: State) -> Field:
    return Field(state, whole_crops=True)
