"""What was lost, by item and cause: weight, money and hours that had gone into it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.figures import Array, Figure, Groups, if_known, known_where, said, total
from ledger.messages import fixed, sentence
from ledger.projections.base import Answer, Column
from ledger.questions.costs import CostFigures
from ledger.questions.costs.sources import unit_factor
from ledger.questions.keeping_life.gather import DISCARDED, FOOD
from ledger.questions.shared.common import answer
from ledger.questions.telling import event_line
from ledger.replay import ORIGINS, tables

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "Lost", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("item", "Item", "", "What was lost.", main=True),
    Column("cause", "Cause", "", "Why it was discarded; missing: what a count did not find.", main=True),
    Column("times", "Times", "times", "How often.", main=True),
    Column("kg", "Weight", "kg", "Weight of it; null where none is known.", main=True),
    Column("money", "Cost", "money", "What it had cost, by jar-cost's reckoning.", main=True, bound="≥"),
    Column("hours", "Hours", "hours", "Hours of the batches that made it, shared by amount; null of what no batch made.", main=True),
    Column("at_least", "At least", "yes or no", "Something that went in has no known price."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_MISSING = len(tables.ROLES)
_EATEN = tables.CAUSES.index("eaten")


class Lost:
    """What was lost, a row an item and cause.

    Attributes
    ----------
    keys : list of (int, str)
        Item and cause of each row, in the order of the book.
    of : dict of str to Figure
        By the name of its column.
    """

    def __init__(self, state: State) -> None:
        self.state, self._costs = state, state.once(CostFigures)
        rows, causes = self._lost()
        draw, lot, _ = state.allocations
        self._rows, self._lot, self._ev = rows, lot[rows], state.draws["ev"][draw[rows]]
        each = list(zip(state.lots["item"][self._lot].tolist(), causes, strict=True))
        self.keys = list(dict.fromkeys(each))
        place = {key: at for at, key in enumerate(self.keys)}
        self._by = np.array([place[key] for key in each], np.int64)
        self.of = {name: one.called(f"lost.{name}", item=self._item, cause=self._cause)
                   for name, one in self._figures().items()}  # fmt: skip

    def _lost(self) -> tuple[Array, list[str]]:
        """Return the allocations that were lost, and why each was."""
        state = self.state
        draw, lot, _ = state.allocations
        events, ev = state.journal.tables["events"], state.draws["ev"][draw]
        cause = events["cause"][ev]
        missing = (state.draws["role"][draw] == _MISSING) & (cause != _EATEN)
        food = state.facts.sort[state.lots["item"][lot]] == FOOD
        rows = np.flatnonzero(((events["kind"][ev] == DISCARDED) | missing) & food)
        each = zip(missing[rows].tolist(), cause[rows].tolist(), strict=True)
        return rows, [
            "missing" if is_so else tables.CAUSES[code] or "other" for is_so, code in each
        ]

    def _figures(self) -> dict[str, Figure]:
        sources, lot, of = self._costs.sources, self._lot, self._groups(self._by)
        share = sources.share_taken.at(self._rows)
        once, at = np.unique(self._by << 32 | self._ev, return_index=True)
        times = self._groups(once >> 32).sum(said(1.0, "times", self._ev[at]), "times")
        grams = sources.taken.at(self._rows) * sources.weight(self.state.lots["item"][lot])
        kilos = of.sum(self._told(grams), "g").called("grams") / unit_factor(
            1e3, "g per kg", "g-per-kg"
        )
        whole = total(*self._costs.of.values()).called(
            "lot", item=self._costs.item, day=self._costs.day
        )
        money = whole.folds(lambda one: (f"lot/{self.state.lot_id(one)}", "cost")).at(lot) * share
        return {
            "times": times,
            "kg": if_known(kilos, "no-weight"),
            "money": of.sum(self._told(money), "money"),
            "hours": self._hours(share),
        }  # fmt: skip

    def _hours(self, share: Figure) -> Figure:
        """Return the hours of the batches that made it."""
        costs, ev = self._costs, self.state.lots["ev"][self._lot]
        made = self.state.lots["origin"][self._lot] == ORIGINS.index("batch")
        made &= np.isin(ev, list(costs.costs.rows.loads))
        of_batch = costs.shares.of_batch.at(
            np.where(made, costs.costs.rows.number_of_lot[self._lot], -1)
        )
        hours = costs.sources.minutes.at(ev).called("minutes") / unit_factor(
            60.0, "minutes per hour", "per-hour"
        )
        each = (hours.called("hours") * of_batch.called("share")).called("of-lot") * share
        of = self._groups(np.where(made, self._by, -1))
        return known_where(of.first >= 0, of.sum(self._told(each), "hours"), "no-batch", "hours")

    def _groups(self, by: Array) -> Groups:
        return Groups(by, len(self.keys))

    def _told(self, figure: Figure) -> Figure:
        """Return what was lost at once, by the line of its event."""
        return figure.called("line", text=lambda row: event_line(self.state, int(self._ev[row])))

    def _item(self, row: int) -> str:
        name: str = self.state.facts.names[self.keys[row][0]]
        return name

    def _cause(self, row: int) -> str:
        return fixed(self.keys[row][1], "cause")


def build(state: State, only: int | None) -> Answer:
    """Return one record an item and cause, the dearest first."""
    lost = state.once(Lost)
    cells = {name: figure.cells() for name, figure in lost.of.items()}
    least = np.broadcast_to(lost.of["money"].bound > 0, len(lost.keys)).tolist()
    records: list[dict[str, Any]] = [
        {
            "why": f"keeping-life/loss/{state.facts.strand_name(item)}/{cause}",
            "item": state.facts.names[item],
            "cause": cause,
            **{name: column[row] for name, column in cells.items()},
            "times": int(cells["times"][row] or 0),
            "at_least": least[row],
            "assumptions": ["cost"],
        }
        for row, (item, cause) in enumerate(lost.keys)
        if only in (None, item)
    ]
    records.sort(key=lambda r: (-r["money"], r["item"], r["cause"]))
    totals: dict[str, Any] = {"money": sum(r["money"] for r in records)}
    totals["kg"] = sum(r["kg"] or 0.0 for r in records)
    if not records:
        totals["missing"] = [sentence("keeping-nothing-discarded-takes-what-lost")]
    notes = [Assumption("cost", sentence("keeping-money-hours-what-had-gone"))]
    return answer(state, "keeping-life", COLUMNS, records, totals=totals, assumptions=notes)
