"""What was said before beside what came: scores by sort of saying."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.methods.scoring import ENDS, losses
from ledger.questions.ahead.came import Came
from ledger.questions.ahead.graded import Graded, grades
from ledger.questions.ahead.said import asked, earlier
from ledger.questions.ahead.widening import factor_of
from ledger.questions.planning.graded import keeping_grades, plant_grades

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["CHANCES", "EXPECTED", "RANGES", "errors_of", "graded", "scored", "side_of"]


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


def errors_of(every: list[Graded]) -> dict[str, Any]:
    """Return the tenth, fiftieth and ninetieth of what came by the plain mean, for each range."""
    out = {}
    for kind in RANGES:
        ratio = [
            one.came / one.base
            for one in every
            if one.kind == kind and one.came is not None and one.base > 0
        ]
        out[kind] = np.quantile(ratio, ENDS) if ratio else None
    return out


def side_of(one: Graded) -> int:
    """Return -1 for what came below its range, 1 for above, 0 within."""
    if one.held:
        return 0
    if one.kind == "runs out":
        return 1 if one.came_on is None or (one.came or 0.0) > one.said[1] else -1
    if len(one.said) < 3:
        return -1
    return 1 if one.came is not None and one.came > one.said[2] else -1


def scored(
    kind: str, known: list[Graded], of_kind: list[Graded], spread: dict[str, Any]
) -> list[tuple[Graded, float, float]]:
    """Return each thing said with how far it was off, and how far the base rate was."""
    if kind in CHANCES:
        rate = float(np.mean([one.held for one in of_kind if one.held is not None]))
        return [
            (one, (one.said[0] - bool(one.held)) ** 2, (rate - bool(one.held)) ** 2)
            for one in known
        ]
    based = [one for one in known if one.base > 0 and one.came is not None]
    if kind not in RANGES or not based or spread[kind] is None:
        return []
    said = np.array([one.said for one in based]).T
    came, base = (np.array([getattr(one, name) for one in based]) for name in ("came", "base"))
    scale = base if kind == "used a week" else np.ones(base.size)
    own = losses(said / scale, came / scale, ENDS)
    plain = losses(spread[kind][:, None] * base / scale, came / scale, ENDS)
    return list(zip(based, own.tolist(), plain.tolist(), strict=True))
