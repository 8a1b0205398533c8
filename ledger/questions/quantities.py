"""Units that figures are given in."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from ledger.amounts import format_measured, plural
from ledger.messages import measured as digits

if TYPE_CHECKING:
    from ledger.messages import Sentence
    from ledger.replay import State

__all__ = [
    "LISTED_FROM",
    "QUART_UL",
    "UNITS",
    "about",
    "decimals",
    "is_dust",
    "measured",
    "paid",
    "unit_of_measure",
    "whole_unit",
]

QUART_UL = 946_352.946
"""Microlitres in a US liquid quart (231 cubic inches / 4; UCUM 2.2)."""

_WHOLE = {"mass": "mg", "volume": "ul", "count": "1/1000 piece", "energy": "J"}


def measured(state: State, value: float, unit: str) -> Sentence:
    """Return a figure of kg, lb, L, quarts, m, ft or m2 in the household's measures."""
    said = format_measured(value, unit, measures=state.settings.newest("measures", "us") or "us")
    assert said is not None, unit
    return digits(said)


def decimals(value: float, places: int) -> Sentence:
    """Return a number with so many decimal places, as a table sets them: ``12.0``."""
    return digits(f"{value:,.{places}f}")


def about(value: float) -> Sentence:
    """Return a number to six figures at most, as it was typed: ``30`` or ``2.5``."""
    return digits(f"{value:g}")


def paid(state: State, money: float) -> Sentence:
    """Return money as sentences say it: with the book's currency."""
    return digits(f"{money:,.2f} {state.settings.newest('currency') or 'USD'}")


def whole_unit(state: State, item: int) -> str:
    """Return the unit of a strand's whole amounts: mg, ul, 1/1000 piece (or bucket) or J."""
    return unit_of_measure(state.facts.measure[item])


def unit_of_measure(measure: str) -> str:
    """Return the unit of whole amounts of a measure."""
    return _WHOLE.get(measure, f"1/1000 {measure}")


class _OfMeasure(dict[str, Any]):
    """Something by measure; of a counted unit what `other` makes of its name."""

    def __init__(self, known: dict[str, Any], other: Callable[[str], Any]) -> None:
        super().__init__(known)
        self._other = other

    def __missing__(self, unit: str) -> Any:
        return self._other(unit)


LISTED_FROM = _OfMeasure({"mass": 1000, "volume": 1000, "count": 10, "energy": 1}, lambda _unit: 10)
"""Whole units below which a rest is reckoned but not listed (formats: less than 1 g, 1 ml, 0.01)."""

_DUST_PART = 0.02
_DUST_BELOW = _OfMeasure(
    {"mass": 14_175, "volume": 14_787, "count": 100, "energy": 1}, lambda _unit: 100
)


def is_dust(row: Mapping[str, Any]) -> bool:
    """Return whether a record of the shelf is of a rest that no household measures, and nobody is told to use up.

    A loose rest that bears no mark: less than a fiftieth of what came, and than half an ounce, a tablespoon or a
    tenth of a piece (NIST Handbook 44, appendix C). Where dust begins is our own choice; it is listed all the same.
    """
    left = row["left"]
    return bool(
        row.get("mark") is None
        and row["jars_left"] is None
        and row["share_left"] < _DUST_PART
        and left["whole"] < _DUST_BELOW[left["measure"]]
    )


UNITS = _OfMeasure({"mass": "g", "volume": "ml", "count": "pieces", "energy": "kJ"}, plural)
"""What a thousand whole units of each measure are called."""
