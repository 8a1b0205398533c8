"""Why a figure of stocking-up says so: lots left, draws, the price seen and the plan."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from ledger.errors import NotFound
from ledger.messages import sentence
from ledger.projections.base import Node
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import event_node, whole_unit
from ledger.questions.shared.use_why import used_a_week
from ledger.questions.stocking_up.found import Stock, stocks
from ledger.questions.stocking_up.plan import (
    OVER_WEEKS,
    Asked,
    asked_of,
    packs_to_target,
    plan_of,
    risk_of,
)

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_OPTIONS = ("weeks", "trips", "budget", "price-rise", "shortage")


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of a staple as a tree.

    Parameters
    ----------
    key : str
        The item, and the options asked: ``flour/weeks=4/trips=4/budget=20``.
    field : str, optional
        A column of the answer; default: the weeks in the house.

    Raises
    ------
    NotFound
        When it is no staple, or there is no such figure of it.
    """
    parts = key.split("/")
    given: dict[str, Any] = {}
    while parts and parts[-1].partition("=")[0] in _OPTIONS and "=" in parts[-1]:
        name, _, value = parts.pop().partition("=")
        given[name.replace("-", "_")] = value
    asked, item = asked_of(**given), state.facts.find_strand("/".join(parts))
    every = stocks(state, asked.weeks)
    one = next((one for one in every if one.item == item), None)
    if one is None:
        raise NotFound(
            "address",
            f"{'/'.join(parts)!r} is no bought staple",
            "Take an address from `croftbook show stocking-up --json`",
        )
    figure = {None: "weeks", "left": "left.whole"}.get(field, field)
    known = _Tree(state, one, every, asked).figures()
    if figure is None or figure not in known:
        raise NotFound(
            "figure", f"{figure!r} is not a figure of stocking-up", f"It has: {', '.join(known)}"
        )
    return known[figure]()


