"""Why a figure of worth-it says so: the same postings, opened to events."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import NotFound
from ledger.projections import _worth_durables_why, _worth_prices_why
from ledger.projections._arithmetic import difference, product, quotient, total
from ledger.projections._common import event_node, whole_unit, why_command
from ledger.projections._worth_postings import LINES, NOTES, Lots, postings
from ledger.projections._worth_season import span_of
from ledger.projections.base import Node

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

FULL = 40
"""Rows shown one by one; more are added up by item, each naming the address to ask next."""

_SUMS = ("money_in", "money_out", "worth", "cost", "labour")
_WORDS = {
    "money_in": "money that came in",
    "money_out": "paid",
    "worth": "worth at shop prices",
    "cost": "cost",
    "labour": "own time",
}


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        ``2026/garden`` (and ``2026/garden/tomato`` for one item of it), ``durable/ITEM``, or
        ``2026/preserving/plum butter`` with a column of ``--prices``.
    field : str, optional
        A column of the answer; default: net, earned, or saved.

    Raises
    ------
    NotFound
        When there is no such line or item, or no such figure of it.
    """
    head, _, rest = key.partition("/")
    if head == "durable":
        return _worth_durables_why.why(state, rest, field)
    line, _, item = rest.partition("/")
    if not head.isdecimal() or line not in (*LINES, "total"):
        raise _unknown(key)
    if item and (field is None or field not in _SUMS):
        return _worth_prices_why.why(state, int(head), line, item, field)
    return _Season(state, head, None if line == "total" else line, item).figure(field or "net")


def _unknown(key: str) -> NotFound:
    return NotFound(
        "address",
        f"there is no line {key!r}",
        "Take an address from `croftbook show worth-it --json`",
    )


class _Season:
    """The postings of one line, and the figures that the answer gives of it."""

    def __init__(self, state: State, season: str, line: str | None, item: str) -> None:
        self.state, self.line, self.season = state, line, season
        span = span_of(state, season)
        self.lots = Lots(state)
        self.posted = postings(state, self.lots, span.first, span.last, span.season)
        self.item = state.facts.find(item) if item else None
        known = self.posted.line if line is None else self.posted.line[
            self.posted.line == LINES.index(line)
        ]  # fmt: skip
        if not known.size or (item and self.item is None):
            raise _unknown(f"{season}/{line or 'total'}{'/' + item if item else ''}")

    def figure(self, name: str) -> Node:
        """Return a figure by its column."""
        if name in _SUMS:
            return self._sum(name)
        if name == "hours":
            return self._hours()
        if name == "net":
            return self._net()
        if name == "net_per_hour":
            return quotient("net an hour", "money per hour", self._net(), self._hours())
        if name == "after_labour":
            return difference("net after own time", "money", self._net(), self._sum("labour"))
        if name == "for_other_seasons":
            return difference(
                "for other seasons", "money", self._sum("money_out"), self._sum("cost")
            )
        figures = (*_SUMS, "net", "hours", "net_per_hour", "after_labour", "for_other_seasons")
        raise NotFound(
            "figure", f"{name!r} is not a figure of worth-it", f"It has: {', '.join(figures)}"
        )

    def _net(self) -> Node:
        gains = total("money in and worth", "money", self._sum("money_in"), self._sum("worth"))
        return difference("net", "money", gains, self._sum("cost"))

    def _hours(self) -> Node:
        minutes = self._sum("minutes", "minutes")
        return quotient("hours", "hours", minutes, Node("minutes in an hour", 60.0, "minutes"))

    def _sum(self, column: str, unit: str = "money") -> Node:
        label = f"{_WORDS.get(column, column)}, season {self.season}"
        if self.line is None and self.item is None:
            lines = [name for name in LINES if self.posted.of(name, column).size]
            return total(label, unit, *(self._line(name, column, unit) for name in lines))
        return self._line(self.line, column, unit, label)

    def _line(self, line: str | None, column: str, unit: str, label: str | None = None) -> Node:
        rows = self.posted.of(line, column)
        if self.item is not None:
            rows = rows[self.posted.item[rows] == self.item]
        parts = []
        for note in np.unique(self.posted.note[rows]).tolist():
            some = rows[self.posted.note[rows] == note]
            parts.append(self._note(line or "total", column, unit, note, some))
        return total(label or str(line), unit, *parts)

    def _note(self, line: str, column: str, unit: str, note: int, rows: Any) -> Node:
        posted, names = self.posted, self.state.facts.names
        if rows.size <= FULL or self.item is not None:
            return total(NOTES[note], unit, *(self._row(int(row), column, unit) for row in rows))
        parts = []
        for item in np.unique(posted.item[rows]).tolist():
            value = float(posted.value[rows[posted.item[rows] == item]].sum())
            if item < 0:  # work: no one item
                parts.append(self._by_month(rows[posted.item[rows] == item], unit))
                continue
            address = f"worth-it/{self.season}/{line}/{names[item]}"
            ask = f"{names[item]}: ask {why_command(address, column)}"
            parts.append(Node(ask, value, unit))
        return total(NOTES[note], unit, *parts)

    def _by_month(self, rows: Any, unit: str) -> Node:
        from ledger.replay import day_text

        months = [day_text(int(day))[:7] for day in self.state.moment.on[self.posted.ev[rows]]]
        parts = []
        for month in sorted(set(months)):
            some = rows[[one == month for one in months]]
            leaves = [self._row(int(row), "minutes", unit) for row in some]
            parts.append(total(month, unit, *leaves))
        return total("by month", unit, *parts)

    def _row(self, row: int, column: str, unit: str) -> Node:
        """Return one posting: an amount at a price, a part of a cost, or what an event says."""
        state, posted, lots = self.state, self.posted, self.lots
        ev, lot, value = int(posted.ev[row]), int(posted.lot[row]), float(posted.value[row])
        share = float(posted.share[row])
        if lot < 0 or column in ("minutes", "labour", "money_in"):
            return event_node(state, ev, "", value, unit)
        if column == "worth" and lots.price_ev[lot] >= 0 and not self._has_own_value(row):
            name = state.facts.names[int(posted.item[row])]
            amount = event_node(
                state, ev, "", float(state.lots["whole"][lot]) * share * np.sign(value or 1.0),
                whole_unit(state, int(posted.item[row])),
            )  # fmt: skip
            price = float(lots.worth[lot] / state.lots["whole"][lot])
            seen = event_node(
                state,
                int(lots.price_ev[lot]),
                "",
                price,
                f"money per {whole_unit(state, int(posted.item[row]))}",
            )
            return product(name, unit, amount, seen)
        return event_node(state, ev, "", value, unit)

    def _has_own_value(self, row: int) -> bool:
        """Say whether a posting is no shop worth: the feed that was spared, or the rest of a gift.

        Of what was received, that is the worth that no batch bore.
        """
        if NOTES[int(self.posted.note[row])] == "fed in place of feed":
            return True
        return NOTES[int(self.posted.note[row])] == "into batches" and (
            LINES[int(self.posted.line[row])] == "received"
        )
