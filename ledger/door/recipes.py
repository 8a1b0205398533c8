"""Recipes scaled: what a batch takes when its recipe is named and its amounts are not said."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

from ledger.amounts import jar_volume_ul, parse_amount, unit_factor
from ledger.errors import InputError, NotFound
from ledger.items import item_key, near_misses
from ledger.kinds import CANNING
from ledger.known.catalogue import Catalogue
from ledger.messages import Message, Typed

__all__ = ["from_recipe", "recipe_of", "scaled", "times_of"]

_A_JARS_SIZE = re.compile(r"\d+\s*(?:half[-\s]?)?(?:qt|quart|pt|pint)s?", re.IGNORECASE)


def from_recipe(catalogue: Catalogue, body: dict[str, Any]) -> dict[str, Any]:
    """Return a batch's body with what its recipe says; the same body where none is meant.

    Raises
    ------
    InputError
        When the recipe is not in the book, or its multiple is no number above zero.
    """
    if body.get("used") or not (
        body.get("recipe") or body.get("times") or recipe_of(catalogue, body.get("makes"))
    ):
        return body
    name = body.get("recipe") or body.get("makes") or ""
    recipe = recipe_of(catalogue, name)
    if recipe is None:
        near = near_misses(name, [r["recipe"] for r in catalogue.recipes.values()])
        hint = (
            Message.of("refusal-did-you-mean", name=Typed(near[0]))
            if near
            else Message.of("refusal-write-recipe")
        )
        raise NotFound("recipe", Message.of("refusal-no-recipe", name=Typed(name)), hint)
    times = times_of(body.get("times"))
    out = {**body, "recipe": recipe["recipe"], "makes": recipe["makes"]}
    out.setdefault("method", recipe.get("method"))
    if out["method"] is None:
        del out["method"]
    if recipe.get("schedule"):
        out.setdefault("schedule", recipe["schedule"])
    out["used"] = [
        {"item": line["item"], "amount": scaled(line["amount"], times)} for line in recipe["uses"]
    ]
    if not body.get("made"):
        out["made"] = _yield(recipe["yields"], times, is_canned=out.get("method") in CANNING)
    return out


def recipe_of(catalogue: Catalogue, name: str | None) -> dict[str, Any] | None:
    """Return a recipe by its name, or None."""
    return catalogue.recipes.get(item_key(name)) if name else None


def times_of(text: str | None) -> Fraction:
    """Return how many times a recipe is made.

    Raises
    ------
    InputError
        When it is not a number above zero.
    """
    try:
        times = Fraction(text or 1)
    except (ValueError, ZeroDivisionError):
        times = Fraction(0)
    if times <= 0:
        raise InputError("times", Message.of("refusal-not-above-zero", text=Typed(str(text))))
    return times


def scaled(amount: str, times: Fraction) -> str:
    """Return an amount so many times, in the unit it was written in.

    Examples
    --------
    >>> scaled("16 lb", Fraction(3, 2))
    '24 lb'
    """
    if times == 1:
        return amount
    parsed = parse_amount(amount)
    known = unit_factor(parsed.unit)
    many = parsed.exact * times / (known[1] if known else 1000)
    number = f"{float(many):.3f}".rstrip("0").rstrip(".")
    return f"{number} {parsed.unit}"


def _yield(yields: str, times: Fraction, *, is_canned: bool) -> list[dict[str, Any]]:
    """Return the made entries that a scaled recipe gives: whole jars, and the rest for the fridge.

    Quarts that were canned are quart jars: as anything else no rule of canning would look at them.
    """
    said = f"{yields} jars" if is_canned and _A_JARS_SIZE.fullmatch(yields.strip()) else yields
    amount = parse_amount(said)
    if amount.jars is None:
        return [{"amount": scaled(yields, times)}]
    jar = amount.jar
    whole, rest = divmod(amount.jars * times, 1)
    made: list[dict[str, Any]] = [{"jars": int(whole), "jar": jar}] if whole else []
    if rest and jar is not None:
        volume = (jar_volume_ul(jar) or 0) * rest
        made.append({"amount": f"{float(volume / 1000):.0f} ml", "kept": "fridge"})
    return made
