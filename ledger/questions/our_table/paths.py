"""The ways of the food as an answer: one record a path, and the arithmetic of each."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any
from urllib.parse import quote, unquote

import numpy as np

from ledger.errors import NotFound
from ledger.figures import Array, Figure, Groups, choose, known_where, total
from ledger.messages import Code, Day, joined, sentence
from ledger.messages.words import fixed
from ledger.projections.base import Column
from ledger.questions.food.bases import UNITS
from ledger.questions.food.places import Place
from ledger.questions.food.portions import Portions
from ledger.questions.our_table.balance import Accounts
from ledger.questions.our_table.ends import ENDS, FRESH, Ends
from ledger.questions.periods import Period, day_of
from ledger.questions.telling import label_day

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["PATH_COLUMNS", "figures_of_path", "path_records", "path_totals"]

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

_FIELDS = {"grams": "weight", "kcal": "energy", "value": "value"}
_TABLE, _GUESTS = ENDS.index("table"), ENDS.index("guests")


def path_records(paths: Ends) -> list[dict[str, Any]]:
    """Return one record a path, the heaviest first; together they are all that there was."""
    names = paths.state.facts.names
    out = []
    for (place, item, end), figures in paths.sums().items():
        one, through = paths.places.every[place], FRESH if item < 0 else names[item]
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


def path_totals(state: State, period: Period, records: list[dict[str, Any]]) -> dict[str, Any]:
    """Return what was there before, what came in and what the paths hold: they add up."""
    accounts = state.once(Accounts).of(period)
    before = state.once(Accounts).there(period.start - 1)
    out: dict[str, Any] = {}
    for basis, name in (("weight", "grams"), ("energy", "kcal")):
        account = accounts[basis]
        out[name] = {
            "there_before": before[basis],
            "came_in": (account.grown or 0.0) + (account.came_in or 0.0),
            "paths": sum(one[name] or 0.0 for one in records),
        }
    grams = out["grams"]
    came, there, held = (round(grams[one] / 1000) for one in ("came_in", "there_before", "paths"))
    first, _, last = period.label.partition("/")
    out["in_words"] = [
        sentence("eaten-balance", n=came, day=Day(first), day2=Day(last), n2=there, n3=held)
        if last
        else sentence("eaten-balance-label", n=came, label=Code(first), n2=there, n3=held)
    ]
    return out


def figures_of_path(state: State, key: str) -> tuple[dict[str, Callable[[], Figure]], int]:
    """Return the figures of a path, and its row in them.

    Parameters
    ----------
    key : str
        ``<first day>/<last day>/<origin>/<place>/<through>/<end>``, each as in the answer's `why`.

    Raises
    ------
    NotFound
        When there is no such path.
    """
    try:
        first, last, *rest = key.split("/")
        origin, name, through, to = (unquote(part) for part in rest)
        start, end = day_of(first, "from") or 0, day_of(last, "to") or 0
        ends = Ends(state, Period(f"{first}/{last}", start, end))
        place = ends.places.every.index(Place(name, origin))
        found = -1 if through == FRESH else state.facts.find_strand(through)
        item = len(state.facts) if found is None else found
        figures = ends.sums()[place, item, ENDS.index(to)]
    except (ValueError, KeyError):
        raise NotFound(
            "address",
            f"there is no path {key!r}",
            "Take an address from `croftbook show our-table --paths --json`",
        ) from None
    path = _Path(ends, place, item, ENDS.index(to))

    def figure(i: int, basis: str) -> Callable[[], Figure]:
        is_known = np.array([figures[3 + i] > 0])
        return lambda: known_where(is_known, path.whole(basis), "path-not-known").called(
            "path", text=lambda _: joined(", ", (fixed(name), fixed(through), fixed(to, "to")))
        )

    return {field: figure(i, basis) for i, (field, basis) in enumerate(_FIELDS.items())}, 0


class _Path:
    """The formulas of one path: what went this way of lots, and of batches that left none."""

    def __init__(self, ends: Ends, place: int, item: int, end: int) -> None:
        self.ends, self.food, self.place, self.end = ends, ends.food, place, end
        through, row_through = ends.through()
        exits = ends.exits
        mine = np.flatnonzero((through == item) & (exits.end == end))
        lot = exits.lot[mine]
        from_here = (self.food.web.rows.number_of_lot[lot] >= 0) | (
            ends.places.of_lot[lot] == place
        )
        mine = mine[from_here]
        self.at = exits.at[mine[exits.at[mine] >= 0]]
        self.there = exits.lot[mine[exits.at[mine] < 0]]
        is_lost = (row_through == item) & (ENDS[end] == "lost")
        self.row, self.row_part = exits.row[is_lost], exits.row_part[is_lost]

    def whole(self, basis: str) -> Figure:
        """Return what went this way by a basis, shape (1,)."""
        made = self.food.made.from_place(basis, self.place)
        portions = Portions(self.food, self.at, self._part(), "portion")
        here = portions.grouped(np.zeros(self.at.size, np.int64), 1)
        every = np.arange(portions.raw.size)
        parts = [here.where(every, portions.of_raw(basis), basis, made)]
        if self.there.size:
            parts.append(self._on_hand(basis))
        if self.row.size:
            lost = self._lost_part * made.of_row(self.row)
            parts.append(_sum(lost.called("lost-row"), self.row.size, basis))
        return total(*parts)

    def _part(self) -> Figure | None:
        """Return the part of each meal that went this way; None: all of what was taken."""
        eaten, ev = self.food.eaten, self.food.web.ev[self.at]
        if self.end == _TABLE:
            return eaten.home.at(ev)
        return eaten.with_guests.at(ev) if self.end == _GUESTS else None

    @property
    def _lost_part(self) -> Figure:
        """Return which part of rows no lot holds."""
        food, row = self.food, self.row
        ev, shares = self._event_of_row(row), food.shares
        is_meal = food.web.rows.meal_of[ev] == row
        whole = choose(is_meal, food.eaten.kept.at(ev), food.eaten.whole.at(ev))
        given = Groups(shares.row, food.web.count).sum(shares.part, "0 to 1").at(row)
        return (whole - given.called("given-part")).called("lost-part")

    def _event_of_row(self, row: Array) -> Array:
        rows = self.food.web.rows
        by_row = {number: ev for of in (rows.pot, rows.meal) for ev, number in of.items()}
        return np.array([by_row[number] for number in row.tolist()], np.int64)

    # -- on hand ------------------------------------------------------------------------------

    def _on_hand(self, basis: str) -> Figure:
        """Return what is on hand on the last day of lots that this way is of."""
        food, web, lot = self.food, self.food.web, self.there
        number = np.full(self.ends.state.lots["ev"].size, -1, np.int64)
        number[lot] = np.arange(lot.size)
        mine = np.flatnonzero((web.day <= self.ends.period.end) & (number[web.lot] >= 0))
        whole = food.sources.amount.at(lot).called("the-lot")
        unit = food.sources.whole_of(food.state.lots["item"][lot])
        gone = Groups(number[web.lot[mine]], lot.size).sum(food.sources.taken.at(mine), unit)
        left = (whole - gone.called("was-taken")).called("still-there")
        return _sum(self._of_left(basis, left, whole), lot.size, basis)

    def _of_left(self, basis: str, left: Figure, whole: Figure) -> Figure:
        food, lot = self.food, self.there
        is_made = food.web.rows.number_of_lot[lot] >= 0
        share = (left / whole).called("on-hand-part")
        made = self.food.made.from_place(basis, self.place).of_lot(lot)
        if basis == "value":
            item = food.state.lots["item"][lot]
            day = np.full(lot.size, self.ends.period.end)
            raw = left * food.price_of(item, *food.state.costs.prices.of(item, day))
        else:
            raw = share * food.named(food.of_raw[basis].at(lot), lot, basis)
        return choose(is_made, share * made, raw).called(
            "on-hand",
            item=lambda row: food.item(int(lot[row])),
            day=lambda row: label_day(int(food.state.lots["day"][lot[row]])),
        )


def _sum(figure: Figure, rows: int, basis: str) -> Figure:
    return Groups(np.zeros(rows, np.int64), 1).sum(figure, UNITS[basis])
