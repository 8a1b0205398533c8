"""What the shelf says of how its lots stand: the danger first, in words, with the day."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.messages import Day, joined, sentence
from ledger.projections.base import Assumption
from ledger.questions.shared.standing import standing_of, standings
from ledger.questions.shared.stands import LOOKED_UP, Standing
from ledger.questions.shared.use_by import loose_text
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["NO_DANGER", "item_standing", "standing_cautions", "standing_columns"]

NO_DANGER = 99
"""Comes behind every grave standing in the order of the shelf."""


def standing_columns(state: State, lot: int) -> dict[str, Any]:
    """Return the columns of a lot's standing; ``_danger`` is its place among the grave ones."""
    found = standing_of(state, lot)
    return {
        "standing": None if found is None else found.standing,
        "standing_text": _text(state, lot, found),
        "standing_batch": None if found is None else state.entry_id(found.ev),
        "_danger": found.rank if found is not None and found.is_grave else NO_DANGER,
    }


def _text(state: State, lot: int, found: Standing | None) -> str | None:
    loose = loose_text(state, lot)
    said = None
    if found is not None and (found.is_marked or found.standing == LOOKED_UP):
        said = found.text
    return joined("; ", [one for one in (said, loose) if one]) or None


def item_standing(state: State, lots: list[int]) -> dict[str, Any]:
    """Return the columns of an item's standing: that of its gravest lot, and how many are marked."""
    known = state.once(standings).of(lots)
    found = [(one, lot) for lot, one in known.items() if one is not None]
    if not found:
        return {"standing": None, "standing_text": None, "mark": None}
    worst, _ = min(found, key=lambda one: (one[0].rank, one[0].day))
    marked = sum(one.is_marked for one, _ in found)
    text = worst.text if worst.is_marked else None
    if text is not None and len(lots) > 1:
        text = sentence("standing-gravest", n=marked, n2=len(lots), text=text)
    mark = worst.standing if worst.is_marked else None
    return {"standing": worst.standing, "standing_text": text, "mark": mark}


def standing_cautions(state: State, lots: list[int]) -> list[Assumption]:
    """Return what stands before a shelf on which jars are in danger; empty where none is."""
    known = state.once(standings).of(lots)
    grave = {
        state.entry_id(one.ev): one for one in known.values() if one is not None and one.is_grave
    }
    if not grave:
        return []
    worst = sorted(grave.values(), key=lambda one: (one.rank, one.day))
    named = [
        sentence("standing-item-of-day", item=one.item, day=Day(day_text(one.day)))
        for one in worst[:3]
    ]
    batches: str = joined(", ", named)
    if len(worst) > len(named):
        batches = sentence("standing-and-more", names=batches, n=len(worst) - len(named))
    text = sentence("standing-in-danger", n=len(worst), batches=batches)
    return [Assumption("standing", text, stands_first=True)]
