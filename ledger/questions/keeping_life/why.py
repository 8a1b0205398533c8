"""Why a figure of keeping life says so: the tree of its formula at one item and place, age or loss."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.figures import Figure, Node
from ledger.messages import Message, Typed
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.keeping_life.figures import LifeFigures
from ledger.questions.keeping_life.gather import Lives
from ledger.questions.keeping_life.loss import Lost
from ledger.questions.shared.opening import no_record, opened

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

LABELS = {
    **COST_LABELS,
    "survival": "keeping-still-good",
    "there": "keeping-there",
    "failed": "keeping-failed",
    "good": "keeping-good",
    "day": "keeping-day",
    "nothing-failed": "keeping-nothing-failed",
    "subjects": "keeping-seen",
    "failures": "keeping-failed",
    "half_days": "keeping-half-failed",
    "too-few": "keeping-too-few",
    "good-then": "keeping-good-this-age",
    "still-there": "keeping-still-there",
    "nothing-good": "keeping-nothing-seen-good",
    "mean_days": "keeping-area-under-curve",
    "error": "keeping-greenwood-standard-error",
    "nothing-left": "keeping-nothing-left",
    "published_days": "keeping-published",
    "nothing-published": "keeping-nothing-published",
    "life_days": "keeping-reckon",
    "neither-known": "keeping-neither-known",
    # losses
    "lost.times": "keeping-lost",
    "lost.kg": "keeping-lost",
    "lost.money": "keeping-lost",
    "lost.hours": "keeping-lost",
    "no-batch": "keeping-no-batch",
    "line": "why-text",
    "grams": "why-mass-g",
    "minutes": "why-minutes-of-work",
    "per-hour": "why-per-hour",
    "hours": "why-hours-of-work",
    "share": "why-share",
    "of-lot": "why-hours",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        ``winter squash/cellar``, ``@120/winter squash/cellar`` for what was there at that age in days,
        or ``loss/winter squash/spoiled``.
    field : str, optional
        A column of the answer; default: what did not fail, what was there, or the money lost.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    name, _, place = key.rpartition("/")
    if name.startswith("loss/"):
        figures, row = _lost(state, name.removeprefix("loss/"), place)
        field = field or "money"
    else:
        figures, row = _life(state, key, name, place)
    figure = field or next(iter(figures))
    return opened(state, "keeping-life", (figures, figure), row, LABELS, deep)


def _lost(state: State, name: str, cause: str) -> tuple[dict[str, Figure], int]:
    lost, item = state.once(Lost), state.facts.find_strand(name)
    if (item, cause) not in lost.keys:
        raise NotFound(
            "address", Message.of("refusal-no-loss", text=Typed(name), cause=Typed(cause))
        )
    return lost.of, lost.keys.index((item or 0, cause))


def _life(state: State, key: str, name: str, place: str) -> tuple[dict[str, Figure], int]:
    lives, life = state.once(Lives), state.once(LifeFigures)
    age = None
    if name.startswith("@"):
        age, _, name = name[1:].partition("/")
    item = state.facts.find_strand(name)
    if (item, place) not in lives.keys:
        raise no_record("keeping-life", key)
    group = lives.keys.index((item or 0, place))
    if age is None:
        return life.of, group
    mine = lives.by[lives.first] == group
    steps = np.flatnonzero(mine & (lives.age[lives.first].astype(str) == age)).tolist()
    if not steps:
        raise no_record("keeping-life", key)
    return life.at, steps[0]
