"""Whether what went in is what a published product holds: by food, kind and form, not by name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from ledger.messages import sentence
from ledger.published.batch import BatchDone, Finding, Used
from ledger.published.forms import form_findings
from ledger.published.parts import Part, how_much, part_said, parts_of, same_food
from ledger.published.reading import read
from ledger.published.words import label, listed
from ledger.reference.bounds import bounds_of
from ledger.reference.schedules import products

__all__ = ["departs", "holds", "ingredient_findings", "main_grams", "nearest_by_used"]

_NONE = "no published process"
_YOURSELF = "to check yourself"
_FREE = frozenset({"water", "soak", "salt"})
_ACID_GROUPS = frozenset({"fruit", "spread", "tomato", "pickle"})
_LB_G = Fraction("453.59237")


@dataclass(frozen=True)
class _Kind:
    """How a part that a product does not hold is said: by the id of a message."""

    kind: str
    id: str


def ingredient_findings(product: str, parts: Sequence[Part], batch: BatchDone) -> list[Finding]:
    """Return what stands against a batch being this product, by what went in; empty: nothing.

    Parameters
    ----------
    product : str
        Key of a published product.
    parts : sequence of Part
    batch : BatchDone
    """
    out = []
    if not parts:
        text: str = sentence("finding-ingredients-ask")
        out.append(Finding("ingredients", None, None, "not recorded", text))
    for part in parts:
        found = _against(product, part)
        if found is not None:
            text = part_said(found.id, part, product=label(product))
            out.append(Finding("ingredients", label(product), part.text, found.kind, text))
    out += _missing(product, parts)
    out += form_findings(product, parts, batch)
    return out


def departs(product: str, parts: Sequence[Part], batch: BatchDone) -> bool:
    """Return whether what went in makes another product of it."""
    return any(one.kind == _NONE for one in ingredient_findings(product, parts, batch))


@lru_cache(8192)
def _names(product: str) -> tuple[str, ...]:
    known = products()[product]
    allowed = [
        name
        for one in bounds_of(product)
        if one.bound in ("at_most", "at_least")
        for name in one.names
    ]
    return tuple(dict.fromkeys((*known.ingredients, *allowed)))


@lru_cache(16384)
def holds(product: str, item: str) -> bool:
    """Return whether a published product holds an item, by the words or the foods they stand for."""
    mine = {one.name for one in read(item).foods}
    return any(same_food(item, name) for name in _names(product)) or (
        len(mine) > 1 and mine <= _foods(product)
    )


@lru_cache(1024)
def _foods(product: str) -> frozenset[str]:
    return frozenset(one.name for name in _names(product) for one in read(name).foods)


@lru_cache(16384)
def _hold_roles(product: str) -> frozenset[str]:
    return frozenset(role for name in _names(product) for role in read(name).roles)


def _against(  # noqa: PLR0911 -- one line a part it plays
    product: str, part: Part
) -> _Kind | None:
    known, role = products()[product], part.role
    if part.strained and part.reading.exact:
        return None
    if role in _FREE:
        return None
    if role == "ice":
        poured = any(same_food(part.text, name) for name in known.ingredients)
        return None if poured else _Kind(_YOURSELF, "finding-is-water")
    if role in ("vinegar", "lemon", "citric") and part.reading.unknown:
        return _Kind(_YOURSELF, "finding-not-certain")
    if role == "no_salt":
        return _Kind(_YOURSELF, "finding-no-salt")
    if role in ("lemon", "citric", "ascorbic") and known.group in _ACID_GROUPS:
        return None
    if role in _hold_roles(product) and role not in ("spice", "food"):
        return None
    if role in {"food", "spice"}:
        return _food_against(product, part)
    if role in ("vinegar", "lemon", "citric", "ascorbic"):
        return _Kind(_YOURSELF, "finding-not-part")
    if role in ("sugar", "gelling_sugar", "sweetener", "pectin_low", "pectin", "firming"):
        return _Kind(_YOURSELF, "finding-not-named")
    if role == "starch":
        return _Kind(_NONE, "finding-is-thickening")
    return _Kind(_YOURSELF, "finding-in-no-table")


def _food_against(product: str, part: Part) -> _Kind | None:
    if [one.name for one in part.reading.foods] == ["bean"] and product in _TWO_BEANS:
        return _Kind(_YOURSELF, "finding-which-beans")
    if holds(product, part.text):
        unsure = not part.reading.exact or _is_forbidden(product, part)
        if _is_forbidden(product, part):
            return _Kind(_NONE, "finding-does-not-belong")
        return _Kind(_YOURSELF, "finding-not-certain") if unsure else None
    if part.role == "spice":
        return _Kind(_YOURSELF, "finding-may-it-be-added")
    id_ = {
        "low_acid": "finding-is-low-acid",
        "borderline": "finding-is-borderline",
        "acid": "finding-is-another-food",
    }[
        min(
            part.reading.foods,
            key=lambda one: ("low_acid", "borderline", "acid").index(one.acidity),
        ).acidity
    ]
    named = {"grain": "finding-thickens", "fat": "finding-is-fat", "dairy": "finding-is-dairy"}
    id_ = next((named[f.group] for f in part.reading.foods if f.group in named), id_)
    return _Kind(_NONE, id_)


_TWO_BEANS = frozenset({"snap_beans", "dry_beans_or_peas"})


def _is_forbidden(product: str, part: Part) -> bool:
    rows = [one for one in bounds_of(product) if one.bound == "forbidden"]
    said = set(part.reading.forms)
    return any(
        same_food(part.text, name) and set(read(name).forms) <= said
        for one in rows
        for name in one.names
    )


def _missing(product: str, parts: Sequence[Part]) -> list[Finding]:
    known = products()[product]
    kept = [part for part in parts if not part.strained]
    if not parts:
        return []
    out = []
    if known.needs and not any(same_food(p.text, need) for p in kept for need in known.needs):
        what = listed(known.needs, "or")
        text = sentence("finding-needs", product=known.label, names=what)
        out.append(Finding("ingredients", label(product), None, _NONE, text))
    foods = [name for name in known.ingredients if read(name).foods]
    main = any(holds(product, part.text) for part in parts if part.reading.foods)
    if foods and not main and any(part.role == "food" for part in kept):
        text = sentence("finding-nothing-of-it", product=known.label)
        out.append(Finding("ingredients", label(product), None, _NONE, text))
    elif foods and not main:
        text = sentence("finding-none-of-its-parts", product=known.label)
        out.append(Finding("ingredients", label(product), None, "not recorded", text))
    return out


def main_grams(product: str, used: Sequence[Used]) -> float | None:
    """Return the weight of what a published product is made of, in grams; None where unknown."""
    known = products()[product]
    names = [name for name in known.ingredients if read(name).foods]
    if known.group not in ("fruit", "meat"):
        names = names[:1]
    total = Fraction(0)
    for part in parts_of(used):
        if (
            part.role == "food"
            and not part.strained
            and any(same_food(part.text, n) for n in names)
        ):
            pounds = how_much(part, "lb")
            if pounds is not None:
                total += pounds * _LB_G
    return float(total) if total else None


def nearest_by_used(batch: BatchDone) -> tuple[str, ...]:
    """Return up to three products that hold everything that was used, for comparison only."""
    parts = parts_of(batch.used)
    foods = {one.name for part in parts if not part.strained for one in part.reading.foods}
    if not foods:
        return ()
    near = [key for key in products() if foods <= _foods(key)]
    return tuple(key for key in near if not departs(key, parts, batch))[:3]
