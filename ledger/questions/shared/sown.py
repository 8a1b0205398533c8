"""Each crop of the plan with its days: indoors, out, again, last; and its seed."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ledger.messages import Choice, joined, sentence
from ledger.messages.units import amount
from ledger.methods.frost import last_sowing_days, seeds_wanted
from ledger.questions.shared.frosts import frosts_of
from ledger.questions.shared.seeds import Seed, seeds_of
from ledger.questions.shared.usual_plan import usual_plan
from ledger.reference.sowing import Crop, crop

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Dates", "Sown", "sown_of"]

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
class Sown:
    """A crop with its row of the table, its days and its seed."""

    item: int
    name: str
    row: Crop | None
    seed: Seed | None
    plants: float | None
    picking: float
    dates: Dates
    year: int

    @property
    def how(self) -> str | None:
        """Whether it is sown or set out."""
        if self.row is None:
            return None
        return "set out" if self.row.indoors_weeks and self.row.counted_from == "set out" else "sow"

    @property
    def days(self) -> float | None:
        """Days to the harvest: the packet's, else the middle of the table's."""
        if self.seed is not None and self.seed.days is not None:
            return float(self.seed.days[0])
        if self.row is None or self.row.days is None:
            return None
        return sum(self.row.days) / 2

    @property
    def days_from(self) -> str | None:
        """Who says the days."""
        if self.days is None:
            return None
        return "packet" if self.seed is not None and self.seed.days is not None else "table"

    @property
    def raised(self) -> float:
        """Days from seed to setting out, where the days are counted from there."""
        if self.row is None or self.row.counted_from != "set out" or not self.row.weeks_to_set_out:
            return 0.0
        return sum(self.row.weeks_to_set_out) / 2 * 7

    @property
    def before(self) -> float | None:
        """Days before the first fall frost of the last sowing."""
        if self.row is None or self.days is None:
            return None
        return last_sowing_days(
            self.days, fall=self.row.fall_days, picking=self.picking,
            tender=self.row.tender_days, raised=self.raised,
        )  # fmt: skip

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

    def seed_columns(self) -> dict[str, Any]:
        """Return the columns of its seed."""
        seed, row = self.seed, self.row
        test = seed.test if seed else None
        standard = row.min_germination / 100 if row and row.min_germination else None
        rate = test[0].rate if test else None
        wanted = seeds_wanted(self.plants, rate) if self.plants and rate else None
        left = seed.seeds[0] if seed and seed.seeds else None
        return {
            "seed_year": str(seed.year[0]) if seed and seed.year else None,
            "germination": rate,
            "germination_low": test[0].low if test else None,
            "germination_high": test[0].high if test else None,
            "standard": standard,
            "seed_note": self._note(rate, standard),
            "plants": self.plants,
            "seeds_wanted": wanted,
            "seeds_left": left,
            "to_order": None if wanted is None or left is None else max(wanted - left, 0),
        }

    def _note(self, rate: float | None, standard: float | None) -> str | None:
        out: list[str] = []
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
    plan = usual_plan(state)
    plants = {c.item: c for c in plan.crops}
    items = set(plants)
    for ev in state.events("planted"):
        item = state.facts.find(state.body(int(ev))["crop"])
        if item is not None:
            items.add(item)
    out = []
    for item in sorted(items):
        name = state.facts.names[item]
        planned = plants.get(item)
        stands = planned is not None and planned.growth.standing is not None
        row = crop(name)
        if row is None and (stands or planned is None or planned.growth.size is None):
            continue  # trees and the like are not sown
        number = None
        if planned is not None and planned.growth.size == "plants" and planned.planned:
            number = planned.planned
        picking = _PICKED if row is not None and row.name in _AGAIN else 0.0
        bare = Sown(
            item,
            name,
            row,
            seeds_of(state).get(item),
            number,
            picking,
            Dates(year, None, None),
            year,
        )
        out.append(Sown(**{**vars(bare), "dates": _dates(state, bare, risk, year)}))
    return out


def _dates(state: State, one: Sown, risk: float, year: int) -> Dates:
    frosts = frosts_of(state)
    spring, fall = frosts.at(risk, spring=True), frosts.at(risk, spring=False)
    at, before = (spring.day if spring else None), (fall.day if fall else None)
    indoors_from = indoors_to = out_from = last = None
    row, weeks = one.row, one.out_weeks
    if row is not None and at is not None:
        if row.indoors_weeks:
            indoors_from, indoors_to = at - 7 * row.indoors_weeks[1], at - 7 * row.indoors_weeks[0]
        if weeks is not None:
            out_from = at + 7 * weeks[0]
    if one.before is not None and before is not None and weeks is not None:
        last = before - one.before
    again: list[float] = []
    if row is not None and row.again_days and out_from is not None and last is not None:
        day = out_from + row.again_days
        while day <= last and len(again) < _MOST:
            again.append(day)
            day += row.again_days
    return Dates(year, at, before, indoors_from, indoors_to, out_from, last, tuple(again))
