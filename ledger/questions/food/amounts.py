"""Food of one state, as figures: of lots, of what was taken of them, and of the feed behind it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import MORE, Array, Figure, assumed, choose
from ledger.questions.costs.shares import Shares
from ledger.questions.costs.sources import Sources
from ledger.questions.food.bases import SIX
from ledger.questions.food.carried import Made
from ledger.questions.food.contents import Contents
from ledger.questions.food.eaten import Eaten
from ledger.questions.food.feed import Feed
from ledger.questions.food.places import Places
from ledger.questions.food.portions import Portions
from ledger.questions.telling import label_day

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["FoodFigures"]


class FoodFigures:
    """Figures of food, asked for with ``state.once(FoodFigures)``.

    Attributes
    ----------
    sources : Sources
    contents : Contents
        Weight and energy of each item.
    eaten : Eaten
        What was on the table.
    made : Made
        What made lots carry.
    """

    def __init__(self, state: State) -> None:
        self.state, self.sources = state, state.once(Sources)
        self.eaten = state.once(Eaten)
        self.web = self.eaten.web
        self.contents = state.once(Contents)
        self.made = Made(self)

    @cached_property
    def shares(self) -> Shares:
        """What the lots of a batch carry of it."""
        return Shares(self.state, self.sources)

    @cached_property
    def of_raw(self) -> dict[str, Figure]:
        """Weight and energy of each raw lot; of made ones it says nothing. Shape (lots,)."""
        item = self.state.lots["item"]
        weight = (self.sources.amount * self.contents.grams.at(item)).called("grams")
        energy = weight * self.contents.kcal.at(item)
        known = self.contents.has_energy[item]
        return {"weight": weight, "energy": choose(known, energy, self.contents.no_energy.at(item))}

    @cached_property
    def inner(self) -> Portions:
        """What of raw lots goes into batches and meals that left something."""
        return Portions(self, self.web.raw_in, label="taken")

    @cached_property
    def on_table(self) -> Portions:
        """What was eaten, the household's part of it."""
        return Portions(self, self.eaten.at, self.eaten.home.at(self.eaten.ev), "eaten-portion")

    @cached_property
    def places(self) -> Places:
        """Where food came in."""
        return Places(self)

    # -- feed -------------------------------------------------------------------------------

    @cached_property
    def feed(self) -> Feed:
        """What the animals were given."""
        return Feed(self)

    def fed_elsewhere(self, portions: Portions, basis: str) -> tuple[Array, Figure]:
        """Return what feed from elsewhere made of portions of raw lots.

        Returns
        -------
        some : ndarray of int64, shape (fed,)
            Portions of our own animal products, of seasons of which the feed is known.
        each : Figure, shape (fed,)
        """
        season = self.feed.season_of_lot[portions.raw_lot]
        some = np.flatnonzero(season >= 0)
        each = portions.of_raw(basis).at(some) * self.feed.from_elsewhere.at(season[some])
        lot = portions.raw_lot[some]
        return some, each.called("by-feed", item=lambda row: self.item(int(lot[row])))

    # -- prices and names ---------------------------------------------------------------------

    def price_of(self, item: Array, price: Array, ev: Array, later: Array) -> Figure:
        """Return the shop's money per whole unit, 0 where no price is known: of food that is less than it is.

        Parameters
        ----------
        item, ev : ndarray of int, shape (rows,)
        price : ndarray of float, shape (rows,)
        later : ndarray of bool, shape (rows,)
        """
        known = self.sources.shop_price(item, price, ev, later)
        name = self.sources.name_of(item)
        bound = np.where(self.contents.is_food[item], MORE, 0)
        none = assumed(
            np.zeros(item.size), known.unit_of, lambda row: f"no price:{name(row)}", bound
        )
        return choose(ev >= 0, known, none.called("no-price-of", item=name))

    def item(self, lot: int) -> str:
        """Return the name of what a lot is of."""
        return self.state.facts.names[int(self.state.lots["item"][lot])]

    def named(self, figure: Figure, lot: Array, basis: str, name: str | None = None) -> Figure:
        """Return a figure of lots under their names, each a line with its address.

        Parameters
        ----------
        figure : Figure, shape (rows,)
        lot : ndarray of int64, shape (rows,)
        basis : str
        name : str, optional
            The figure to ask for; default: by the origin of each.
        """
        state = self.state

        def address(row: int) -> tuple[str, str] | None:
            number = int(lot[row])
            came = int(state.lots["came"][number])
            asked = name if name is not None or came >= len(SIX) else f"{basis}.{SIX[came]}"
            return (f"food/{state.lot_id(number)}", asked) if asked else None

        return figure.called(
            "lot",
            item=lambda row: self.item(int(lot[row])),
            day=lambda row: label_day(int(state.lots["day"][lot[row]])),
        ).folds(address)
