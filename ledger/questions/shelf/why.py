"""Why a figure of the shelf says so: the tree of its formula at one lot, item or day."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, Node, tree
from ledger.questions.shared.common import event_node
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.shared.standing import standing_of
from ledger.questions.shelf.figures import lot_figures
from ledger.questions.shelf.gather import Lots
from ledger.questions.shelf.labels import LABELS
from ledger.questions.telling import StateTeller
from ledger.replay import day_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from ledger.replay import State

__all__ = ["LABELS", "why"]

_DAYS = ("use_by",)
"""Columns that are days in the answer, and days since 1970 in their formulas."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of a lot as a tree.

    Parameters
    ----------
    key : str
        The lot's id; ``items/NAME`` or ``over-time/NAME/DAY`` of the answer's other shapes.
    field : str, optional
        A column of the answer; default: what is left. ``cost`` is that of the whole lot.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such lot, or no such figure of it.
    """
    from ledger.questions.shelf import items_why

    shape, _, rest = key.partition("/")
    if rest and shape in ("items", "over-time"):
        return (items_why.why_item if shape == "items" else items_why.why_over_time)(
            state, rest, field
        )
    lot = state.lot_ids.get(key)
    if lot is None:
        raise no_record("shelf", key)
    name = "left.whole" if field in (None, "left") else str(field)
    figures = lot_figures(Lots(state, np.array([lot], np.int64)))
    check_figure("shelf", name, [*figures, "standing"])
    return _standing(state, lot) if name == "standing" else _told(state, figures, name, deep)


def _told(state: State, figures: Mapping[str, Figure], name: str, deep: int) -> Node:
    """Return the tree of a figure; one that is a day in the answer ends as that day."""
    node = tree(figures[name], 0, StateTeller(state, LABELS), deep)
    if name in _DAYS and isinstance(node.value, float):
        node.value, node.unit = day_text(int(node.value)), "day"
    return node


def _standing(state: State, lot: int) -> Node:
    found = standing_of(state, lot)
    if found is None:
        return Node("nothing is published that it could be compared with", None)
    parts = [event_node(state, found.ev, "", found.standing, "")]
    return Node(found.text, found.standing, "", "as written", parts)
