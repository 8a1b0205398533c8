"""Whole units back to the text that people read."""

from __future__ import annotations

from fractions import Fraction

from ledger.amounts._jars import canonical_jar, jar_volume_ul
from ledger.amounts._units import factor, plural

__all__ = ["format_figure", "format_measured", "format_whole"]


def format_whole(whole: int, measure: str, *, measures: str = "us", jar: str | None = None) -> str:
    """Return an amount as people say it, rounded to about three figures.

    Parameters
    ----------
    whole : int
        mg, ul, thousandths of a piece or J.
    measure : str
        ``mass``, ``volume``, ``count`` or ``energy``, or the name of a counted unit.
    measures : {'us', 'uk', 'metric'}
    jar : str, optional
        Count a volume in these jars; a jar of no known size is passed over.

    Examples
    --------
    >>> format_whole(14288160, "mass")
    '31 lb 8 oz'
    >>> format_whole(1500000, "volume", measures="metric")
    '1.5 l'
    >>> format_whole(7 * 946353, "volume", jar="quart jar")
    '7 quart jars'
    """
    if measure == "volume" and jar is not None and (each := jar_volume_ul(jar)):
        many = _trim(whole / each)
        return f"{many} {canonical_jar(jar)}" + ("" if many == "1" else "s")
    if measure == "count":
        return _trim(whole / 1000)
    if measure == "energy":
        return f"{_trim(whole / 3.6e6)} kWh"
    if measure not in ("mass", "volume"):
        many = _trim(whole / 1000)
        return f"{many} {measure if many == '1' else plural(measure)}"
    if measures == "metric":
        small, large = ("g", "kg") if measure == "mass" else ("ml", "l")
        base = whole / 1000
        return f"{_trim(base)} {small}" if abs(base) < 999.5 else f"{_trim(base / 1000)} {large}"
    return _pounds(whole) if measure == "mass" else _quarts(whole, measures)


_COUNTED = "1/1000 "
_MEASURE_OF = {"mg": "mass", "ul": "volume", "1/1000 piece": "count", "J": "energy"}
_PRICED = {
    "us": {"mass": "lb", "volume": "qt"},
    "uk": {"mass": "lb", "volume": "l"},
    "metric": {"mass": "kg", "volume": "l"},
}


def format_figure(value: float, unit: str, *, measures: str = "us") -> str | None:
    """Return a figure in whole units as people say it; None where its unit is another.

    Parameters
    ----------
    value : float
    unit : str
        ``mg``, ``ul``, ``1/1000 piece`` or ``J``, with or without `` a week`` behind it; or
        ``money per mg`` and the like, which gives the money for a pound, a quart, a piece.
    measures : {'us', 'uk', 'metric'}

    Examples
    --------
    >>> format_figure(14288160.0, "mg")
    '31 lb 8 oz'
    >>> format_figure(0.000002, "money per mg", measures="metric")
    '2.00 per kg'
    """
    spoken = format_measured(value, unit, measures=measures)
    if spoken is not None:
        return spoken
    plain = unit.removesuffix(" a week")
    if plain in _MEASURE_OF:
        said = format_whole(round(value), _MEASURE_OF[plain], measures=measures)
        return said + unit.removeprefix(plain)
    if plain.startswith(_COUNTED):
        said = format_whole(round(value), plain.removeprefix(_COUNTED))
        return said + unit.removeprefix(plain)
    measure = _MEASURE_OF.get(plain.removeprefix("money per "))
    if measure is None:
        return None
    per = _PRICED[measures].get(measure, {"count": "piece", "energy": "kWh"}.get(measure, ""))
    each = 1000 if per == "piece" else float(_whole(per))
    return f"{value * each:,.2f} per {per}"


_SPOKEN = {
    "kg": ("mass", Fraction(10**6)), "lb": ("mass", Fraction(45359237, 100)),
    "L": ("volume", Fraction(10**6)), "quarts": ("volume", Fraction(946352946, 1000)),
    "m": ("length", Fraction(1)), "ft": ("length", Fraction(3048, 10000)),
    "m2": ("ground", Fraction(1)),
}  # fmt: skip
"""Units of reckoning: mg, ul, m or m2 of one (exact, NIST SP 811, Appendix B)."""
_BEHIND = ("", "of feed", "months")
"""What may stand behind such a unit and is said behind the amount."""
_PER_FOOT, _PER_FOOT2 = 0.3048, 0.3048**2


def format_measured(value: float, unit: str, *, measures: str = "us") -> str | None:
    """Return a figure of a unit of reckoning in the household's measures; None where its unit is another.

    Parameters
    ----------
    value : float
    unit : str
        ``kg``, ``lb``, ``L``, ``quarts``, ``m``, ``ft`` or ``m2``, with or without `` of feed`` or `` months``.
    measures : {'us', 'uk', 'metric'}

    Examples
    --------
    >>> format_measured(3.76, "lb of feed", measures="metric")
    '1.71 kg of feed'
    >>> format_measured(120.0, "m2")
    '1292 sq ft'
    >>> format_measured(28.4, "lb months", measures="metric")
    '12.9 kg months'
    """
    plain, _, behind = unit.partition(" ")
    if plain not in _SPOKEN or behind not in _BEHIND:
        return None
    measure, each = _SPOKEN[plain]
    is_metric = measures == "metric"
    many = value * float(each)
    if behind == "months":  # a weight times a time is of one unit: no pounds and ounces
        one = "kg months" if is_metric else "lb months"
        return f"{_trim(many / float(_SPOKEN[one[:2]][1]))} {one}"
    if measure == "length":
        said = f"{_trim(many)} m" if is_metric else f"{_trim(many / _PER_FOOT)} ft"
    elif measure == "ground":
        said = f"{_trim(many)} m2" if is_metric else f"{_trim(many / _PER_FOOT2)} sq ft"
    else:
        said = format_whole(round(many), measure, measures=measures)
    return f"{said} {behind}".rstrip()


def _trim(value: float) -> str:
    """Return three figures of a number, never with an exponent."""
    if abs(value) >= 99.95:
        return f"{value:.0f}"
    if abs(value) >= 0.001 or value == 0:
        return f"{value:.3g}"
    return f"{value:.6f}".rstrip("0").rstrip(".")


def _whole(unit: str) -> Fraction:
    known = factor(unit)
    assert known is not None
    return known[1]


def _pounds(whole: int) -> str:
    ounce = _whole("oz")  # in whole numbers: long tables say hundreds of weights
    many, one = whole * ounce.denominator, ounce.numerator
    if many * 100 < one * 1595:
        return f"{_trim(many / one)} oz"
    if many >= one * 1600:
        return f"{_trim(many / (one * 16))} lb"
    ounces, over = divmod(many, one)
    pounds, rest = divmod(ounces + (2 * over > one or (2 * over == one and ounces % 2)), 16)
    return f"{pounds} lb" + (f" {rest} oz" if rest else "")


def _quarts(whole: int, measures: str) -> str:
    prefix = "uk " if measures == "uk" else ""
    for unit in ("qt", "cup", "fl oz"):
        many = float(Fraction(whole) / _whole(prefix + unit))
        if many >= 0.995:
            return f"{_trim(many)} {unit}"
    teaspoon = "metric tsp" if measures == "uk" else "tsp"
    return f"{_trim(float(Fraction(whole) / _whole(teaspoon)))} tsp"
