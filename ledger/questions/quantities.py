"""Units that figures are given in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.amounts import format_measured

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["QUART_UL", "measured", "paid", "whole_unit"]

QUART_UL = 946_352.946
"""Microlitres in a US liquid quart (231 cubic inches / 4; UCUM 2.2)."""

_WHOLE = {"mass": "mg", "volume": "ul", "count": "1/1000 piece", "energy": "J"}


def measured(state: State, value: float, unit: str) -> str:
    """Return a figure of kg, lb, L, quarts, m, ft or m2 in the household's measures."""
    said = format_measured(value, unit, measures=state.settings.newest("measures", "us") or "us")
    assert said is not None, unit
    return said


def paid(state: State, money: float) -> str:
    """Return money as sentences say it: with the book's currency."""
    return f"{money:,.2f} {state.settings.newest('currency') or 'USD'}"


def whole_unit(state: State, item: int) -> str:
    """Return the unit of a strand's whole amounts: mg, ul, 1/1000 piece (or bucket) or J."""
    measure = state.facts.measure[item]
    return _WHOLE.get(measure, f"1/1000 {measure}")
