"""What the freezer took in the last year, shared over the lots by pounds and months."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.errors import NotFound
from ledger.kinds.meter_read import reading
from ledger.messages import Choice, Code, Message, Names, Typed, fixed, sentence
from ledger.methods.fuel_use import LB_MONTH_DAYS, freezer_share
from ledger.projections.base import Answer, Column, Node
from ledger.questions.how_long.steps import freezer_feet
from ledger.questions.quantities import measured
from ledger.questions.shared.arithmetic import difference, product, quotient
from ledger.questions.shared.common import answer, event_node
from ledger.reference import winter
from ledger.replay import KEPT
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "build", "why"]

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


@dataclass(frozen=True)
class Year:
    """What the freezer took in a year, kWh, and how that is known."""

    kwh: float
    readings: tuple[tuple[float, int], ...]
    days: int
    said: str


def _power(state: State) -> Year | None:
    """Return what the freezer took in a year: by its meter, else by its size."""
    seen = []
    for ev, body in state.bodies("meter_read"):
        if body["meter"].casefold() == "freezer" and "before" not in body:
            what, value = reading(body["reads"])
            if what == "energy":
                seen.append((int(state.moment.on[ev]), value, ev))
    seen.sort()
    recent = [one for one in seen if one[0] >= state.as_of_day - _YEAR] if seen else []
    if len(recent) >= 2 and recent[-1][0] > recent[0][0] and recent[-1][1] >= recent[0][1]:
        first, last = recent[0], recent[-1]
        days = last[0] - first[0]
        used = last[1] - first[1]
        return Year(used * _YEAR / days, ((last[1], last[2]), (first[1], first[2])), days, "meter")
    size = state.settings.newest("freezer_room")
    feet = freezer_feet(size)
    if feet is None:
        return None
    for one in winter.figures("energy", "freezer_year"):
        low, high = _range(one.item)
        if low <= feet < high and one.low is not None:
            return Year(
                one.middle,
                (),
                _YEAR,
                sentence("power-as-bought", size=one.item, source=winter.document(one.source)),
            )
    return None


def _range(item: str) -> tuple[float, float]:
    numbers = [float(one) for one in re.findall(r"\d+\.?\d*", item)]
    if "under" in item:
        return 0.0, numbers[-1]
    return numbers[-2], numbers[-1] + 0.1


def _kept(state: State) -> dict[int, float]:
    """Return pound-months of each lot in the freezer over the last year; NaN where no weight is known."""
    begin, end = state.as_of_day - _YEAR, state.as_of_day
    lots = np.flatnonzero(state.lots["kept"] == KEPT.index("freezer"))
    out: dict[int, float] = {}
    for lot in lots.tolist():
        start = int(state.lots["day"][lot])
        gone = sorted(
            (int(state.draws["day"][state.allocations[0][row]]), float(state.allocations[2][row]))
            for row in state.allocations_of_lot(lot).tolist()
        )
        left, at, days = float(state.lots["whole"][lot]), max(start, begin), 0.0
        for day, amount in gone:
            days += left * max(min(day, end) - at, 0)
            at = max(at, min(day, end))
            left -= amount
        days += left * max(end - at, 0)
        if days > 0:
            grams = float(state.facts.grams[int(state.lots["item"][lot])])
            out[lot] = days * grams / _LB_G / LB_MONTH_DAYS
    return out


def _price(state: State) -> float | None:
    said = state.settings.on("price_of_electricity", state.as_of_day)
    found = re.match(r"(\d+(?:\.\d+)?)\s*(?:per|/)\s*(kwh|mj)", said or "", re.IGNORECASE)
    if found is None:
        return None
    return float(found[1]) * (3.6 if found[2].lower() == "mj" else 1.0)


def build(state: State, only: int | None) -> Answer:
    """Return one record a lot, what took most first."""
    year, kept, price = _power(state), state.once(_kept), _price(state)
    known = {lot: months for lot, months in kept.items() if not np.isnan(months)}
    whole = sum(known.values())
    records: list[dict[str, Any]] = []
    for lot, months in kept.items():
        item = int(state.lots["item"][lot])
        if only not in (None, item):
            continue
        kwh = None
        if year is not None and lot in known:
            kwh = freezer_share(year.kwh, months, whole)
        records.append(
            {
                "why": f"power-and-water/freezer/{state.lot_id(lot)}",
                "lot": state.lot_id(lot),
                "item": state.facts.names[item],
                "on": day_text(int(state.lots["day"][lot])),
                "lb_months": months if lot in known else None,
                "kwh": kwh,
                "money": None if kwh is None or price is None else kwh * price,
                "assumptions": ["share", "source"],
            }
        )
    records.sort(key=lambda r: (-(r["kwh"] or 0.0), r["item"], r["lot"]))
    totals: dict[str, Any] = {"kwh": None if year is None else year.kwh, "lb_months": whole}
    totals["in_words"] = (
        []
        if year is None
        else [
            sentence(
                "power-freezer-took-kwh-year-kept",
                n=round(year.kwh),
                how=fixed(year.said),
                amount=measured(state, whole / 12, "lb"),
            )
        ]
    )
    missing = []
    if year is None:
        missing.append(sentence("power-what-freezer-takes-not-known"))
    if not kept:
        missing.append(sentence("power-nothing-freezer-last-year"))
    totals["missing"] = missing
    return answer(
        state, "power-and-water", COLUMNS, records, totals=totals, assumptions=_notes(year)
    )


def _notes(year: Year | None) -> list[Assumption]:
    how = "unknown" if year is None else "meter" if year.readings else "size"
    said = sentence(
        "power-year-by",
        how=Choice(how),
        size=year.said if year is not None and how == "size" else None,
    )
    return [
        Assumption(
            "share",
            sentence("power-empty-freezer-takes-nearly-much"),
        ),
        Assumption("source", said),
    ]


def why(state: State, lot_id: str, field: str | None) -> Node:
    """Return a lot's part as a tree down to the meter.

    Raises
    ------
    NotFound
        When there is no such lot in the freezer, or no such figure.
    """
    kept, year = state.once(_kept), _power(state)
    lot = state.lot_ids.get(lot_id)
    if lot is None or lot not in kept:
        raise NotFound(
            "address",
            Message.of("refusal-no-lot-in-freezer", text=Typed(lot_id)),
        )
    known = {one: months for one, months in kept.items() if not np.isnan(months)}
    own = event_node(
        state, int(state.lots["ev"][lot]), sentence("power-kept"), kept.get(lot), "lb months"
    )
    figure = field or "kwh"
    if figure not in ("kwh", "lb_months", "money"):
        raise NotFound(
            "figure",
            Message.of(
                "refusal-no-figure-of",
                text=Typed(figure),
                question=Code("power-and-water"),
                names=Names((Code("kwh"), Code("lb_months"), Code("money"))),
            ),
        )
    if figure == "lb_months":
        return own
    if year is None or lot not in known:
        return Node(sentence("power-not-known"), None, "kWh")
    rest = Node(sentence("power-all-kept"), sum(known.values()), "lb months")
    share = quotient(sentence("power-part"), "0 to 1", own, rest)
    kwh = product(
        sentence("power-electricity-lot"), "kWh of electricity", _tree(state, year), share
    )
    if figure == "kwh":
        return kwh
    price = _price(state)
    if price is None:
        return Node(sentence("power-no-price"), None, "money")
    return product(
        sentence("power-cost"),
        "money",
        kwh,
        Node(sentence("power-price-electricity"), price, "money a kWh"),
    )


def _tree(state: State, year: Year) -> Node:
    if not year.readings:
        return Node(year.said, year.kwh, "kWh of electricity")
    last, first = (
        event_node(state, ev, "", value, "kWh of electricity") for value, ev in year.readings
    )
    used = difference(sentence("power-days", n=year.days), "kWh of electricity", last, first)
    times = quotient(
        sentence("power-year"),
        "times",
        Node(sentence("power-year-3"), float(_YEAR), "days"),
        Node(sentence("power-days-2"), float(year.days), "days"),
    )
    return product(sentence("power-year-2"), "kWh of electricity", used, times)
