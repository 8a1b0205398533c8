"""The ways of the food as an answer: one record a path, and the arithmetic of each."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import quote, unquote

import numpy as np

from ledger.errors import NotFound
from ledger.projections._arithmetic import total
from ledger.projections._table_eaten import Eaten, eaten_of
from ledger.projections._table_leaves import leaves
from ledger.projections._table_paths import ENDS, FRESH, Paths, Source
from ledger.projections._table_periods import Period, day_of
from ledger.projections.base import Column, Node
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["PATH_COLUMNS", "path_records", "path_totals", "why_path"]

PATH_COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("period", "Period", "", "First and last day, both included."),
    Column("source", "From", "", "The bed it grew in, the shop it was bought in, else its origin; garden or shop where none was named.", main=True),
    Column("origin", "Origin", "", "grown, foraged, given, bought, found or unrecorded."),
    Column("through", "Through", "", "What it was made into, as it left the shelf; fresh where nothing was made of it.", main=True),
    Column("to", "To", "", "table, guests, given, animals, sown, lost, other use, or on hand on the last day.", main=True),
    Column("grams", "Weight", "g", "Of the raw things as they came in; null where no weight is known.", main=True),
    Column("kcal", "Energy", "kcal", "Of the edible part; null where no energy is known.", main=True),
    Column("value", "Value", "money", "At the shop's price of the day it was used (on hand: of the last day); null where no price is known.", main=True),
)  # fmt: skip

_FIELDS = ("grams", "kcal", "value")


def path_records(paths: Paths) -> list[dict[str, Any]]:
    """Return one record a path, the heaviest first; together they are all that there was."""
    names = paths.state.facts.names
    out = []
    for (source, item, end), figures in paths.sums().items():
        one, through = paths.sources[source], FRESH if item < 0 else names[item]
        strand = FRESH if item < 0 else paths.state.facts.strand_name(item)
        address = "/".join(quote(part, safe="") for part in (one.origin, one.name, strand, ENDS[end]))  # fmt: skip
        out.append(
            {
                "why": f"our-table/paths/{paths.period.address}/{address}",
                "period": paths.period.label,
                "source": one.name,
                "origin": one.origin,
                "through": through,
                "to": ENDS[end],
                **{
                    name: float(figures[i]) if figures[3 + i] > 0 else None
                    for i, name in enumerate(_FIELDS)
                },
            }
        )
    return sorted(out, key=lambda one: (-(one["grams"] or 0.0), one["why"]))


def path_totals(eaten: Eaten, period: Period, records: list[dict[str, Any]]) -> dict[str, Any]:
    """Return what was there before, what came in and what the paths hold: they add up."""
    accounts = eaten.accounts.of(period)
    before = eaten.accounts.there(period.start - 1)
    out: dict[str, Any] = {}
    for basis, name in (("weight", "grams"), ("energy", "kcal")):
        account = accounts[basis]
        out[name] = {
            "there_before": before[basis],
            "came_in": (account.grown or 0.0) + (account.came_in or 0.0),
            "paths": sum(one[name] or 0.0 for one in records),
        }
    grams = out["grams"]
    out["in_words"] = [
        f"{grams['came_in'] / 1000:,.0f} kg came in from {period.label.replace('/', ' to ')}, beside {grams['there_before'] / 1000:,.0f} kg that was there; the paths hold {grams['paths'] / 1000:,.0f} kg."
    ]
    return out


def why_path(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of a path as a tree.

    Parameters
    ----------
    key : str
        ``<first day>/<last day>/<origin>/<source>/<through>/<end>``, each as in the answer's `why`.
    field : str, optional
        ``grams`` (default), ``kcal`` or ``value``.

    Raises
    ------
    NotFound
        When there is no such path, or no such figure of it.
    """
    field = field or "grams"
    if field not in _FIELDS:
        raise NotFound(
            "figure", f"{field!r} is not a figure of a path", f"It has: {', '.join(_FIELDS)}"
        )
    try:
        first, last, *rest = key.split("/")
        origin, name, through, to = (unquote(part) for part in rest)
        start, end = day_of(first, "from") or 0, day_of(last, "to") or 0
        paths = Paths(eaten_of(state), Period(f"{first}/{last}", start, end))
        source = paths.sources.index(Source(name, origin))
        found = -1 if through == FRESH else state.facts.find_strand(through)
        item = len(state.facts) if found is None else found
        figures = paths.sums()[source, item, ENDS.index(to)]
    except (ValueError, KeyError):
        raise NotFound(
            "address",
            f"there is no path {key!r}",
            "Take an address from `croftbook show our-table --paths --json`",
        ) from None
    i = _FIELDS.index(field)
    unit = ("g", "kcal", state.settings.newest("currency") or "USD")[i]
    label = f"{name}, {through}, {to}"
    if not figures[3 + i] > 0:
        return Node(f"{label}: not known", None, unit)
    basis = ("weight", "energy", "value")[i]
    sources = _sources(paths, source, item, ENDS.index(to))
    return total(label, unit, *leaves(state, basis, unit, sources))


def _sources(paths: Paths, source: int, item: int, end: int) -> list[tuple[int, float, float, int]]:
    """Return (raw lot, whole units of it, price, event of the price) that make up a path."""
    state, web, exits = paths.state, paths.web, paths.exits
    through, row_through = paths.through()
    mine = np.flatnonzero((through == item) & (exits.end == end))
    raw = mine[paths.source_of[exits.lot[mine]] == source]
    out = _priced(paths, exits.lot[raw], exits.amount[raw], exits.day[raw])
    wanted = np.zeros(state.lots["ev"].size)
    made = mine[web.rows.number_of_lot[exits.lot[mine]] >= 0]
    np.add.at(wanted, exits.lot[made], exits.part[made])
    of_rows = np.zeros(web.count)
    if ENDS[end] == "lost":
        lost = row_through == item
        np.add.at(of_rows, exits.row[lost], exits.row_part[lost])
    back = web.back(wanted[:, None], of_rows[:, None])[:, 0]
    at = web.raw_in[paths.source_of[web.lot[web.raw_in]] == source]
    part = back[web.row[at]]
    at, part = at[part > 0], part[part > 0]
    return out + _priced(paths, web.lot[at], web.amount[at] * part, web.day[at])


def _priced(
    paths: Paths, lot: Array, amount: Array, day: Array
) -> list[tuple[int, float, float, int]]:
    price, ev, _ = paths.state.costs.prices.of(paths.state.lots["item"][lot], day)
    return list(
        zip(lot.tolist(), amount.tolist(), np.nan_to_num(price).tolist(), ev.tolist(), strict=True)
    )
