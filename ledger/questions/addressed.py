"""Opening what has an address of its own: a row of a table, and one of its figures."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, TypeVar

from ledger.errors import NotFound
from ledger.figures import Figure, Node, tree
from ledger.messages import Message, Typed
from ledger.questions.shared.opening import check_figure
from ledger.questions.telling import StateTeller

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["open_one", "tree_of"]

_Of = TypeVar("_Of")
_Figures = Mapping[str, Callable[[], Figure]]


def open_one(
    state: State,
    tables: Mapping[str, Callable[[_Of, str], tuple[_Figures, int] | None]],
    of: _Of,
    labels: Mapping[str, str],
    address: str,
    field: str | None,
    deep: int,
) -> Node:
    """Return the tree of a figure that an address names.

    Parameters
    ----------
    tables : mapping of str to callable
        By the first word of an address: gives the figures and the row that the rest names, or None.
    of : object
        What the tables look in.
    labels : mapping of str to str
    address : str
    field : str or None
        Which figure of it; None: the first.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such thing, or no such figure of it.
    """
    table, _, key = address.partition("/")
    found = tables[table](of, key)
    if found is None:
        raise NotFound(
            "address",
            Message.of("refusal-address-nothing", text=Typed(address)),
        )
    figures, row = found
    return tree_of(state, figures, row, table, field, labels, deep)


def tree_of(
    state: State,
    figures: _Figures,
    row: int,
    table: str,
    field: str | None,
    labels: Mapping[str, str],
    deep: int,
) -> Node:
    """Return the tree of one of several figures at a row.

    Raises
    ------
    NotFound
        Naming the figures that there are.
    """
    name = next(iter(figures)) if field is None else field
    check_figure(table, name, figures)
    return tree(figures[name](), row, StateTeller(state, labels), deep)
