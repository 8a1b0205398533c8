"""An item's past as looking ahead takes it: weeks, how much of each counts, sizes and pauses of use.

A day counts when there was some of the item at its beginning, or some came in on it. A week that
ran dry on Wednesday so counts three sevenths: empty days are neither use of nothing, nor filled
with other days (exposure, as in the counting of events by time at risk).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ledger.errors import InputError
from ledger.messages import Code, Message

__all__ = ["KEPT_WEEKS", "SINGLE_WEEKS", "Array", "Past", "past_of"]

Array = NDArray[np.float64]

#: Older weeks are not looked at: households change. Our choice.
KEPT_WEEKS = 260
#: So many of the newest weeks are taken one by one, older ones in fours. Our choice.
SINGLE_WEEKS = 26
_FOUR = 4
_KEPT = 1024
"""Items whose past is kept."""


@dataclass(frozen=True)
class Past:
    """What one item's days show; weeks are counted back from the last day.

    Attributes
    ----------
    used, there : ndarray, shape (bins,)
        Use in each bin, newest first, in the item's unit; and the weeks (with fractions) of it in
        which there was some. The newest `SINGLE_WEEKS` bins are single weeks, the others fours.
    weeks : int
        Whole weeks looked back on.
    uses : int
        Days with use, N.
    size : float
        Mean amount of a day with use; 0 without any.
    scatter : float
        Squared coefficient of variation of these amounts, (N var / mean^2 + 1/2) / (N + 1).
    pauses : ndarray, shape (N - 1,)
        From use to use, in days that count, oldest first.
    age : float
        Days that count since the last use.
    """

    used: Array
    there: Array
    weeks: int
    uses: int
    size: float
    scatter: float
    pauses: Array
    age: float

    @cached_property
    def key(self) -> tuple[bytes, ...]:
        """Everything that an answer depends on, to keep answers by."""
        rest = np.array([self.weeks, self.uses, self.size, self.scatter, self.age])
        return self.used.tobytes(), self.there.tobytes(), self.pauses.tobytes(), rest.tobytes()


def past_of(use: ArrayLike, there: ArrayLike) -> Past:
    """Return the past of one item from its days.

    Parameters
    ----------
    use : array of float, shape (days,)
        Use on each day, oldest first and ending with the day of the answer; 0 or more, in the
        item's own unit. The first day is the first on which the item was in the book.
    there : array of bool, shape (days,)
        Whether there was some at the beginning of the day, or some came in on it.

    Returns
    -------
    Past
        Of whole weeks only, at most `KEPT_WEEKS`; an incomplete oldest four is dropped.

    Raises
    ------
    InputError
        When the shapes differ or a day has negative use.
    """
    amounts = np.asarray(use, dtype=np.float64)
    counts = np.asarray(there, dtype=bool)
    if amounts.shape != counts.shape or amounts.ndim != 1:
        raise InputError(
            "use",
            Message.of(
                "refusal-use-and-stock", use=Code(str(amounts.shape)), stock=Code(str(counts.shape))
            ),
        )
    return _past_of(amounts.tobytes(), counts.tobytes())


@lru_cache(_KEPT)
def _past_of(use: bytes, there: bytes) -> Past:
    """Return the same of the bytes of both: an item's days are the same while others are written of."""
    amounts, counts = np.frombuffer(use, np.float64), np.frombuffer(there, bool)
    weeks = min(len(amounts) // 7, KEPT_WEEKS)
    if weeks > SINGLE_WEEKS:
        weeks -= (weeks - SINGLE_WEEKS) % _FOUR
    amounts, counts = amounts[len(amounts) - 7 * weeks :], counts[len(counts) - 7 * weeks :]
    if len(amounts) and amounts.min() < 0:
        raise InputError("use", Message.of("refusal-negative-use"))
    at = np.flatnonzero(amounts > 0)
    counts = counts | (amounts > 0)  # what was used was there
    sizes = amounts[at]
    elapsed = np.cumsum(counts)
    size = float(sizes.mean()) if at.size else 0.0
    spread = float(((sizes / size - 1) ** 2).sum()) if at.size else 0.0
    age = float(elapsed[-1] - elapsed[at[-1]]) if at.size else float(counts.sum())
    return Past(
        _bins(amounts, weeks),
        _bins(counts, weeks) / 7,
        weeks,
        int(at.size),
        size,
        (spread + 0.5) / (at.size + 1),
        np.diff(elapsed[at]).astype(np.float64),
        age,
    )


def _bins(days: NDArray[np.generic], weeks: int) -> Array:
    """Return sums over the bins, newest first."""
    by_week = days.reshape(weeks, 7).sum(axis=1, dtype=np.float64)[::-1]
    older = by_week[SINGLE_WEEKS:].reshape(-1, _FOUR).sum(axis=1)
    return np.concatenate([by_week[:SINGLE_WEEKS], older])
