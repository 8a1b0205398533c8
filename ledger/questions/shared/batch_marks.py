"""The gravest mark of each batch: on what is left of it, and on what of it was thrown out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from ledger.kinds import KINDS
from ledger.questions.shared.standing import on_shelf, standings
from ledger.questions.shared.stands import Standing
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["gravest_by_entry", "gravest_uneaten_by_entry", "marks_by_entry"]

_DISCARDED = list(KINDS).index("discarded")


def gravest_by_entry(state: State) -> dict[str, Standing]:
    """Return the gravest mark on what is left of each batch, by the batch's entry."""
    return _gravest(state, state.once(on_shelf))


def gravest_uneaten_by_entry(state: State) -> dict[str, Standing]:
    """Return the gravest mark on what is left of each batch or was thrown out: nobody saved by that."""
    draw, lot, _ = state.allocations
    ev = state.draws["ev"][draw]
    gone = lot[state.journal.tables["events"]["kind"][ev] == _DISCARDED]
    made = np.unique(gone[state.lots["origin"][gone] == ORIGINS.index("batch")]).tolist()
    return _gravest(state, state.once(standings).of(made) | state.once(on_shelf))


def marks_by_entry(state: State) -> dict[str, str]:
    """Return in words the gravest mark on what is left of each batch."""
    return {entry: one.text for entry, one in state.once(gravest_by_entry).items()}


def _gravest(state: State, found: Mapping[int, Standing | None]) -> dict[str, Standing]:
    marked = [(one.rank, lot, one) for lot, one in found.items() if one and one.is_marked]
    out: dict[str, Standing] = {}
    for _, lot, one in sorted(marked, key=lambda each: each[0]):
        out.setdefault(state.entry_id(int(state.lots["ev"][lot])), one)
    return out
