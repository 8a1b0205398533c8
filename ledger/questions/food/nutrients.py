"""Nutrients as figures: in one unit of an item, in what batches made, and in amounts of food."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import (
    Array,
    Figure,
    Groups,
    choose,
    method,
    nothing,
    published,
    solved,
    total,
)
from ledger.questions.food.amounts import FoodFigures
from ledger.questions.shared.larder import larder_of
from ledger.questions.telling import label_day
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import AMOUNTS
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["UNITS", "Held", "Nutrients", "held"]

_FOOD_TABLE, _SALT, _COOKED = "N1", "N7", "N8"
"""Sources (docs/sources.md): USDA SR28; atomic weights; USDA retention factors, release 6."""
_SODIUM = NUTRIENTS.index("sodium_mg")
_GROWN = ORIGINS.index("grown")
UNITS = tuple(AMOUNTS[name] for name in NUTRIENTS)


class Nutrients:
    """Nutrients of a state's items and of the lots that its batches made."""

    def __init__(self, state: State) -> None:
        self.state, self.food, self.larder = state, state.once(FoodFigures), larder_of(state)
        self._in_one: dict[int, Figure] = {}
        self._made: dict[tuple[int, bool], Figure] = {}

    def in_one(self, n: int) -> Figure:
        """Return a nutrient in one whole unit of each item, NaN where it is not known; shape (items,)."""
        if n not in self._in_one:
            weight = self.food.sources.weight(np.arange(len(self.state.facts)))
            self._in_one[n] = (weight * self.in_gram(n)).called("in-one")
        return self._in_one[n]

    def in_gram(self, n: int) -> Figure:
        """Return a nutrient in a gram of each item as weighed, refuse left out; shape (items,)."""
        larder, unit = self.larder, f"{UNITS[n]} per g"
        table = published(
            lambda: larder.per_whole[:, n] / self.state.facts.grams,
            unit,
            lambda row: _SALT if n == _SODIUM and larder.is_salt[row] else _FOOD_TABLE,
        )
        contents = self.food.contents
        known = choose(contents.has_energy, contents.kcal, table) if n == 0 else table
        return known.called("in-a-gram", unit=unit)

    def made(self, n: int, *, own: bool = False) -> Figure:
        """Return a nutrient, or the grown part of it, in each lot that a batch made; shape (made lots,)."""
        if (n, own) not in self._made:
            made = self.food.web.rows.made_lots
            formula: list[Figure] = []  # worked out when a tree is opened

            def through(row: int) -> tuple[Figure, int]:
                if not formula:
                    formula.append(self._formula(n, own=own))
                return formula[0], row

            self._made[n, own] = solved(
                lambda: self.larder.carried(n, own=own)[made],
                lambda: np.zeros((), np.int8),
                UNITS[n],
                through,
            )
        return self._made[n, own]

    def of_lot(self, lot: Array, n: int, *, own: bool) -> Figure:
        """Return the same of some lots, each a line with its own address."""
        number, state = self.number(lot), self.state
        name = NUTRIENTS[n] + (".own" if own else "")
        return (
            Figure(
                lambda: self.made(n, own=own).at(number).values,
                UNITS[n],
                lambda row: self.made(n, own=own).at(number).opens(row),
            )
            .called(
                "lot",
                item=lambda row: self.food.item(int(lot[row])),
                day=lambda row: label_day(int(state.lots["day"][lot[row]])),
            )
            .folds(lambda row: (f"food/{state.lot_id(int(lot[row]))}", name))
        )

    def number(self, lot: Array) -> Array:
        """Return the number of each lot among those that batches made, -1 where none did."""
        numbers = self.food.web.rows.number_of_lot
        return np.where(lot >= 0, numbers[lot], -1) if numbers.size else np.full(lot.shape, -1)

    def _formula(self, n: int, *, own: bool) -> Figure:
        shares, web = self.food.shares, self.food.web
        part = (shares.part * self._pots(n, own=own).at(shares.row)).called(
            "passed", is_one_of=True
        )
        made = web.rows.made_lots
        return Groups(shares.made, made.size).sum(part, UNITS[n]).called(
            "lot",
            item=lambda row: self.food.item(int(made[row])),
            day=lambda row: label_day(int(self.state.lots["day"][made[row]])),
        )  # fmt: skip

    def _pots(self, n: int, *, own: bool) -> Figure:
        """Return what went into each batch: food by its own row, salt, and what other batches made."""
        web, larder, unit = self.food.web, self.larder, UNITS[n]
        raw, take = larder.raw_in, larder.made_in
        counted = ~np.isnan(larder.per_whole[self._item(raw), n])
        if own:
            counted &= web.origin[raw] == _GROWN
        kept = published(larder.kept_in[:, n], "0 to 1", _COOKED).called("kept-in-cooking")
        whole = self._taken(raw, n)
        each = choose(larder.kept_in[:, n] != 1, self._named(whole * kept, raw), whole)
        parts = [Groups(np.where(counted, web.row[raw], -1), web.count).sum(each, unit)]
        if n == _SODIUM and not own:
            parts.append(
                Groups(web.row[larder.salt_in], web.count).sum(self._taken(larder.salt_in, n), unit)
            )
        carried = self.food.sources.share_taken.at(take) * self.of_lot(web.lot[take], n, own=own)
        carried = self._named(carried, take)
        return total(*parts, Groups(web.row[take], web.count).sum(carried, unit)).called("pot")

    def _item(self, at: Array) -> Array:
        return np.asarray(self.state.lots["item"][self.food.web.lot[at]])

    def _taken(self, at: Array, n: int) -> Figure:
        taken = self.food.sources.taken.at(at).called("taken-amount")
        return self._named(taken * self.in_one(n).at(self._item(at)), at)

    def _named(self, figure: Figure, at: Array) -> Figure:
        """Return a figure of allocations under what they are of."""
        return figure.called(
            "taken", item=lambda row: self.food.item(int(self.food.web.lot[at[row]]))
        )


