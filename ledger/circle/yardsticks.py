"""What stands published beside a figure of a group, each with its source."""

from __future__ import annotations

from collections.abc import Mapping

from ledger.reference.planting import published_range

__all__ = ["CHANGE_NOTE", "published_span", "yardstick"]

_GARDEN = 2441
"""g a m2 of a whole food garden: 0.5 lb a square foot (National Gardening Association, 2009; from memory)."""

CHANGE_NOTE = (
    "A change from one season to the next is no proof of a course: weather and prices change as well, and no group "
    "without the course stands beside this one."
)

_PLAIN = {
    "short_share": "as published means none short",
    "short": "as published means none short",
    "unsealed_share": "no published figure; one jar in twenty is worth a look (common practice, no source)",
    "old_share": "for quality, within a year (USDA, Complete Guide to Home Canning; from memory)",
    "waste": "about 21 % of food is lost by consumers, reckoned otherwise (USDA ERS, EIB-121, 2014; from memory)",
    "learning": "80 % in building aeroplanes (T. P. Wright, 1936; from memory); 100 % is no learning",
}  # fmt: skip


def published_span(crop: str) -> tuple[float, float] | None:
    """Return the published yield of a crop, g a square metre, lowest and highest; None where none is built in."""
    found = published_range(crop, area_m2=1.0)
    return None if found is None else (found.low_g, found.high_g)


def yardstick(figure: str, group: Mapping[str, str]) -> str:
    """Return what is published beside a figure, with its source; '' where nothing is.

    Examples
    --------
    >>> yardstick("short_share", {})
    'as published means none short'
    """
    if figure != "yield":
        return _PLAIN.get(figure, "")
    whole = f"a whole garden {_GARDEN:,} (National Gardening Association, 2009; from memory)"
    found = published_range(group["crop"], area_m2=1.0)
    if found is None:
        return f"no published range built in; {whole}"
    sources = "; ".join(map(str, found.sources))
    return f"published {found.low_g:,.0f} to {found.high_g:,.0f} ({sources}; {found.note}); {whole}"
