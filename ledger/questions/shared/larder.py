"""What is in food: nutrients of every lot, by its own row of the table or by what went into it.

An item with a row of the food table counts by that row, preserved food by its own and no factor. What
a batch made of others carries what went in, raw vegetables less what cooking takes where the method
cooks. Beside each figure goes the weight that it is known of, as a blank cell is not known.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.kinds import METHODS
from ledger.questions.food.web import Web
from ledger.reference import cooking, foods, nutrients
from ledger.reference.needs import NUTRIENTS
from ledger.replay import ORIGINS
from ledger.replay.columns import Array
from ledger.replay.facts import SORTS
from ledger.replay.tracing import solve

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["FOOD", "Larder", "larder_of"]

FOOD = SORTS.index("food")
_COOKS = np.array([method in ("boiling water", "pressure", "cook") for method in METHODS])
_SALT = "02047"
_N = len(NUTRIENTS)
_SODIUM = NUTRIENTS.index("sodium_mg")


def larder_of(state: State) -> Larder:
    """Return the larder of a state, worked out once and kept with it."""
    return state.once(Larder)


class Larder:
    """Nutrients of a state's items and lots.

    Attributes
    ----------
    per_whole : ndarray of float, shape (items, nutrients)
        In one whole unit by the item's own row; NaN where it has none, or the cell is blank.
    is_direct : ndarray of bool, shape (items,)
        Whether an item counts by its own row.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        facts = state.facts
        count = len(facts)
        self.per_whole = np.full((count, _N), np.nan)
        self.is_direct = np.zeros(count, bool)
        self.is_salt = np.zeros(count, bool)
        self.is_food = facts.sort == FOOD
        self.unenriched: set[int] = set()
        self.factor: dict[int, cooking.Kept] = {}
        enriched = (state.settings.newest("flour_enriched") or "").lower() == "yes"
        for item in range(count):
            if self.is_food[item]:
                self._item(item, enriched=enriched)

    def _item(self, item: int, *, enriched: bool) -> None:
        facts, said = self.state.facts, self.state.facts.facts[item]
        per = facts.grams_per_whole(item)
        food = None if said.food is None else said.food.zfill(5)
        self.is_salt[item] = food == _SALT
        if food is not None and food in nutrients.UNENRICHED and not enriched:
            self.unenriched.add(item)
            food = nutrients.UNENRICHED[food]
        row = None if food is None else nutrients.by_id(food)
        if row is None or per is None:
            return
        table = foods.by_id(said.food or "")
        edible = 1.0 if table is None else 1 - float(table.refuse_pct) / 100
        self.is_direct[item] = True
        for n, name in enumerate(NUTRIENTS):
            value = row.per_100g[name]
            if value is not None:
                self.per_whole[item, n] = per * edible * value / 100
        kcal = facts.kcal_per_gram(item)
        if kcal is not None:
            self.per_whole[item, 0] = per * kcal
        if self.is_salt[item]:
            self.per_whole[item, _SODIUM] = per * nutrients.SALT_SODIUM_MG
        if table is not None:
            kept = cooking.factor(table.description, table.group)
            if kept is not None:
                self.factor[item] = kept

    def cooked(self, item: int) -> Array:
        """Return which part of each nutrient of an item cooking keeps, shape (nutrients,)."""
        out = np.ones(_N)
        kept = self.factor.get(item)
        if kept is not None:
            for n, name in enumerate(NUTRIENTS):
                share = kept.share.get(name)
                if share is not None:
                    out[n] = share
        return out

    @cached_property
    def web(self) -> Web:
        """Which batch took what of which lot."""
        return self.state.once(Web)

    @cached_property
    def raw_in(self) -> Array:
        """Allocations of food with a row of its own that go into batches and meals, salt left out."""
        into, direct = self._into
        return into[direct[into]]

    @cached_property
    def salt_in(self) -> Array:
        """Allocations of salt that go into batches and meals."""
        item = self.state.lots["item"][self.web.lot]
        return np.flatnonzero((self.web.row >= 0) & self.is_salt[item])

    @cached_property
    def made_in(self) -> Array:
        """Allocations of made lots that go into batches and meals, and count by what went into them."""
        into, direct = self._into
        return into[~direct[into]]

    @cached_property
    def _into(self) -> tuple[Array, Array]:
        web = self.web
        item = self.state.lots["item"][web.lot]
        into = np.flatnonzero((web.row >= 0) & self.is_food[item] & ~self.is_salt[item])
        return into, ~web.made | self.is_direct[item]

    @cached_property
    def kept_in(self) -> Array:
        """Which part of each nutrient of `raw_in` is kept, 0 to 1, shape (raw, nutrients)."""
        web = self.web
        keeps = np.ones((len(self.state.facts), _N))
        for one in self.factor:
            keeps[one] = self.cooked(one)
        item = self.state.lots["item"][web.lot[self.raw_in]]
        return np.where(self._cooks(web.draw[self.raw_in])[:, None], keeps[item], 1.0)

    @cached_property
    def _carried(self) -> Array:
        """What made lots carry: nutrients, the grown part, grams known by nutrient, grams; a lot each."""
        web, state = self.web, self.state
        width = 3 * _N + 1
        lots = np.zeros((state.lots["ev"].size, width))
        if not web.count:
            return lots
        own = np.zeros((web.count, width))
        np.add.at(own, web.row[self.raw_in], self._raw())
        salt, take = self.salt_in, self.made_in
        salted = np.zeros((salt.size, width))
        item = state.lots["item"][web.lot[salt]]
        salted[:, _SODIUM] = self.per_whole[item, _SODIUM] * web.amount[salt]
        np.add.at(own, web.row[salt], salted)
        takes = web.row[take], web.rows.number_of_lot[web.lot[take]], web.share[take]
        made = solve(own, takes, web.rows.gives, web.rows.made_lots.size).lots
        lots[web.rows.made_lots] = made
        return lots

    def carried(self, n: int, *, own: bool = False) -> Array:
        """Return what each lot that a batch made carries of a nutrient, or of the grown part of it."""
        return self._carried[:, n + (_N if own else 0)]

    @property
    def weighed(self) -> Array:
        """Grams of what went into each lot that a batch made, shape (lots,)."""
        return self._carried[:, -1]

    def known(self, item: Array, lot: Array) -> Array:
        """Return the part of its weight of which each nutrient is known, shape (rows, nutrients).

        Parameters
        ----------
        item, lot : ndarray of int, shape (rows,)
            The lot counts where the item has no row of its own; below zero: none.
        """
        direct = self.is_direct[item]
        known = np.where(direct[:, None], ~np.isnan(self.per_whole[item]), 0.0)
        made = ~direct & (lot >= 0)
        made[made] = self.weighed[lot[made]] > 0
        carried = self._carried[lot[made]]
        known[made] = np.minimum(carried[:, 2 * _N : 3 * _N] / carried[:, -1:], 1.0)
        # nothing is known of what went in: its own energy, if it has one
        known[~direct & ~made, 0] = [
            self._has_energy(one) for one in item[~direct & ~made].tolist()
        ]
        return known

    def _has_energy(self, item: int) -> bool:
        facts = self.state.facts
        return facts.grams_per_whole(item) is not None and facts.kcal_per_gram(item) is not None

    def _raw(self) -> Array:
        """Return what allocations of food with a row of its own bring into a batch."""
        web, state, at = self.web, self.state, self.raw_in
        lot, amount = web.lot[at], web.amount[at]
        item = state.lots["item"][lot]
        per = self.per_whole[item]
        values = np.nan_to_num(per) * amount[:, None] * self.kept_in
        grams = np.nan_to_num(state.facts.grams[item]) * amount
        known = np.where(np.isnan(per), 0.0, grams[:, None])
        grown = (web.origin[at] == ORIGINS.index("grown"))[:, None] * values
        return np.hstack([values, grown, known, grams[:, None]])

    def _cooks(self, draws: Array) -> Array:
        """Return whether each draw goes into a batch whose method cooks, shape (draws,)."""
        batches = self.state.journal.tables["batches"]
        method = np.full(len(self.state.journal), -1, np.int64)
        method[batches["ev"][:]] = batches["method"][:]
        code = method[self.state.draws["ev"][draws]]
        return np.asarray((code >= 0) & _COOKS[np.maximum(code, 0)])

    # -- what is there --------------------------------------------------------------------

    @cached_property
    def there(self) -> Array:
        """Lots of food with something left that may be counted, shape (lots there,)."""
        return np.array([lot for lot in self._left if not self.left_out(lot)], np.int64)

    @cached_property
    def eatable(self) -> Array:
        """The same without salt, as a box of it is not eaten up, shape (lots,)."""
        there = self.there
        return there[~self.is_salt[self.state.lots["item"][there]]]

    @cached_property
    def _left(self) -> list[int]:
        from ledger.questions.shared.common import listed_lots

        lots = listed_lots(self.state)
        return [int(lot) for lot in lots if self.is_food[self.state.lots["item"][lot]]]

    def left_out(self, lot: int) -> str | None:
        """Return why a lot does not count as food at hand: a mark, or a date that is past."""
        from ledger.questions.shared.use_by import is_marked, use_by_of

        if is_marked(self.state, lot):
            return "marked"
        day, _ = use_by_of(self.state, lot)
        return "past its date" if day is not None and day < self.state.as_of_day else None

    @cached_property
    def not_counted(self) -> dict[str, list[int]]:
        """Lots there that do not count, by why."""
        out: dict[str, list[int]] = {}
        for lot in self._left:
            reason = self.left_out(lot)
            if reason is not None:
                out.setdefault(reason, []).append(lot)
        return out
