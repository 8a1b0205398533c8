"""What of the garden is here and comes in the next days, how long it keeps, and what is eaten of it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.messages import sentence
from ledger.methods.glut import Arrival, Crop
from ledger.reference.storage import fresh_life
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.figures import Array
    from ledger.replay import State

__all__ = ["DAYS", "Comes", "comes_of", "fresh_days", "lots_earlier", "lots_here"]

DAYS = 10
_HANDFUL_KG, _KEEPS = 0.5, 60
"""Less is eaten, and what keeps for months is no glut: our own choice."""
_YEARS = 5


@dataclass(frozen=True)
class Comes:
    """A crop as the programme takes it, with how many days it keeps and who says so."""

    item: int
    crop: Crop
    days: int
    said: str


def comes_of(state: State, item: int) -> Comes | None:
    """Return what is here and comes of a crop; None where it is no glut."""
    per, name = state.facts.grams_per_whole(item), state.facts.names[item]
    if per is None:
        return None
    life, said = fresh_days(state, item)
    arrivals = []
    for lot in lots_here(state, item).tolist():
        until = int(state.lots["day"][lot]) + life - state.as_of_day
        if until >= 0:
            arrivals.append(Arrival(0, until, float(state.left[lot]) * per / 1000))
    for day, kg in enumerate(_coming(state, item, per)):
        if day and kg > 0.005:
            arrivals.append(Arrival(day, day + life, kg))
    if math.fsum(a.kg for a in arrivals) < _HANDFUL_KG or life > _KEEPS:
        return None
    return Comes(item, Crop(name, tuple(arrivals), _eaten(state, item, per)), life, said)


def lots_here(state: State, item: int) -> Array:
    """Return the lots of a crop of which something is left, as it was picked, bought or given."""
    lots = state.lots
    raw = (lots["item"] == item) & (lots["origin"] <= ORIGINS.index("given"))
    return np.flatnonzero(raw & (state.left > 0))


def lots_earlier(state: State, item: int) -> list[Array]:
    """Return the lots picked on the same days of each earlier year of which any are known."""
    lots, out = state.lots, []
    rows = np.flatnonzero((lots["item"] == item) & (lots["origin"] == ORIGINS.index("grown")))
    for back in range(1, _YEARS + 1):
        offset = lots["day"][rows] - (state.as_of_day - 365 * back)
        if ((offset > -183) & (offset < 183)).any():
            out.append(rows[(offset >= 0) & (offset < DAYS)])
    return out


def fresh_days(state: State, item: int) -> tuple[int, str]:
    """Return how many days a crop keeps fresh, and who says so."""
    from ledger.questions.shared.use_by import days_of

    keeps = state.facts.facts[item].keeps or {}
    # nothing fresh stands in the freezer: that is said of what was frozen
    spans = [days_of(0, span) for place, span in keeps.items() if place != "freezer"]
    known = [span for span in spans if span is not None]
    if known:
        return max(known), sentence("glut-household")
    found = fresh_life(state.facts.names[item])
    if found is not None:
        unit = {"day": 1, "week": 7, "month": 30}.get(found.unit, 7)
        return int(float(found.low) * unit), str(found.source)
    return 3, sentence("glut-nobody-three-days")


def _coming(state: State, item: int, per: float) -> list[float]:
    """Return kilograms likely picked on each of the next days: the mean of earlier years' same days."""
    whole = state.lots["whole"]
    years = [float((whole[lots] * per / 1000).sum()) for lots in lots_earlier(state, item)]
    if not years:
        return [0.0] * DAYS
    # single days jump about from year to year: the sum of the days is spread as it likely comes
    return [0.0] + [sum(years) / len(years) / (DAYS - 1)] * (DAYS - 1)


def _eaten(state: State, item: int, per: float) -> float:
    """Return kilograms eaten fresh a day over the last four weeks."""
    from ledger.questions.goes import goes

    draws = state.draws
    recent = (
        (draws["item"] == item)
        & (state.as_of_day - draws["day"] < 28)
        & (state.once(goes) == "eaten")
    )
    return float(draws["whole"][recent].sum()) * per / 1000 / 28
