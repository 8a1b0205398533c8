"""Food of little acid in a jar that no published pressure process closed: the caution goes first.

Judged by the food, not by the name of the dish or of the method: boiling water, steam, an oven, an
open kettle and a layer of oil are alike to the spores of botulism.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from ledger.amounts import split_line
from ledger.errors import LedgerError
from ledger.kinds import kept_by
from ledger.messages import Names, joined, sentence
from ledger.published.batch import WARM, AcidDone, BatchDone, Finding, JarsDone, Used
from ledger.published.equipment import cold_heat, tool_named
from ledger.published.finding import find, forbidden, lines_of
from ledger.published.parts import Part, how_much, parts_of
from ledger.published.product import match_batch
from ledger.published.reading import read
from ledger.published.remedy import if_wrong
from ledger.published.strength import strength_of
from ledger.published.words import cited, says
from ledger.reference.schedules import Schedule

__all__ = [
    "AGAINST",
    "Danger",
    "all_with_acid",
    "batch_as_typed",
    "caution_for",
    "danger_of",
    "in_oil",
    "oil_named",
    "printed_lines",
    "under_oil",
]

AGAINST = "against every published process"
CANNING = ("boiling water", "pressure")
_MINOR = Fraction(1, 3)
"""Low-acid parts above a third of the acid ones are what the jar holds, not a flavour of it."""

_MIXTURES = frozenset({"fat", "sweet"})


@dataclass(frozen=True)
class Danger:
    """What makes a batch dangerous.

    Attributes
    ----------
    names : tuple of str
        The foods, as typed.
    against : bool
        Whether it stands against every published process; else the caution goes with another
        standing.
    oil : bool
        Whether it stands under oil or fat.
    acid : bool
        Whether it is published for boiling water with its acid, which falls short or is not said.
    ruled_out : bool
        Whether a document rules it out in every canner.
    pressure : bool
        Whether it was put up under pressure, but not as any published process has it.
    anew : bool
        Whether a pressure process is published for what went in: only that is run anew.
    """

    names: tuple[str, ...]
    against: bool
    oil: bool = False
    acid: bool = False
    ruled_out: bool = False
    pressure: bool = False
    anew: bool = True


def danger_of(batch: BatchDone, fit: Sequence[str], findings: Sequence[Finding]) -> Danger | None:
    """Return why a batch gets the caution; None where nothing calls for it.

    Parameters
    ----------
    batch : BatchDone
    fit : sequence of str
        Published products that what went in is, for this method; empty where none is.
    findings : sequence of Finding
        What was found so far: acid that falls short brings the caution too.
    """
    parts = [part for part in parts_of(batch.used) if not part.strained]
    warm = bool(batch.sealed) or (batch.method in CANNING and not _only_cold(batch))
    if (oil := in_oil(batch, parts)) and not (fit and batch.method in CANNING):
        # in a bowl or a jar: not cold is against all of them (OKSTATE_OIL)
        return Danger(oil, against=warm or bool(set(batch.kept) & set(WARM)), oil=True)
    if not warm:
        return None
    if batch.method == "pressure" and cold_heat(batch) is None:
        return _under_pressure(batch, parts, fit, findings)
    if batch.method == "dry" and cold_heat(batch) is None:
        return None  # dried food in a jar is what the storage tables print
    low = _named(batch, parts, "low_acid")
    border = _named(batch, parts, "borderline")
    if fit and cold_heat(batch) is None:
        return _of_product(batch, parts, low or border, findings)
    if low:
        ruled_out, anew = bool(forbidden(batch.makes)), _is_published_for_pressure(batch)
        return Danger(low, against=not _is_minor(parts), ruled_out=ruled_out, anew=anew)
    if not border or _has_acid(batch, parts):
        return None
    acid = all_with_acid(printed_lines(border))
    return Danger(
        border, against=True, acid=acid, anew=not acid and _is_published_for_pressure(batch)
    )


def _under_pressure(
    batch: BatchDone, parts: Sequence[Part], fit: Sequence[str], findings: Sequence[Finding]
) -> Danger | None:
    """Return the danger of food of little acid put up under pressure as no published process has it."""
    names = _named(batch, parts, "low_acid") or _named(batch, parts, "borderline")
    if not names or not any(one.kind == "no published process" for one in findings):
        return None
    ruled_out = bool(forbidden(batch.makes))
    return Danger(names, against=False, ruled_out=ruled_out, pressure=True, anew=bool(fit))


def _is_published_for_pressure(batch: BatchDone) -> bool:
    """Return whether what went in is a product with a pressure process, in the form that it has."""
    return bool(match_batch(replace(batch, method="pressure")).fit)


def _only_cold(batch: BatchDone) -> bool:
    return bool(batch.kept) and not set(batch.kept) & set(WARM)


def _of_product(
    batch: BatchDone, parts: Sequence[Part], names: tuple[str, ...], findings: Sequence[Finding]
) -> Danger | None:
    """Return the caution for a published acid product: only where its acid is missing or short."""
    acid = [one for one in findings if one.field == "acid" and one.kind != "as published"]
    more = [
        one for one in findings if one.field == "ingredients" and one.kind == "no published process"
    ]
    open_acid = any(
        one.kind == "short of it" or (one.kind == "not recorded" and one.done is None)
        for one in acid
    )
    if not names or not (open_acid or more):
        return None
    border = _named(batch, parts, "borderline")
    said_none = not _has_acid(batch, parts)
    jar_acid = any(one.published and says(one.text, "finding-acid-each-jar") for one in acid)
    against = bool(border) and jar_acid and said_none
    return Danger(names, against=against, acid=True, anew=False)


def printed_lines(names: Iterable[str]) -> list[tuple[Schedule, ...]]:
    """Return, for each food of least acid that the names say, every printed line of what bears its name."""
    foods = {one for name in names for one in read(name).foods}
    low = {one.name for one in foods if one.acidity == "low_acid"}
    border = {one.name for one in foods if one.acidity == "borderline"}
    return [
        tuple(line for product in find(food).candidates for line in lines_of(product))
        for food in sorted(low or border)
    ]


def all_with_acid(lines: Sequence[Sequence[Schedule]]) -> bool:
    """Return whether every line printed for each food takes acid into the jar."""
    return bool(lines) and all(one and all(line.acids for line in one) for one in lines)


def _named(batch: BatchDone, parts: Sequence[Part], acidity: str) -> tuple[str, ...]:
    """Return the names, as typed, of what is so acid: what was made, then what went in."""
    out = []
    if any(one.acidity == acidity for one in read(batch.makes).foods):
        out.append(batch.makes)
    for part in parts:
        if part.role == "food" and any(one.acidity == acidity for one in part.reading.foods):
            out.append(part.text)
    return tuple({text.casefold(): text for text in out}.values())


def _has_acid(batch: BatchDone, parts: Sequence[Part]) -> bool:
    if batch.acid:
        return True
    return any(
        part.role in ("lemon", "citric")
        or (part.role == "vinegar" and strength_of(part.text).kind == "as published")
        for part in parts
    )


def _is_minor(parts: Sequence[Part]) -> bool:
    """Return whether food of little acid is a small part beside acid food, by weight."""
    low = acid = Fraction(0)
    full = False
    for part in parts:
        grams = how_much(part, "lb")
        if part.role == "vinegar":
            full = full or strength_of(part.text).kind == "as published"
            cups = how_much(part, "cup")
            acid += (cups or Fraction(0)) / 2  # a cup of vinegar is half a pound
        elif part.role == "food" and any(f.acidity != "acid" for f in part.reading.foods):
            if grams is None:
                return False
            low += grams
        elif part.role == "food" and part.reading.foods:
            acid += grams or Fraction(0)
    return full and low > 0 and low <= _MINOR * acid


def in_oil(batch: BatchDone, parts: Sequence[Part]) -> tuple[str, ...]:
    """Return what stands under oil or fat, by name; empty where nothing does."""
    makes = read(batch.makes)
    said = oil_named(batch.note) or oil_named(batch.makes) or "infused oil" in makes.forms
    by_name = batch.method != "freeze" and bool(_BY_NAME.search(batch.makes))
    said = said or any("infused oil" in p.reading.forms for p in parts)
    moist = [
        part.text
        for part in parts
        if part.role == "food" and any(f.group not in _MIXTURES for f in part.reading.foods)
    ]
    oil = [p for p in parts if p.role == "food" and any(f.name == "oil" for f in p.reading.foods)]
    if by_name or (said and (makes.foods or moist)):
        return tuple(dict.fromkeys((batch.makes, *moist)))
    if not oil or not moist or batch.method in CANNING:
        return ()
    weights = [how_much(part, "lb") for part in parts if part.text in moist]
    liquid = [how_much(part, "cup") for part in oil]
    if any(one is None for one in (*weights, *liquid)):
        return tuple(moist)
    heavy = sum((w for w in weights if w is not None), Fraction(0))
    covered = sum((c for c in liquid if c is not None), Fraction(0)) / 2
    return tuple(moist) if covered * 4 >= heavy else ()


def oil_named(said: str) -> bool:
    """Return whether words say that food stands in or under oil; fried in oil it does not."""
    return bool(_IN_OIL.search(said)) and not _FRIED.search(said)


def under_oil(said: str) -> bool:
    """Return whether words say that food stands in oil or fat, or name what does: ``garlic confit``."""
    return oil_named(said) or bool(_BY_NAME.search(said))


_IN_OIL = re.compile(
    r"\b(in|under|unter|covered with|bedeckt mit)\s+([\w'-]+\s+){0,3}(oil|\w*öl|lard|tallow|\w*schmalz|\w+fett)\b|"
    r"\b(under|unter|covered with|sealed with|bedeckt mit)\s+([\w'-]+\s+){0,2}(fat|fett)\b|\bconfit\b",
    re.IGNORECASE,
)
_BY_NAME = re.compile(
    r"\b(garlic|herb\w*|rosemary|basil|oregano|thyme|sage|chil\w+|pepper|lemon|truffle|mushroom|onion|tomato|infused|"
    r"flavou?red)\b[\w -]*\boil\b|\boil with\b|\bconfit|confit\b|\bpesto|pesto\b|\brillettes\b|\bpotted (meat|fish)\b|"
    r"(kräuter|knoblauch|rosmarin|basilikum|chili|zitronen|trüffel|pilz|zwiebel|thymian|salbei|würz)-?öl\b|schmalzfleisch",
    re.IGNORECASE,
)
"""Food that stands under its oil or fat by its name alone; frozen it is as published."""
_FRIED = re.compile(
    r"(fried|saut[eé]ed|brown|cooked|roasted)\w*\s+in\b|öl\s+(an)?(gebraten|geröstet|gedünstet)",
    re.IGNORECASE,
)


def caution_for(danger: Danger | None, *, short: bool = False) -> str | None:
    """Return the one caution for such a batch: why, and what the documents say of jars done so.

    Parameters
    ----------
    danger : Danger or None
    short : bool
        For jars that stand already: that they are not tasted, and where the rest is said.
    """
    if danger is None:
        return None
    foods = Names(danger.names)
    if danger.oil:
        return sentence("published-danger-oil", foods=foods, source=cited(_OIL_SOURCE))
    if danger.acid:
        return _of_acid(foods, short=short)
    if danger.pressure:
        return _of_pressure(danger, foods, short=short)
    if short:
        return sentence("published-danger-short", foods=foods)
    if danger.ruled_out:
        none = sentence("published-danger-no-canner", foods=foods)
        return joined(" ", (none, if_wrong(pressure=False)))
    return joined(" ", (sentence("published-danger", foods=foods), if_wrong(pressure=danger.anew)))


_OIL_SOURCE = "Oklahoma State University Extension, about 2020"


def _of_pressure(danger: Danger, foods: Names, *, short: bool) -> str:
    """Return what is said of jars under pressure: no caution of boiling water, but the same remedy."""
    if short:
        return sentence("published-danger-pressure-short", foods=foods)
    id_ = "published-danger-pressure-other" if danger.anew else "published-danger-pressure"
    return joined(" ", (sentence(id_, foods=foods), if_wrong(pressure=danger.anew)))


def _of_acid(foods: Names, *, short: bool) -> str:
    """Return the caution for what is published for boiling water, but with its acid: no pressure is for it."""
    if short:
        return sentence("published-danger-acid-short", foods=foods)
    return joined(" ", (sentence("published-danger-acid", foods=foods), if_wrong(pressure=False)))


def batch_as_typed(said: Mapping[str, Any]) -> BatchDone | None:
    """Return a batch from what has been typed so far; None where what it makes, or how, is not said.

    An oven or an open kettle says how, too; jars closed so stand on the shelf unless a place is said.

    Parameters
    ----------
    said : mapping
        Of a ``put_up``: ``makes``, ``method``, ``used``, ``made``, ``acid``, ``pack``, ``schedule``,
        ``note`` and ``equipment``, as far as they are there; lines of a body, or texts as typed.
    """
    makes, method, note = said.get("makes"), said.get("method"), str(said.get("note") or "")
    tools = tuple(str(one) for one in said.get("equipment") or ())
    untested = tool_named(" ; ".join((*tools, note, str(method or ""))))
    if not makes or not (method or untested):
        return None
    heard = str(method or "boiling water").casefold()
    known = "pressure" if "press" in heard and "boil" not in heard else heard
    if known not in _METHODS:
        known, note = "boiling water", f"{note} {method}"
    jars, kept = _made(said.get("made") or (), "boiling water" if untested else known)
    return BatchDone(
        str(makes),
        known,
        jars,
        tuple(_used(one) for one in said.get("used") or () if one),
        schedule=said.get("schedule"),
        acid=(AcidDone("lemon juice", "1 tbsp"),) if said.get("acid") else None,
        pack=said.get("pack"),
        note=note,
        equipment=tools,
        kept=kept,
    )


def _made(made: Iterable[Any], method: str) -> tuple[tuple[JarsDone, ...], tuple[str, ...]]:
    """Return the jars, and where they stand by a method that nobody else says; a size of jar is a jar."""
    jars, kept = [], []
    for one in made:
        if isinstance(one, Mapping):
            jar, place = one.get("jar"), one.get("kept") or kept_by(method)
        else:
            jar = _JAR.search(str(one))
            place = next((p for p in _PLACES if str(one).split()[-1:] == [p]), kept_by(method))
        if jar:
            jars.append(JarsDone("jar", 1))
            kept.append(str(place))
    return tuple(jars), tuple(dict.fromkeys(kept))


_JAR = re.compile(r"jar|quart|pint|glas|gläser|\boz\b", re.IGNORECASE)
_PLACES = ("shelf", "cellar", "fridge", "freezer")


def _used(line: Any) -> Used:
    if isinstance(line, Mapping):
        item, amount = str(line["item"]), str(line.get("amount", ""))
        return Used(item, amount, strained=bool(line.get("strained")))
    try:
        said, item = split_line(str(line))
    except LedgerError:
        return Used(str(line), "")
    text = str(line).strip()
    return Used(item or text, text.removesuffix(item).strip() if item else said.text)


_METHODS = frozenset(
    {"boiling water", "pressure", "freeze", "dry", "ferment", "pickle cold", "jam uncooked", "cellar", "cook"}
)  # fmt: skip
