"""Next season's plan as next-season gives it when nothing else is asked, once a moment."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.questions.planning.asked import Asked, asked_of
from ledger.questions.planning.plan import Plan

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["plan_of", "usual_plan"]


def plan_of(state: State, asked: Asked) -> Plan:
    """Return the plan of what is asked: the usual one where nothing is."""
    return state.once(_Newest).of(asked) if asked.address else usual_plan(state)


class _Newest:
    """What was last asked of one state: a page asks for one tree after the other."""

    def __init__(self, state: State) -> None:
        self._state = state
        self._known: Plan | None = None

    def of(self, asked: Asked) -> Plan:
        if self._known is None or self._known.asked.address != asked.address:
            self._known = Plan(self._state, asked)
        return self._known


def usual_plan(state: State) -> Plan:
    """Return the plan of a state."""
    return state.once(_plan)


def _plan(state: State) -> Plan:
    return Plan(state, asked_of(state, None, None, None, False))
