"""Whole units back to the text that people read."""

from __future__ import annotations

from fractions import Fraction

from ledger.amounts._units import factor

__all__ = ["format_whole"]


def format_whole(whole: int, measure: str, *, measures: str = "us") -> str:
    """Return an amount as people say it, rounded to about three figures.

    Parameters
    ----------
    whole : int
        mg, ul, thousandths of a piece or J.
    measure : str
        ``mass``, ``volume``, ``count`` or ``energy``.
    measures : {'us', 'uk', 'metric'}

    Examples
    --------
    >>> format_whole(14288160, "mass")
    '31 lb 8 oz'
    >>> format_whole(1500000, "volume", measures="metric")
    '1.5 l'
    """
    if measure == "count":
        return _trim(whole / 1000)
    if measure == "energy":
        return f"{_trim(whole / 3.6e6)} kWh"
    if measures == "metric":
        small, large = ("g", "kg") if measure == "mass" else ("ml", "l")
        base = whole / 1000
        return f"{_trim(base / 1000)} {large}" if abs(base) >= 1000 else f"{_trim(base)} {small}"
    return _pounds(whole) if measure == "mass" else _quarts(whole, measures)


def _trim(value: float) -> str:
    if abs(value) >= 100:
        return f"{value:.0f}"
    return f"{value:.3g}"


def _whole(unit: str) -> Fraction:
    known = factor(unit)
    assert known is not None
    return known[1]


def _pounds(whole: int) -> str:
    ounces = Fraction(whole) / _whole("oz")
    if ounces < 16:
        return f"{_trim(float(ounces))} oz"
    rounded = round(ounces)
    pounds, rest = divmod(rounded, 16)
    return f"{pounds} lb" + (f" {rest} oz" if rest and pounds < 100 else "")


def _quarts(whole: int, measures: str) -> str:
    prefix = "uk " if measures == "uk" else ""
    for unit in ("qt", "cup", "fl oz", "tsp"):
        many = float(Fraction(whole) / _whole(prefix + unit if unit != "tsp" else unit))
        if many >= 0.995 or unit == "tsp":
            return f"{_trim(many)} {unit}"
    raise AssertionError(measures)
