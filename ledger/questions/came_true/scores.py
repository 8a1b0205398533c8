"""What was said before beside what came: which sorts there are, and on which side of a range it came."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.questions.ahead.came import Came
from ledger.questions.ahead.graded import Graded, grades
from ledger.questions.ahead.said import asked, earlier
from ledger.questions.ahead.widening import factor_of
from ledger.questions.planning.graded import keeping_grades, plant_grades

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["CHANCES", "EXPECTED", "RANGES", "graded", "side_of"]


RANGES = ("runs out", "used a week")
EXPECTED = {"runs out": 0.8, "used a week": 0.8, "yield": 0.9, "keeps": 1.0}
"""The share that should hold: ranges leave out a tenth at each end, a yield's low end one."""


CHANCES = ("lasts till more comes", "brings enough")


def graded(state: State) -> list[Graded]:
    """Return all that was said at earlier moments, beside what came; once for a state."""
    return state.once(_graded)


def _graded(state: State) -> list[Graded]:
    said = asked(state, earlier(state), factor_of)
    if not said:
        return []
    out = grades(Came(state, said[0].day), said)
    return [*out, *plant_grades(state), *keeping_grades(state, said)]


def side_of(one: Graded) -> int:
    """Return -1 for what came below its range, 1 for above, 0 within."""
    if one.held:
        return 0
    if one.kind == "runs out":
        return 1 if one.came_on is None or (one.came or 0.0) > one.said[1] else -1
    if len(one.said) < 3:
        return -1
    return 1 if one.came is not None and one.came > one.said[2] else -1
