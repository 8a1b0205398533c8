"""Why a pay-back says so: what was paid, and what each use earned."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.messages import Day, sentence
from ledger.projections.base import Node
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import event_node
from ledger.questions.shared.opening import check_figure
from ledger.questions.worth_it.durables import WEAR, Durable, durables_of
from ledger.questions.worth_it.earned import Use
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]


def why(state: State, item: str, field: str | None) -> Node:
    """Return a figure of ``--durables`` as a tree.

    Raises
    ------
    NotFound
        When no such thing that lasts was bought, or there is no such figure.
    """
    number = state.facts.find(item)
    one = next((one for one in durables_of(state) if one.item == number), None)
    if one is None:
        raise NotFound(
            "address",
            f"nothing that lasts was bought as {item!r}",
            "Take an address from `croftbook show worth-it --durables --json`",
        )
    name, known = field or "earned", _Tree(state, one).figures()
    check_figure("worth-it", name, known)
    return known[name]()


class _Tree:
    def __init__(self, state: State, one: Durable) -> None:
        self.state, self.one = state, one

    def figures(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how each figure is worked out."""
        one = self.one
        return {
            "paid": self.paid,
            "pieces": self.pieces,
            "uses": lambda: total(sentence("why-uses"), "times", *(self._leaf(u, u.times, "times") for u in one.uses)),
            "earned": self.earned,
            "share_back": lambda: quotient(sentence("why-earned-paid"), "share", self.earned(), self.paid()),
            "earned_per_year": self.rate,
            "yearly_cost": self.yearly,
            "gain_per_year": lambda: difference(sentence("why-gain-year"), "money per year", self.rate(), self.yearly()),
            "payback_years": self.payback,
            "charged": self.charged,
            "worn_by_age": self.worn,
            "life_years": lambda: Node(sentence("why-household-says") if one.said else sentence("why-nobody-said"), one.years, "years"),
        }  # fmt: skip

    def _leaf(self, use: Use, value: float, unit: str) -> Node:
        return event_node(self.state, use.ev, "", value, unit)

    def _purchases(self) -> list[tuple[int, float, float]]:
        durables = self.state.costs.durables
        rows = durables.rows(self.one.item, self.state.as_of_day)
        columns = (durables.ev[rows], durables.paid[rows], durables.pieces[rows])
        return list(zip(*(column.tolist() for column in columns), strict=True))

    def paid(self) -> Node:
        """Return what was paid, purchase by purchase."""
        bought = [(ev, paid) for ev, paid, _ in self._purchases()]
        parts = [event_node(self.state, ev, "", paid, "money") for ev, paid in bought]
        if abs(sum(paid for _, paid in bought) - self.one.paid) > 1e-9:
            # Only those purchases of a garden input that last.
            parts = [Node(sentence("why-paid-for-those-that-last"), self.one.paid, "money")]
        return total(sentence("why-note-paid"), "money", *parts)

    def pieces(self) -> Node:
        """Return how many were bought."""
        parts = [
            event_node(self.state, ev, "", pieces, "pieces") for ev, _, pieces in self._purchases()
        ]
        return total(sentence("why-pieces"), "pieces", *parts)

    def earned(self) -> Node:
        """Return what its uses earned, each its part of a gain."""
        if self.one.earned is None:
            return Node(sentence("why-served-unknown"), None, "money")
        parts = [
            product(
                sentence("why-used-on", day=Day(day_text(use.day))), "money",
                self._leaf(use, use.gain, "money"), Node(sentence("why-part-wear"), use.share, "0 to 1"),
            )
            for use in self.one.uses
        ]  # fmt: skip
        return total(sentence("why-earned"), "money", *parts)

    def rate(self) -> Node:
        """Return what it earns a year."""
        rate = self.one.rate()
        if rate is None:
            return Node(sentence("why-served-unknown"), None, "money per year")
        whole = self.one.years_to(self.one.today)[0]
        flows = self.one.flows()[: max(whole, 1)]
        parts = [
            Node(sentence("why-nth-year", n=i), flow, "money")
            for i, flow in enumerate(flows, start=1)
        ]
        years = Node(sentence("why-whole-years-bought"), float(len(flows)), "years")
        return quotient(
            sentence("why-earned-year"),
            "money per year",
            total(sentence("why-these-years"), "money", *parts),
            years,
        )

    def yearly(self) -> Node:
        """Return what it costs a year: its price times the capital recovery factor."""
        one = self.one
        factor = Node(
            sentence("why-capital-recovery-factor", n=one.interest * 100, n2=one.years),
            one.yearly_cost / one.paid if one.paid else 0.0,
            "per year",
        )
        return product(sentence("why-cost-year"), "money per year", self.paid(), factor)

    def payback(self) -> Node:
        """Return the years to pay-back: those gone and those to come, or the flows so far."""
        one, years = self.one, self.one.payback_years()
        if years is None:
            return Node(sentence("why-never-rate"), None, "years")
        if one.paid_back_on() is not None:
            label = sentence("why-earned-its-price-on", day=Day(day_text(one.paid_back_on() or 0)))
            return total(label, "years", Node(sentence("why-years-buying-then"), years, "years"))
        gone = Node(sentence("why-years-since-bought"), one.years_to(one.today)[1], "years")
        left = difference(sentence("why-still-earn"), "money", self.paid(), self.earned())
        return total(
            sentence("why-pay-back"),
            "years",
            gone,
            quotient(sentence("why-years-come"), "years", left, self.rate()),
        )

    def charged(self) -> Node:
        """Return the wear that batches and harvests have borne."""
        names, parts = self.state.facts, []
        for charges in self.state.costs.own.parts:
            if charges.component not in WEAR:
                continue
            for i, (ev, money) in enumerate(zip(charges.ev, charges.money, strict=True)):
                if money and names.find(charges.name(i)) == self.one.item:
                    label = charges.label(i)
                    parts.append(event_node(self.state, int(ev), label, float(money), "money"))
        for part in self.state.costs.garden.parts:
            if part.season is None or not part.source.years:
                continue
            if names.find(part.source.label) == self.one.item:
                label = sentence("why-in-season", name=part.source.label, season=int(part.season))
                parts.append(event_node(self.state, part.source.ev, label, part.money, "money"))
        return total(sentence("why-charged"), "money", *parts)

    def worn(self) -> Node:
        """Return what it has lost by age."""
        one = self.one
        part = Node(
            sentence(
                "why-part-of-life-gone",
                day=Day(day_text(one.first)),
                day2=Day(day_text(one.today)),
                n=max(1, round(one.years)),
            ),
            one.worn_by_age() / one.paid if one.paid else 0.0,
            "0 to 1",
        )
        return product(sentence("why-worn-age"), "money", self.paid(), part)
