"""The frame of an answer: its moment and currency, and the assumptions that it rests on."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from ledger.figures import MARKS
from ledger.projections.base import Answer, Assumption, Column, cells_of
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.figures import Figure
    from ledger.replay import State

__all__ = ["answer", "answer_of_cells", "assumptions_of", "record_of"]


def answer(
    state: State, name: str, columns: tuple[Column, ...], records: list[dict[str, Any]], **more: Any
) -> Answer:
    """Return an `Answer` of a state from flat records."""
    return answer_of_cells(state, name, columns, cells_of(columns, records), **more)


def answer_of_cells(
    state: State,
    name: str,
    columns: tuple[Column, ...],
    cells: dict[str, Sequence[Any]],
    **more: Any,
) -> Answer:
    """Return an `Answer` of a state from its columns."""
    return Answer(
        name=name,
        as_of=day_text(state.as_of_day),
        known_at=state.known_at,
        currency=state.settings.newest("currency") or "USD",
        columns=columns,
        cells=cells,
        **more,
    )


def assumptions_of(state: State, marks: list[int]) -> tuple[list[list[str]], list[Assumption]]:
    """Return the ids of what each record rests on, and the assumptions in words."""
    costs = state.costs
    each = {mark: costs.assumed(mark) for mark in set(marks)}  # many records share one
    ids = [list(each[mark]) for mark in marks]
    wanted = sorted({one for several in each.values() for one in several})
    return ids, [costs.assumption(one) for one in wanted]


def record_of(figures: Mapping[str, Figure], row: int) -> dict[str, Any]:
    """Return the figures of a row as cells by name, None where nothing can be said, and their `bounds`."""
    cells: dict[str, Any] = {name: figure.value(row) for name, figure in figures.items()}
    marks = {name: MARKS[figure.bound_of(row)] for name, figure in figures.items()}
    return {
        **{name: None if math.isnan(cell) else cell for name, cell in cells.items()},
        "bounds": {name: mark for name, mark in marks.items() if mark},
    }
