"""The figures of a sheet, described once: limits, rounding and meaning; docs and checks follow.

Limits and edges belong to the format. They are never taken from what households send, as a limit
that moves with the data would tell about it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ledger.messages import Sentence, sentence

__all__ = ["CHANGES", "CROP", "HOUSEHOLD", "PRODUCT", "Figure", "clamped", "names_of"]


@dataclass(frozen=True)
class Figure:
    """A figure of a sheet.

    Parameters
    ----------
    name : str
        Its name in the file; of a product's or crop's figure what follows ``p1_`` or ``c1_``.
    called, means : str
        Ids of its label and of its meaning.
    unit : str
        ``count``, ``jars``, ``batches``, ``per mille``, ``change``, ``hours``, ``money`` (hundredths), ``minutes``,
        ``minutes change``, ``rate`` (per mille), ``m2`` (hundredths) or ``g/m2``.
    low, high : int
        What is below or above is written down as this: no household stands out by its size.
    """

    name: str
    called: str
    unit: str
    low: int
    high: int
    means: str

    @property
    def label(self) -> Sentence:
        """What a table calls it."""
        return sentence(self.called)

    @property
    def meaning(self) -> Sentence:
        """What it counts, for people."""
        return sentence(self.means)


HOUSEHOLD = (
    Figure("people", "circle-people", "count", 1, 12, "circle-people-means"),
    Figure("batches", "circle-batches", "batches", 0, 200, "circle-batches-means"),
    Figure("skills", "circle-skills", "count", 0, 60, "circle-skills-means"),
    Figure("judged", "circle-judged", "batches", 0, 60, "circle-judged-means"),
    Figure("short", "circle-short", "batches", 0, 60, "circle-short-means"),
    Figure("no_process", "circle-no-process", "batches", 0, 60, "circle-no-process-means"),
    Figure("not_recorded", "circle-not-recorded", "batches", 0, 60, "circle-not-recorded-means"),
    Figure("canned", "circle-canned", "jars", 0, 600, "circle-canned-means"),
    Figure("unsealed", "circle-unsealed", "jars", 0, 100, "circle-unsealed-means"),
    Figure("kept", "circle-kept", "jars", 0, 600, "circle-kept-means"),
    Figure("kept_over_year", "circle-kept-over-year", "jars", 0, 300, "circle-kept-over-year-means"),
    Figure("own_energy", "circle-own-energy", "per mille", 0, 1000, "circle-own-energy-means"),
    Figure("own_weight", "circle-own-weight", "per mille", 0, 1000, "circle-own-weight-means"),
    Figure("own_value", "circle-own-value", "per mille", 0, 1000, "circle-own-value-means"),
    Figure("waste", "circle-waste", "per mille", 0, 1000, "circle-waste-means"),
    Figure("hours", "circle-hours", "hours", 0, 2000, "circle-hours-means"),
    Figure("spent", "circle-spent", "money", 0, 500_000, "circle-spent-means"),
    Figure("saved", "circle-saved", "money", -100_000, 500_000, "circle-saved-means"),
)  # fmt: skip

CHANGES = (
    Figure("change_short", "circle-change-short", "change", -1000, 1000, "circle-change-short-means"),
    Figure("change_unsealed", "circle-change-unsealed", "change", -1000, 1000, "circle-change-unsealed-means"),
    Figure("change_waste", "circle-change-waste", "change", -1000, 1000, "circle-change-waste-means"),
    Figure("change_own_energy", "circle-change-own-energy", "change", -1000, 1000, "circle-change-own-energy-means"),
    Figure("change_minutes", "circle-change-minutes", "minutes change", -1000, 1000, "circle-change-minutes-means"),
)  # fmt: skip
"""Only where the call has a season before; worked out at home, from one book."""

PRODUCT = (
    Figure("jars", "circle-jars", "jars", 0, 200, "circle-jars-means"),
    Figure("cost", "circle-cost", "money", 50, 3000, "circle-cost-means"),
    Figure("minutes", "circle-minutes", "minutes", 0, 240, "circle-minutes-means"),
    Figure("learning", "circle-learning", "rate", 500, 1500, "circle-learning-means"),
)  # fmt: skip

CROP = (
    Figure("area", "circle-area", "m2", 0, 50_000, "circle-area-means"),
    Figure("yield", "circle-yield", "g/m2", 0, 20_000, "circle-yield-means"),
)


def clamped(figure: Figure, value: float | None) -> int | None:
    """Return a value as it stands on a sheet: rounded half to even, then brought within the limits.

    Examples
    --------
    >>> clamped(PRODUCT[1], 12.5), clamped(PRODUCT[1], 101.5), clamped(PRODUCT[1], None)
    (50, 102, None)
    """
    return None if value is None else min(max(round(value), figure.low), figure.high)


def names_of(products: int, crops: int, *, with_before: bool) -> dict[str, Figure]:
    """Return the figures of a sheet by their names in the file, in order."""
    plain: Sequence[Figure] = (*HOUSEHOLD, *(CHANGES if with_before else ()))
    out = {one.name: one for one in plain}
    for letter, many, several in (("p", products, PRODUCT), ("c", crops, CROP)):
        for number in range(1, many + 1):
            out |= {f"{letter}{number}_{one.name}": one for one in several}
    return out
