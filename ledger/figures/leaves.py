"""Where figures begin: what was written down, what is published, what is assumed, what is not known."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from ledger.figures.figure import MORE, Array, Figure, Opened, Unit, work

__all__ = [
    "NO_ENTRY",
    "assumed",
    "at_least_none",
    "none_below",
    "nothing",
    "published",
    "said",
    "unknown",
    "unpriced",
]

NO_ENTRY = "no-entry-adds-to-it"
"""What a sum of nothing rests on: no entry adds anything to it."""


def said(values: Any, unit: Unit, ev: Array) -> Figure:
    """Return what events say.

    Parameters
    ----------
    values : array or callable, shape (rows,)
    unit : str or callable of a row
    ev : ndarray of int, shape (rows,)
        Place of the event that each row comes from.
    """
    return Figure(_lazy(values), unit, lambda row: Opened(event=int(ev[row])))


def published(value: Any, unit: Unit, source: str | Callable[[int], str]) -> Figure:
    """Return a constant, or a column, that is published: `source` is its id."""
    return Figure(
        _lazy(value),
        unit,
        lambda row: Opened(source=source if isinstance(source, str) else source(row)),
    )


def assumed(
    values: Any, unit: Unit, assumption: str | Callable[[int], str], bound: int | Array = 0
) -> Figure:
    """Return what rests on an assumption, by its id.

    Parameters
    ----------
    bound : int or ndarray of int, shape (rows,)
        `MORE` where nothing is known and 0 has to serve.
    """
    made = _lazy(values)
    return Figure(
        made,
        unit,
        lambda row: Opened(
            assumption=assumption if isinstance(assumption, str) else assumption(row)
        ),
        lambda: np.full(np.shape(made()), bound, np.int8),
    )


def unknown(unit: Unit, reason: str, rows: int | None = None) -> Figure:
    """Return what cannot be said: `reason` is the id of the label that says why."""
    shape = () if rows is None else (rows,)
    return Figure(lambda: np.full(shape, np.nan), unit, lambda row: Opened(label=reason))


def nothing(unit: Unit) -> Figure:
    """Return a sum of nothing: it rests on `NO_ENTRY`."""
    return Figure(lambda: 0.0, unit, lambda row: Opened("sum"))


def none_below(unit: Unit) -> Figure:
    """Return what stands for less than nothing."""
    return assumed(0.0, unit, "less-than-none-is-none")


def at_least_none(figure: Figure, label: str) -> Figure:
    """Return a figure, or nothing where it is less.

    Parameters
    ----------
    label : str
        Id of the label of that nothing.
    """
    return work("highest", figure, none_below(figure.unit_of).called(label))


def unpriced(unit: Unit, name: Callable[[int], str], rows: int) -> Figure:
    """Return nothing paid, or more: what no price is known of."""
    return assumed(np.zeros(rows), unit, lambda row: f"unpriced:{name(row)}", MORE)


def _lazy(values: Any) -> Callable[[], Any]:
    return values if callable(values) else lambda: values
