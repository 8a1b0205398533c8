"""The columns of the garden: what was planted where, and which plants a picking came from."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from ledger.replay.columns import Array
    from ledger.replay.journal import Journal

__all__ = ["take_harvested", "take_planted"]


def take_planted(
    journal: Journal, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
) -> None:
    """Keep what was planted; ground and row stay the texts that were typed."""
    texts = journal.garden.codes
    journal.tables["planted"].extend(
        len(places),
        {
            "ev": places,
            "crop": journal.items.codes([b.crop for b in bodies]),
            "variety": texts([b.variety for b in bodies]),
            "bed": texts([b.bed for b in bodies]),
            "plants": [-1 if b.plants is None else b.plants for b in bodies],
            "area": texts([b.area for b in bodies]),
            "length": texts([b.row for b in bodies]),
        },
    )


def take_harvested(
    journal: Journal, bodies: Sequence[Any], places: list[int], events: dict[str, Array], start: int
) -> None:
    """Keep what a picking says of its plants, beside its row of the supplies taken in next."""
    lines = [line for b in bodies for line in b.lines]
    first = len(journal.tables["supplies"])
    journal.tables["picked"].extend(
        len(lines),
        {
            "row": np.arange(first, first + len(lines)),
            "variety": journal.garden.codes([line.variety for line in lines]),
            "bed": journal.garden.codes([line.bed for line in lines]),
            "plants": [-1 if line.plants is None else line.plants for line in lines],
        },
    )
