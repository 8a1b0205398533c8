"""Costs grown from those of an earlier moment: only what an entry touches is worked out anew.

Where prices, purchases and batches are the same, a raw lot costs what it did unless its item was
matched anew or its harvest bears other garden inputs. A row of the system changes where it draws on
such a lot or on one that a changed row made; all others, and their lots, are taken over.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ledger.replay.columns import Array
from ledger.replay.tracing import Traced, carried_by, solve_some

if TYPE_CHECKING:
    from ledger.replay.costing import Costs
    from ledger.replay.rows import Rows
    from ledger.replay.state import State

__all__ = ["Before", "changed_rows", "kept_columns", "traced_again"]


class Before(NamedTuple):
    """What a moment grew from.

    Attributes
    ----------
    costs : Costs
        Of the earlier moment.
    lots : ndarray of int64, shape (earlier lots,)
        Where each earlier lot stands now; -1 where it is gone, or was missing or found and may be
        another now.
    touched : ndarray of bool, shape (items,)
        Items that were matched anew.
    """

    costs: Costs
    lots: Array
    touched: Array

    def source(self, item: Array) -> Array:
        """Return which earlier lot each one is, -1 where its figures are to be worked out anew.

        Parameters
        ----------
        item : ndarray of int64, shape (lots,)
        """
        out = np.full(item.size, -1, np.int64)
        there = self.lots >= 0
        out[self.lots[there]] = np.flatnonzero(there)
        out[self.touched[item]] = -1
        return out


def kept_columns(figures: Array, source: Array, anew: Array) -> Array:
    """Return the figures of earlier lots where they stand now, nought elsewhere.

    Parameters
    ----------
    figures : ndarray of float, shape (earlier lots, columns)
    source : ndarray of int64, shape (lots,)
        From `Before.source`; `anew` are those where it is -1.
    """
    out = np.zeros((figures.shape[1], source.size))
    for mine, column in zip(out, figures.T, strict=True):
        if column.size and column.any():
            np.take(column, source, out=mine, mode="wrap")
            mine[anew] = 0
    return out.T


def changed_rows(
    before: Before, state: State, rows: Rows, lots: Array, takes: tuple[Array, Array, Array]
) -> Array:
    """Return which rows of the system may hold other figures than before, shape (rows,).

    Parameters
    ----------
    lots : ndarray of int64
        Raw lots of items that were not matched anew and cost something else all the same.
    takes : row, lot, share
        Which rows draw on which made lots.
    """
    changed = np.zeros(rows.count, bool)
    was = before.costs
    for costs_state, of_draw in ((was.state, was.rows.of_draw), (state, rows.of_draw)):
        into = of_draw[before.touched[costs_state.draws["item"]]]
        changed[into[into >= 0]] = True
    if lots.size:
        draw, lot, _ = state.allocations
        is_other = np.zeros(state.lots["ev"].size, bool)
        is_other[lots] = True
        into = rows.of_draw[draw[is_other[lot]]]
        changed[into[into >= 0]] = True
    given, giver, _ = rows.gives
    made = np.zeros(rows.made_lots.size, bool)
    while True:
        made[given[changed[giver]]] = True
        more = takes[0][made[takes[1]] & ~changed[takes[0]]]
        if not more.size:
            return changed
        changed[more] = True


def traced_again(
    before: Traced, own: Array, anew: Array, takes: tuple[Array, Array, Array], rows: Rows
) -> Traced:
    """Return the figures of all rows and made lots, those of changed rows solved anew.

    Parameters
    ----------
    before : Traced
        Of the same rows.
    own : ndarray of float, shape (changed rows, WIDTH)
        What each changed row has of its own and from raw lots.
    anew : ndarray of int64, shape (changed rows,)
        Those rows, rising.
    takes : row, lot, share
        Which share of a made lot each row takes.
    """
    solved, lots = before.rows.copy(order="K"), before.lots.copy(order="K")
    if not anew.size:
        return Traced(solved, lots)
    solved[anew] = solve_some(own, before.rows, anew, takes, rows.gives, rows.made_lots.size)
    given, giver, part = rows.gives
    changed, other = np.zeros(rows.count, bool), np.zeros(rows.made_lots.size, bool)
    changed[anew] = True
    other[given[changed[giver]]] = True
    some = np.flatnonzero(other[given])
    number = np.cumsum(other) - 1
    ways = number[given[some]], giver[some], part[some]
    lots[other] = carried_by(ways, solved, int(other.sum()))
    return Traced(solved, lots)
