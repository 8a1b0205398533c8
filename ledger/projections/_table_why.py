"""Why a figure of our-table says so: from what was on the table back to what came in."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import InputError, NotFound
from ledger.projections._arithmetic import difference, product, quotient, total
from ledger.projections._common import event_node, why_command
from ledger.projections._opening import check_figure
from ledger.projections._table_eaten import BASES, SIX, eaten_of
from ledger.projections._table_flow import why_path
from ledger.projections._table_leaves import leaves
from ledger.projections._table_marks import is_lacking, rests_on
from ledger.projections._table_periods import Period, day_of, segments_of
from ledger.projections.base import Node
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of one period, basis and origin as a tree.

    Parameters
    ----------
    key : str
        ``<first day>/<last day>/<basis>/<origin>``, as in the answer's `why`; a path's begins
        with ``paths/``.
    field : str, optional
        A column of the answer; default: the share of what was eaten.

    Raises
    ------
    NotFound
        When there is no such record, or no such figure of it.
    """
    if key.startswith("paths/"):
        return why_path(state, key.removeprefix("paths/"), field)
    figures = _Record(state, key).figures()
    name = field or "share_of_eaten"
    check_figure("our-table", name, figures)
    return figures[name]()


class _Record:
    """One record and its figures."""

    def __init__(self, state: State, key: str) -> None:
        self.state = state
        self.period, self.basis, self.origin = _parts(key)
        self.b, self.o = BASES.index(self.basis), SIX.index(self.origin)
        currency = state.settings.newest("currency") or "USD"
        self.unit = ("kcal", "g", currency)[self.b]
        self.eaten = eaten_of(state)
        self.amounts = self.eaten.amounts([self.period])[0]
        (self.marks,) = self.eaten.marks.of([self.period])

    def figures(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how each figure is worked out."""
        out: dict[str, Callable[[], Node]] = {
            "amount": self.amount,
            "share_of_eaten": lambda: quotient(
                f"share that is {self.origin}", "0 to 1", self.amount(), self._all()
            ),
            "feed_adjusted_share": self._adjusted,
        }
        if self.basis == "energy":
            out["share_of_need"] = lambda: quotient(
                "share of the need", "0 to 1", self.amount(), self._need()
            )
        return out

    def _label(self, origin: str) -> str:
        first, last = day_text(self.period.start), day_text(self.period.end)
        return f"{origin}, eaten {first} to {last}"

    def _all(self) -> Node:
        parts = []
        for origin, value in zip(SIX, self.amounts[self.b].tolist(), strict=True):
            if origin == self.origin:
                parts.append(self.amount())
            elif value:
                address = f"our-table/{self.period.address}/{self.basis}/{origin}"
                label = f"{self._label(origin)}: ask {why_command(address, 'amount')}"
                parts.append(Node(label, value, self.unit))
        return total("all that was eaten", self.unit, *parts)

    def amount(self) -> Node:
        """Return what was eaten, by what was on the table, then by where that came from."""
        rests = rests_on(self.marks, self.basis, self.o)
        if is_lacking(rests) and not self.amounts[self.b, self.o]:
            names = ", ".join(sorted({mark[1] for mark in rests}))
            return Node(
                f"{self._label(self.origin)}: no figure is known of {names}", None, self.unit
            )
        return total(self._label(self.origin), self.unit, *self._dishes())

    def _dishes(self) -> list[Node]:
        names = self.state.facts.names
        by_item: dict[int, list[tuple[int, float]]] = {}
        for item, at, part in self._sources():
            by_item.setdefault(item, []).append((at, part))
        out = []
        for item, sources in by_item.items():
            parts = self._leaves(sources)
            if parts:
                out.append(total(f"{names[item]} on the table", self.unit, *parts))
        return sorted(out, key=lambda node: -float(node.value or 0.0))

    def _sources(self) -> list[tuple[int, int, float]]:
        """Return (item eaten, allocation of a raw lot, part of it eaten at home)."""
        eaten, web = self.eaten, self.eaten.web
        mine = np.flatnonzero((eaten.places([self.period]) >= 0) & (eaten.factor > 0))
        raw = mine[~web.made[eaten.at[mine]]]
        raw = raw[web.origin[eaten.at[raw]] == self.o]
        out = [(int(eaten.item[n]), int(eaten.at[n]), float(eaten.factor[n])) for n in raw.tolist()]
        made = mine[web.made[eaten.at[mine]]]
        items, column = np.unique(eaten.item[made], return_inverse=True)
        wanted = np.zeros((self.state.lots["ev"].size, items.size))
        np.add.at(
            wanted,
            (web.lot[eaten.at[made]], column),
            web.share[eaten.at[made]] * eaten.factor[made],
        )
        back = web.back(wanted)
        inner = web.raw_in[web.origin[web.raw_in] == self.o]
        for i, item in enumerate(items.tolist()):
            part = back[web.row[inner], i]
            some = np.flatnonzero(part > 0)
            out += [(item, int(inner[n]), float(part[n])) for n in some.tolist()]
        return out

    def _leaves(self, sources: list[tuple[int, float]]) -> list[Node]:
        """Return one node a raw lot (and price): how much of it, times what one holds."""
        web, (price, ev, _) = self.eaten.web, self.eaten.price
        several = [
            (int(web.lot[at]), float(web.amount[at]) * part, float(price[at]), int(ev[at]))
            for at, part in sources
        ]
        return leaves(self.state, self.basis, self.unit, several)

    # -- need and feed ------------------------------------------------------------------

    def _need(self) -> Node:
        segments = segments_of(self.state, self.period.start, self.period.end)
        if segments is None:
            return Node("people or kcal_per_person_day is not set", None, "kcal")
        parts = [
            product(
                f"{day_text(one.start)} to {day_text(one.end)}", "kcal",
                self._setting("people", one.start, one.people, "people"),
                self._setting("kcal_per_person_day", one.start, one.kcal, "kcal per person and day"),
                Node("days", float(one.end - one.start + 1), "days"),
            )
            for one in segments
        ]  # fmt: skip
        return total("what the people at the table need", "kcal", *parts)

    def _setting(self, name: str, day: int, value: float, unit: str) -> Node:
        """Return a setting's value on a day, with the event that set it."""
        last: int | None = None
        for ev, body in self.state.bodies("setting_changed"):
            if body["name"] == name and (last is None or self.state.moment.on[ev] <= day):
                last = ev
        if last is None:
            return Node(name, value, unit)
        return event_node(self.state, last, name, value, unit)

    def _adjusted(self) -> Node:
        if any(mark[0] == "feed" and mark[2] == self.o for mark in self.marks):
            return Node("nothing says what the animals were given", None, "0 to 1")
        parts = self._taken_off() if self.origin == "grown" else []
        amount = self.amount()
        if parts:
            off = total("made by feed that was not grown here", self.unit, *parts)
            amount = difference("adjusted for feed", self.unit, amount, off)
        return quotient("feed-adjusted share", "0 to 1", amount, self._all())

    def _taken_off(self) -> list[Node]:
        eaten, web = self.eaten, self.eaten.web
        animal = set(eaten.own_animal().tolist())
        by_season: dict[int, list[tuple[int, float]]] = {}
        for _, at, part in self._sources():
            lot = int(web.lot[at])
            if lot in animal:
                (season,) = eaten.seasons(np.array([lot]))
                by_season.setdefault(season, []).append((at, part))
        out = []
        for season, sources in sorted(by_season.items()):
            own = total(f"animal products of season {season}", self.unit, *self._leaves(sources))
            out.append(product(f"season {season}", self.unit, own, self._share_not_own(season)))
        return out

    def _share_not_own(self, season: int) -> Node:
        fed = [one for one in self.eaten.feed.fed if one.season == season]
        nodes: list[Any] = [event_node(self.state, one.ev, "", one.total, "g") for one in fed]
        own = [event_node(self.state, one.ev, "", one.grown, "g") for one in fed if one.grown]
        share = quotient(
            "grown share of the feed", "0 to 1",
            total("grown here", "g", *own), total("all that was given", "g", *nodes),
        )  # fmt: skip
        return difference("share from elsewhere", "0 to 1", Node("all", 1.0, "0 to 1"), share)


def _parts(key: str) -> tuple[Period, str, str]:
    """Return the period, basis and origin of an address."""
    parts = key.split("/")
    try:
        first, last, basis, origin = parts
        start, end = day_of(first, "from"), day_of(last, "to")
        BASES.index(basis), SIX.index(origin)
    except (ValueError, InputError):
        raise NotFound(
            "address",
            f"there is no record {key!r}",
            "Take an address from `croftbook show our-table --json`",
        ) from None
    return Period(f"{first}/{last}", start or 0, end or 0), basis, origin
