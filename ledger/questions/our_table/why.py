"""Why a figure of our-table says so: the tree of its formula at one period, dish or path."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import unquote

from ledger.errors import InputError, NotFound
from ledger.figures import Figure, Node
from ledger.questions.addressed import tree_of
from ledger.questions.food import BASES, SIX
from ledger.questions.food import LABELS as FOOD_LABELS
from ledger.questions.our_table.figures import by_dish, figures, of_bought_feed
from ledger.questions.our_table.gather import Table
from ledger.questions.our_table.paths import figures_of_path
from ledger.questions.periods import Period, day_of

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **FOOD_LABELS,
    "eaten": "why-eaten",
    "dish": "why-on-table",
    "span": "why-on-table-in-span",
    "all-eaten": "why-all-eaten",
    "nothing-known": "why-nothing-known",
    "share": "why-share-of-origin",
    "bought-feed": "why-bought-feed",
    "adjusted": "why-adjusted",
    "feed-not-known": "why-feed-not-known",
    "adjusted-share": "why-adjusted-share",
    "people": "why-people",
    "kcal_per_person_day": "why-kcal-per-person-day",
    "days": "why-days",
    "a-day": "why-a-day",
    "stretch": "why-stretch",
    "need": "why-need",
    "need-not-set": "why-need-not-set",
    "share-of-need": "why-share-of-need",
    "path": "why-text",
    "path-not-known": "why-path-not-known",
    "on-hand": "why-of-day",
    "on-hand-part": "why-on-hand-part",
    "was-taken": "why-was-taken",
    "still-there": "why-left-of-it",
    "given-part": "why-given-part",
    "lost-part": "why-lost-part",
    "lost-row": "why-lost-row",
}
"""What the figures are called, by the ids of their labels."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of one period, basis and origin as a tree.

    Parameters
    ----------
    key : str
        ``<first day>/<last day>/<basis>/<origin>``, as in the answer's `why`, with ``/<item>`` of
        one dish; a path's begins with ``paths/``.
    field : str, optional
        A column of the answer; default: the share of what was eaten, of a dish its amount.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record, or no such figure of it.
    """
    if key.startswith("paths/"):
        known, row = figures_of_path(state, key.removeprefix("paths/"))
        return tree_of(state, known, row, "a path", field or "grams", LABELS, deep)
    period, basis, origin, item = _parts(key)
    table = Table(state, [period])
    if item is not None:
        dish = table.find(_item(state, item, key))
        if dish is None:
            raise _no_record(key)
        known = {"amount": lambda: by_dish(table, basis, origin)}
        if origin == "grown" and table.has_fed:
            known["bought_feed"] = lambda: of_bought_feed(table, basis)
        return tree_of(state, known, dish, "a dish", field, LABELS, deep)
    of_origin = figures(table, basis)[origin]
    known = {name: _same(one) for name, one in of_origin.items()}
    return tree_of(state, known, 0, "our-table", field or "share_of_eaten", LABELS, deep)


def _same(figure: Figure):  # type: ignore[no-untyped-def]
    return lambda: figure


def _parts(key: str) -> tuple[Period, str, str, str | None]:
    """Return the period, basis, origin and item of an address."""
    parts = key.split("/")
    try:
        first, last, basis, origin, *rest = parts
        start, end = day_of(first, "from"), day_of(last, "to")
        BASES.index(basis), SIX.index(origin)
        (item,) = rest or (None,)
    except (ValueError, InputError):
        raise _no_record(key) from None
    return Period(f"{first}/{last}", start or 0, end or 0), basis, origin, item


def _item(state: State, item: str, key: str) -> int:
    found = state.facts.find_strand(unquote(item))
    if found is None:
        raise _no_record(key)
    return found


def _no_record(key: str) -> NotFound:
    return NotFound(
        "address",
        f"there is no record {key!r}",
        "Take an address from `croftbook show our-table --json`",
    )
