"""Jars and lids on a receipt: ``QT JARS 12``, ``REG LIDS 12CT``, ``EINMACHGLAS 500ML 6ST``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ledger.amounts import canonical_jar

__all__ = ["SIZES", "Kit", "kit_of", "umlauts"]

SIZES = {
    "en": ("quart jar", "pint jar", "half-pint jar"),
    "de": ("500 ml jar", "1 l jar", "250 ml jar"),
}
"""Jars that are offered where a line does not say the size, by language (common practice, no source)."""

_JAR = r"jars?|jrs?|\w*gl(?:ä|ae|a)s(?:er)?"
_LID = r"lids?|\w*deckel"
_KIT = re.compile(rf"(?P<jar>{_JAR})|(?P<lid>{_LID})|bands?|rings?", re.IGNORECASE)
_SIZE = re.compile(
    r"(?P<half>half|1/2|½)?[\s-]*(?P<us>pints?|pt|quarts?|qt|gallons?|gal)(?![a-z])"
    r"|(?P<number>\d+(?:[.,]\d+)?)[\s-]*(?P<unit>fl\.?\s?oz|oz|ml|cl|l)(?![a-z])",
    re.IGNORECASE,
)
_MANY = re.compile(
    r"(?<![\w.,/])(?P<many>\d{1,3})[\s-]*(?:ct|count|pk|pack|pcs?|ea|stück|stk?|er)?(?![\w.,/])",
    re.IGNORECASE,
)
_OUNCES = {8: "1/2 pint", 16: "pint", 32: "quart", 64: "1/2 gallon"}
"""Jars that are called by their fluid ounces (the pint is 16 of them: NIST Handbook 44, appendix C)."""
_BESIDE = re.compile(
    r"mason|canning|preserving|glass|clear|jelly|jam|reg(?:ular)?|wide|mouth|mth|wm|rm|plain|metal|new|"
    r"w|with|and|case|of|doz(?:en)?|mit|und|für|weit|neu|klar|einmach|einweck|schraub"
)
"""Words that tell jars from jars, and name nothing that is in one."""


@dataclass(frozen=True, slots=True)
class Kit:
    """Jars or lids that a line says.

    Attributes
    ----------
    sort : {'jar', 'lid'}
    item : str or None
        None: which size is not said.
    many : int or None
        None: how many is not said.
    """

    sort: str
    item: str | None
    many: int | None


def kit_of(text: str) -> Kit | None:
    """Return the jars or lids that a line of a receipt names; None where it names anything else."""
    if _KIT.search(text) is None:
        return None
    size = _SIZE.search(text)
    rest = text if size is None else f"{text[: size.start()]} {text[size.end() :]}"
    many = _MANY.search(rest)
    rest = rest if many is None else f"{rest[: many.start()]} {rest[many.end() :]}"
    words = [one for one in re.split(r"[\s/&+.,-]+", rest.casefold()) if one]
    kinds = [match for one in words if (match := _KIT.fullmatch(one))]
    other = [one for one in words if not _BESIDE.fullmatch(one) and not _KIT.fullmatch(one)]
    if not kinds or other:
        return None
    count = int(many["many"]) if many else 12 if {"doz", "dozen"} & set(words) else None
    jars = [one for one in kinds if one["jar"]]
    is_lid = any(one["lid"] for one in kinds) and all(one[0] == "jar" for one in jars)
    if is_lid or not jars:
        return Kit("lid", "lid", count) if any(one["lid"] for one in kinds) else None
    return Kit("jar", None if size is None else _jar(size), count)


def _jar(size: re.Match[str]) -> str | None:
    if size["us"]:
        return canonical_jar(f"{'1/2 ' if size['half'] else ''}{size['us']} jar")
    number, unit = size["number"].replace(",", "."), size["unit"].lower()
    if unit.endswith("oz"):
        name = _OUNCES.get(int(number)) if number.isdecimal() else None
        return None if name is None else canonical_jar(f"{name} jar")
    return canonical_jar(
        f"{float(number) * 10:g} ml jar" if unit == "cl" else f"{number} {unit} jar"
    )


def umlauts(text: str) -> str:
    """Return a text as it is said where a till has no umlauts: ``HUEHNERFUTTER``."""
    for pair, one in (("ae", "ä"), ("oe", "ö"), ("ue", "ü")):
        text = text.replace(pair, one)
    return text
