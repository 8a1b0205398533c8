"""Published yields and planting amounts of garden crops, each with its source.

`planting.csv` holds the figures as printed, `planting_sources.csv` where they were read,
`planting_names.csv` what people call the crops. Plant families are common botanical knowledge,
from memory.
"""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from ledger.messages import joined, sentence

__all__ = [
    "PerPerson",
    "PublishedRange",
    "PublishedYield",
    "Source",
    "per_person",
    "plant_family",
    "published_range",
    "published_yields",
]

GRAMS_PER_POUND = 453.59237
METRES_PER_FOOT = 0.3048
#: A US (short) ton is 2,000 lb; an acre 43,560 square feet.
GRAMS_PER_TON = 2000 * GRAMS_PER_POUND
M2_PER_FOOT2 = METRES_PER_FOOT**2
M2_PER_ACRE = 43_560 * M2_PER_FOOT2


@dataclass(frozen=True)
class Source:
    """Where figures were read.

    Attributes
    ----------
    title, publisher, year, address : str
        Of the document, or of the copy read.
    read : str
        What was read: the page itself, a copy, or nothing (from memory).
    """

    title: str
    publisher: str
    year: str
    address: str
    read: str

    def __str__(self) -> str:
        return f"{self.title}, {self.publisher}, {self.year}"


@dataclass(frozen=True)
class PublishedYield:
    """One published yield.

    Attributes
    ----------
    crop : str
        The row's name in the table.
    low, high : float
        As printed, in `unit`; equal where one figure is printed.
    unit : str
        ``lb``, ``lb_shelled`` or ``dozen_ears`` on `row_ft` feet of row; ``lb_per_sqft``;
        ``tons_per_acre`` (low is average, high is excellent).
    row_ft : float or None
        Feet of row that it is of.
    per : str
        ``m`` (of row) or ``m2``.
    low_g, high_g : float or None
        Grams per metre of row or square metre; None where no weight is printed.
    garden : bool
        Whether it is of gardens; else of fields.
    from_memory : bool
        Whether the figure was recalled and not read.
    source : Source
    """

    crop: str
    low: float
    high: float
    unit: str
    row_ft: float | None
    per: str
    low_g: float | None
    high_g: float | None
    garden: bool
    from_memory: bool
    source: Source


@dataclass(frozen=True)
class PerPerson:
    """How much to plant (or, in ``lb``, to have) for one person.

    Attributes
    ----------
    crop : str
        The row's name in the table.
    fresh, keep : (float, float) or None
        Low and high, for eating fresh and for putting up (or storing) besides.
    unit : str
        ``plants``, ``ft_row``, ``hills`` or ``lb``.
    from_memory : bool
        Whether the figure was recalled and not read.
    source : Source
    """

    crop: str
    fresh: tuple[float, float] | None
    keep: tuple[float, float] | None
    unit: str
    from_memory: bool
    source: Source


@dataclass(frozen=True)
class PublishedRange:
    """What a planting of this size brings by the published yields: grams, and from where.

    Attributes
    ----------
    low_g, high_g : float
        The lowest and the highest of the figures that apply.
    middle_g : float
        The middle of the sources' figures in logs; of fields, their average.
    sources : tuple of Source
        Those of the figures.
    note : str
        What it rests on, in words; says where a figure is of fields or from memory.
    per : str
        ``m`` of row or ``m2`` of ground.
    """

    low_g: float
    high_g: float
    middle_g: float
    sources: tuple[Source, ...]
    note: str
    per: str


def plant_family(crop: str) -> str | None:
    """Return the botanical family of a crop, or None where it is not known.

    Parameters
    ----------
    crop : str
        Name, in the singular or plural, with or without a variety's kind before it
        ("roma tomato" is a tomato).

    References
    ----------
    Common botanical knowledge, from memory.
    """
    found = _find(crop)
    return (_names()[found][1] or None) if found else None


@cache
def published_yields(crop: str) -> tuple[PublishedYield, ...]:
    """Return every published yield of a crop, gardens first; empty where there is none.

    Parameters
    ----------
    crop : str
        As for `plant_family`.
    """
    rows = _rows(crop)
    found = [_yield(row) for row in rows if row["low"]]
    return tuple(sorted(found, key=lambda y: not y.garden))


def per_person(crop: str) -> tuple[PerPerson, ...]:
    """Return every published amount to plant for one person; empty where there is none.

    Parameters
    ----------
    crop : str
        As for `plant_family`.
    """
    return tuple(
        PerPerson(
            row["crop"],
            _pair(row["fresh_low"], row["fresh_high"]),
            _pair(row["keep_low"], row["keep_high"]),
            row["per_person"],
            row["checked"] == "memory",
            _sources()[row["source"]],
        )
        for row in _rows(crop)
        if row["fresh_low"] or row["keep_low"]
    )


