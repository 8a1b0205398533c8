"""What came of practice: a skill in hand of which every batch stands in danger is told so."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from ledger.kinds import KINDS
from ledger.messages import Day, Names, sentence
from ledger.questions.know_how.skills import HOUSEHOLD, Skills
from ledger.questions.shared.standing import standings
from ledger.questions.shared.stands import Standing
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["in_danger"]

_NAMED = 3
_PUT_UP = list(KINDS).index("put_up")


def in_danger(state: State, names: Iterable[str]) -> dict[str, str]:
    """Return, by skill, that all its batches stand in danger, and which; the others are left out.

    Parameters
    ----------
    state : State
    names : iterable of str
        Skills as the answer names them.
    """
    skills = state.once(Skills)
    number = {name: n for n, name in enumerate(skills.names)}
    out: dict[str, str] = {}
    for name in dict.fromkeys(names):
        if skills.sorts[number[name]] in ("method", "making"):
            batches = _all_grave(state, *skills.groups[number[name], HOUSEHOLD])
            if batches:
                out[name] = _said(name, batches)
    return out


def _all_grave(state: State, start: int, end: int) -> list[Standing]:
    """Return how some practices stand, the newest first; none where one is in no danger."""
    known, out = state.once(standings), list[Standing]()
    evs = state.once(Skills).ev[start:end]
    is_batch = state.journal.tables["events"]["kind"][evs] == _PUT_UP
    for ev in evs[is_batch][::-1].tolist():
        one = known.own(ev)
        if one is None or not (one.is_grave or (one.in_oil and one.is_marked)):
            return []
        out.append(one)
    return out


def _said(skill: str, batches: list[Standing]) -> str:
    named = tuple(
        sentence("standing-item-of-day", item=one.item, day=Day(day_text(one.day)))
        for one in batches
    )
    return sentence("skills-in-danger", skill=skill, n=len(named), list=Names(named, most=_NAMED))
