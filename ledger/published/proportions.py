"""The quantities of a published recipe against those of a batch, by the weight of its main part.

Two things count: acid that the recipe relies on (too little of it), and low-acid parts that it
limits (too much of them). The rest of a recipe is left to the cook.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ledger.amounts import parse_amount, split_line, unit_factor
from ledger.errors import LedgerError
from ledger.items import item_key
from ledger.published.batch import Used
from ledger.published.mixture import main_grams
from ledger.published.words import number
from ledger.reference.planting import Source
from ledger.reference.schedules import products
from ledger.reference.schedules_sources import source
from ledger.reference.yields import quantities

__all__ = ["Part", "parts_of_batch", "recipe_of"]

_LB_G = Fraction("453.59237")
#: Two parts in a hundred: cups and pounds are not measured more finely in a kitchen.
_SLACK = Fraction(2, 100)

#: Low-acid parts that a recipe limits: pounds of tomatoes, then (name, words, most in grams, as
#: printed). A cup weighs, chopped: onion 160 g, celery 101 g, sweet pepper 149 g (USDA SR28,
#: household measures of 11282, 11143, 11333); a clove of garlic 3 g (11215). Where a line allows
#: two things, the heavier cup is taken for the limit of both.
_SAUCE = (
    ("onion", ("onion",), 160.0, "1 cup"),
    ("celery or pepper", ("celery", "pepper"), 149.0, "1 cup"),
    ("mushroom", ("mushroom",), 453.6, "1 lb"),
    ("garlic", ("garlic",), 15.0, "5 cloves"),
)
_LIMITS = {
    "spaghetti_sauce_without_meat": (Fraction(30), _SAUCE, "NCHFP_SPAGHETTI"),
    "spaghetti_sauce_with_meat": (Fraction(30), _SAUCE, "MSU_PFS_01600878"),
    "tomato_vegetable_juice": (
        Fraction(22),
        (("other vegetables", ("onion", "celery", "pepper", "carrot"), 3 * 160.0, "3 cups"),),
        "AIB539_2009_TOMVEGJUICE",
    ),
}


@dataclass(frozen=True)
class Part:
    """One part of a published recipe beside the batch's.

    Attributes
    ----------
    name : str
    published, done : str
        `done` is empty where it cannot be compared.
    is_limit : bool
        True: at most so much; False: at least so much.
    holds : bool or None
        None where it cannot be compared.
    source : Source
    """

    name: str
    published: str
    done: str
    is_limit: bool
    holds: bool | None
    source: Source


def recipe_of(product: str) -> tuple[Fraction, str, Source] | None:
    """Return the published recipe: pounds of the main part, the rest in words, the source."""
    for row in quantities(product):
        if row.basis == "recipe" and row.recipe_lb and row.note:
            return row.recipe_lb, row.note, row.source
    return None


def parts_of_batch(product: str, used: Sequence[Used]) -> list[Part]:
    """Return the parts of a published recipe that count, beside what a batch used.

    Parameters
    ----------
    product : str
    used : sequence of Used
        With weights in grams where they are known.
    """
    main = main_grams(product, used)
    out = _limits(product, used, main) if product in _LIMITS else []
    recipe = recipe_of(product)
    if recipe is not None and products()[product].group in ("pickle", "tomato", "spread"):
        out += _acids(recipe, used, main)
    return out


def _limits(product: str, used: Sequence[Used], main: float | None) -> list[Part]:
    pounds, limits, key = _LIMITS[product]
    out = []
    for name, words, grams, printed in limits:
        found = [u for u in used if set(words) & set(item_key(u.item).split())]
        if not found:
            continue
        published = f"at most {printed} for {number(pounds)} lb of tomatoes"
        if main is None or any(u.grams is None for u in found):
            out.append(Part(name, published, "", True, None, source(key)))
            continue
        done = sum(u.grams or 0.0 for u in found)
        most = grams * main / float(pounds * _LB_G)
        text = f"{done / float(_LB_G):.2f} lb for {main / float(_LB_G):.1f} lb of tomatoes"
        holds = done <= most * float(1 + _SLACK)
        out.append(Part(name, published, text, True, holds, source(key)))
    return out


def _acids(
    recipe: tuple[Fraction, str, Source], used: Sequence[Used], main: float | None
) -> list[Part]:
    pounds, note, where = recipe
    out = []
    for part in note.split(";"):
        name = next((n for n in ("vinegar", "lemon") if n in part), None)
        wanted = _volume_ul(re.split(r"\s(?:cider|bottled|vinegar|lemon)", part.strip())[0])
        found = [u for u in used if name and name in item_key(u.item)]
        if name is None or wanted is None or not found:
            continue
        published = f"{part.strip()} for {number(pounds)} lb"
        volumes = [_volume_ul(u.amount) for u in found]
        if main is None or None in volumes:
            out.append(Part(name, published, "", False, None, where))
            continue
        needed = wanted * Fraction(main).limit_denominator(10_000) / (pounds * _LB_G)
        done = sum((v for v in volumes if v is not None), Fraction(0))
        cup = (unit_factor("cup") or ("", Fraction(1)))[1]
        text = f"{number(done / cup)} cups, where this weight takes {number(needed / cup)}"
        out.append(Part(name, published, text, False, done >= needed * (1 - _SLACK), where))
    return out


def _volume_ul(text: str) -> Fraction | None:
    try:
        amount = parse_amount(text.strip())
    except LedgerError:
        try:
            amount, _ = split_line(text.strip())
        except LedgerError:
            return None
    return amount.exact if amount.measure == "volume" else None
