"""Why a figure of the shelf ahead says so, down to the meals, batches and purchases behind it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.projections.base import Node
from ledger.questions.ahead.lasting import Ahead, ahead_of
from ledger.questions.ahead.supply import is_supply
from ledger.questions.ahead.widening import lately
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import UNITS, event_node, whole_unit
from ledger.questions.shared.use_why import mean_use, used_a_week
from ledger.questions.shelf.items import address_of, build_items
from ledger.questions.shelf.left import jars_node, left_node
from ledger.questions.shelf.over_time import changes, item_number
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why_item", "why_over_time"]

_ENDS = {"low": "tenth", "likely": "fiftieth", "high": "ninetieth"}
_DAYS = {"early": "low", "likely": "likely", "late": "high"}


def why_item(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of an item as a tree.

    Parameters
    ----------
    key : str
        The item's name, spaces as hyphens or not.
    field : str, optional
        A column of ``show shelf --items``; default: how much is left.

    Raises
    ------
    NotFound
        When there is no such item, or no such figure of it.
    """
    tree = _ItemTree(state, item_number(state, key, "address"))
    return _pick(tree.figures(), {None: "left.whole", "left": "left.whole"}.get(field, field))


def _pick(figures: dict[str, Callable[[], Node]], name: str | None) -> Node:
    if name not in figures:
        raise NotFound(
            "figure", f"{name!r} is not a figure of shelf", f"It has: {', '.join(figures)}"
        )
    return figures[name]()


