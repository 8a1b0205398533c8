"""The figures of one thing in a comparison, as trees."""

from __future__ import annotations

from collections.abc import Callable

from ledger.messages import sentence
from ledger.messages.words import fixed
from ledger.projections.base import Compared, Node
from ledger.questions.compared.compare import Entry, Side, groups_of
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import why_command

__all__ = ["Change"]

_PRICES = {"price": "why-price", "net per hour": "why-net-per-hour"}
_FROM = {"price": "why-from-price", "net per hour": "why-from-net-per-hour"}
"""Labels by what value by amount is called (`Compared.price`)."""


class Change:
    """One thing then and now, and the figures that the comparison gives of it.

    Parameters
    ----------
    entry : Entry
    entries : list of Entry
        All that is compared; those of the entry's unit are split with it.
    names : (str, str)
        What then and now are called.
    how : Compared
    """

    def __init__(
        self, entry: Entry, entries: list[Entry], names: tuple[str, str], how: Compared
    ) -> None:
        self.entry, self.entries, self.how = entry, entries, how
        self.then, self.now = (entry.then, names[0]), (entry.now, names[1])

    def figures(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how each figure is worked out."""
        out: dict[str, Callable[[], Node]] = {
            "difference": self.change,
            "value_then": lambda: self.value(*self.then),
            "value_now": lambda: self.value(*self.now),
        }
        if self.entry.causes is None:
            return {**out, "not_split": self.change}
        return {
            **out,
            "not_split": lambda: Node(sentence("why-split-into-causes"), 0.0, "money"),
            "amount_then": lambda: self.amount(*self.then),
            "amount_now": lambda: self.amount(*self.now),
            "price_then": lambda: self.price(*self.then),
            "price_now": lambda: self.price(*self.now),
            "from_price": self.from_price,
            "from_amount": self.from_amount,
            "from_mix": self.from_mix,
        }

    def change(self) -> Node:
        """Return value now less value then."""
        return difference(
            sentence("why-change"), "money", self.value(*self.now), self.value(*self.then)
        )

    def value(self, side: Side, name: str) -> Node:
        """Return the value of a side, record by record, each with the address that opens it."""
        parts = [Node(why_command(where), float(money), "money") for where, money in side.addresses]
        return total(self._named(name), "money", *parts)

    def _named(self, name: str) -> str:
        return sentence("why-change-of", what=fixed(self.entry.what), side=name)

    def amount(self, side: Side, name: str) -> Node:
        """Return the amount of a side."""
        return Node(self._named(name), self.entry.amount(side), str(self.entry.unit))

    def price(self, side: Side, name: str) -> Node:
        """Return value by amount of a side; None where there is none of it."""
        label = sentence("why-change-of", what=sentence(_PRICES[self.how.price]), side=name)
        return quotient(label, "money per unit", self.value(side, name), self.amount(side, name))

    def from_price(self) -> Node:
        """Return amount now x (price now - price then)."""
        if not (self.entry.amount(self.entry.now) and self.entry.amount(self.entry.then)):
            return self._rounded(sentence("why-change-none-then-or-now"), "price", _nothing())
        change = difference(
            sentence("why-change-of-price"),
            "money per unit",
            self.price(*self.now),
            self.price(*self.then),
        )
        exact = product(
            sentence("why-amount-times-change"), "money", self.amount(*self.now), change
        )
        return self._rounded(sentence(_FROM[self.how.price]), "price", exact)

    def from_amount(self) -> Node:
        """Return (all now / all then - 1) x value then; all of it where there was nothing."""
        before, after = self._all("then", self.then[1]), self._all("now", self.now[1])
        if not before.value:
            label = sentence("why-all-but-price")
            return difference(label, "money", self.change(), self.from_price())
        if not self.entry.amount(self.entry.then):
            return self._rounded(sentence("why-change-none-then"), "amount", _nothing())
        by = quotient(sentence("why-all-now-by-then"), "", after, before)
        growth = difference(
            sentence("why-growth-of-all"), "", by, Node(sentence("why-as-before"), 1.0)
        )
        exact = product(sentence("why-growth-times-value"), "money", growth, self.value(*self.then))
        return self._rounded(sentence("why-from-amount"), "amount", exact)

    def from_mix(self) -> Node:
        """Return the rest."""
        split = total(
            sentence("why-price-and-amount"), "money", self.from_price(), self.from_amount()
        )
        return difference(sentence("why-from-mix"), "money", self.change(), split)

    def _all(self, which: str, name: str) -> Node:
        unit = str(self.entry.unit)
        parts = [
            Node(fixed(e.what), e.amount(getattr(e, which)), unit)
            for e in groups_of(self.entries)[unit]
        ]
        return total(sentence("why-all-of-them", side=name), unit, *parts)

    def _rounded(self, label: str, cause: str, exact: Node) -> Node:
        """Return a cause as it is given: exact, and the rounding to a millionth."""
        rounded = float(getattr(self.entry.causes, cause))
        rest = Node(sentence("why-rounded"), rounded - float(exact.value or 0.0), "money")
        return total(label, "money", exact, rest)


def _nothing() -> Node:
    return Node(sentence("why-nothing"), 0.0, "money")
