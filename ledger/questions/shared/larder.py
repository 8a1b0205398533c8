"""What is in food: nutrients of every lot, by its own row of the table or by what went into it.

An item with a row of the food table counts by that row, preserved food by its own and no factor. What
a batch made of others carries what went in, raw vegetables less what cooking takes where the method
cooks. Beside each figure goes the weight that it is known of, as a blank cell is not known.
"""

from __future__ import annotations

from dataclasses import dataclass
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

__all__ = ["FOOD", "Larder", "Portion", "larder_of"]

FOOD = SORTS.index("food")
_COOKS = np.array([method in ("boiling water", "pressure", "cook") for method in METHODS])
_SALT = "02047"
_N = len(NUTRIENTS)
_SODIUM = NUTRIENTS.index("sodium_mg")


@dataclass(frozen=True)
class Portion:
    """An amount of food and what is in it.

    Attributes
    ----------
    item, lot : int
    grams : float
        As it is kept; NaN where no weight is known.
    nutrients : ndarray of float, shape (nutrients,)
    own : ndarray of float, shape (nutrients,)
        The part that was grown here.
    known : ndarray of float, shape (nutrients,)
        The part of its weight of which each nutrient is known, 0 to 1.
    """

    item: int
    lot: int
    grams: float
    nutrients: Array
    own: Array
    known: Array


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
    def _carried(self) -> Array:
        """What made lots carry: nutrients, the grown part, grams known by nutrient, grams; a lot each."""
        web, state = self.web, self.state
        width = 3 * _N + 1
        lots = np.zeros((state.lots["ev"].size, width))
        if not web.count:
            return lots
        item = state.lots["item"][web.lot]
        into = np.flatnonzero((web.row >= 0) & self.is_food[item] & ~self.is_salt[item])
        salt = np.flatnonzero((web.row >= 0) & self.is_salt[item])
        direct = ~web.made | self.is_direct[item]
        own = np.zeros((web.count, width))
        raw = into[direct[into]]
        values = self._raw(raw)
        np.add.at(own, web.row[raw], values)
        salted = np.zeros((salt.size, width))
        salted[:, _SODIUM] = self.per_whole[item[salt], _SODIUM] * web.amount[salt]
        np.add.at(own, web.row[salt], salted)
        take = into[~direct[into]]
        takes = web.row[take], web.rows.number_of_lot[web.lot[take]], web.share[take]
        made = solve(own, takes, web.rows.gives, web.rows.made_lots.size).lots
        lots[web.rows.made_lots] = made
        return lots

    def _raw(self, at: Array) -> Array:
        """Return what allocations of lots with a row of their own bring into a batch."""
        web, state = self.web, self.state
        lot, amount = web.lot[at], web.amount[at]
        item = state.lots["item"][lot]
        per = self.per_whole[item]
        keeps = np.ones((len(state.facts), _N))
        for one in self.factor:
            keeps[one] = self.cooked(one)
        cooks = self._cooks(web.draw[at])
        values = np.nan_to_num(per) * amount[:, None]
        values = np.where(cooks[:, None], values * keeps[item], values)
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

    def portion(self, lot: int, whole: float) -> Portion:
        """Return what an amount of a lot, in whole units, holds."""
        state = self.state
        item = int(state.lots["item"][lot])
        grams = float(state.facts.grams[item]) * whole
        if self.is_direct[item]:
            per = self.per_whole[item]
            values = np.nan_to_num(per) * whole
            grown = int(state.lots["origin"][lot]) == ORIGINS.index("grown")
            return Portion(item, lot, grams, values, values * grown, (~np.isnan(per)).astype(float))
        carried = self._carried[lot]
        share = whole / float(state.lots["whole"][lot]) if state.lots["whole"][lot] else 0.0
        values, own = carried[:_N] * share, carried[_N : 2 * _N] * share
        all_grams = carried[-1]
        known = carried[2 * _N : 3 * _N] / all_grams if all_grams > 0 else np.zeros(_N)
        if not all_grams:  # nothing is known of what went in: its own energy, if it has one
            values, known = self._energy_alone(item, whole)
            own = values * 0.0
        return Portion(item, lot, grams, values, own, np.minimum(known, 1.0))

    def _energy_alone(self, item: int, whole: float) -> tuple[Array, Array]:
        facts = self.state.facts
        values, known = np.zeros(_N), np.zeros(_N)
        per, kcal = facts.grams_per_whole(item), facts.kcal_per_gram(item)
        if per is not None and kcal is not None:
            values[0], known[0] = per * kcal * whole, 1.0
        return values, known

    # -- what is there --------------------------------------------------------------------

    @cached_property
    def there(self) -> Array:
        """Lots of food with something left that may be counted, shape (lots there,)."""
        return np.array([lot for lot in self._left if not self.left_out(lot)], np.int64)

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

    @cached_property
    def portions(self) -> list[Portion]:
        """What is there and counts, a portion a lot; salt left out, as a box of it is not eaten up."""
        left = self.state.left
        salt = self.is_salt[self.state.lots["item"]]
        return [self.portion(int(lot), float(left[lot])) for lot in self.there if not salt[lot]]
