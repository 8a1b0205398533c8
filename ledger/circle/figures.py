"""The figures of a sheet, described once: limits, rounding and meaning; docs and checks follow.

Limits and edges belong to the format. They are never taken from what households send, as a limit
that moves with the data would tell about it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

__all__ = ["CHANGES", "CROP", "HOUSEHOLD", "PRODUCT", "Figure", "clamped", "names_of"]


@dataclass(frozen=True)
class Figure:
    """A figure of a sheet.

    Parameters
    ----------
    name : str
        Its name in the file; of a product's or crop's figure what follows ``p1_`` or ``c1_``.
    label, meaning : str
        For people.
    unit : str
        ``count``, ``jars``, ``batches``, ``per mille``, ``change``, ``hours``, ``money`` (hundredths), ``minutes``,
        ``minutes change``, ``rate`` (per mille), ``m2`` (hundredths) or ``g/m2``.
    low, high : int
        What is below or above is written down as this: no household stands out by its size.
    """

    name: str
    label: str
    unit: str
    low: int
    high: int
    meaning: str


HOUSEHOLD = (
    Figure("people", "People", "count", 1, 12, "people at the table, as the setting says"),
    Figure("batches", "Batches", "batches", 0, 200, "batches put up in the season"),
    Figure("skills", "Skills in hand", "count", 0, 60, "skills of the household that stand in hand"),
    Figure("judged", "Batches compared", "batches", 0, 60, "batches of the season set beside a published process"),
    Figure("short", "Short of published", "batches", 0, 60, "of those, short of the published process or against every one"),
    Figure("no_process", "No tested process", "batches", 0, 60, "of those, with no published process held for them"),
    Figure("not_recorded", "Not recorded", "batches", 0, 60, "of those, with something not written down that decides"),
    Figure("canned", "Jars canned", "jars", 0, 600, "jars put up in boiling water or under pressure in the season"),
    Figure("unsealed", "Jars unsealed", "jars", 0, 100, "of those, jars that did not seal"),
    Figure("kept", "Jars kept", "jars", 0, 600, "jars left on the season's last day"),
    Figure("kept_over_year", "Jars over a year", "jars", 0, 300, "of those, put up more than twelve months before"),
    Figure("own_energy", "Own share by energy", "per mille", 0, 1000, "what was eaten in the season and grown at home, by energy"),
    Figure("own_weight", "Own share by weight", "per mille", 0, 1000, "the same by weight"),
    Figure("own_value", "Own share by value", "per mille", 0, 1000, "the same at the shop's price"),
    Figure("waste", "Wasted", "per mille", 0, 1000, "part of all food of the season, by weight, that was lost"),
    Figure("hours", "Hours", "hours", 0, 2000, "hours written down for garden and batches"),
    Figure("spent", "Paid out for batches", "money", 0, 500_000, "money paid out for the season's batches"),
    Figure("saved", "Saved by batches", "money", -100_000, 500_000, "shop's price of the season's batches less all-in cost"),
)  # fmt: skip

CHANGES = (
    Figure("change_short", "Change: short of published", "change", -1000, 1000, "share of batches short of published, this season less the one before"),
    Figure("change_unsealed", "Change: unsealed", "change", -1000, 1000, "share of jars that did not seal, this season less the one before"),
    Figure("change_waste", "Change: wasted", "change", -1000, 1000, "share wasted, this season less the one before"),
    Figure("change_own_energy", "Change: own share", "change", -1000, 1000, "own share by energy, this season less the one before"),
    Figure("change_minutes", "Change: minutes a quart", "minutes change", -1000, 1000, "minutes of work a quart of all products asked for, this season less the one before"),
)  # fmt: skip
"""Only where the call has a season before; worked out at home, from one book."""

PRODUCT = (
    Figure("jars", "Jars", "jars", 0, 200, "jars of it put up by this method"),
    Figure("cost", "Cost a quart", "money", 50, 3000, "all-in cost a US quart; not known once something that went in has no price"),
    Figure("minutes", "Minutes a quart", "minutes", 0, 240, "minutes of work a US quart; not known where no work was written down"),
    Figure("learning", "Learning rate", "rate", 500, 1500, "what a doubling of batches leaves of the minutes; not known from fewer than five batches"),
)  # fmt: skip

CROP = (
    Figure(
        "area",
        "Ground",
        "m2",
        0,
        50_000,
        "ground planted with it; not known where a planting does not say",
    ),
    Figure("yield", "Yield", "g/m2", 0, 20_000, "weight picked a square metre of that ground"),
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