class _Tree:
    def __init__(self, state: State, one: Stock, every: list[Stock], asked: Asked) -> None:
        self.state, self.one, self.asked = state, one, asked
        self.unit = whole_unit(state, one.item)
        self.name = state.facts.names[one.item]
        self.strand = state.facts.strand_name(one.item)
        self.staple = one.staple(self.strand)
        staples = [other.staple(state.facts.strand_name(other.item)) for other in every]
        self.plan = plan_of([s for s in staples if s is not None], asked)

    def figures(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how each figure is worked out."""
        out: dict[str, Callable[[], Node]] = {
            "left.whole": self.left,
            "late.whole": self.late,
            "per_week.whole": self.per_week,
            "weeks": self.weeks,
            "target.whole": self.target,
            "target_weeks": lambda: quotient(sentence("why-target"), "weeks", self.target(), self.per_week()),
            "pack.whole": self.pack,
            "price": self.price,
            "keeps_weeks": lambda: Node(self.one.keeps_said or sentence("why-nobody-says"), self.one.keeps_weeks, "weeks"),
        }  # fmt: skip
        if self.staple is not None:
            out |= {
                "price_per_week": lambda: product(sentence("why-price-a-week"), "money per week", self._each(), self.per_week()),
                "packs_wanted": self.packs_wanted,
                "packs_kept_out": self.kept_out,
                "packs_planned": self.planned,
                "packs_short": lambda: difference(sentence("why-short"), "packs", self.packs_wanted(), self.planned()),
                "cost": lambda: product(sentence("why-cost"), "money", self._bought(), self.price()),
                "rise_cost": lambda: self.rise(planned=False),
                "rise_cost_after_plan": lambda: self.rise(planned=True),
                "uncovered_weeks": lambda: self.uncovered(planned=False),
                "uncovered_weeks_after_plan": lambda: self.uncovered(planned=True),
            }  # fmt: skip
        return out

    def left(self) -> Node:
        """Return what is left, lot by lot."""
        return total(sentence("why-left"), self.unit, *self._lots(self.one.left))

    def late(self) -> Node:
        """Return what passes its date before it is used."""
        return total(sentence("why-passes-date"), self.unit, *self._lots(self.one.late))

    def _lots(self, amounts: list[Any]) -> list[Node]:
        events = self.state.lots["ev"][self.one.lots].tolist()
        return [
            event_node(self.state, ev, "", float(amount), self.unit)
            for ev, amount in zip(events, amounts, strict=True)
            if amount
        ]

    def held(self) -> Node:
        """Return what will be used in time."""
        return difference(sentence("why-house-used-time"), self.unit, self.left(), self.late())

    def per_week(self) -> Node:
        """Return what a week likely takes, from the draws of the weeks with some."""
        if self.one.per_week == 0:
            return Node(sentence("why-none-used"), 0.0, f"{self.unit} a week")
        return used_a_week(self.state, self.one.item, self.one.use, self.one.row, 1, "likely", 1.0)

    def weeks(self) -> Node:
        """Return how long it lasts."""
        if not self.one.per_week:
            return Node(sentence("why-no-use-written-down"), None, "weeks")
        return quotient(sentence("why-weeks-house"), "weeks", self.held(), self.per_week())

    def target(self) -> Node:
        """Return what is wanted in the house."""
        one = self.one
        if one.target is None and one.per_week is None:
            return Node(sentence("why-use-not-known"), None, self.unit)
        if one.target is None:
            weeks = Node(sentence("why-weeks-wanted"), one.weeks_wanted, "weeks")
            return product(sentence("why-target"), self.unit, self.per_week(), weeks)
        wanted, times = one.target_whole(), one.target.times
        if wanted is None or times is None:
            return Node(sentence("why-people-not-set"), None, self.unit)
        said = event_node(self.state, one.target.ev, "", one.target.amount * 1000, self.unit)
        yearly = product(
            sentence("why-year-once"), self.unit, said, Node(sentence("why-times-done"), times, "")
        )
        part = wanted / float(yearly.value or 1.0)
        return product(
            sentence("why-target"),
            self.unit,
            yearly,
            Node(sentence("why-part-wanted-in-house"), part, ""),
        )

    def pack(self) -> Node:
        """Return what the pack holds."""
        if self.one.pack is None:
            return Node(sentence("why-no-price-ever-seen"), None, self.unit)
        return event_node(self.state, self.one.pack.ev, "", float(self.one.pack.whole), self.unit)

    def price(self) -> Node:
        """Return its price."""
        if self.one.pack is None:
            return Node(sentence("why-no-price-ever-seen"), None, "money")
        return event_node(self.state, self.one.pack.ev, "", self.one.pack.price, "money")

    def _each(self) -> Node:
        return quotient(
            sentence("why-price-amount"), f"money per {self.unit}", self.price(), self.pack()
        )

    def _to_target(self) -> Node:
        assert self.staple is not None
        short = difference(sentence("why-short-target"), self.unit, self.target(), self.held())
        packs = quotient(sentence("why-in-packs"), "packs", short, self.pack())
        whole = packs_to_target(self.staple)
        rounding = Node(sentence("why-to-whole-packs"), whole - float(packs.value or 0.0), "packs")
        return total(sentence("why-packs-target"), "packs", packs, rounding)

    def kept_out(self) -> Node:
        """Return the packs that would pass their date first."""
        assert self.staple is not None
        out = packs_to_target(self.staple) - self.staple.packs_wanted()
        label = sentence(
            "why-would-pass-date", keeps=self.one.keeps_said or sentence("why-nobody-says")
        )
        return Node(label, float(out), "packs")

    def packs_wanted(self) -> Node:
        """Return the packs to the target that are used in time."""
        return difference(sentence("why-packs-wanted"), "packs", self._to_target(), self.kept_out())

    def planned(self) -> Node:
        """Return the packs of each trip."""
        trips = self.plan.trips if self.plan else []
        parts = [
            Node(
                sentence("why-trip-within", n=i, n2=self.asked.budget),
                float(trip.packs.get(self.strand, 0)),
                "packs",
            )
            for i, trip in enumerate(trips, 1)
        ]
        return total(sentence("why-packs-planned"), "packs", *parts)

    def _bought(self) -> Node:
        return self.packs_wanted() if self.plan is None else self.planned()

    def _held(self, planned: bool) -> Node:
        if not planned:
            return self.held()
        more = product(sentence("why-packs-planned"), self.unit, self.planned(), self.pack())
        return total(sentence("why-house-after-plan"), self.unit, self.held(), more)

    def _risk(self, name: str, planned: bool) -> float | None:
        assert self.staple is not None
        packs = int(self.planned().value or 0)
        return risk_of(self.staple, self.asked, packs).get(
            name + ("_after_plan" if planned else "")
        )

    def rise(self, *, planned: bool) -> Node:
        """Return what the price rise would cost."""
        value, per_cent = self._risk("rise_cost", planned), self.asked.price_rise
        if value is None or per_cent is None:
            return Node(sentence("why-no-price-rise-asked-about"), None, "money")
        weeks = Node(sentence("why-weeks"), float(OVER_WEEKS), "weeks")
        used = product(
            sentence("why-used-in-weeks", n=OVER_WEEKS), self.unit, self.per_week(), weeks
        )
        bought = difference(sentence("why-buy"), self.unit, used, self._held(planned))
        if not value:
            return Node(sentence("why-rise-costs-nothing"), 0.0, "money")
        return product(
            sentence("why-rise-costs"),
            "money",
            bought,
            self._each(),
            Node(sentence("why-rise"), per_cent / 100, ""),
        )

    def uncovered(self, *, planned: bool) -> Node:
        """Return the weeks that are not covered."""
        value, weeks = self._risk("uncovered_weeks", planned), self.asked.shortage
        if value is None or weeks is None:
            return Node(sentence("why-no-shortage-asked-about"), None, "weeks")
        if not value:
            return Node(sentence("why-house-lasts"), 0.0, "weeks")
        lasts = quotient(sentence("why-lasts"), "weeks", self._held(planned), self.per_week())
        return difference(
            sentence("why-not-covered"),
            "weeks",
            Node(sentence("why-without-shop"), weeks, "weeks"),
            lasts,
        )
