"""Units of figures, worked out as their values are: money per jar times jars is money."""

from __future__ import annotations

__all__ = ["one_of", "over", "times"]

_SEVERAL = {
    "day": "days",
    "hen-day": "hen-days",
    "hour": "hours",
    "jar": "jars",
    "load": "loads",
    "litre": "litres",
    "minute": "minutes",
    "month": "months",
    "person": "people",
    "piece": "pieces",
    "plant": "plants",
    "quart": "quarts",
    "use": "uses",
    "year": "years",
}
_ONE = {several: one for one, several in _SEVERAL.items()}
_NAMED = {
    "batches": "batch", "eggs": "egg", "entries": "entry", "futures": "future", "hens": "hen",
    "lids": "lid", "lots": "lot", "packs": "pack", "points": "point", "seasons": "season",
    "seeds": "seed", "subjects": "subject", "times": "time", "units": "unit", "weeks": "week",
}  # fmt: skip
"""What is counted and never multiplied: one of it is only named."""
_NONE = ("", "0 to 1")


def one_of(unit: str) -> str:
    """Return the name of one of a unit: ``jars`` is ``jar``, and so in each part of it."""
    return _NAMED.get(unit) or _plain(unit)


def _plain(unit: str) -> str:
    return " per ".join(_ONE.get(part, part) for part in unit.split(" per "))


def times(first: str, second: str) -> str:
    """Return the unit of a product."""
    above, below = _parts(first)
    more, less = _parts(second)
    return _said([*above, *more], [*below, *less])


def over(first: str, second: str) -> str:
    """Return the unit of a quotient."""
    above, below = _parts(first)
    more, less = _parts(second)
    return _said([*above, *less], [*below, *more], "0 to 1")


def _parts(unit: str) -> tuple[list[str], list[str]]:
    if unit in _NONE:
        return [], []
    first, *rest = _plain(unit).split(" per ")
    return ([] if first == "one" else [first]), rest


def _said(above: list[str], below: list[str], none: str = "") -> str:
    for unit in list(above):
        if unit in below:
            above.remove(unit)
            below.remove(unit)
    if not above and not below:
        return none
    many = " ".join(_SEVERAL.get(unit, unit) for unit in above) or "one"
    return " per ".join([many, *below])
