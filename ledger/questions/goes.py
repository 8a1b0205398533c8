"""What became of what went out: used, eaten, given, thrown away, missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array
from ledger.kinds import KINDS
from ledger.replay import tables

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["goes"]

_DISCARDED = list(KINDS).index("discarded")
_EATEN = tables.CAUSES.index("eaten")
_WORDS = np.array(["seed", "used", "fuel", "lids", "eaten", "given", "lost"], dtype=object)
"""By the role of a draw; the last is what a count found missing."""


def goes(state: State) -> Array:
    """Return what became of each draw: an array of words, shape (draws,).

    ``seed used fuel lids eaten given discarded lost``; what a count found missing is eaten or lost.
    """
    events, role = state.journal.tables["events"], state.draws["role"]
    ev = state.draws["ev"]
    kind, cause = events["kind"][ev], events["cause"][ev]
    words = _WORDS[role]
    words[kind == _DISCARDED] = "discarded"
    words[(role == len(tables.ROLES)) & (cause == _EATEN)] = "eaten"
    return np.asarray(words)
