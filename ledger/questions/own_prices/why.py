"""Why an index of own-prices says so: what was paid, and what was used."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Node
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.own_prices.figures import OwnPrices
from ledger.questions.own_prices.gather import Basket, periods_of
from ledger.questions.shared.opening import no_record, opened

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

LABELS = {
    **COST_LABELS,
    "hundred": "prices-before",
    "now-before": "prices-now-before",
    "change": "prices-price-now-before-hundreds",
    "price-before": "prices-mean-price-before",
    "price-now": "prices-mean-price-now",
    "quantity-before": "why-used-before",
    "quantity-now": "why-used-now",
    "paid": "prices-paid-seen",
    "amount": "prices-said",
    "item": "why-item",
    "of-it": "prices-said-2",
    "spent": "prices-priced-both-periods",
    "all-used": "prices-all-used",
    "share": "prices-part-spending",
    "prices-now": "prices-prices-now",
    "prices-before": "prices-prices-before",
    "laspeyres": "prices-earlier-basket-laspeyres",
    "paasche": "prices-today-basket-paasche",
    "their-product": "prices-their-product",
    "root": "prices-root",
    "fisher": "prices-between-fisher",
    "not-enough": "prices-not-enough",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree down to what was paid.

    Parameters
    ----------
    key : str
        ``last-year/flour``, ``2025-2026/all``.
    field : str, optional
        A column of the answer; default: the change of a price, or the index between the two.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    address, _, name = key.partition("/")
    base, _, year = address.partition("-")
    if address == "last-year":
        base = year = ""
    elif not (base.isdigit() and year.isdigit()):
        raise no_record("own-prices", key)
    basket = Basket(state, *periods_of(state, year or None, base or None)[:2])
    known, row = OwnPrices(basket, address), 0
    figures = {name: one for name, one in known.all.items() if name != "value_index"}
    if name != "all":
        item = state.facts.find_strand(name)
        rows = [row for row in basket.rows.tolist() if basket.items[row] == item]
        if not rows:
            raise no_record("own-prices", key)
        figures, row = known.of, rows[0]
    figure = field or next(iter(figures))
    return opened(state, "own-prices", (figures, figure), row, LABELS, deep)
