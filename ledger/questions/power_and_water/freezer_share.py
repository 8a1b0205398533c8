"""What the freezer took in the last year, shared over the lots by pounds and months."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.figures import Figure, Groups, assumed, if_known, published, said, stacked, unknown
from ledger.kinds.meter_read import reading
from ledger.messages import Choice, fixed, sentence
from ledger.projections.base import Answer, Column
from ledger.questions.costs.sources import Sources, unit_factor
from ledger.questions.how_long.steps import freezer_feet
from ledger.questions.quantities import measured
from ledger.questions.shared.common import answer
from ledger.reference import winter
from ledger.replay import KEPT
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "Freezer", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("lot", "Lot", "", "Id of the lot."),
    Column("item", "Item", "", "What was frozen.", main=True),
    Column("on", "From", "day", "When it came in.", main=True),
    Column("lb_months", "Kept", "lb months", "Pounds x months in the freezer in the last 365 days; null where no weight is known.", main=True),
    Column("kwh", "Electricity", "kWh", "Its part of what the freezer took in those days; null where that is not known.", main=True),
    Column("money", "Cost", "money", "At the price of electricity set; null without one.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_YEAR = 365
_LB_G = 453.59237
_MONTH_DAYS = 365.2425 / 12


class Freezer:
    """What the freezer took in the last year, and what was kept in it; a row is a lot.

    Attributes
    ----------
    lots : ndarray of int, shape (rows,)
    how, size : str
        Whether the year is known by its ``meter`` or its ``size``, else ``unknown``; the size.
    year : Figure
        What it took in a year, one row.
    of : dict of str to Figure
        By the name of its column.
    """

    def __init__(self, state: State) -> None:
        self.state, self.how, self.size = state, "unknown", ""
        kept = self._kept()
        self.year = self._metered() or self._by_size() or unknown("kWh of electricity", "not-known")
        one = np.where(np.isnan(kept.values), -1, 0)
        self.all_kept = Groups(one, 1).sum(kept, "lb months").called("all-kept")
        share = (kept / self.all_kept.at(np.zeros_like(one))).called("part")
        kwh = (self.year.at(np.zeros_like(one)) * share).called("kwh")
        price = state.once(Sources).setting(
            "price_of_electricity",
            np.array([state.as_of_day]),
            _price,
            "money per kWh of electricity",
        )
        known = if_known(price.called("price"), "no-price").at(np.zeros_like(one))
        power = if_known(kwh, "not-known", "kWh of electricity")
        self.of = {
            "kwh": power,
            "lb_months": if_known(kept, "no-weight"),
            "money": if_known((power * known).called("money", unit="money"), "no-price", "money"),
        }

    def _kept(self) -> Figure:
        """Return pound-months of each lot over the last year; NaN where no weight is known."""
        state, sources = self.state, self.state.once(Sources)
        draw, lot, _ = state.allocations
        begin, end, day = state.as_of_day - _YEAR, state.as_of_day, state.lots["day"]
        cold = state.lots["kept"] == KEPT.index("freezer")
        rows, still = np.flatnonzero(cold[lot]), np.flatnonzero(cold)
        of = np.r_[lot[rows], still]
        went = np.r_[np.minimum(state.draws["day"][draw[rows]], end), np.full(still.size, end)]
        days = np.maximum(went - np.maximum(day[of], begin), 0)
        ev = np.r_[state.draws["ev"][draw[rows]], state.lots["ev"][still]]
        pieces = stacked([sources.taken.at(rows), sources.left.at(still)], [rows.size, still.size])
        self.lots = np.flatnonzero(np.bincount(of, pieces.values * days, cold.size) > 0)
        place = np.full(cold.size, -1, np.int64)
        place[self.lots] = np.arange(self.lots.size)
        grams = (pieces * sources.weight(state.lots["item"][of])).called("grams")
        pounds = grams / unit_factor(_LB_G, "g per lb", "per-lb")
        stays = said(days, "days", ev).called("stays")
        months = stays / unit_factor(_MONTH_DAYS, "days per month", "per-month")
        each = pounds.called("pounds") * months.called("months", unit="months")
        kept = Groups(place[of], self.lots.size).sum(each.called("stayed", unit="lb months"))
        return kept.called("lb_months").folds(
            lambda row: (
                f"power-and-water/freezer/{state.lot_id(int(self.lots[row]))}",
                "lb_months",
            )
        )

    def _metered(self) -> Figure | None:
        """Return what it took in a year by its meter; None where that was not read twice."""
        state, seen = self.state, []
        for ev, body in state.bodies("meter_read"):
            if body["meter"].casefold() == "freezer" and "before" not in body:
                what, value = reading(body["reads"])
                if what == "energy":
                    seen.append((int(state.moment.on[ev]), value, ev))
        recent = sorted(one for one in seen if one[0] >= state.as_of_day - _YEAR)
        if len(recent) < 2 or recent[-1][0] <= recent[0][0] or recent[-1][1] < recent[0][1]:
            return None
        self.how = self.size = "meter"
        (day, reads, ev), (end, after, end_ev) = recent[0], recent[-1]
        unit, last = "kWh of electricity", np.array([end_ev])
        used = said(np.array([after]), unit, last) - said(np.array([reads]), unit, np.array([ev]))
        days = said(np.array([end - day]), "days", last).called("days")
        times = assumed(float(_YEAR), "days", "source").called("a-year") / days
        year = used.called("used", n=end - day) * times.called("to-a-year", unit="times")
        return year.called("year", unit=unit)

    def _by_size(self) -> Figure | None:
        """Return what it takes in a year by its size, as published; None where its size is not known."""
        feet = freezer_feet(self.state.settings.newest("freezer_room"))
        for one in winter.figures("energy", "freezer_year") if feet is not None else ():
            low, high = _range(one.item)
            if low <= (feet or 0.0) < high and one.low is not None:
                source = winter.document(one.source)
                self.how, self.size = (
                    "size",
                    sentence("power-as-bought", size=one.item, source=source),
                )
                return published(np.array([one.middle]), "kWh of electricity", source).called(
                    "as-bought", text=self.size
                )
        return None


def _range(item: str) -> tuple[float, float]:
    numbers = [float(one) for one in re.findall(r"\d+\.?\d*", item)]
    if "under" in item:
        return 0.0, numbers[-1]
    return numbers[-2], numbers[-1] + 0.1


def _price(said: str | None) -> float | None:
    found = re.match(r"(\d+(?:\.\d+)?)\s*(?:per|/)\s*(kwh|mj)", said or "", re.IGNORECASE)
    if found is None:
        return None
    return float(found[1]) * (3.6 if found[2].lower() == "mj" else 1.0)


def build(state: State, only: int | None) -> Answer:
    """Return one record a lot, what took most first."""
    freezer = state.once(Freezer)
    cells = {name: figure.cells() for name, figure in freezer.of.items()}
    records: list[dict[str, Any]] = []
    for row, lot in enumerate(freezer.lots.tolist()):
        item = int(state.lots["item"][lot])
        if only in (None, item):
            records.append(
                {
                    **{name: column[row] for name, column in cells.items()},
                    "why": f"power-and-water/freezer/{state.lot_id(lot)}",
                    "lot": state.lot_id(lot),
                    "item": state.facts.names[item],
                    "on": day_text(int(state.lots["day"][lot])),
                    "assumptions": ["share", "source"],
                }
            )
    records.sort(key=lambda r: (-(r["kwh"] or 0.0), r["item"], r["lot"]))
    year, whole = freezer.year.at(np.zeros(1, np.int64)).cells()[0], freezer.all_kept.value(0)
    totals: dict[str, Any] = {"kwh": year, "lb_months": whole, "in_words": [], "missing": []}
    if year is None:
        totals["missing"].append(sentence("power-what-freezer-takes-not-known"))
    else:
        amount = measured(state, whole / 12, "lb")
        totals["in_words"].append(
            sentence(
                "power-freezer-took-kwh-year-kept",
                n=round(year),
                how=fixed(freezer.size),
                amount=amount,
            )
        )
    if not freezer.lots.size:
        totals["missing"].append(sentence("power-nothing-freezer-last-year"))
    size = freezer.size if freezer.how == "size" else None
    notes = [
        Assumption("share", sentence("power-empty-freezer-takes-nearly-much")),
        Assumption("source", sentence("power-year-by", how=Choice(freezer.how), size=size)),
    ]
    return answer(state, "power-and-water", COLUMNS, records, totals=totals, assumptions=notes)
