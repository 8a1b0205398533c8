"""Jars by the sizes that process tables print."""

from __future__ import annotations

from ledger.amounts import canonical_jar, jar_volume_ul

__all__ = ["SIZES", "jar_size", "neighbours"]

SIZES = ("half-pint", "pint", "1.5-pint", "quart", "half-gallon")
"""From small to large; no process table is printed for the third."""


def jar_size(name: str | None) -> str | None:
    """Return the published size of a jar, or None.

    A metric jar is not its US neighbour: a 500 ml jar holds more than a pint (473 ml), a litre
    more than a quart (946 ml), and no process is printed for either.

    Examples
    --------
    >>> jar_size("quart jars"), jar_size("quart"), jar_size("500 ml jar")
    ('quart', 'quart', None)
    """
    if not name:
        return None
    text = name if "jar" in name.casefold() else f"{name} jar"
    size = (canonical_jar(text) or "").removesuffix(" jar")
    return size if size in SIZES else None


def neighbours(name: str, printed: tuple[str, ...]) -> tuple[str | None, str | None]:
    """Return the printed sizes just below and just above a jar, by volume.

    Parameters
    ----------
    name : str
        The jar as people call it.
    printed : tuple of str
        Sizes that a table prints.
    """
    text = name if "jar" in name.casefold() else f"{name} jar"
    volume = jar_volume_ul(text)
    if volume is None:
        return None, None
    sizes = sorted(printed, key=SIZES.index)
    below = [s for s in sizes if (jar_volume_ul(f"{s} jar") or 0) < volume]
    above = [s for s in sizes if (jar_volume_ul(f"{s} jar") or 0) > volume]
    return (below[-1] if below else None), (above[0] if above else None)
