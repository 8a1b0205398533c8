"""Each crop of the plan with its days: indoors, out, again, last; and its seed."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ledger.messages import Choice, joined, sentence
from ledger.messages.units import amount
from ledger.questions.shared.seeds import Seed, seeds_of
from ledger.questions.shared.sowing import sowing
from ledger.questions.shared.usual_plan import usual_plan
from ledger.reference.sowing import Crop, crop

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Bare", "Dates", "Sown", "crops_of", "sown_of"]

_PICKED = 21.0
_AGAIN = {
    "bean snap",
    "bean pole",
    "pea",
    "cucumber",
    "squash summer",
    "tomato",
    "pepper",
    "okra",
    "eggplant",
}
"""Crops picked again and again: three weeks of picking, common practice, no source."""
_MOST = 60


@dataclass(frozen=True)
class Dates:
    """Days of one crop in one year, as offsets from 1 January (0 is that day); None is not known."""

    year: int
    spring: float | None
    fall: float | None
    indoors_from: float | None = None
    indoors_to: float | None = None
    out_from: float | None = None
    last: float | None = None
    again: tuple[float, ...] = ()

    def iso(self, day: float | None) -> str | None:
        """Return a day of the year (1 is 1 January) as an ISO date."""
        if day is None:
            return None
        return (dt.date(self.year, 1, 1) + dt.timedelta(days=round(day) - 1)).isoformat()


@dataclass(frozen=True)
class Bare:
    """A crop with its row of the table and its seed."""

    item: int
    name: str
    row: Crop | None
    seed: Seed | None
    plants: float | None
    picking: float

    @property
    def how(self) -> str | None:
        """Whether it is sown or set out."""
        if self.row is None:
            return None
        return "set out" if self.row.indoors_weeks and self.row.counted_from == "set out" else "sow"

    @property
    def out_weeks(self) -> tuple[float, float | None] | None:
        """Weeks from the last frost from which it may stand outdoors: by crop, else by hardiness."""
        if self.row is None:
            return None
        return self.row.outdoors_weeks or self.row.by_hardiness

    @property
    def weeks_text(self) -> str | None:
        """The weeks in words; None where the table says none."""
        out = self.out_weeks
        if self.row is None or (out is None and self.row.days is None):
            return None
        if out is None:
            low, high = self.row.days or (0.0, 0.0)
            return sentence("sowing-days-before-harvest", n=low, n2=high)
        indoors = self.row.indoors_weeks
        how = Choice("set-out" if self.how == "set out" else "sow")
        said = sentence("sowing-out-from", how=how, when=_weeks(out[0]))
        if not indoors:
            return said
        return sentence("sowing-indoors-then", n=indoors[1], n2=indoors[0], out=said)


@dataclass(frozen=True)
class Sown(Bare):
    """A crop with its days in a year, and every figure of it by the name of its column."""

    dates: Dates
    year: int
    cells: dict[str, float | None]

    @property
    def days(self) -> float | None:
        """Days to the harvest: the packet's, else the middle of the table's."""
        return self.cells["days_to_harvest"]

    @property
    def raised(self) -> float:
        """Days from seed to setting out, where the days are counted from there."""
        return self.cells["raised_days"] or 0.0

    @property
    def days_from(self) -> str | None:
        """Who says the days."""
        if self.days is None:
            return None
        return "packet" if self.seed is not None and self.seed.days is not None else "table"

    @property
    def note(self) -> str | None:
        """Whether its seed meets the standard, and whether it is older than it keeps."""
        out: list[str] = []
        rate, standard = self.cells["germination"], self.cells["standard"]
        if rate is not None and standard is not None:
            out.append(sentence("sowing-seed-meets" if rate >= standard else "sowing-seed-below"))
        if self.seed and self.seed.year and self.row and self.row.seed_years:
            age, (low, high) = self.year - self.seed.year[0], self.row.seed_years
            if age > low:
                span = f"{low:g}" if low == high else f"{low:g} to {high:g}"
                out.append(sentence("sowing-seed-old", n=age, span=amount(span)))
        return joined("; ", out) if out else None


def _weeks(weeks: float) -> str:
    if weeks == 0:
        return sentence("sowing-frost-on")
    side = Choice("before" if weeks < 0 else "after")
    return sentence("sowing-frost-weeks", n=abs(weeks), side=side)


def sown_of(state: State, risk: float, year: int) -> list[Sown]:
    """Return the crops that were planted or are planned, with their days in a year."""
    crops = state.once(crops_of)
    figures = sowing(state, crops, risk)
    columns = {name: figure.cells() for name, figure in figures.items()}
    each = [{name: column[row] for name, column in columns.items()} for row in range(len(crops))]
    return [
        Sown(**vars(one), dates=_dates(one, cells, year), year=year, cells=cells)
        for one, cells in zip(crops, each, strict=True)
    ]


def crops_of(state: State) -> list[Bare]:
    """Return the crops that were planted or are planned."""
    plants = {c.item: c for c in usual_plan(state).crops}
    planted = (state.facts.find(state.body(int(ev))["crop"]) for ev in state.events("planted"))
    out = []
    for item in sorted({*plants, *(item for item in planted if item is not None)}):
        name, planned = state.facts.names[item], plants.get(item)
        stands = planned is not None and planned.growth.standing is not None
        row = crop(name)
        if row is None and (stands or planned is None or planned.growth.size is None):
            continue  # trees and the like are not sown
        number = None
        if planned is not None and planned.growth.size == "plants" and planned.planned:
            number = planned.planned
        picking = _PICKED if row is not None and row.name in _AGAIN else 0.0
        out.append(Bare(item, name, row, seeds_of(state).get(item), number, picking))
    return out


def _dates(one: Bare, cells: dict[str, float | None], year: int) -> Dates:
    at, end, before = (
        cells[name] for name in ("spring_frost_day", "fall_frost_day", "last_sowing_days")
    )
    indoors_from = indoors_to = out_from = last = None
    row, weeks = one.row, one.out_weeks
    if row is not None and at is not None:
        if row.indoors_weeks:
            indoors_from, indoors_to = at - 7 * row.indoors_weeks[1], at - 7 * row.indoors_weeks[0]
        if weeks is not None:
            out_from = at + 7 * weeks[0]
    if before is not None and end is not None and weeks is not None:
        last = end - before
    again: list[float] = []
    if row is not None and row.again_days and out_from is not None and last is not None:
        day = out_from + row.again_days
        while day <= last and len(again) < _MOST:
            again.append(day)
            day += row.again_days
    return Dates(year, at, end, indoors_from, indoors_to, out_from, last, tuple(again))
