"""What every question's `why` begins and ends with: an item by name, a record and a figure that are there or not."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.figures import Figure, Node, said, tree
from ledger.messages import Code, Message, Names, Typed
from ledger.questions.telling import StateTeller

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["check_figure", "entry_leaf", "no_record", "only_item", "opened"]


def only_item(state: State, item: str | None) -> int | None:
    """Return the number of the one item that is asked about; None for all.

    Raises
    ------
    NotFound
        When there is no such item.
    """
    only = None if item is None else state.facts.find(item)
    if item is not None and only is None:
        raise NotFound(
            "item",
            Message.of("refusal-no-item-here", text=Typed(item)),
            Message.of("refusal-check-its-name"),
        )
    return only


def no_record(question: str, key: str, options: str = "") -> NotFound:
    """Return the error that an address is of no record; `options` as typed after the question."""
    return NotFound(
        "address",
        Message.of(
            "refusal-no-record-of", text=Typed(key), question=Code(question), options=Code(options)
        ),
    )


def check_figure(question: str, figure: str, figures: Iterable[str]) -> None:
    """Check that a figure is one of a record's.

    Raises
    ------
    NotFound
        Naming those that are.
    """
    known = list(figures)
    if figure not in known:
        raise NotFound(
            "figure",
            Message.of(
                "refusal-no-figure-of",
                text=Typed(figure),
                question=Code(question),
                names=Names(tuple(known)),
            ),
        )


def opened(
    state: State,
    question: str,
    asked: tuple[Mapping[str, Figure], str],
    row: int,
    labels: Mapping[str, str],
    deep: int,
) -> Node:
    """Return one of a record's figures as a tree.

    Parameters
    ----------
    asked : (mapping of str to Figure, str)
        The figures by name, and the name of the one that is opened.
    row : int
        The record.
    labels : mapping of str to str
        Ids of messages by the id of a label.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        Naming the figures that are.
    """
    figures, name = asked
    check_figure(question, name, figures)
    return tree(figures[name], row, StateTeller(state, labels), deep)


def entry_leaf(state: State, ev: int, value: float | str | None, unit: str = "") -> Node:
    """Return an entry as a leaf: what it says may be no number, as an id or a standing."""
    written = said(np.zeros(1), unit, np.full(1, ev))
    leaf = tree(written, 0, StateTeller(state, {}))
    leaf.value = value
    return leaf