class _ItemTree:
    """The figures of one item; row 0 of everything is that item."""

    def __init__(self, state: State, item: int) -> None:
        self.state, self.item = state, item
        self.ahead: Ahead = ahead_of(state, item)
        self.unit = UNITS[state.facts.measure[item]]

    def figures(self) -> dict[str, Callable[[], Node]]:
        """Return what can be asked of it."""
        lots = self.ahead.lots[0]
        state = self.state
        out: dict[str, Callable[[], Node]] = {
            "left.whole": self._left,
            "lots": lambda: total("lots with something left", "lots", *(self._came(i, 1.0, "lots") for i in lots)),
            "jars_left": lambda: total("jars left", "jars", *(jars_node(state, i) for i in lots if state.lots["jars"][i])),
            "reaches_next_supply": self._reaches,
            "ranges_held": lambda: self._earlier(0),
            "ranges_said": lambda: self._earlier(1),
            "target": self._target,
            "short_of_target": self._short,
            "past_best": self._past_best,
            "weeks_known": lambda: Node("past weeks, of the last five years, with some of it", self.ahead.use.known(0), "weeks"),
            "next_supply_on": self._next,
            "past_best_on": self._past_best_on,
            "best_until": self._best_until,
            "eat_first": self._rank,
        }  # fmt: skip
        for at, name in enumerate(_ENDS):
            out[f"used_per_week.{name}"] = lambda at=at, name=name: self._used(at, name)  # type: ignore[misc]
            out[f"weeks_left.{name}"] = lambda at=at, name=name: self._weeks(at, name)  # type: ignore[misc]
        for at, name in enumerate(_DAYS):
            out[f"runs_out_on.{name}"] = lambda at=at, name=name: self._day(at, name)  # type: ignore[misc]
        return out

    def _came(self, lot: int, value: float, unit: str) -> Node:
        return event_node(self.state, int(self.state.lots["ev"][lot]), "", value, unit)

    def _earlier(self, at: int) -> Node:
        count = lately(self.state).items.get(self.item)
        words = ("earlier ranges that held", "earlier ranges whose outcome is known")[at]
        if count is None:
            return Node("no earlier range can be set beside what came yet", None, "times")
        return Node(
            f"{words}: `croftbook why came-true/used-a-week/{self.state.facts.names[self.item]}` shows each",
            float(count[at]), "times",
        )  # fmt: skip

    def _left(self) -> Node:
        parts = (left_node(self.state, lot) for lot in self.ahead.lots[0])
        return total("left", whole_unit(self.state, self.item), *parts)

    def _stock(self) -> Node:
        thousand = Node(f"a thousand to one {self.unit}", 1000.0, "")
        return quotient("left", self.unit, self._left(), thousand)

    def _used(self, at: int, name: str) -> Node:
        shown = float(self.ahead.per_week[at, 0])
        return used_a_week(self.state, self.item, self.ahead.use, 0, at, name, 1000.0, shown=shown)

    def _weeks(self, at: int, name: str) -> Node:
        value = float(self.ahead.weeks_left[at, 0])
        if np.isnan(value):
            return self._not_known("weeks")
        if np.isinf(value):
            return Node("it lasts for more than about five years", None, "weeks")
        if not value:
            return Node("nothing is left", 0.0, "weeks")
        mean = mean_use(self.state, self.item, self.ahead.use, 0, 1000.0)
        even = quotient("left, by the mean use", "weeks", self._stock(), mean)
        base = float(even.value or 0.0)
        label = f"against an even pace: the {_ENDS[name]} of a hundred"
        return product(f"weeks left, {name}", "weeks", even, Node(label, value / base if base else 1.0, "times"))  # fmt: skip

    def _not_known(self, unit: str) -> Node:
        few = self.ahead.use.too_few(0)
        why = "fewer than four weeks with some of it are known" if few else "none of it was used"
        return Node(why, None, unit)

    def _day(self, at: int, name: str) -> Node:
        weeks = self._weeks(at, _DAYS[name])
        day = self.ahead.day_after(float(self.ahead.weeks_left[at, 0])) if weeks.value is not None else None  # fmt: skip
        label = f"that many weeks after {day_text(self.state.as_of_day)}"
        return Node(
            label, None if day is None else day_text(day), "day", "as written", [weeks] if day else []
        )  # fmt: skip

    def _reaches(self) -> Node:
        chance, supply = float(self.ahead.weeks_left[3, 0]), self.ahead.supplies[0]
        if np.isnan(chance):
            return Node(
                "its use or its next supply is not known, or nothing is left", None, "0 to 1"
            )
        ahead, stock = self.ahead.use.ahead[0], float(self.ahead.stock[0])
        assert ahead is not None
        today = self.state.as_of_day
        parts = [
            Node(f"chance that it lasts until {day_text(today + round(wait))}", ahead.reaches(stock, [wait / 7]), "0 to 1")
            for wait in supply.waits
        ]  # fmt: skip
        known = total("over the days on which more may come", "0 to 1", *parts)
        even = quotient("their mean", "0 to 1", known, Node("days", float(len(parts)), ""))
        rest = chance - float(even.value or 0.0)
        if abs(rest) < 1e-12:
            return even
        return total("never surely, and never surely not", "0 to 1", even, Node("kept off the ends, and widened where too few ranges held", rest, "0 to 1"))  # fmt: skip

    def _next(self) -> Node:
        supply, lots = self.ahead.supplies[0], self.state.lots
        if supply.day is None:
            return Node("its past does not tell when more comes", None, "day")
        good = is_supply(self.state) & (lots["item"] == self.item)
        rows = np.flatnonzero(good & np.isin(lots["day"], supply.like[-8:]))
        parts = [
            self._came(int(i), float(lots["whole"][i]), whole_unit(self.state, self.item))
            for i in rows
        ]
        return Node(supply.text, day_text(supply.day), "day", "as written", parts)

    def _target(self) -> Node:
        target, supply = self.ahead.target(0), self.ahead.supplies[0]
        if target is None or target.times is None:
            why = "no target is set" if target is None else "`people` is not set"
            return Node(why, None, self.unit)
        parts = [event_node(self.state, target.ev, "", target.amount, self.unit)]
        if target.times != 1:
            parts.append(Node("times a year", target.times, "times"))
        share = target.share(self.state.as_of_day, supply.day)
        if share != 1:
            parts.append(Node(f"of a year until the next supply, {day_text(supply.day or 0)}", share, ""))  # fmt: skip
        return product("should be there now", self.unit, *parts)

    def _short(self) -> Node:
        wanted, left = self._target(), self._stock()
        if wanted.value is None:
            return wanted
        if float(wanted.value) <= float(left.value or 0.0):
            return total("nothing is missing: as much is left as should be there", self.unit)
        return difference("short of the target", self.unit, wanted, left)

    def _past_best(self) -> Node:
        late = self.ahead.late(0)
        if late is None:
            return Node("its use is not known", None, self.unit)
        parts = []
        for one in late:
            node = self._came(one.lot, one.amount, self.unit)
            node.label = f"not eaten by {day_text(one.until.day)}: {one.until.said}"
            parts.append(node)
        return total("passes its best before it would be eaten", self.unit, *parts)

    def _past_best_on(self) -> Node:
        late = self.ahead.late(0)
        day = day_text(late[0].until.day) if late else None
        return Node("first day on which some passes its best uneaten", day, "day")

    def _best_until(self) -> Node:
        day = self.ahead.first_best(0)
        return Node("first day on which some passes its best", day and day_text(day), "day")

    def _rank(self) -> Node:
        address = address_of(self.state.facts.strand_name(self.item))
        for record in build_items(self.state).records():
            if record["why"] == address:
                return Node("place among all items: by the day some passes its best uneaten, then by best until, then by run-out", record["eat_first"], "")  # fmt: skip
        return Node("it has nothing left and no target", None, "")


