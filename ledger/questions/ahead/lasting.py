"""The shelf ahead as it is shown: ranges widened where too few of the last ones held."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.methods.scoring import chance_widened, widened
from ledger.questions.ahead.plain import Plain, plain_of
from ledger.questions.ahead.widening import lately
from ledger.questions.shared.common import listed_lots
from ledger.questions.targets import stock_targets
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Ahead", "ahead_of", "ahead_of_item"]


@dataclass(frozen=True)
class Ahead(Plain):
    """What lies ahead for some items; amounts are whole units / 1000."""

    @cached_property
    def per_week(self) -> Array:
        """Use a week: low, likely, high; shape (3, items), NaN where too little is known."""
        return widened(self.plain_per_week, lately(self.state).factor)

    @cached_property
    def weeks_left(self) -> Array:
        """Weeks until nothing is left (low, likely, high), and the chance to reach; (4, items)."""
        factor, plain = lately(self.state).factor, self.plain_weeks_left
        return np.vstack([widened(plain[:3], factor), chance_widened(plain[3:], factor)])


def ahead_of(state: State, only: int | None = None) -> Ahead:
    """Return the shelf ahead of all strands with something left or a target, or of one strand."""
    return state.once(_ahead_of) if only is None else _ahead_of(state, [only])


def ahead_of_item(state: State, item: int) -> Ahead:
    """Return the shelf ahead of an item's strands with something left or a target; of one at least."""
    several = state.facts.several(item)
    if len(several) > 1:
        there = set(state.lots["item"][listed_lots(state)].tolist()) | set(
            state.once(stock_targets)
        )
        several = [one for one in several if one in there] or [item]
    return _ahead_of(state, several)


def _ahead_of(state: State, only: list[int] | None = None) -> Ahead:
    one = plain_of(state, only)
    return Ahead(state, one.items, one.lots, one.use, one.supplies, one.targets)
