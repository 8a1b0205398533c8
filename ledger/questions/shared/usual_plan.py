"""Next season's plan as next-season gives it when nothing else is asked, once a moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.questions.planning.asked import asked_of
from ledger.questions.planning.plan import Plan

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["usual_plan"]


def usual_plan(state: State) -> Plan:
    """Return the plan of a state."""
    return state.once(_plan)


def _plan(state: State) -> Plan:
    return Plan(state, asked_of(state, None, None, None, False))