def why_over_time(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of a day of an item's stock as a tree.

    Parameters
    ----------
    key : str
        ``ITEM/DAY``.
    field : str, optional
        ``left`` (the default), ``came`` or ``went`` of a past day; ``low``, ``likely`` or
        ``high`` of a day ahead.

    Raises
    ------
    NotFound
        When there is no such item or day, or no such figure of it.
    """
    name, _, day = key.rpartition("/")
    item = item_number(state, name, "address")
    unit = UNITS[state.facts.measure[item]]
    figures: dict[str, Callable[[], Node]] = {}
    try:
        number = day_number(day)
    except ValueError:
        raise NotFound("address", f"{day!r} is no day", "End it with a day like 2026-09-02") from None  # fmt: skip
    if number in changes(state, item)[0]:
        for figure in ("left", "came", "went"):
            figures[figure] = lambda figure=figure: _past(state, item, number, unit, figure)  # type: ignore[misc]
    figures |= _ahead(state, item, day, unit)
    if not figures:
        raise NotFound(
            "address", f"nothing is told of {name} on {day}",
            "Take an address from `croftbook show shelf --over-time ITEM --json`",
        )  # fmt: skip
    return _pick(figures, next(iter(figures)) if field is None else field)


def _past(state: State, item: int, day: int, unit: str, figure: str) -> Node:
    def side(flow: dict[str, np.ndarray], label: str, rows: np.ndarray) -> Node:
        parts = (
            event_node(state, int(flow["ev"][i]), "", float(flow["whole"][i]) / 1000, unit)
            for i in np.flatnonzero((flow["item"] == item) & rows).tolist()
        )
        return total(label, unit, *parts)

    if figure == "came":
        return side(state.lots, "came in that day", state.lots["day"] == day)
    if figure == "went":
        return side(state.draws, "went out that day", state.draws["day"] == day)
    came = side(state.lots, "came in by that day", state.lots["day"] <= day)
    went = side(state.draws, "went out by that day", state.draws["day"] <= day)
    return difference("left", unit, came, went)


def _ahead(state: State, item: int, day: str, unit: str) -> dict[str, Callable[[], Node]]:
    from ledger.questions.shelf.over_time import build_over_time

    records = build_over_time(state, item).records()
    found = [r for r in records if r["when"] == "ahead" and r["day"] == day]
    if not found:
        return {}
    lots = np.flatnonzero((state.lots["item"] == item) & (state.left > 0)).tolist()

    def one(name: str) -> Node:
        parts = (left_node(state, lot) for lot in lots)
        whole = total("left now", whole_unit(state, item), *parts)
        stock = quotient("left now", unit, whole, Node(f"a thousand to one {unit}", 1000.0, ""))
        used = float(stock.value or 0.0) - found[0][name]
        label = f"used by then, as far as it lasts: of what is left, the {_ENDS[name]} of a hundred"
        return difference("left then", unit, stock, Node(label, used, unit))

    return {name: lambda name=name: one(name) for name in _ENDS}  # type: ignore[misc]
