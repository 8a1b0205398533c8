"""Figures and names as people read them."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ledger.reference.planting import Source
from ledger.reference.schedules import Schedule, products

__all__ = ["acid_text", "band", "cite", "inches", "label", "labels", "listed", "number", "plain"]

_EIGHTHS = {1: "1/8", 2: "1/4", 3: "3/8", 4: "1/2", 5: "5/8", 6: "3/4", 7: "7/8"}


def number(value: Fraction | float) -> str:
    """Return a number without needless digits: ``25``, ``12.5``."""
    return f"{float(value):.2f}".rstrip("0").rstrip(".")


def inches(value: Fraction) -> str:
    """Return a length as cooks measure it: ``1 1/4 in``."""
    whole, rest = divmod(value * 8, 8)
    if rest.denominator != 1 or (not whole and not rest):
        return f"{number(value)} in"
    parts = ([str(int(whole))] if whole else []) + ([_EIGHTHS[int(rest)]] if rest else [])
    return " ".join(parts) + " in"


def plain(value: Fraction | None) -> float | None:
    """Return a figure for an answer; what is not known stays None."""
    if value is None:
        return None
    return int(value) if value.denominator == 1 else float(value)


def band(low_ft: int, high_ft: int | None) -> str:
    """Return a band of altitude as tables head it: ``1,001 to 3,000 ft``."""
    return f"above {low_ft - 1:,} ft" if high_ft is None else f"{low_ft:,} to {high_ft:,} ft"


def label(product: str) -> str:
    """Return the readable name of a product."""
    return products()[product].label


def labels(keys: Iterable[str], joint: str = "or") -> str:
    """Return the readable names of products as a list in a sentence, each in quotation marks."""
    return listed((f'"{label(key)}"' for key in keys), joint)


def cite(source: Source, part: str = "") -> str:
    """Return a source in a line: title, place in it, publisher, year."""
    where = f", {part}" if part and part not in source.title else ""
    return f"{source.title}{where}; {source.publisher}, {source.year}"


def acid_text(schedule: Schedule) -> str | None:
    """Return what acid a jar takes: any one of those listed; None where none is asked for."""
    if not schedule.acids:
        return None
    how = {"lemon juice": "bottled lemon juice", "vinegar 5%": "vinegar of 5%"}
    return " or ".join(
        f"{_part(a)} {unit} {how.get(acid, acid)}" for acid, a, unit in schedule.acids
    )


def _part(value: Fraction) -> str:
    return str(value) if value.denominator in (1, 2, 4, 8) else number(value)


def listed(words: Iterable[str], joint: str = "and") -> str:
    """Return words as a list in a sentence."""
    several = list(words)
    if len(several) < 2:
        return "".join(several)
    return f"{', '.join(several[:-1])} {joint} {several[-1]}"
