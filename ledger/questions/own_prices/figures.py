"""The formulas of own prices: of each item bought and used in both periods, and of them together.

References
----------
Consumer Price Index Manual, ILO and others, 2004, chapter 1 (Laspeyres, Paasche, Fisher; from memory).
"""

from __future__ import annotations

from collections.abc import Callable

from ledger.figures import Figure, choose, if_known, known_where, work
from ledger.questions.own_prices.gather import HUNDRED, ROOT, Basket

__all__ = ["LEAST", "OwnPrices"]

LEAST = 0.7
"""Below this part of spending there is no headline."""


class OwnPrices:
    """Every figure of a basket.

    Attributes
    ----------
    of : dict of str to Figure
        Of each item, by the name of its column.
    all : dict of str to Figure
        Of them together, one row.
    """

    def __init__(self, basket: Basket, address: str) -> None:
        self._basket, self._address = basket, address
        (p0, p1), (q0, q1) = self._each("price"), self._each("quantity")
        cost = (p1 * q1).called("item", item=self._item)
        spent = basket.together.sum(cost, "money").called("spent")
        ratio = (p1 / p0).called("now-before", unit="times")
        self.of: dict[str, Figure] = {
            "change": (HUNDRED * ratio).called("change", unit="index"),
            "price_0": p0,
            "price_1": p1,
            "quantity_0": q0,
            "quantity_1": q1,
            "share": (cost.called("of-it") / basket.for_each(spent)).called("share"),
        }
        price = choose(basket.is_priced[1], p1, p0)
        every = basket.all_used.sum((price * q1).called("item", item=self._item), "money")
        share = (spent / every.called("all-used")).called("share")
        low = self._index((p1, q0), (p0, q0), "laspeyres")
        high = self._index((p1, q1), (p0, q1), "paasche")
        middle = work("power", (low * high).called("their-product", unit=""), ROOT)
        self.all: dict[str, Figure] = {
            "fisher": known_where(
                share.values >= LEAST,
                if_known(middle.called("fisher", unit="index"), "not-enough", "index"),
                "not-enough",
                "index",
            ),
            "laspeyres": low,
            "paasche": high,
            "share": share,
            "value_index": self._index((p1, q1), (p0, q0), "value_index"),
        }

    def _each(self, name: str) -> list[Figure]:
        """Return the mean price, or what was used, in both periods."""
        basket, out = self._basket, []
        for at, when in enumerate(("before", "now")):
            paid, amount = basket.money[at].called("paid"), basket.whole[at].called("amount")
            figure = paid / amount if name == "price" else basket.used[at]
            out.append(figure.called(f"{name}-{when}").folds(self._folded(f"{name}_{at}")))
        return out

    def _folded(self, column: str) -> Callable[[int], tuple[str, str]]:
        return lambda row: (f"own-prices/{self._address}/{self._item(row)}", column)

    def _index(
        self, above: tuple[Figure, Figure], below: tuple[Figure, Figure], name: str
    ) -> Figure:
        """Return what amounts cost at some prices by what amounts cost at others, in hundreds."""
        sums = [
            self._basket.together.sum((price * amount).called("item", item=self._item), "money")
            for price, amount in (above, below)
        ]
        ratio = sums[0].called("prices-now") / sums[1].called("prices-before")
        return (HUNDRED * ratio.called("now-before", unit="times")).called(name, unit="index")

    def _item(self, row: int) -> str:
        return self._basket.names[row]
