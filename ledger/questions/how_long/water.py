"""Water stored: as asked, or what the book has of an item called water."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import InputError
from ledger.messages import Message, Typed

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Water", "water_at", "water_of"]

_NAMES = ("water", "drinking water", "stored water", "bottled water")


@dataclass(frozen=True)
class Water:
    """Litres stored, and the lots that they are, if the book has them."""

    litres: float
    lots: tuple[int, ...] = ()

    @property
    def address(self) -> str:
        """How it stands in an address: by itself, or as it was asked."""
        return "water" if self.lots else f"water={self.litres!r}"


def water_at(state: State, address: str) -> Water | None:
    """Return the water that an address speaks of."""
    said = address.partition("=")[2]
    return Water(float(said)) if said else water_of(state, None)


def water_of(state: State, said: str | None) -> Water | None:
    """Return the water stored; None where nothing says.

    Raises
    ------
    InputError
        When what was asked is no volume.
    """
    from ledger.amounts import parse_amount

    if said is not None:
        wrong = InputError(
            "water",
            Message.of("refusal-not-a-volume", text=Typed(said)),
            Message.of("refusal-like-litres"),
        )
        try:
            amount = parse_amount(said, zero=True)
        except InputError:
            raise wrong from None
        if amount.measure != "volume":
            raise wrong
        return Water(amount.whole / 1e6)
    items = {item for name in _NAMES if (item := state.facts.find(name)) is not None}
    kept = [item for item in items if state.facts.measure[item] == "volume"]
    if not kept:
        return None
    lots = np.flatnonzero(np.isin(state.lots["item"], kept) & (state.left > 0))
    return Water(float(state.left[lots].sum()) / 1e6, tuple(int(lot) for lot in lots))
