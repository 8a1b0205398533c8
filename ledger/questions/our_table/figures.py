"""The formulas of our-table: each gives the column for all periods, and the tree for one."""

from __future__ import annotations

from ledger.figures import Figure, known_where, some_known, total
from ledger.messages import fixed
from ledger.questions.food import SIX
from ledger.questions.food.bases import UNITS
from ledger.questions.our_table.gather import Need, Table

__all__ = ["by_dish", "eaten", "figures", "from_bought_feed", "needed", "of_bought_feed"]


def by_dish(table: Table, basis: str, origin: str) -> Figure:
    """Return what was eaten of one origin, a row a dish of a period."""
    spans = table.served(basis, origin).called(
        "span", is_one_of=True, item=table.item_of_cell, span=table.span
    )
    spans = spans.folds(table.address_of_span(basis, origin, "amount"))
    dish = table.by_dish.sum(spans, UNITS[basis]).called("dish", item=table.item)
    return dish.folds(table.address_of_dish(basis, origin, "amount"))


def of_bought_feed(table: Table, basis: str) -> Figure:
    """Return what feed from elsewhere made of what was eaten, a row a dish of a period."""
    spans = table.from_bought_feed(basis).called(
        "span", is_one_of=True, item=table.item_of_cell, span=table.span
    )
    spans = spans.folds(table.address_of_span(basis, "grown", "bought_feed"))
    dish = table.by_dish.sum(spans, UNITS[basis]).called("dish", item=table.item)
    return dish.folds(table.address_of_dish(basis, "grown", "bought_feed"))


def eaten(table: Table, basis: str, origin: str) -> Figure:
    """Return what was eaten of one origin, a row a period."""
    every = table.by_period.sum(by_dish(table, basis, origin), UNITS[basis])
    return every.called("eaten", origin=lambda _: fixed(origin), **table.days)


def from_bought_feed(table: Table, basis: str) -> Figure:
    """Return what feed from elsewhere made of what was eaten, a row a period."""
    every = table.by_period.sum(of_bought_feed(table, basis), UNITS[basis])
    return every.called("bought-feed")


def needed(need: Need) -> Figure:
    """Return what the people at the table need, in kcal; a row a period."""
    daily = (need.people * need.each).called("a-day")
    stretch = (daily * need.days).called("stretch", **need.between)
    every = need.of_period.sum(stretch, "kcal").called("need")
    return known_where(need.is_set, every, "need-not-set", "kcal")


def figures(table: Table, basis: str) -> dict[str, dict[str, Figure]]:
    """Return every figure of our-table by a basis, by origin and the name of its column."""
    own = {origin: eaten(table, basis, origin) for origin in SIX}
    every = total(*(one.folds(table.address(basis, name)) for name, one in own.items()))
    every = every.called("all-eaten")
    made = None
    if table.has_fed:
        made = from_bought_feed(table, basis)
    out = {}
    for origin in SIX:
        amount = some_known(own[origin], "nothing-known")
        less = amount
        if origin == "grown":
            less = amount if made is None else (amount - made).called("adjusted")
            less = known_where(table.feed_known, less, "feed-not-known")
        out[origin] = {
            "amount": amount,
            "share_of_eaten": (amount / every).called(
                "share", origin=lambda _, one=origin: fixed(one)
            ),
            "feed_adjusted_share": (less / every).called("adjusted-share"),
        }
        if origin == "grown" and made is not None:
            out[origin]["bought_feed"] = made
        if basis == "energy":
            need = needed(table.need)
            out[origin]["share_of_need"] = (amount / need).called("share-of-need")
    return out
