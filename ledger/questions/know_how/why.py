"""Why a figure of know-how says so: the tree of its formula at one skill, month or practice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Node, tree
from ledger.messages import sentence
from ledger.questions.know_how.curves import Curve
from ledger.questions.know_how.figures import KnowHow, curve_figures, month_figures
from ledger.questions.know_how.gather import Records
from ledger.questions.know_how.labels import LABELS
from ledger.questions.know_how.skills import HOUSEHOLD
from ledger.questions.know_how.words import read_address, year_in
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.telling import StateTeller

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ledger.figures import Figure
    from ledger.replay import State

__all__ = ["why"]


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of a skill as a tree.

    Parameters
    ----------
    key : str
        ``plum+butter``, ``plum+butter/Ada``, ``@2026/plum+butter`` or ``@curve/plum+butter/3``,
        as in the answer's `why`.
    field : str, optional
        A column of that answer; default: the standing, the times of the year, the minutes for one.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such skill, person or repetition, or no such figure of it.
    """
    records = state.once(Records)
    shape, parts = read_address(key)
    count = 2 if shape == "@curve" else 1
    if not count <= len(parts) <= count + 1 or not parts[0]:
        raise no_record("know-how", key)
    skill = records.skills.must_find(parts[0])
    named = len(parts) > count
    person = records.skills.must_find_person(parts[count]) if named else HOUSEHOLD
    found = _found(records, shape, parts, records.place.get((skill, person)))
    if found is None:
        raise no_record("know-how", key)
    figures, row = found
    name = field or next(iter(figures))
    check_figure("know-how", name, figures)
    return _told(state, tree(figures[name], row, StateTeller(state, LABELS), deep), name, row)


def _found(
    records: Records, shape: str, parts: list[str], record: int | None
) -> tuple[Mapping[str, Figure], int] | None:
    """Return the figures of what an address names, and its row; None where there is no such thing."""
    if record is None:
        return None
    if not shape:
        return records.state.once(KnowHow).of, record
    if shape == "@curve":
        start, end = records.spans[record]
        if not parts[1].isdecimal() or not 1 <= int(parts[1]) <= end - start:
            return None
        return curve_figures(Curve(records.state, record)), int(parts[1]) - 1
    year = year_in(shape[1:])
    return None if year is None else (month_figures(records, year), record)


def _told(state: State, node: Node, name: str, row: int) -> Node:
    """Return a tree as it is told: of two figures the answer gives the word."""
    if name == "standing":
        node.value = state.once(KnowHow).standings.of[row].word
    elif name == "target_met" and node.value is not None:
        node.value = node.label = sentence("why-target-met" if node.value else "why-target-not-met")
    return node
