"""The frame of an answer: its moment and currency, and the assumptions that it rests on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from ledger.projections.base import Answer, Assumption, Column, cells_of
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["answer", "answer_of_cells", "assumptions_of"]


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
