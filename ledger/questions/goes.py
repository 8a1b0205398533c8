"""What became of what went out: used, eaten, given, thrown away, missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array
from ledger.kinds import KINDS
from ledger.replay import tables

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["goes", "went"]

_DISCARDED = list(KINDS).index("discarded")
_EATEN = tables.CAUSES.index("eaten")
_WORDS = np.array(
    ["seed", "used", "fuel", "lids", "eaten", "given", "lost", "discarded"], dtype=object
)
"""By the role of a draw; then what a count found missing, and what was discarded."""
_CODE = {word: code for code, word in enumerate(_WORDS.tolist())}


def goes(state: State) -> Array:
    """Return what became of each draw: an array of words, shape (draws,).

    ``seed used fuel lids eaten given discarded lost``; what a count found missing is eaten or lost.
    """
    return np.asarray(_WORDS[state.once(_codes)])


def went(state: State, *words: str) -> Array:
    """Return which draws went one of some ways, shape (draws,), bool; quicker than by their words."""
    is_so = np.zeros(_WORDS.size, bool)
    is_so[[_CODE[word] for word in words]] = True
    return np.asarray(is_so[state.once(_codes)])


def _codes(state: State) -> Array:
    events, role = state.journal.tables["events"], state.draws["role"]
    ev = state.draws["ev"]
    kind, cause = events["kind"][ev], events["cause"][ev]
    codes = role.astype(np.int8)
    codes[kind == _DISCARDED] = _CODE["discarded"]
    codes[(role == len(tables.ROLES)) & (cause == _EATEN)] = _CODE["eaten"]
    return codes
