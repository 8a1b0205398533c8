"""What a procedure gives: a fit, a solver, the calendar. Its parts are what it was given."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from ledger.figures.figure import Array, Figure, Opened, Unit

__all__ = ["method"]

Parts = Callable[[int], Sequence[tuple[Figure, int]]]


def method(
    values: Callable[[], Any],
    unit: Unit,
    by: str | Callable[[int], str],
    parts: Sequence[Figure] | Parts,
    bounds: Callable[[], Array] | None = None,
) -> Figure:
    """Return what a procedure gives for all rows.

    No arithmetic of the parts gives it: whoever doubts a node runs the procedure on them.

    Parameters
    ----------
    values : callable
        Gives the column, shape (rows,); NaN: cannot be said.
    unit : str or callable of a row
    by : str or callable of a row
        Id of the assumption that says how it is done.
    parts : sequence of Figure, or callable
        What it was given: figures of the same rows, or ``parts(row)`` gives them as (figure, row).
    bounds : callable, optional
        Default: exact.
    """

    def opens(row: int) -> Opened:
        some = parts(row) if callable(parts) else [(figure, row) for figure in parts]
        name = by if isinstance(by, str) else by(row)
        return Opened("method", tuple(some), assumption=name)

    return Figure(values, unit, opens, bounds)
