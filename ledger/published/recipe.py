"""The amounts of a tested recipe beside a batch's: acid, water, low-acid parts, sugar, salt."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from ledger.published.batch import BatchDone, Finding
from ledger.published.parts import Part, how_much, same_food
from ledger.published.reading import read
from ledger.published.strength import is_bottled, strength_of
from ledger.published.words import cite, number
from ledger.reference.bounds import Bound, bounds_of
from ledger.reference.schedules import products

__all__ = ["recipe_findings", "vinegar_findings"]

_NONE = "no published process"
_YOURSELF = "to check yourself"
_SLACK = Fraction(2, 100)
"""Two parts in a hundred: cups and pounds are not measured more finely in a kitchen."""

_UNITS = ("lb", "cup", "tbsp", "oz", "clove", "piece", "onion", "package", "part", "percent")
_FOR_TASTE = re.compile(r"taste|flavour|sweetness")


def recipe_findings(product: str, parts: Sequence[Part], batch: BatchDone) -> list[Finding]:
    """Return the bounds of a tested recipe, each beside what was used; empty where none is printed.

    Parameters
    ----------
    product : str
    parts : sequence of Part
        Those strained out count for nothing.
    batch : BatchDone
    """
    kept = [part for part in parts if not part.strained]
    if not kept:
        return []
    rows = bounds_of(product)
    out = [*vinegar_findings(kept), *_unbounded(product, kept)]
    own = [row for row in rows if row.basis is not None and row.amount and row.basis_part != "jar"]
    if own and not _main(own, kept):
        return out if product == "sauerkraut" else [*out, *_no_main(own[0], kept)]
    for row in rows:
        found = _compared(row, rows, kept, batch)
        if found is not None:
            out.append(found)
    return out


_FLAVOUR = Fraction(1, 20)
"""Of the main part: what of little acid a recipe may name without saying how much (our own choice)."""


def _unbounded(product: str, parts: Sequence[Part]) -> list[Finding]:
    """Return low-acid parts of an acid product for which it prints no bound, where they are more than a flavour."""
    known = products()[product]
    if known.low_acid or known.group in ("ferment", "tomato"):
        return []
    bounded = [name for row in bounds_of(product) if row.bound == "at_most" for name in row.names]
    first = [name for name in known.ingredients if read(name).foods][:1]
    main = [p for p in parts if p.role == "food" and any(_is(p, name) for name in first)]
    whole = _sum(main, "lb") if main else None
    out = []
    for part in parts:
        if part.role != "food" or part in main or not part.reading.low_acid:
            continue
        if any(one.group == "herb" for one in part.reading.foods) or any(
            _is(part, n) for n in bounded
        ):
            continue
        if any(row.basis_part and _is(part, row.basis_part) for row in bounds_of(product)):
            continue
        done = how_much(part, "lb")
        if whole and done is not None and done <= whole * _FLAVOUR:
            continue
        text = f"{part.text} ({part.used.amount}): of little acid, and the recipe here prints no most of it: compare."
        out.append(Finding("ingredients", known.label, part.text, _YOURSELF, text))
    return out


def vinegar_findings(parts: Sequence[Part]) -> list[Finding]:
    """Return how strong each vinegar was, and whether each juice was bottled."""
    out = []
    for part in parts:
        if part.role == "vinegar":
            found = strength_of(part.text)
            if found.kind != "as published":
                text = (
                    f"Published: vinegar of 5 %. Done: {part.text}, {found.said}. "
                    "Home-made vinegar and vinegar below 5 % are not what the recipe was tested with."
                )
                out.append(Finding("acid", "vinegar of 5 %", part.text, found.kind, text))
        elif part.role == "lemon" and not is_bottled(part.text):
            text = f"{part.text} ({part.used.amount}): was it bottled? Fresh juice varies in acid."
            out.append(Finding("acid", "bottled", part.text, _YOURSELF, text))
    return out


def _no_main(row: Bound, parts: Sequence[Part]) -> list[Finding]:
    if not any(part.role == "food" for part in parts):
        return []
    text = f"The recipe is printed for {row.basis_part}: how much of it went in?"
    return [Finding("ingredients", row.basis_part, None, "not recorded", text)]


def _main(rows: Sequence[Bound], parts: Sequence[Part]) -> list[Part]:
    names = {row.basis_part for row in rows if row.basis is not None} - {"jar", ""}
    return [part for part in parts if any(_is(part, name) for name in names)]


def _is(part: Part, name: str) -> bool:
    if name == "percent":
        return False
    if name == "juice" or name in _WIDER:
        return _is_generic(part, name)
    return same_food(part.text, name)


_WIDER = {
    "cauliflower": ("cauliflower", "brussels sprout"),
    "pepper": ("pepper", "bell pepper", "hot pepper"),
    "chile": ("pepper", "hot pepper"),
    "jalapeno": ("hot pepper", "pepper"),
    "beef": ("beef", "ground meat", "sausage"),
    "ground beef": ("beef", "ground meat"),
    "bean": (
        "bean", "dry bean", "kidney bean", "pinto bean", "navy bean", "black bean", "chickpea", "black-eyed pea",
    ),
    "berry": (
        "berry", "blackberry", "raspberry", "blueberry", "gooseberry", "loganberry", "strawberry",
    ),
}  # fmt: skip
"""Names of a recipe that stand for several foods."""


def _is_generic(part: Part, name: str) -> bool:
    if part.role != "food":
        return False
    if name == "juice":
        return "juice" in part.text.casefold() or "saft" in part.text.casefold()
    hot = "jalap" in part.text.casefold()
    if name in ("jalapeno", "chile") and hot != (name == "jalapeno"):
        return False  # printed apart where both go in
    return any(one.name in _WIDER[name] for one in part.reading.foods)


def _compared(
    row: Bound, rows: Sequence[Bound], parts: Sequence[Part], batch: BatchDone
) -> Finding | None:
    if row.bound == "exact_recipe":
        text = f"Printed: {row.part} belongs to the process; another one changes it ({cite(row.source)}). Compare."
        return Finding("ingredients", row.part, None, _YOURSELF, text)
    if row.amount is None or _FOR_TASTE.search(row.judges):
        return None
    found = [part for part in parts if any(_is(part, name) for name in row.names)]
    if row.bound == "at_most" and row.judges == "dilution":
        return _dilution(row, rows, parts)
    if row.bound == "at_most":
        return _at_most(row, rows, parts, found, batch) if found else None
    if row.bound == "at_least":
        return _at_least(row, parts, found)
    if row.bound == "ratio_at_least":
        return None  # the same as the two bounds of vinegar and water
    return None


def _wanted(row: Bound, parts: Sequence[Part], batch: BatchDone | None) -> Fraction | None:
    """Return the printed amount for as much of the main part as went in; None: not known."""
    assert row.amount is not None
    if row.basis is None:
        return None
    if row.basis_unit == "jar":
        jars = sum(one.jars for one in batch.jars) if batch else 0
        return row.amount * jars / row.basis if jars else None
    main = [part for part in parts if _is(part, row.basis_part)]
    unit = "lb" if row.basis_unit in ("part", "percent") else row.basis_unit
    amounts = [how_much(part, unit) for part in main]
    known = [amount for amount in amounts if amount is not None]
    if not main or len(known) < len(main):
        return None
    return row.amount * sum(known, Fraction(0)) / row.basis


def _unit(row: Bound) -> str:
    first = row.unit.split()[0] if row.unit else "piece"
    if first == "part":
        return "lb"
    return first if first in _UNITS else "piece"


def _sum(parts: Sequence[Part], unit: str) -> Fraction | None:
    unit = "piece" if unit in ("onion", "pearl") else unit
    amounts = [how_much(part, unit) for part in parts]
    if any(amount is None for amount in amounts):
        return None
    return sum((amount for amount in amounts if amount is not None), Fraction(0))


def _printed(row: Bound) -> str:
    most = "at most" if row.bound == "at_most" else "at least"
    basis = f"{number(row.basis or 0)} {row.basis_unit} {row.basis_part}"
    return f"{most} {number(row.amount or 0)} {row.unit} {row.part} for {basis}"


def _unknown(row: Bound, what: str) -> Finding:
    text = f"Published: {_printed(row)} ({cite(row.source)}). How much {what} was it, by weight or in cups?"
    return Finding(
        "ingredients" if row.bound == "at_most" else "acid",
        _printed(row),
        None,
        "not recorded",
        text,
    )


def _at_most(
    row: Bound,
    rows: Sequence[Bound],
    parts: Sequence[Part],
    found: Sequence[Part],
    batch: BatchDone,
) -> Finding | None:
    if row.basis_part in ("tomato", "cucumber") and all(_is(p, row.basis_part) for p in found):
        return None
    groups = [found]
    if "each" in row.part:
        groups = [[part] for part in found]
    worst: Finding | None = None
    for group in groups:
        one = _one_at_most(row, parts, group, batch)
        if worst is None or _rank(one) < _rank(worst):
            worst = one
    return worst


def _rank(found: Finding) -> int:
    return (_NONE, "not recorded", _YOURSELF, "as published").index(found.kind)


def _one_at_most(
    row: Bound, parts: Sequence[Part], found: Sequence[Part], batch: BatchDone
) -> Finding:
    unit = _unit(row)
    most, done = _wanted(row, parts, batch), _sum(found, unit)
    names = ", ".join(part.text for part in found)
    if most is None or done is None:
        return _unknown(row, names)
    shown = f"{number(done)} {unit} {names}, where {number(most)} is printed for this much"
    text = f"Published: {_printed(row)} ({cite(row.source)}). Done: {shown}."
    if done > most * (1 + _SLACK):
        return Finding(
            "ingredients",
            _printed(row),
            shown,
            _NONE,
            f"{text} That is more than the tested recipe holds.",
        )
    if not row.confirmed:
        return Finding(
            "ingredients",
            _printed(row),
            shown,
            _YOURSELF,
            f"{text} The printed figure is not confirmed here.",
        )
    return Finding("ingredients", _printed(row), shown, "as published", text)


def _at_least(row: Bound, parts: Sequence[Part], found: Sequence[Part]) -> Finding | None:
    field = {"keeping": "sugar", "recipe": "ingredients", "ferment": "salt"}.get(
        row.judges.split()[0].rstrip(":"), "acid"
    )
    if row.basis_unit == "percent" or (not found and field == "ingredients"):
        return None
    least, unit = _wanted(row, parts, None), _unit(row)
    if not found:
        own = any(part.role in ("pectin_low", "gelling_sugar") for part in parts)
        kind = _YOURSELF if field == "sugar" and own else "short of it"
        text = f"Published: {_printed(row)} ({cite(row.source)}). None was written down among what was used."
        if kind == _YOURSELF:
            text += " Pectin for little sugar goes by its own leaflet: compare with that."
        return Finding(field, _printed(row), None, kind, text)
    done = _sum(found, unit)
    if least is None or done is None:
        return _unknown(row, ", ".join(part.text for part in found))
    shown = f"{number(done)} {unit}, where {number(least)} is printed for this much"
    text = f"Published: {_printed(row)} ({cite(row.source)}). Done: {shown}."
    if done < least * (1 - _SLACK):
        kind = _YOURSELF if field == "ingredients" else "short of it"
        less = {"acid": "less acid", "sugar": "less sugar", "salt": "less salt"}.get(field, "less")
        return Finding(
            field, _printed(row), shown, kind, f"{text} That is {less} than the tested recipe has."
        )
    if not row.confirmed:
        return Finding(
            field,
            _printed(row),
            shown,
            _YOURSELF,
            f"{text} The printed figure is not confirmed here.",
        )
    return Finding(field, _printed(row), shown, "as published", text)


def _dilution(row: Bound, rows: Sequence[Bound], parts: Sequence[Part]) -> Finding | None:
    """Water against vinegar, cup for cup, as the recipe prints both for the same basis."""
    water = [part for part in parts if part.role == "water"]
    if not water:
        return None
    done = _sum(water, "cup")
    acid_row = next(
        (r for r in rows if r.bound == "at_least" and r.judges.startswith("acid") and r.amount),
        None,
    )
    names = () if acid_row is None else acid_row.names
    acid = _sum([p for p in parts if any(_is(p, name) for name in names)], "cup")
    printed = (
        "no water in the liquid"
        if not row.amount
        else f"at most {number(row.amount)} cups of water"
    )
    if acid_row is not None and acid_row.amount and row.amount:
        printed += f" to {number(acid_row.amount)} of {acid_row.part}"
    where = cite(row.source)
    if (
        done is None
        or acid is None
        or acid_row is None
        or not acid_row.amount
        or row.amount is None
    ):
        text = f"Published: {printed} ({where}). How many cups of each went into the jars?"
        return Finding("acid", printed, None, "not recorded", text)
    shown = f"{number(done)} cups of water to {number(acid)} of {acid_row.part}"
    text = f"Published: {printed} ({where}). Done: {shown}."
    if done * acid_row.amount > row.amount * acid * (1 + _SLACK):
        more = " Water of a soak that was poured off counts for nothing: write it as soaking water."
        return Finding("acid", printed, shown, "short of it", f"{text} That thins the acid.{more}")
    kind = "as published" if row.confirmed else _YOURSELF
    return Finding("acid", printed, shown, kind, text)
