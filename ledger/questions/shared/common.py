"""What several questions share: the answer's frame, assumptions, jars of an entry, weights."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.questions.answering import answer, assumptions_of
from ledger.questions.quantities import (
    LISTED_FROM,
    QUART_UL,
    UNITS,
    whole_unit,
)

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = [
    "LISTED_FROM",
    "QUART_UL",
    "UNITS",
    "answer",
    "assumptions_of",
    "grams_of",
    "grams_of_line",
    "jars_gone",
    "listed_lots",
    "whole_unit",
]


def listed_lots(state: State) -> np.ndarray[Any, Any]:
    """Return the lots that the shelf lists: those of which enough is left to speak of."""
    least = np.array([LISTED_FROM[m] for m in state.facts.measure] or [1])
    return np.flatnonzero(state.left >= np.maximum(least[state.lots["item"]], 1))


def jars_gone(jars: int, whole: int, amount: int) -> int:
    """Return floor(jars x amount / whole + 0.001), exactly (the reckoning, rule 7)."""
    return (jars * amount * 1000 + whole) // (whole * 1000) if whole else 0


def grams_of(state: State, item: int, whole: int) -> float | None:
    """Return the weight of an amount in grams, or None where none is known."""
    per = state.facts.grams_per_whole(item)
    return None if per is None else whole * per


def grams_of_line(state: State, item: int | None, line: Mapping[str, Any]) -> float | None:
    """Return the weight in grams of a body's line, or None where none is known.

    Parameters
    ----------
    item : int or None
        Its item's number; None where the book has no such item.
    line : mapping
        As stored.
    """
    if line.get("whole") is None:
        return None
    if line.get("measure") == "mass":
        return float(line["whole"]) / 1000
    if item is None:
        return None
    number, whole, measure = state.facts.comes(item, line)
    if measure == "mass":
        return whole / 1000
    return None if number is None else grams_of(state, number, whole)


def number(value: float) -> float | None:
    """Return a float for an answer; NaN becomes None."""
    return None if math.isnan(value) else float(value)
