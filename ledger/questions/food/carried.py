"""What batches and meals carry of what went into them: solved for all lots, a formula for one."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import EXACT, LESS, MORE, Array, Figure, Groups, solved, total
from ledger.questions.food.bases import BASES, CARRIED, SIX, UNITS

if TYPE_CHECKING:
    from ledger.questions.food.amounts import FoodFigures

__all__ = ["Made", "MadeFigure"]


class MadeFigure:
    """One figure that made lots carry.

    Parameters
    ----------
    food : FoodFigures
    name : str
        The figure to ask for in an address; empty: it has none.
    basis : str
    raw : callable
        Gives the group of each allocation of a raw lot that goes into a batch (its row, -1: not
        counted), and the figure of each.
    values, bounds : callable
        Give the column of all made lots.
    """

    def __init__(
        self,
        food: FoodFigures,
        name: str,
        basis: str,
        raw: Callable[[], tuple[Array, Figure]],
        values: Callable[[], Array],
        bounds: Callable[[], Array],
    ) -> None:
        self.food, self.name, self.basis, self._raw = food, name, basis, raw
        self.column = solved(values, bounds, UNITS[basis], lambda made: (self._formula, made))

    def of_lot(self, lot: Array) -> Figure:
        """Return the figure of each of some made lots, a line with its own address."""
        number = self.food.web.rows.number_of_lot[lot]
        return self.food.named(self.column.at(number), lot, self.basis, self.name)

    def of_row(self, row: Array) -> Figure:
        """Return the figure of some rows: what went in."""
        return self._pots.at(row)

    @cached_property
    def _pots(self) -> Figure:
        web, sources, unit = self.food.web, self.food.sources, UNITS[self.basis]
        group, each = self._raw()
        take = web.made_in
        carried = sources.share_taken.at(take) * self.of_lot(web.lot[take])
        carried = carried.called("taken", item=lambda at: self.food.item(int(web.lot[take[at]])))
        return total(
            Groups(group, web.count).sum(each, unit),
            Groups(web.row[take], web.count).sum(carried, unit),
        ).called("pot")

    @cached_property
    def _formula(self) -> Figure:
        """The same, a lot at a time: parts of rows."""
        shares, made = self.food.shares, self.food.web.rows.made_lots
        part = shares.part * self._pots.at(shares.row)
        each = part.called("passed", is_one_of=True)
        whole = Groups(shares.made, made.size).sum(each, UNITS[self.basis])
        return self.food.named(whole, made, self.basis)


class Made:
    """What made lots carry: by basis and origin, and what feed from elsewhere made of it.

    All that is not in `Costs` already is solved at once.
    """

    def __init__(self, food: FoodFigures) -> None:
        self.food, self.web = food, food.web
        self._of: dict[tuple[str, str], MadeFigure] = {}

    def of(self, basis: str, origin: str) -> MadeFigure:
        """Return what made lots carry by a basis of one origin."""
        key = basis, origin
        if key not in self._of:
            o = SIX.index(origin)
            costs, made = self.food.state.costs, self.web.rows.made_lots
            self._of[key] = MadeFigure(
                self.food,
                f"{basis}.{origin}",
                basis,
                lambda: (self._rows(self.food.inner.origin == o), self.food.inner.of_raw(basis)),
                lambda: costs.lot[made, CARRIED[basis] + o],
                lambda: self._bounds(basis, o),
            )
        return self._of[key]

    def from_place(self, basis: str, place: int) -> MadeFigure:
        """Return what made lots carry by a basis of what came in at one place."""
        inner, one = self.food.inner, self.food.places.every[place]
        mine = self.food.places.of_lot[self.web.lot[inner.raw_at]] == place
        each = inner.of_raw(basis)

        def carried(figures: Array) -> Array:
            own = np.bincount(self.web.row[inner.raw_at[mine]], figures[mine], self.web.count)
            return np.asarray(self.web.carried(own[:, None])[1][:, 0])

        def bounds() -> Array:
            marked = np.broadcast_to(each.bound > 0, inner.raw_at.shape)
            return np.where(carried(marked.astype(np.float64)) > 0, MORE, 0)

        return MadeFigure(
            self.food,
            f"{basis}.{one.origin}.{one.name}",
            basis,
            lambda: (self._rows(mine), each),
            lambda: carried(each.values),
            bounds,
        )

    @cached_property
    def bought_feed(self) -> dict[str, MadeFigure]:
        """What feed from elsewhere made of what made lots carry, by basis."""
        return {basis: self._of_feed(basis) for basis in BASES}

    def _of_feed(self, basis: str) -> MadeFigure:
        return MadeFigure(
            self.food,
            f"{basis}.bought_feed",
            basis,
            lambda: self._feed(basis),
            lambda: self._fed.get((basis, EXACT), self._zero),
            lambda: self._bits(basis),
        )

    def _rows(self, some: Array) -> Array:
        return np.where(some, self.web.row[self.web.raw_in], -1)

    def _feed(self, basis: str) -> tuple[Array, Figure]:
        some, each = self.food.fed_elsewhere(self.food.inner, basis)
        return self.web.row[self.food.inner.raw_at[some]], each

    # -- what is solved -------------------------------------------------------------------

    @property
    def _zero(self) -> Array:
        return np.zeros(self.web.rows.made_lots.size)

    def _bounds(self, basis: str, origin: int) -> Array:
        found = self._marked.get((basis, origin))
        return np.zeros((), np.int8) if found is None else np.where(found > 0, MORE, 0)

    def _bits(self, basis: str) -> Array:
        """Return the bounds of what feed from elsewhere made: of the feed both may hold."""
        out = np.zeros((), np.int8)
        for bit in (MORE, LESS):
            found = self._fed.get((basis, bit))
            out = out if found is None else out | np.where(found > 0, bit, 0)
        return out

    @cached_property
    def _marked(self) -> dict[tuple[str, int], Array]:
        """Columns of made lots by basis and origin: above 0 where something is not known."""
        inner, web = self.food.inner, self.web
        own: dict[tuple[str, int], Array] = {}
        for basis in BASES:
            marked = np.broadcast_to(inner.of_raw(basis).bound > 0, inner.raw_at.shape)
            for o in np.unique(inner.origin[marked]).tolist():
                rows = web.row[inner.raw_at[marked & (inner.origin == o)]]
                own[basis, o] = np.bincount(rows, minlength=web.count).astype(np.float64)
        return self._carried(own)

    @cached_property
    def _fed(self) -> dict[tuple[str, int], Array]:
        """Columns of made lots: by basis and `EXACT` what feed from elsewhere made, by its bits where it is bounded.

        Solved after `_marked`, as animals may be fed what was made: its bounds are among the feed's.
        """
        own: dict[tuple[str, int], Array] = {}
        for basis in BASES:
            rows, each = self._feed(basis)
            if not rows.size:
                continue
            own[basis, EXACT] = np.bincount(rows, each.values, self.web.count)
            marks = np.broadcast_to(each.bound, each.values.shape)
            for bit in (MORE, LESS):
                counted = np.bincount(rows[(marks & bit) > 0], minlength=self.web.count)
                if counted.any():
                    own[basis, bit] = counted.astype(np.float64)
        return self._carried(own)

    def _carried(self, own: dict[tuple[str, int], Array]) -> dict[tuple[str, int], Array]:
        """Return columns of rows as made lots carry them, all in one solve."""
        if not own:
            return {}
        _, made = self.web.carried(np.stack(list(own.values()), axis=1))
        return dict(zip(own, made.T, strict=True))
