"""Jars by the sizes that process tables print."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from ledger.amounts import canonical_jar, jar_volume_ul

__all__ = ["SIZES", "jar_size", "jar_ul", "next_size"]

SIZES = ("half-pint", "pint", "1.5-pint", "quart", "half-gallon")
"""From small to large; no process table is printed for the third."""

_OUNCES = re.compile(r"(\d+(?:[.,]\d+)?)\s*-?\s*(?:fl\.?\s*)?oz", re.IGNORECASE)
_FL_OZ_UL = Fraction("29573.5295625")


@lru_cache(2048)
def jar_size(name: str | None) -> str | None:
    """Return the published size of a jar, or None.

    A metric jar is not its US neighbour: a 500 ml jar holds more than a pint (473 ml), a litre
    more than a quart (946 ml).

    Examples
    --------
    >>> jar_size("quart jars"), jar_size("quart"), jar_size("500 ml jar")
    ('quart', 'quart', None)
    """
    if not name:
        return None
    text = name if "jar" in name.casefold() else f"{name} jar"
    size = (canonical_jar(text) or "").removesuffix(" jar")
    if size in SIZES:
        return size
    volume = jar_ul(name)
    return next((s for s in SIZES if volume and volume == jar_ul(s)), None)


@lru_cache(2048)
def jar_ul(name: str) -> int | None:
    """Return what a jar holds in whole microlitres; its ounces are fluid ounces. None: not known."""
    text = name if "jar" in name.casefold() else f"{name} jar"
    volume = jar_volume_ul(text)
    if volume is None and (match := _OUNCES.search(name)):
        volume = round(Fraction(match[1].replace(",", ".")) * _FL_OZ_UL)
    return volume


def next_size(name: str, printed: tuple[str, ...]) -> str | None:
    """Return the printed size whose time a jar takes: its own, else the next larger one.

    None where the jar is larger than the largest printed, or its size is not known.

    Notes
    -----
    NCHFP_JARSIZE (smaller: the next larger listed; never larger than the largest studied) and
    KSU_ODDJARS (12 oz as pint, 24 and 28 oz as quart).
    """
    volume = jar_ul(name)
    if volume is None:
        return None
    sizes = sorted(printed, key=SIZES.index)
    return next((size for size in sizes if (jar_ul(size) or 0) >= volume), None)
