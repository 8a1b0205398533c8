"""The lines of a season's work and their total, as worth-it has them, and what an hour may be worth."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, stacked
from ledger.questions.costs.sources import Sources
from ledger.questions.worth_it.gather import LINES as WORTH_LINES
from ledger.questions.worth_it.sums import sums_of
from ledger.replay.own_costs import labour_rate

if TYPE_CHECKING:
    from ledger.questions.worth_it.span import Span
    from ledger.replay import State

__all__ = ["LINES", "Work"]

LINES = (*WORTH_LINES, "total")
"""The rows of every figure."""


class Work:
    """A season's work, a row a line.

    Parameters
    ----------
    state : State
    span : Span
    """

    def __init__(self, state: State, span: Span) -> None:
        self._state, self._sums = state, sums_of(state, span)

    def of(self, name: str) -> Figure:
        """Return a figure of worth-it by its column."""
        parts = (self._sums.lines[name], self._sums.whole[name])
        return stacked(parts, (len(WORTH_LINES), 1))

    def rate(self, setting: str) -> Figure:
        """Return a setting that is money an hour, as on the answer's day; NaN where it is not set."""
        day = np.full(len(LINES), self._state.as_of_day)
        return self._state.once(Sources).setting(setting, day, _an_hour, "money per hour")

    def has_rate(self, setting: str) -> bool:
        """Return whether it is set."""
        return not np.isnan(self.rate(setting).value(0))


def _an_hour(text: str | None) -> float | None:
    a_minute = labour_rate(text)
    return None if a_minute is None else a_minute * 60
