"""Pay-back of what lasts: jars, canner, freezer, coop; so far, and when at this rate."""

from __future__ import annotations

import calendar
import datetime as dt
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.messages import Typed, measured, sentence
from ledger.methods.money import capital_recovery, payback
from ledger.methods.ratios import ratio
from ledger.methods.wear import straight_line
from ledger.projections.base import Answer, Column
from ledger.questions.shared.common import answer
from ledger.questions.worth_it.earned import Earned, Use
from ledger.replay import COMPONENTS, day_number, day_text
from ledger.replay.durables import DEFAULT_YEARS
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.figures import Array
    from ledger.replay import State

__all__ = ["COLUMNS", "WEAR", "Durable", "build", "durables_of"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("item", "Item", "", "Jars, equipment, and garden inputs with `years`, that were bought.", main=True),
    Column("sort", "Sort", "", "jar, equipment or garden input."),
    Column("first_on", "Since", "day", "When the first was bought."),
    Column("pieces", "Pieces", "pieces", "How many were bought so far; null for what is not kept by count."),
    Column("paid", "Paid", "money", "What was paid for all of them so far.", main=True),
    Column("life_years", "Life", "years", "Years that it lasts, as the household says; ten for jars and equipment when nobody says."),
    Column("lasts_until", "Lasts until", "day", "First bought and that life."),
    Column("uses", "Uses", "times", "Loads, jars filled, or seasons' harvests that bore a part of it."),
    Column("charged", "Charged", "money", "Wear that batches and harvests have borne so far."),
    Column("worn_by_age", "Worn by age", "money", "What it has lost if it loses the same every year (straight line, the month of buying counted in full)."),
    Column("earned", "Earned", "money", "What the batches and harvests that it served were worth at shop prices, less what they cost without own time and without wear; shared with whatever else that lasts served with it, by wear. Null where nobody wrote down what it served.", main=True),
    Column("earned_per_year", "A year", "money per year", "The rate: mean of the whole years since it was bought; within the first year what it has earned so far."),
    Column("yearly_cost", "Cost a year", "money per year", "What it costs a year over its life, its price and the interest on it together (capital recovery, nothing left at its end); at the `interest_rate` set for the day of the answer, without one price / life.", main=True),
    Column("gain_per_year", "Gain a year", "money per year", "Earned a year less cost a year; null where nobody wrote down what it served."),
    Column("share_back", "Share back", "share", "Earned / paid: 1 is paid back."),
    Column("back_text", "Back", "", "The same in words, no further than: paid off.", main=True),
    Column("payback_years", "Pay-back", "years", "Years from buying to pay-back, so far or at this rate; null where never at this rate.", main=True),
    Column("paid_back_on", "Paid back", "day", "The day on which it had earned its price; null where it has not.", main=True),
    Column("expected_on", "At this rate", "day", "When it will have; null where it has, or never at this rate.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_LASTING = [SORTS.index("jar"), SORTS.index("equipment")]
_GARDEN = SORTS.index("garden input")
WEAR = (COMPONENTS.index("jar_wear"), COMPONENTS.index("equipment"))
"""The components that wear of what lasts is charged as."""
_FAR = day_number("9998-12-31")


@dataclass(frozen=True)
class Durable:
    """A thing that lasts, with what was paid, what it wore and what it earned."""

    item: int
    first: int
    pieces: float
    paid: float
    years: float
    said: bool
    uses: list[Use]
    charged: float
    today: int
    interest: float = 0.0

    @property
    def yearly_cost(self) -> float:
        """Return what it costs a year over its life, with interest, nothing being left at its end."""
        return capital_recovery(self.paid, 0.0, max(self.years, 1 / 12), self.interest)

    @property
    def earned(self) -> float | None:
        """Return what it earned so far; None where nobody wrote down what it served."""
        return sum(use.earned for use in self.uses) if self.uses else None

    def years_to(self, day: int) -> tuple[int, float]:
        """Return the whole years from buying to the end of a day, and all years with their part."""
        end = day + 1
        years = _date(end).year - _date(self.first).year
        if _anniversary(self.first, years) > end:
            years -= 1
        start, then = (_anniversary(self.first, years + n) for n in (0, 1))
        return years, years + (end - start) / (then - start)

    def flows(self) -> list[float]:
        """Return what it earned in each year since it was bought, the running one last."""
        whole, _ = self.years_to(self.today)
        earned = [use.earned for use in self.uses]
        out = (
            np.bincount(self.years_of_uses(), earned, whole + 1) if earned else np.zeros(whole + 1)
        )
        return [float(flow) for flow in out]

    def years_of_uses(self) -> Array:
        """Return the year since it was bought, 0 the first, in which each use fell; shape (uses,)."""
        starts = [_anniversary(self.first, n) for n in range(self.years_to(self.today)[0] + 1)]
        at = np.searchsorted(starts, [use.day for use in self.uses], side="right") - 1
        return np.maximum(at, 0)

    def rate(self) -> float | None:
        """Return what it earns a year."""
        if not self.uses:
            return None
        flows, whole = self.flows(), self.years_to(self.today)[0]
        return sum(flows[:whole]) / whole if whole else flows[0]

    def paid_back_on(self) -> int | None:
        """Return the day on which it had earned its price."""
        total = 0.0
        for use in sorted(self.uses, key=lambda use: use.day):
            total += use.earned
            if total >= self.paid * (1 - 1e-12):
                return use.day
        return None

    def payback_years(self) -> float | None:
        """Return the years from buying to pay-back, so far or at this rate."""
        earned = self.earned
        if earned is None:
            return None
        back = self.paid_back_on()
        if back is not None:
            return self.years_to(back)[1]
        more = payback(self.paid - earned, [], then=self.rate())
        return None if more is None else self.years_to(self.today)[1] + more

    def expected_on(self) -> int | None:
        """Return the day by which it will have earned its price at this rate."""
        earned = self.earned
        if earned is None or self.paid_back_on() is not None:
            return None
        more = payback(self.paid - earned, [], then=self.rate())
        day = None if more is None else self.today + round(more * 365.25)
        return None if day is None or day > _FAR else day

    def lasts_until(self) -> int:
        """Return the day on which its life ends, by the calendar."""
        whole = int(min(self.years, 9998 - _date(self.first).year - 1))
        rest = min(self.years - whole, 1.0)
        return _anniversary(self.first, whole) + round(rest * 365.25)

    def worn_by_age(self) -> float:
        """Return what it has lost by age, in a straight line over whole years."""
        years = max(1, round(self.years))
        bought, now = _date(self.first), _date(self.today)
        months = 13 - bought.month
        wear = straight_line(self.paid, 0.0, years, months_in_first=months)
        past = now.year - bought.year
        if past >= len(wear):
            return sum(wear)
        if past == 0:
            return wear[0] * (now.month - bought.month + 1) / months
        owned = 12 if past < years else 12 - months
        return sum(wear[:past]) + wear[past] * min(1.0, now.month / owned)


def _date(day: int) -> dt.date:
    return dt.date.fromisoformat(day_text(day))


def _anniversary(day: int, years: int) -> int:
    date = _date(day)
    last = calendar.monthrange(date.year + years, date.month)[1]
    return day_number(date.replace(year=date.year + years, day=min(date.day, last)))


def interest_rate(text: str | None) -> float | None:
    """Return the interest of a year as a share: ``4``, ``4 %`` and ``4 % a year`` are 0.04."""
    match = re.match(r"\s*(\d+(?:\.\d+)?)", text or "")
    return float(match[1]) / 100 if match else None


def durables_of(state: State) -> list[Durable]:
    """Return the things that last, those with most paid for first."""
    facts, durables = state.facts, state.costs.durables
    earned = Earned(state)
    today = state.as_of_day
    interest = interest_rate(state.settings.on("interest_rate", today)) or 0.0
    parts: dict[int, float] = {}
    lasting: dict[int, list[tuple[int, float, float]]] = {}
    for part in state.costs.garden.parts:
        item = facts.find(part.source.label)
        if part.source.years and item is not None:
            bore = part.money if part.season is not None else 0.0
            parts[item] = parts.get(item, 0.0) + bore
            lasting.setdefault(item, []).append((part.source.day, part.money, part.source.years))
    charged = _charged(state)
    out = []
    for item in np.flatnonzero(np.isin(facts.sort, _LASTING)).tolist():
        rows = durables.rows(item, today)
        if rows.stop == rows.start:
            continue
        paid, pieces = durables.bought(item, today)
        years = durables.fact(item, "years", today)
        uses = earned.uses.get(item, [])
        first = int(durables.day[rows].min())
        out.append(
            Durable(item, first, pieces, paid, years or DEFAULT_YEARS, years is not None,
                    uses, charged.get(item, 0.0), today, interest)
        )  # fmt: skip
    for item, several in lasting.items():
        paid = sum(money for _, money, _ in several)
        rows = durables.rows(item, today)
        out.append(
            Durable(item, min(day for day, _, _ in several), float(durables.pieces[rows].sum()),
                    paid, several[-1][2], True, earned.uses.get(item, []), parts[item], today, interest)
        )  # fmt: skip
    return sorted(out, key=lambda one: (-one.paid, facts.names[one.item]))


def _charged(state: State) -> dict[int, float]:
    """Return what batches have borne of each jar and piece of equipment, as in jar-cost."""
    names = state.facts
    out: dict[int, float] = {}
    for part in state.costs.own.parts:
        if part.component not in WEAR:
            continue
        for i, money in enumerate(part.money.tolist()):
            item = names.find(part.name(i))
            if item is not None:
                out[item] = out.get(item, 0.0) + money
    return out


def build(state: State) -> Answer:
    """Return one record a thing that lasts, the dearest first."""
    found = durables_of(state)
    assumed: dict[str, Assumption] = {}
    records = [_record(state, one, assumed) for one in found]
    totals: dict[str, Any] = {
        "paid": sum(r["paid"] for r in records),
        "earned": sum(r["earned"] or 0.0 for r in records),
    }
    missing = [_unnamed(r["item"], r["sort"]) for r in records if r["earned"] is None]
    if not records:
        totals = {}
        missing = [sentence("worth-no-durables")]
    if missing:
        totals["missing"] = missing
    if records:
        text = sentence("worth-shared-by-wear")
        assumed["interest"] = _interest(state)
        assumed["shared-by-wear"] = Assumption("shared-by-wear", text, ())
    words = [assumed[one] for one in sorted(assumed)]
    return answer(state, "worth-it", COLUMNS, records, totals=totals, assumptions=words)


def _interest(state: State) -> Assumption:
    rate = interest_rate(state.settings.on("interest_rate", state.as_of_day))
    if rate is None:
        return Assumption("interest", sentence("worth-no-interest"), ())
    text = sentence("worth-interest", n=measured(f"{rate * 100:g}"))
    return Assumption("interest", text, ())


def _unnamed(item: str, sort: str) -> str:
    if sort == "equipment":
        return sentence("worth-served-equipment", item=item, typed=Typed(item))
    if sort == "jar":
        return sentence("worth-served-jar", item=item)
    return sentence("worth-served-crop", item=item)


def _back(one: Durable) -> str | None:
    """Return how much of its price it has earned, in words: what is paid off is no more than that."""
    if one.earned is None:
        return None
    if one.paid_back_on() is not None:
        return sentence("worth-paid-off")
    return measured(f"{max(ratio(one.earned, one.paid) or 0.0, 0.0) * 100:.0f} %")


def _record(state: State, one: Durable, assumed: dict[str, Assumption]) -> dict[str, Any]:
    facts, name = state.facts, state.facts.names[one.item]
    sort = int(facts.sort[one.item])
    ids = ["shared-by-wear", "interest"]
    if not one.said:
        ids.append(f"life:{name}")
        text = sentence("worth-life-assumed", name=name, n=DEFAULT_YEARS)
        assumed[ids[-1]] = Assumption(ids[-1], text, ())
    if one.uses and not one.years_to(one.today)[0]:
        ids.append("first-year")
        text = sentence("worth-first-year")
        assumed["first-year"] = Assumption("first-year", text, ())
    back, expected = one.paid_back_on(), one.expected_on()
    counted = facts.measure[one.item] == "count"
    return {
        "why": f"worth-it/durable/{name}",
        "item": name,
        "sort": SORTS[sort],
        "first_on": day_text(one.first),
        "pieces": one.pieces if counted else None,
        "paid": one.paid,
        "life_years": one.years,
        "lasts_until": day_text(one.lasts_until()),
        "uses": sum(use.times for use in one.uses),
        "charged": one.charged,
        "worn_by_age": one.worn_by_age(),
        "earned": one.earned,
        "earned_per_year": one.rate(),
        "yearly_cost": one.yearly_cost,
        "gain_per_year": None if one.rate() is None else (one.rate() or 0.0) - one.yearly_cost,
        "share_back": ratio(one.earned, one.paid),
        "back_text": _back(one),
        "payback_years": one.payback_years(),
        "paid_back_on": None if back is None else day_text(back),
        "expected_on": None if expected is None else day_text(expected),
        "assumptions": sorted(ids),
    }