class Held:
    """Amounts of food, a row each, and what is in them.

    Parameters
    ----------
    items, lots : ndarray of int, shape (rows,)
        A lot below zero: none, the item counts by its own row.
    whole : Figure, shape (rows,)
        How much, in whole units.

    Attributes
    ----------
    grams : Figure
        Weight as it is kept; NaN where none is known.
    known : ndarray of float, shape (rows, nutrients)
        The part of its weight of which each nutrient is known, 0 to 1.
    """

    def __init__(self, state: State, items: Array, lots: Array, whole: Figure) -> None:
        self.state, self.items, self.lots, self.whole = state, items, lots, whole
        self.nutrients = state.once(Nutrients)
        self.grams = (whole * self.nutrients.food.sources.weight(items)).called(
            "grams-of-it", unit="g"
        )
        larder = larder_of(state)
        self.known = larder.known(items, lots)
        self._direct = larder.is_direct[items]
        self._made = ~self._direct & (lots >= 0)
        self._made[self._made] = larder.weighed[lots[self._made]] > 0
        self._of: dict[tuple[int, bool], Figure] = {}

    def some(self, rows: Array) -> Held:
        """Return some of the rows."""
        return Held(self.state, self.items[rows], self.lots[rows], self.whole.at(rows))

    @property
    def names(self) -> list[str]:
        """What each is of."""
        return [self.state.facts.names[item] for item in self.items.tolist()]

    def of(self, n: int, *, own: bool = False) -> Figure:
        """Return a nutrient, or the part of it that was grown here, of each; shape (rows,)."""
        if (n, own) not in self._of:
            self._of[n, own] = self._worked(n, own=own).called("held", **self._about(n))
        return self._of[n, own]

    def _worked(self, n: int, *, own: bool) -> Figure:
        kinds, whole = self.nutrients, self.whole
        plain = ~self._made & (self.known[:, n] > 0)
        if own:
            plain &= self._direct & self._grown
        made = np.where(self._made, self.lots, -1)
        share = (whole / kinds.food.sources.amount.at(made).called("the-lot")).called(
            "share-of-lot"
        )
        by_lot = share * kinds.of_lot(made, n, own=own)
        by_row = whole * kinds.in_one(n).at(self.items)
        return choose(self._made, by_lot, choose(plain, by_row, nothing(UNITS[n])))

    @property
    def _grown(self) -> Array:
        """Which were picked here, or are to be."""
        origin = self.state.lots["origin"]
        return (self.lots < 0) | (origin[self.lots] == _GROWN if origin.size else True)

    @cached_property
    def _round(self) -> list[float | None]:
        return [None if np.isnan(one) else round(one) for one in self.grams.values.tolist()]

    def _about(self, n: int) -> dict[str, Any]:
        known: list[float] = self.known[:, n].tolist()
        return {
            "name": lambda row: self.state.facts.names[int(self.items[row])],
            "n": lambda row: self._round[row],
            "known": lambda row: None if known[row] >= 1 else round(known[row] * 100),
        }

    def weight_known(self, n: int) -> Figure:
        """Return the grams of each of which a nutrient is known."""
        part = method(lambda: self.known[:, n], "0 to 1", "known-by-weight", [self.grams])
        return (self.grams * part.called("part-known", **self._about(n))).called(
            "weight-known", unit="g"
        )


def held(state: State) -> Held:
    """Return what is there of food and counts: a row a lot, salt left out; asked for once a state."""
    lots = larder_of(state).eatable
    left = state.once(FoodFigures).sources.left.at(lots).called("left-of-lot")
    left = left.folds(lambda row: (f"shelf/{state.lot_id(int(lots[row]))}", "left.whole"))
    return Held(state, state.lots["item"][lots], lots, left)
