"""The amounts of a tested recipe beside a batch's: acid, water, low-acid parts, sugar, salt."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from ledger.messages import Choice, Names, joined, sentence
from ledger.published.batch import BatchDone, Finding
from ledger.published.parts import Part, how_much, part_said, same_food
from ledger.published.reading import read
from ledger.published.strength import Strength, is_bottled, strength_of
from ledger.published.words import cite, cited, figure
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
        text = part_said("finding-no-most", part)
        out.append(Finding("ingredients", known.label, part.text, _YOURSELF, text))
    return out


def vinegar_findings(parts: Sequence[Part]) -> list[Finding]:
    """Return how strong each vinegar was, and whether each juice was bottled."""
    out = []
    for part in parts:
        if part.role == "vinegar":
            found = strength_of(part.text)
            if found.kind != "as published":
                printed = sentence("finding-vinegar-of-5")
                text = joined(
                    " ",
                    (
                        sentence("finding-published", printed=printed),
                        _strength_done(part.text, found),
                        sentence("finding-vinegar-not-tested"),
                    ),
                )
                out.append(Finding("acid", printed, part.text, found.kind, text))
        elif part.role == "lemon" and not is_bottled(part.text):
            text = part_said("finding-juice-bottled-ask", part)
            out.append(Finding("acid", sentence("finding-bottled"), part.text, _YOURSELF, text))
    return out


def _strength_done(item: str, found: Strength) -> str:
    if found.percent is not None:
        return sentence("finding-strength-done", item=item, n=figure(found.percent))
    if found.why == "essence":
        return sentence("finding-strength-essence", item=item)
    if found.why == "home-made":
        return sentence("finding-strength-home-made", item=item)
    return sentence("finding-strength-unsaid", item=item)


def _no_main(row: Bound, parts: Sequence[Part]) -> list[Finding]:
    if not any(part.role == "food" for part in parts):
        return []
    text = sentence("finding-main-part-ask", part=row.basis_part)
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
        text = sentence("finding-part-of-process", part=row.part, source=cited(cite(row.source)))
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
    told = {
        "n": figure(row.amount or 0),
        "what": f"{row.unit} {row.part}",
        "n2": figure(row.basis or 0),
        "basis": f"{row.basis_unit} {row.basis_part}",
    }
    if row.bound == "at_most":
        return sentence("finding-at-most", **told)
    return sentence("finding-at-least", **told)


def _bound(row: Bound) -> str:
    where = cited(cite(row.source))
    return sentence("finding-published-in", printed=_printed(row), source=where)


def _unknown(row: Bound, found: Sequence[Part]) -> Finding:
    names = Names(tuple(part.text for part in found))
    text = joined(" ", (_bound(row), sentence("finding-how-much-ask", names=names)))
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
    if most is None or done is None:
        return _unknown(row, found)
    names = ", ".join(part.text for part in found)
    shown = _beside(done, f"{unit} {names}", most)
    texts = [_bound(row), sentence("finding-done", done=shown)]
    kind = "as published"
    if done > most * (1 + _SLACK):
        kind = _NONE
        texts.append(sentence("finding-more-than-tested"))
    elif not row.confirmed:
        kind = _YOURSELF
        texts.append(sentence("finding-bound-not-confirmed"))
    return Finding("ingredients", _printed(row), shown, kind, joined(" ", texts))


def _beside(done: Fraction, what: str, wanted: Fraction) -> str:
    """Return an amount beside the one printed for as much of the main part."""
    return sentence("finding-beside", n=figure(done), what=what, n2=figure(wanted))


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
        texts = [_bound(row), sentence("finding-none-written")]
        if kind == _YOURSELF:
            texts.append(sentence("finding-pectin-leaflet"))
        return Finding(field, _printed(row), None, kind, joined(" ", texts))
    done = _sum(found, unit)
    if least is None or done is None:
        return _unknown(row, found)
    shown = _beside(done, unit, least)
    texts = [_bound(row), sentence("finding-done", done=shown)]
    kind = "as published"
    if done < least * (1 - _SLACK):
        kind = _YOURSELF if field == "ingredients" else "short of it"
        what = Choice(field if field in ("acid", "sugar", "salt") else "other")
        texts.append(sentence("finding-less-than-tested", what=what))
    elif not row.confirmed:
        kind = _YOURSELF
        texts.append(sentence("finding-bound-not-confirmed"))
    return Finding(field, _printed(row), shown, kind, joined(" ", texts))


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
    printed = _most_water(row, acid_row)
    intro = sentence("finding-published-in", printed=printed, source=cited(cite(row.source)))
    if (
        done is None
        or acid is None
        or acid_row is None
        or not acid_row.amount
        or row.amount is None
    ):
        text = joined(" ", (intro, sentence("finding-cups-ask")))
        return Finding("acid", printed, None, "not recorded", text)
    shown = sentence("finding-water-to-acid", n=figure(done), n2=figure(acid), acid=acid_row.part)
    texts = [intro, sentence("finding-done", done=shown)]
    if done * acid_row.amount > row.amount * acid * (1 + _SLACK):
        texts += [sentence("finding-thins-acid"), sentence("finding-soak-counts-nothing")]
        return Finding("acid", printed, shown, "short of it", joined(" ", texts))
    kind = "as published" if row.confirmed else _YOURSELF
    return Finding("acid", printed, shown, kind, joined(" ", texts))


def _most_water(row: Bound, acid: Bound | None) -> str:
    """Return what the recipe prints of water: none, at most so much, or so much to its acid."""
    if not row.amount:
        return sentence("finding-no-water")
    n = figure(row.amount)
    if acid is None or not acid.amount:
        return sentence("finding-most-water", n=n)
    return sentence("finding-most-water-to-acid", n=n, n2=figure(acid.amount), acid=acid.part)
