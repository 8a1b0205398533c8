"""What was asked of one state last: a page asks for one tree of an answer after the other."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["newest"]

_Asked = TypeVar("_Asked", bound=Hashable)
_Out = TypeVar("_Out")


def newest(make: Callable[[State, _Asked], _Out]) -> Callable[[State, _Asked], _Out]:
    """Return `make`, which keeps with each state what it gave for what was asked last."""

    def kept(_: State) -> dict[_Asked, _Out]:
        return {}

    def of(state: State, asked: _Asked) -> _Out:
        known = state.once(kept)
        if asked not in known:
            made = make(state, asked)
            known.clear()
            known[asked] = made
        return known[asked]

    return of
