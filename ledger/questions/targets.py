"""How much of an item the household wants to have now, from the targets that it set."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import parse_amount
from ledger.figures import Figure, assumed, choose, said
from ledger.messages import Choice, Day, sentence
from ledger.messages.units import amount
from ledger.questions.costs.sources import Sources
from ledger.questions.shared.use_past import people_count
from ledger.replay.facts import MATCHED
from ledger.replay.state import day_number

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["YEAR", "YEAR_DAYS", "StockTarget", "stock_targets", "target_figures", "target_of"]

YEAR_DAYS = 365
YEAR = "year-of-365-days"
"""Id of the assumption that a year is so long."""


_PERS = {one: Choice(one.replace(" ", "-")) for one in ("year", "week", "person year")}


@dataclass(frozen=True)
class StockTarget:
    """The newest target of an item; amounts are whole units / 1000.

    Attributes
    ----------
    ev : int
        Place of the event.
    amount : float
        As written.
    per : {'year', 'week', 'person year', None}
    by : int or None
        Day by which it is wanted.
    people : int or None
        At the table, by the setting; None where it is not set.
    said, said_a_year : str
        In the household's words; without "per year", where a year is meant.
    """

    ev: int
    amount: float
    per: str | None
    by: int | None
    people: int | None
    said: str
    said_a_year: str

    @property
    def times(self) -> float | None:
        """How often the amount is wanted in a year; None where the people are not known."""
        times = {None: 1.0, "year": 1.0, "week": YEAR_DAYS / 7, "person year": self.people}
        found = times[self.per]
        return None if found is None else float(found)

    def share(self, today: int, next_on: int | None) -> float:
        """Return which part of a year's amount should be there now.

        All of it: of a target without a period, up to its `by`, and where nobody knows when new
        supply comes. Else as much of the year as lies before the next supply.
        """
        ahead = self.by is not None and today <= self.by
        if self.per is None or ahead or next_on is None:
            return 1.0
        return min(max(next_on - today, 0), YEAR_DAYS) / YEAR_DAYS

    def wanted(self, today: int, next_on: int | None) -> float | None:
        """Return how much should be there now, in whole units / 1000."""
        times = self.times
        return None if times is None else self.amount * times * self.share(today, next_on)


def target_of(state: State, item: int, ev: int, body: dict[str, Any]) -> tuple[int | None, int]:
    """Return the strand that a target's amount comes to and how much it is there (rule 13).

    The strand is None where nothing of the book comes to it.
    """
    line: dict[str, Any] = {"whole": int(body["whole"]), "measure": body.get("measure")}
    if line["measure"] is not None:
        measures = state.settings.on("measures", int(state.moment.on[ev])) or "us"
        said = parse_amount(body["amount"], measures=measures)
        if said.dimension == line["measure"] and said.whole == line["whole"]:
            line |= {"per": said.unit, "times": said.times}
    strand, whole, _ = state.facts.comes(item, line)
    return strand, whole


def stock_targets(state: State) -> dict[int, StockTarget]:
    """Return the newest target of each strand that is kept lot by lot, by its number; ask with ``state.once``."""
    people = state.settings.newest("people")
    known = state.lasting(stock_targets)
    out = {}
    for ev, body in state.bodies("target_set"):
        if ev not in known or known[ev][0] != people:
            known[ev] = people, _target_said(state, ev, body, people)
        found: tuple[int, StockTarget] | None = known[ev][1]
        if found is not None:
            out[found[0]] = found[1]
    return out


def _target_said(
    state: State, ev: int, body: dict[str, Any], people: str | None
) -> tuple[int, StockTarget] | None:
    """Return the strand that a target is of, and the target; None where it is of none kept by lots."""
    item = state.facts.find(body.get("item"))
    if item is None or body.get("whole") is None or not MATCHED[state.facts.sort[item]]:
        return None
    strand, whole = target_of(state, item, ev, body)
    if strand is None:
        return None
    by = body.get("by")
    per = body.get("per")
    plain = amount(str(body["amount"]))
    said = plain if per is None else sentence("target-per", amount=plain, per=_PERS[per])
    said_a_year = plain if per == "year" else said
    if by:
        day = Day(by)
        said = sentence("target-by", amount=said, day=day)
        said_a_year = sentence("target-by", amount=said_a_year, day=day)
    return strand, StockTarget(
        ev,
        whole / 1000,
        body.get("per"),
        day_number(by) if by else None,
        int(people) if people else None,
        said,
        said_a_year,
    )


def target_figures(
    state: State, targets: Sequence[StockTarget | None], unit: Callable[[int], str]
) -> tuple[Figure, Figure]:
    """Return the household's own targets, a row each; NaN of none.

    Parameters
    ----------
    unit : callable
        Gives the unit of a row's whole amounts.

    Returns
    -------
    amount, times : Figure
        In whole units, and how often that is wanted in a year, or once.
    """
    ev = np.array([-1 if one is None else one.ev for one in targets], np.int64)
    wanted = [np.nan if one is None else one.amount * 1000 for one in targets]
    often = [np.nan if one is None or one.times is None else one.times for one in targets]
    by_people = np.array([one is not None and one.per == "person year" for one in targets], bool)
    today = np.full(ev.size, state.as_of_day, np.int64)
    people = state.once(Sources).setting("people", today, people_count, "")
    times = choose(by_people, people, assumed(np.array(often, np.float64), "", YEAR))
    return said(np.array(wanted, np.float64), unit, ev), times.called("times")
