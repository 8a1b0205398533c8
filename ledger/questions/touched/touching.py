"""What touches what: lots and the batches and meals between them, as one graph of a moment.

Nodes are lots, then events that used something and left something. What went into an event leads to
all that it left; a lid leads to the jars that it closed. Seed, fuel and what is only lent touch no food.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.replay import ORIGINS, tables
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Touching", "touching"]

_ROLE = {name: code for code, name in enumerate(tables.ROLES)}
_N_BITS = 24


@dataclass(frozen=True)
class Touching:
    """The graph.

    Attributes
    ----------
    lots : int
        How many lots there are: nodes below that are lots.
    evs : ndarray of int64, shape (events that left something,)
        The event of each further node, in the order of their places.
    source, target : ndarray of int32, shape (edges,)
    """

    lots: int
    evs: Array
    source: Array
    target: Array

    @property
    def size(self) -> int:
        """How many nodes there are."""
        return self.lots + int(self.evs.size)

    @cached_property
    def _onward(self) -> tuple[list[int], list[int]]:
        """What each node leads to: bounds and nodes."""
        return _ways(self.source, self.target, self.size)

    @cached_property
    def _backward(self) -> tuple[list[int], list[int]]:
        """What leads to each node."""
        return _ways(self.target, self.source, self.size)

    def after(self, node: int) -> list[int]:
        """Return what a node leads to straight."""
        bounds, nodes = self._onward
        return nodes[bounds[node] : bounds[node + 1]]

    def led_to(self, nodes: Array) -> list[int]:
        """Return what some nodes lead to straight."""
        some = np.zeros(self.size, bool)
        some[nodes] = True
        return self.target[some[self.source]].tolist()  # type: ignore[no-any-return]

    def nodes_of(self, evs: Array) -> Array:
        """Return the nodes of events; those that left nothing have none."""
        at = np.searchsorted(self.evs, evs)
        if not self.evs.size:
            return np.zeros(0, np.int64)
        at = np.minimum(at, self.evs.size - 1)
        return np.asarray(self.lots + at[self.evs[at] == evs])

    def reached(self, seeds: Array, *, back: bool = False) -> Array:
        """Return which nodes can be reached from some, themselves included, shape (nodes,), bool.

        Parameters
        ----------
        seeds : ndarray of int
        back : bool
            From what was made to what went in.
        """
        # A plain walk: SciPy's takes longer to load than this takes on forty years.
        bounds, nodes = self._backward if back else self._onward
        seen = set(seeds.tolist())
        open_ones = list(seen)
        while open_ones:
            one = open_ones.pop()
            for node in nodes[bounds[one] : bounds[one + 1]]:
                if node not in seen:
                    seen.add(node)
                    open_ones.append(node)
        out = np.zeros(self.size, bool)
        out[list(seen)] = True
        return out


def _ways(from_: Array, to: Array, size: int) -> tuple[list[int], list[int]]:
    order = np.argsort(from_, kind="stable")
    many = np.bincount(from_, minlength=size)
    return [0, *np.cumsum(many).tolist()], to[order].tolist()


def touching(state: State) -> Touching:
    """Return the graph of a moment; ask for it with ``state.once``."""
    lots, draws = state.lots, state.draws
    draw, lot, _ = state.allocations
    count = int(lots["ev"].size)
    is_made = (lots["origin"] == ORIGINS.index("batch")) & (lots["suffix"] <= 1)
    made = np.flatnonzero(is_made)
    evs, of = np.unique(lots["ev"][made], return_inverse=True)
    size = state.moment.rank.size
    node = np.full(size, -1, np.int64)
    node[evs] = count + np.arange(evs.size)
    role, into = draws["role"][draw], node[draws["ev"][draw]]
    food = np.flatnonzero(((role == _ROLE["used"]) | (role == _ROLE["ate"])) & (into >= 0))
    lids = _closed(state, np.flatnonzero(role == _ROLE["lids"]), made)
    source = np.concatenate([lot[food], count + of, lids[0]])
    target = np.concatenate([into[food], made, lids[1]])
    return Touching(count, evs.astype(np.int64), source.astype(np.int32), target.astype(np.int32))


def _closed(state: State, rows: Array, made: Array) -> tuple[Array, Array]:
    """Return lots of lids and the lots whose jars they closed."""
    draw, lot, _ = state.allocations
    d = draw[rows]
    wanted = state.draws["ev"][d] << _N_BITS | state.draws["line"][d]
    there = state.lots["ev"][made] << _N_BITS | state.lots["n"][made]
    order = np.argsort(there, kind="stable")
    low = np.searchsorted(there[order], wanted, "left")
    high = np.searchsorted(there[order], wanted, "right")
    many = high - low
    at = np.repeat(low - np.r_[0, np.cumsum(many)[:-1]], many) + np.arange(int(many.sum()))
    return np.repeat(lot[rows], many), made[order[at]]
