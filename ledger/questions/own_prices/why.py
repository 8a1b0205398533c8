"""Why an index of own-prices says so: what was paid, and what was used."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.messages import sentence
from ledger.projections.base import Node
from ledger.questions.shared.arithmetic import power, product, quotient, total
from ledger.questions.shared.basket import LEAST, Basket, basket_of, periods_of
from ledger.questions.shared.common import event_node, whole_unit
from ledger.questions.shared.opening import check_figure, no_record

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree down to what was paid.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    address, _, name = key.partition("/")
    base, _, year = address.partition("-")
    if address == "last-year":
        base = year = ""
    if address != "last-year" and not (base.isdigit() and year.isdigit()):
        raise no_record("own-prices", key)
    before, now, _ = periods_of(state, year or None, base or None)
    basket = basket_of(state, before, now)
    if name == "all":
        return _all(state, basket, field or "fisher")
    item = state.facts.find(name)
    if item is None or item not in basket.items:
        raise no_record("own-prices", key)
    prices = [_price(state, basket, item, n) for n in (0, 1)]
    trees = {
        "change": product(
            sentence("why-price-now-before-hundreds"),
            "index",
            Node(sentence("why-before-is"), 100.0, "index"),
            quotient(sentence("why-now-before"), "times", prices[1], prices[0]),
        ),
        "price_0": prices[0],
        "price_1": prices[1],
        "quantity_0": Node(
            sentence("why-used-before"), basket.used[0].get(item, 0.0), whole_unit(state, item)
        ),
        "quantity_1": Node(
            sentence("why-used-now"), basket.used[1].get(item, 0.0), whole_unit(state, item)
        ),
    }
    if field == "share":
        return _share(state, basket, item)
    figure = field or "change"
    check_figure("own-prices", figure, trees)
    return trees[figure]


def _price(state: State, basket: Basket, item: int, n: int) -> Node:
    points = basket.points[n][item]
    money = total(
        sentence("why-paid-seen"),
        "money",
        *(event_node(state, ev, "", m, "money") for m, _, ev in points),
    )
    whole = total(
        sentence("why-for-amount"),
        "whole units",
        *(event_node(state, ev, "", w, "whole units") for _, w, ev in points),
    )
    return quotient(
        sentence("why-mean-price-before") if n == 0 else sentence("why-mean-price-now"),
        "money a whole unit",
        money,
        whole,
    )


def _all(state: State, basket: Basket, figure: str) -> Node:
    trees = {name: _index(state, basket, n) for n, name in enumerate(("laspeyres", "paasche"))}
    both = product(sentence("why-their-product"), "", trees["laspeyres"], trees["paasche"])
    trees["fisher"] = power(
        sentence("why-between-fisher"), "index", both, Node(sentence("why-root"), 0.5, "")
    )
    if figure == "share":
        return _share(state, basket, None)
    check_figure("own-prices", figure, trees)
    if figure == "fisher" and (basket.share or 0.0) < LEAST:
        return Node(sentence("why-not-enough-say"), None, "index")
    return trees[figure]


def _share(state: State, basket: Basket, item: int | None) -> Node:
    """Return an item's part of what the priced items cost now; of all their part of everything used."""
    now, before = basket.prices[1], basket.prices[0]
    spent = [(i, basket.used[1].get(i, 0.0) * now[i]) for i in basket.items]
    mine = total(
        sentence("why-priced-both-periods"),
        "money",
        *(Node(state.facts.names[i], money, "money") for i, money in spent if money),
    )
    if item is not None:
        money = next(money for i, money in spent if i == item)
        return quotient(
            sentence("why-part-spending"),
            "0 to 1",
            Node(sentence("why-of-it"), money, "money"),
            mine,
        )
    every = [(i, q * now.get(i, before.get(i, 0.0))) for i, q in basket.used[1].items()]
    whole = total(
        sentence("why-all-used"),
        "money",
        *(Node(state.facts.names[i], money, "money") for i, money in every if money),
    )
    return quotient(sentence("why-part-spending"), "0 to 1", mine, whole)


def _index(state: State, basket: Basket, of: int) -> Node:
    """Return the index of the basket of one period: its quantities at both prices."""
    sums = []
    for n in (1, 0):
        parts = [
            product(
                state.facts.names[i],
                "money",
                _price(state, basket, i, n),
                Node(sentence("why-used"), basket.used[of].get(i, 0.0), "whole units"),
            )
            for i in basket.items
        ]
        sums.append(
            total(
                sentence("why-prices-now") if n else sentence("why-prices-before"), "money", *parts
            )
        )
    label = (
        sentence("why-earlier-basket-laspeyres")
        if of == 0
        else sentence("why-today-basket-paasche")
    )
    return product(
        label,
        "index",
        Node(sentence("why-before-is"), 100.0, "index"),
        quotient(sentence("why-now-before"), "times", sums[0], sums[1]),
    )
