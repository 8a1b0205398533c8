"""What every lot is worth and has cost, and the line of the season that it belongs to."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, choose, said, unpriced
from ledger.kinds import METHODS
from ledger.questions.costs import CostFigures
from ledger.replay import COMPONENTS, ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LEFTOVER", "LINES", "LINE_OF", "SHOPPING", "Lots", "line_of_batches"]

LINES = (
    "garden", "animals", "foraged", "received", "preserving", "cooking",
    "sold", "given away", "lost", "kept too long",
)  # fmt: skip
"""The lines of the answer, in its order."""

LINE_OF = {name: code for code, name in enumerate(LINES)}
_ORIGIN = {name: code for code, name in enumerate(ORIGINS)}
_COOK = METHODS.index("cook")
_LABOUR = COMPONENTS.index("labour")
SHOPPING, LEFTOVER = -1, -2


class Lots:
    """What every lot is worth at the shop and has cost, and which line it belongs to.

    Attributes
    ----------
    line : ndarray of int, shape (lots,)
        Place in `LINES`; -1: bought, found or never written down; -2: leftovers of a meal.
    worth : ndarray of float, shape (lots,)
        Shop price of its day x amount (received: its value, where one was said); NaN: no price.
    cost : ndarray of float, shape (lots,)
        The components of `jar-cost` but labour.
    price_ev : ndarray of int, shape (lots,)
        Event that the price comes from; -1: none.
    later : ndarray of bool, shape (lots,)
        The price was first seen only after the lot's day.
    """

    def __init__(self, state: State) -> None:
        lots, facts = state.lots, state.facts
        self.state = state
        origin = lots["origin"]
        price, self.price_ev, self.later = state.costs.prices.of(lots["item"], lots["day"])
        self.worth = price * lots["whole"]
        self.cost = state.costs.lot[:, : len(COMPONENTS)].sum(axis=1)
        self.cost -= state.costs.lot[:, _LABOUR]
        given = origin == _ORIGIN["given"]
        said_value = given & ~np.isnan(lots["money"])
        self.worth[said_value] = lots["money"][said_value]
        self.price_ev[said_value], self.later[said_value] = -1, False
        self.animals = animals_of(state)
        line = np.full(origin.size, SHOPPING)
        grown = origin == _ORIGIN["grown"]
        line[grown] = LINE_OF["garden"]
        if len(facts):
            line[grown & self.animals[lots["item"]]] = LINE_OF["animals"]
        line[origin == _ORIGIN["foraged"]] = LINE_OF["foraged"]
        line[given] = LINE_OF["received"]
        batch = np.flatnonzero(origin == _ORIGIN["batch"])
        line[batch] = line_of_batches(state)[lots["ev"][batch]]
        line[~np.isnan(lots["share"])] = LEFTOVER
        self.line = line
        self.known = np.nan_to_num(self.worth)
        self._has_value = said_value

    @cached_property
    def at_shop(self) -> Figure:
        """What each lot costs at the shop; NaN where no price is known."""
        sources, lots = self.costs.sources, self.state.lots
        price = self.worth / np.maximum(lots["whole"], 1)
        shop = sources.amount * sources.shop_price(lots["item"], price, self.price_ev, self.later)
        return shop.called("at-shop", item=sources.name_of(lots["item"]))

    @cached_property
    def worth_of(self) -> Figure:
        """What each lot is worth; 0 or more where nobody knows."""
        lots = self.state.lots
        own = said(lots["money"], "money", lots["ev"])
        name = self.costs.sources.name_of(lots["item"])
        none = unpriced("money", name, self.line.size).called("unpriced", item=name)
        known = choose(self._has_value, own, self.at_shop)
        return choose(np.isnan(self.worth), none, known)

    @cached_property
    def cost_of(self) -> Figure:
        """What each lot cost, own time left out; what was made is one line with its address."""
        made = self.state.lots["origin"] == _ORIGIN["batch"]

        def address(lot: int) -> tuple[str, str] | None:
            return (f"lot/{self.state.lot_id(lot)}", "cost.before_labour") if made[lot] else None

        return self.costs.before_labour.called(
            "lot", item=self.costs.item, day=self.costs.day
        ).folds(address)

    @cached_property
    def costs(self) -> CostFigures:
        """What lots cost, as figures."""
        return self.state.once(CostFigures)


def animals_of(state: State) -> Array:
    """Return which items are animal products: those that some input `feeds`, shape (items,)."""
    out = np.zeros(max(len(state.facts), 1), bool)
    for fact in state.facts.facts:
        number = state.facts.find(fact.feeds)
        if number is not None:
            out[number] = True
    return out


def line_of_batches(state: State) -> Array:
    """Return the line of each event that is a batch: cooking or preserving; else -1."""
    table = state.journal.tables["batches"]
    out = np.full(len(state.journal), SHOPPING)
    out[table["ev"]] = np.where(table["method"] == _COOK, LINE_OF["cooking"], LINE_OF["preserving"])
    return out