def published_range(
    crop: str, *, row_m: float | None = None, area_m2: float | None = None
) -> PublishedRange | None:
    """Return what a planting brings by the published yields.

    Garden figures by length of row come first; where the row or such a figure is missing,
    figures by area, of gardens before those of fields.

    Parameters
    ----------
    crop : str
        As for `plant_family`.
    row_m : float, optional
        Length of row, in metres.
    area_m2 : float, optional
        Ground, in square metres.

    Returns
    -------
    PublishedRange or None
        None where no published figure fits what is known of the planting.
    """
    known = [y for y in published_yields(crop) if y.low_g is not None]
    for per, size, garden in (("m", row_m, True), ("m2", area_m2, True), ("m2", area_m2, False)):
        fit = [y for y in known if y.per == per and y.garden == garden]
        if size and fit:
            return PublishedRange(
                min(y.low_g or 0.0 for y in fit) * size,
                max(y.high_g or 0.0 for y in fit) * size,
                _middle(fit, garden) * size,
                tuple(dict.fromkeys(y.source for y in fit)),
                _note(fit, per),
                per,
            )
    return None


def _middle(fit: list[PublishedYield], garden: bool) -> float:
    """Return the middle of the figures: an excellent field is not what is likely."""
    ends = [(y.low_g or 0.0, (y.high_g if garden else y.low_g) or 0.0) for y in fit]
    logs = [(math.log(low) + math.log(high)) / 2 for low, high in ends if low > 0]
    from statistics import median

    return math.exp(median(logs)) if logs else 0.0


def _note(fit: list[PublishedYield], per: str) -> str:
    texts = [sentence("yield-per-row" if per == "m" else "yield-per-square")]
    if not fit[0].garden:
        texts.append(sentence("yield-of-fields"))
    if any(y.unit == "lb_shelled" for y in fit):
        texts.append(sentence("yield-shelled"))
    if any(y.from_memory for y in fit):
        texts.append(sentence("yield-from-memory"))
    return joined(", ", texts)


def _yield(row: dict[str, str]) -> PublishedYield:
    low, high, unit = float(row["low"]), float(row["high"]), row["unit"]
    row_ft = float(row["row_ft"]) if row["row_ft"] else None
    weight: float | None
    if unit == "tons_per_acre":
        weight, per = GRAMS_PER_TON / M2_PER_ACRE, "m2"
    elif unit == "lb_per_sqft":
        weight, per = GRAMS_PER_POUND / M2_PER_FOOT2, "m2"
    else:
        length = (row_ft or 1.0) * METRES_PER_FOOT
        weight, per = (None if unit == "dozen_ears" else GRAMS_PER_POUND / length), "m"
    return PublishedYield(
        crop=row["crop"],
        low=low,
        high=high,
        unit=unit,
        row_ft=row_ft,
        per=per,
        low_g=None if weight is None else low * weight,
        high_g=None if weight is None else high * weight,
        garden=unit != "tons_per_acre",
        from_memory=row["checked"] == "memory",
        source=_sources()[row["source"]],
    )


def _pair(low: str, high: str) -> tuple[float, float] | None:
    return (float(low), float(high)) if low else None


def _rows(crop: str) -> list[dict[str, str]]:
    found = _find(crop)
    keys = _names()[found][0] if found else ()
    return [row for row in _table("planting.csv") if row["crop"] in keys]


def _find(crop: str) -> str | None:
    """Return the known name that a crop's name is, or ends with."""
    words = [_singular(word) for word in crop.casefold().replace("-", " ").split()]
    for begin in range(len(words)):
        name = " ".join(words[begin:])
        if name in _names():
            return name
    return None


def _singular(word: str) -> str:
    if word in {"asparagus", "brussels"}:
        return word
    for ending, instead in (
        ("ies", "y"),
        ("oes", "o"),
        ("ches", "ch"),
        ("shes", "sh"),
        ("ss", "ss"),
    ):
        if word.endswith(ending):
            return word[: -len(ending)] + instead
    return word[:-1] if word.endswith("s") and len(word) > 2 else word


@cache
def _names() -> dict[str, tuple[tuple[str, ...], str]]:
    return {
        row["name"]: (tuple(row["rows"].split()), row["family"])
        for row in _table("planting_names.csv")
    }


@cache
def _sources() -> dict[str, Source]:
    return {
        row["source"]: Source(
            row["title"], row["publisher"], row["year"], row["address"], row["read"]
        )
        for row in _table("planting_sources.csv")
    }


@cache
def _table(name: str) -> tuple[dict[str, str], ...]:
    text = files("ledger.reference").joinpath(name).read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))
