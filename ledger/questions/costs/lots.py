"""What every lot cost, by component: raw lots, and batches at any depth (rules 8 to 10)."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import MORE, Array, Figure, Groups, choose, nothing, said, solved, total
from ledger.messages import Day
from ledger.questions.costs.charges import charges_of
from ledger.questions.costs.durables import DurableFigures
from ledger.questions.costs.garden import GardenFigures
from ledger.questions.costs.shares import Shares
from ledger.questions.costs.sources import Sources
from ledger.questions.telling import label_day
from ledger.replay import COMPONENTS, ORIGINS
from ledger.replay.tracing import carry_marks

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["CostFigures"]

_BATCH, _GROWN = ORIGINS.index("batch"), ORIGINS.index("grown")
_NOTHING = nothing("money")


class CostFigures:
    """What lots cost, a row a lot.

    Attributes
    ----------
    sources : Sources
    garden : GardenFigures
    durables : DurableFigures
    shares : Shares
        What the lots of a batch carry of it.
    of : dict of str to Figure
        One component of each lot's cost, in money.
    """

    def __init__(self, state: State) -> None:
        self.state, self.costs = state, state.costs
        self.sources = state.once(Sources)
        self.shares = Shares(state, self.sources)
        self.durables = DurableFigures(state, self.sources)
        self._into = state.costs.rows.of_draw[state.allocations[0]]
        self.of = {name: self._carried(code, name) for code, name in enumerate(COMPONENTS)}

    # -- raw lots -----------------------------------------------------------------------

    @cached_property
    def _outside(self) -> Figure:
        """What raw lots cost that did not grow here: as paid, or at the shop's price of the day."""
        lots, guessed, sources = self.state.lots, self.costs.guessed, self.sources
        item = lots["item"][guessed]
        price, ev, _ = self.costs.prices.of(item, lots["day"][guessed])
        name = sources.name_of(item)
        estimated = sources.amount.at(guessed) * sources.price(item, price, ev)
        place = _places(guessed, lots["ev"].size)
        paid = said(np.nan_to_num(lots["money"]), "money", lots["ev"])
        return choose(place >= 0, estimated.called("estimated", item=name).at(place), paid)

    @cached_property
    def garden(self) -> GardenFigures:
        """What harvests cost."""
        lots = self.state.lots
        outside = (lots["origin"] != _BATCH) & (lots["origin"] != _GROWN)
        bought = outside & (self.costs.component == COMPONENTS.index("bought_ingredients"))
        return GardenFigures(self.state, self.sources, choose(bought, self._outside, _NOTHING))

    @cached_property
    def _raw(self) -> Figure:
        lots = self.state.lots
        place = _places(self.costs.harvest_lots, lots["ev"].size)
        return choose(lots["origin"] == _GROWN, self.garden.cost.at(place), self._outside)

    @cached_property
    def bad(self) -> Figure:
        """What of each lot was discarded as seal failed, spoiled or broken, in whole units."""
        draw, lot, amount = self.state.allocations
        rows = self.state.went_bad
        item, unit_of = self.state.lots["item"], self.sources.whole_of
        each = said(amount[rows], unit_of(item[lot[rows]]), self.state.draws["ev"][draw[rows]])
        return Groups(lot[rows], item.size).sum(each, unit_of(item))

    # -- batches ------------------------------------------------------------------------

    def _carried(self, code: int, name: str) -> Figure:
        """Return a component of every lot: solved for all, and for one what its batch holds.

        A batch in a batch is one line, opened by its own address.
        """
        number = self.costs.rows.number_of_lot

        def through(lot: int) -> tuple[Figure, int]:
            if number[lot] >= 0:
                return self._made(name), int(number[lot])
            mine = self.costs.component[lot] == code
            return (self._raw if mine else _NOTHING), lot

        return solved(
            lambda: self.costs.lot[:, code],
            lambda: np.where(self._bounds & (1 << code), MORE, 0),
            "money",
            through,
        )

    def _made(self, name: str) -> Figure:
        """Return what each made lot carries of its rows."""
        if name not in self._made_of:
            part = self.shares.part * self._pots(name).at(self.shares.row)
            carried = Groups(self.shares.made, self.costs.rows.made_lots.size).sum(
                part.called("passed", is_one_of=True)
            )
            made = self.costs.rows.made_lots
            self._made_of[name] = carried.called(
                "lot",
                item=lambda at: self.item(int(made[at])),
                day=lambda at: self.day(int(made[at])),
            )
        return self._made_of[name]

    @cached_property
    def _made_of(self) -> dict[str, Figure]:
        return {}

    def _pots(self, name: str) -> Figure:
        """Return what each row holds: its own charges, and its parts of lots."""
        _, lot, _ = self.state.allocations
        source = (
            self.of[name]
            .at(lot)
            .called(
                "lot",
                item=lambda at: self.item(int(lot[at])),
                day=lambda at: self.day(int(lot[at])),
            )
            .folds(lambda at: self._address(int(lot[at]), name))
        )
        taken = (self.sources.share_taken * source).called(
            "taken", item=lambda at: self.item(int(lot[at]))
        )
        own = [groups.sum(charge) for groups, charge in self._charges.get(name, [])]
        into = Groups(self._into, self.costs.rows.count)
        return total(*own, into.sum(taken)).called("pot")

    @cached_property
    def _charges(self) -> dict[str, list[tuple[Groups, Figure]]]:
        return charges_of(self.state, self.sources, self.durables)

    @cached_property
    def _bounds(self) -> Array:
        """What components of each lot rest on something without a price: a bit set, shape (lots,)."""
        rows, lots = self.costs.rows, self.state.lots
        raw = np.where(self._raw.bound > 0, 1 << self.costs.component, 0)
        raw[lots["origin"] == _BATCH] = 0
        own = np.zeros(rows.count, np.int64)
        for code, name in enumerate(COMPONENTS):
            for groups, charge in self._charges.get(name, []):
                own[groups.sum(charge).bound > 0] |= 1 << code
        _, lot, _ = self.state.allocations
        taken = np.flatnonzero(self._into >= 0)
        into, lot = self._into[taken], lot[taken]
        np.bitwise_or.at(own, into, raw[lot])
        made = np.flatnonzero(rows.number_of_lot[lot] >= 0)
        marks = {row: int(own[row]) for row in np.flatnonzero(own).tolist()}
        takes = into[made], rows.number_of_lot[lot[made]]
        _, carried = carry_marks(rows.count, marks, takes, rows.gives[:2], rows.made_lots.size)
        raw[rows.made_lots] = carried
        return np.asarray(raw)

    def charge(self, name: str, number: int = 0) -> Figure:
        """Return what batches add of their own to a component, a row a charge."""
        return self._charges[name][number][1]

    @cached_property
    def before_labour(self) -> Figure:
        """What each lot cost, own time left out."""
        return total(*(self.of[name] for name in COMPONENTS if name != "labour"))

    # -- names --------------------------------------------------------------------------

    def item(self, lot: int) -> str:
        """Return the name of what a lot is of."""
        return self.state.facts.names[int(self.state.lots["item"][lot])]

    def day(self, lot: int) -> Day:
        """Return the day on which a lot came, for a label."""
        return label_day(int(self.state.lots["day"][lot]))

    def _address(self, lot: int, name: str) -> tuple[str, str] | None:
        is_made = self.costs.rows.number_of_lot[lot] >= 0
        return (f"lot/{self.state.lot_id(lot)}", f"cost.{name}") if is_made else None


def _places(rows: Array, count: int) -> Array:
    """Return where each of `count` rows stands among some, -1 where it does not."""
    out = np.full(count, -1, np.int64)
    out[rows] = np.arange(rows.size)
    return out
