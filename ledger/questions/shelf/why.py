"""Why a figure of the shelf says so: the tree of its formula at one lot, item or day."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.figures import Figure, Node, assumed, method, tree
from ledger.messages import Day, Message, Typed, sentence
from ledger.questions.ahead.lasting import ahead_of
from ledger.questions.shared.opening import check_figure, entry_leaf, no_record
from ledger.questions.shared.standing import standing_of
from ledger.questions.shelf.days import Days, Weeks
from ledger.questions.shelf.figures import day_figures, item_figures, lot_figures, week_figures
from ledger.questions.shelf.gather import Lots
from ledger.questions.shelf.items import address_of, build_items
from ledger.questions.shelf.items_gather import Items
from ledger.questions.shelf.labels import LABELS
from ledger.questions.shelf.over_time import item_number
from ledger.questions.telling import StateTeller
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from ledger.replay import State

__all__ = ["LABELS", "why"]

_DAYS = frozenset(
    ("use_by", "runs_out_on.early", "runs_out_on.likely", "runs_out_on.late", "next_supply_on",
     "past_best_on", "best_until")
)  # fmt: skip
"""Columns that are days in the answer, and days since 1970 in their formulas."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of a lot, an item, or a day of an item's stock as a tree.

    Parameters
    ----------
    key : str
        The lot's id; ``items/NAME`` (spaces as hyphens or not) or ``over-time/NAME/DAY`` of the
        answer's other shapes.
    field : str, optional
        A column of the answer; default: what is left, of a day ahead the low end. Of a lot also
        ``cost``, that of all of it.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such lot, item or day, or no such figure of it.
    """
    shape, _, rest = key.partition("/")
    if rest and shape == "items":
        return _of_item(state, rest, field, deep)
    if rest and shape == "over-time":
        return _of_day(state, rest, field, deep)
    lot = state.lot_ids.get(key)
    if lot is None:
        raise no_record("shelf", key)
    name = "left.whole" if field in (None, "left") else str(field)
    figures = lot_figures(Lots(state, np.array([lot], np.int64)))
    check_figure("shelf", name, [*figures, "standing"])
    return _standing(state, lot) if name == "standing" else _told(state, figures, name, deep)


def _told(state: State, figures: Mapping[str, Figure], name: str, deep: int, row: int = 0) -> Node:
    """Return the tree of a figure; one that is a day in the answer ends as that day."""
    node = tree(figures[name], row, StateTeller(state, LABELS), deep)
    if name in _DAYS and isinstance(node.value, float):
        node.value, node.unit = day_text(int(node.value)), "day"
    return node


def _standing(state: State, lot: int) -> Node:
    found = standing_of(state, lot)
    if found is None:
        return Node(sentence("standing-nothing-to-compare"), None)
    parts = [entry_leaf(state, found.ev, found.standing)]
    return Node(found.text, found.standing, "", "as written", parts)


def _of_item(state: State, key: str, field: str | None, deep: int) -> Node:
    item = item_number(state, key, "address")
    figures = item_figures(Items(state, ahead_of(state, item)))
    name = "left.whole" if field in (None, "left") else str(field)
    check_figure("shelf", name, [*figures, "eat_first"])
    figure = _rank(state, item, figures) if name == "eat_first" else figures[name]()
    return _told(state, {name: figure}, name, deep)


def _rank(state: State, item: int, figures: Mapping[str, Callable[[], Figure]]) -> Figure:
    """Return the place of an item among all."""
    address = address_of(state.facts.strand_name(item))
    found = [r["eat_first"] for r in build_items(state).rows() if r["why"] == address]
    place = np.array(found or [np.nan], np.float64)
    if not found:
        return assumed(place, "", "eat-first").called("not-listed")
    given = [figures[name]() for name in ("past_best_on", "best_until", "weeks_left.likely")]
    return method(lambda: place, "", "eat-first", given).called("eat_first")


def _of_day(state: State, key: str, field: str | None, deep: int) -> Node:
    name, _, day = key.rpartition("/")
    item = item_number(state, name, "address")
    try:
        number = day_number(day)
    except ValueError:
        raise NotFound("address", Message.of("refusal-address-no-day", text=Typed(day))) from None
    known: dict[str, tuple[Mapping[str, Figure], int]] = {}
    days = Days(state, item)
    if number in days.day:
        past = day_figures(days)
        known |= dict.fromkeys(past, (past, int(days.day.searchsorted(number))))
    week, rest = divmod(number - state.as_of_day, 7)
    if week >= 0 and not rest and week < (weeks := Weeks(state, item)).count:
        ahead = week_figures(weeks)
        known |= dict.fromkeys(ahead, (ahead, week))
    if not known:
        raise NotFound(
            "address", Message.of("refusal-nothing-told", name=name, day=Day(day_text(number)))
        )
    chosen = next(iter(known)) if field is None else field
    check_figure("shelf", chosen, known)
    figures, row = known[chosen]
    return _told(state, figures, chosen, deep, row)
