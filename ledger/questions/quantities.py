"""Units that figures are given in."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["QUART_UL", "whole_unit"]

QUART_UL = 946_352.946
"""Microlitres in a US liquid quart (231 cubic inches / 4; UCUM 2.2)."""

_WHOLE = {"mass": "mg", "volume": "ul", "count": "1/1000 piece", "energy": "J"}


def whole_unit(state: State, item: int) -> str:
    """Return the unit of a strand's whole amounts: mg, ul, 1/1000 piece (or bucket) or J."""
    measure = state.facts.measure[item]
    return _WHOLE.get(measure, f"1/1000 {measure}")
