"""What of the costs has an address of its own: lots, a crop's season, one use of a jar or of equipment."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import TYPE_CHECKING

from ledger.figures import Figure, Node, total
from ledger.questions.addressed import open_one
from ledger.questions.costs.labels import LABELS
from ledger.questions.costs.lots import CostFigures
from ledger.replay import day_number

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["TABLES", "why"]

_Found = tuple[Mapping[str, Callable[[], Figure]], int]


def why(state: State, address: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of costs as a tree.

    Parameters
    ----------
    address : str
        ``lot/ID``, ``garden/YEAR/NAME``, ``garden/YEAR`` or ``durable/NAME/DAY``.
    field : str, optional
        Which figure of it; default: the first.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such thing, or no such figure of it.
    """
    return open_one(state, TABLES, state.once(CostFigures), LABELS, address, field, deep)


def _lot(costs: CostFigures, key: str) -> _Found | None:
    lot = costs.state.lot_ids.get(key)
    if lot is None:
        return None
    every = {f"cost.{name}": one.called(f"cost.{name}") for name, one in costs.of.items()}
    whole = total(*every.values()).called("cost.all_in")
    unpaid = costs.before_labour.called("cost.before_labour")
    known = {"cost": whole, **every, "cost.before_labour": unpaid}
    return {name: partial(_itself, one) for name, one in known.items()}, lot


def _itself(figure: Figure) -> Figure:
    return figure


def _garden(costs: CostFigures, key: str) -> _Found | None:
    year, _, name = key.partition("/")
    garden, season = costs.garden, int(year) if year.isdecimal() else -1
    if not name:
        row = next(iter((garden.season == season).nonzero()[0].tolist()), None)
        return None if row is None else ({"average": lambda: garden.average}, row)
    strand = costs.state.facts.find_strand(name)
    row = None if strand is None else garden.find(season, strand)
    if row is None:
        return None
    figures: dict[str, Callable[[], Figure]] = {
        "inputs": lambda: garden.inputs,
        "harvest": lambda: garden.picked,
        "worth": lambda: garden.worth,
        "weight": lambda: garden.weight,
    }
    return figures, row


def _durable(costs: CostFigures, key: str) -> _Found | None:
    name, _, day = key.rpartition("/")
    item = costs.state.facts.find(name)
    try:
        number = day_number(day)
    except ValueError:
        return None
    for table in costs.durables.tables if item is not None else ():
        row = table.find(int(item or 0), number)
        if row is not None:
            return {"per_use": partial(_itself, table.cost)}, row
    return None


TABLES: Mapping[str, Callable[[CostFigures, str], _Found | None]] = {
    "lot": _lot,
    "garden": _garden,
    "durable": _durable,
}
"""By the first word of an address, how the rest of it is found."""
