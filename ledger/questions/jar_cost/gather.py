"""The made entries of every batch: a row each, with the lots and the shop's price that belong to it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups
from ledger.questions.quantities import whole_unit
from ledger.questions.shared.batch_marks import gravest_uneaten_by_entry
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.questions.costs import CostFigures
    from ledger.questions.shared.stands import Standing
    from ledger.replay import State

__all__ = ["Entries", "entries_of"]

_N_BITS = 32


@dataclass(frozen=True)
class Entries:
    """Made entries, in the order of the book.

    Attributes
    ----------
    lots : ndarray of int64, shape (lots,)
        Jars that sealed, then those that did not, entry by entry; `of` groups them.
    first, item, day, ev, n : ndarray of int64, shape (entries,)
        The first lot of each, and what it is of, when, by which event and which line.
    in_jars, by_volume : ndarray of bool, shape (entries,)
    price, price_ev, later : ndarray, shape (entries,)
        The shop's price of one whole unit on the day, its event, and whether it was seen only later.
    marks : list of Standing or None
        The gravest mark on what is left of its batch, or was thrown out.
    minutes, share, weight, shop : Figure
        Work of the batch, the entry's part of the batch, grams of a whole unit, the shop's price.
    """

    lots: Array
    of: Groups
    first: Array
    item: Array
    day: Array
    ev: Array
    n: Array
    in_jars: Array
    by_volume: Array
    price: Array
    price_ev: Array
    later: Array
    marks: list[Standing | None]
    minutes: Figure
    share: Figure
    weight: Figure
    shop: Figure
    unit: list[str]


def entries_of(state: State, costs: CostFigures) -> Entries:
    """Return every made entry."""
    lots, begins = _lots(state)
    first = lots[begins]
    entry = np.zeros(lots.size, np.int64)
    entry[begins[1:]] = 1
    of = Groups(np.cumsum(entry), begins.size)
    item, day, ev, n = (state.lots[name][first] for name in ("item", "day", "ev", "n"))
    price, price_ev, later = state.costs.prices.of(item, day)
    measure = [state.facts.measure[one] for one in item.tolist()]
    marks = state.once(gravest_uneaten_by_entry)
    sources, number = costs.sources, state.costs.rows.number_of_lot
    return Entries(
        lots,
        of,
        first,
        item,
        day,
        ev,
        n,
        np.bincount(of.by, state.lots["jars"][lots], begins.size) > 0,
        np.array([one == "volume" for one in measure], bool),
        price,
        price_ev,
        later,
        [marks.get(state.entry_id(one)) for one in ev.tolist()],
        sources.minutes.at(ev),
        of.sum(costs.shares.of_batch.at(number[lots])),
        sources.weight(item),
        sources.shop_price(item, price, price_ev, later),
        [whole_unit(state, one) for one in item.tolist()],
    )


def _lots(state: State) -> tuple[Array, Array]:
    """Return the lots of made entries and where each entry begins among them."""
    made = state.lots["origin"] == ORIGINS.index("batch")
    rows = np.flatnonzero(made & np.isnan(state.lots["share"]))
    key = state.lots["ev"][rows].astype(np.int64) << _N_BITS | state.lots["n"][rows]
    _, first, entry = np.unique(key, return_index=True, return_inverse=True)
    order = np.argsort(first[entry], kind="stable")
    begins = np.flatnonzero(np.diff(first[entry][order], prepend=-1))
    return rows[order], begins
