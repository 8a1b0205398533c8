"""What closes a gap cheapest: from the shop at the newest price known, or from a bed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.questions.shared.larder import larder_of
from ledger.questions.who_eats.eaters import eaters_of
from ledger.reference.needs import NUTRIENTS
from ledger.reference.planting import published_range

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Bedded", "Shopped", "bed_of", "shop_of"]


@dataclass(frozen=True)
class Shopped:
    """What of the shop gives a nutrient for the least money: the price of a whole unit, and what says it."""

    item: int
    price: float
    ev: int


@dataclass(frozen=True)
class Bedded:
    """What crop gives a nutrient on the least ground: grams a square metre, by which document."""

    item: int
    grams_per_m2: float
    note: str
    source: str


def _prices(state: State) -> tuple[np.ndarray[Any, Any], np.ndarray[Any, Any]]:
    items = np.arange(len(state.facts))
    price, ev, _ = state.costs.prices.of(items, np.full(items.size, state.as_of_day))
    return price, ev


def _grams(state: State) -> np.ndarray[Any, Any]:
    """Return grams of one whole unit of each item; inf where not known."""
    return np.array([state.facts.grams_per_whole(one) or np.inf for one in range(len(state.facts))])


_OF_A_DAY = 1.0
"""Part of a person's need of a day that a kilogram has to bring: nobody closes a gap with vinegar. Our choice."""


def shop_of(state: State, n: int) -> Shopped | None:
    """Return what gives a nutrient for the least money; None where no price is known.

    Only what counts by its own row, has a price of its own or of its shop equivalent, and brings enough
    of it to be eaten for it; salt is left out. It is a figure, no menu.

    Parameters
    ----------
    state : State
    n : int
        Number of the nutrient.
    """
    larder, eaters = larder_of(state), eaters_of(state)
    each = eaters.need[NUTRIENTS[n]] / eaters.count
    price, ev = state.once(_prices)
    per = np.nan_to_num(larder.per_whole[:, n])
    grams = state.once(_grams)
    fits = larder.is_direct & ~larder.is_salt & (ev >= 0) & (price > 0)
    fits &= (per > 0) & (1000 * per >= _OF_A_DAY * each * grams)
    if not fits.any():
        return None
    cost = np.where(
        fits, np.divide(price, per, out=np.full(per.size, np.inf), where=per > 0), np.inf
    )
    item = int(np.argmin(cost))
    return Shopped(item, float(price[item]), int(ev[item]))


def _grown(state: State) -> list[Bedded]:
    """Return the crops planted or picked here with grams a square metre by published yields."""
    crops = {state.facts.find(body["crop"]) for body in _planted(state)}
    out = []
    for item in sorted(one for one in crops if one is not None):
        found = published_range(state.facts.names[item], area_m2=1.0)
        if found is not None and found.middle_g > 0:
            out.append(Bedded(item, found.middle_g, found.note, "; ".join(map(str, found.sources))))
    return out


def _planted(state: State) -> list[dict[str, Any]]:
    return [state.body(int(ev)) for ev in state.events("planted")]


def bed_of(state: State, n: int) -> Bedded | None:
    """Return the crop grown here that gives a nutrient on the least ground; None where none is known."""
    larder, best, most = larder_of(state), None, 0.0
    for bedded in state.once(_grown):
        whole = state.facts.grams_per_whole(bedded.item)
        value = float(larder.per_whole[bedded.item, n])
        if whole and value > 0 and bedded.grams_per_m2 / whole * value > most:
            best, most = bedded, bedded.grams_per_m2 / whole * value
    return best
