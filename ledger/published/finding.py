"""Which published products the household's words may mean; none is guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache

from ledger.cache import kept_table
from ledger.items import item_key
from ledger.messages import Typed, joined, sentence
from ledger.published.jars import jar_size
from ledger.published.names import stems
from ledger.published.reading import read
from ledger.published.words import cite, cited, fixed, label, labels, listed
from ledger.reference.bounds import bounds_of
from ledger.reference.schedules import Schedule, load_schedules, products

__all__ = ["DISH_FOODS", "Match", "find", "forbidden", "lines_of", "only_as", "recipes_of"]

_FILLERS = frozenset(
    word
    for text in (
        "a an and of the in our my home house homemade canned bottled jarred fresh ripe garden grown own put up "
        "batch jar or with style packed pack hot raw plain simple",
        "ein eine und von der die das mit aus im für eigen frisch reif eingekocht eingeweckt Garten Glas Gläser",
    )
    for word in stems(text)
)
_NEAREST = 3
_DISHES = {"soss": "sauc", "saft": "juic", "kompott": "compot", "aufstrich": "spread"}
_IN_LIQUID = re.compile(
    r"\b(in|mit) (broth|stock|water|its own juice|own juice|(light |heavy |medium )?syrup|brühe|sirup|wasser|saft)\b",
    re.IGNORECASE,
)
_NO_PECTIN = re.compile(r"\b(without|no)( added)? pectin\b|\bohne pektin\b", re.IGNORECASE)


@dataclass(frozen=True)
class Match:
    """Which published products fit some words.

    Attributes
    ----------
    candidates : tuple of str
        Keys of products that the words name; several when the words leave it open.
    near : tuple of str
        Where none fits: the nearest ones, for comparison only.
    text : str
        What was found, in words.
    by : {'schedule', 'words', 'nothing'}
    """

    candidates: tuple[str, ...]
    near: tuple[str, ...]
    text: str
    by: str


@lru_cache(4096)
def find(
    product_words: str,
    method: str | None = None,
    jar: str | None = None,
    pack: str | None = None,
    recipe_schedule: str | None = None,
) -> Match:
    """Return the published products that the household's words may mean.

    Parameters
    ----------
    product_words : str
        As the household calls it: ``green beans``, ``crushed tomatoes``.
    method, jar, pack : str, optional
        Used to say what is printed for it; they rule nothing out that the words name, except
        that of several products those with this method are kept.
    recipe_schedule : str, optional
        The schedule that the recipe names; it goes before the words.
    """
    if recipe_schedule:
        named = _by_schedule(recipe_schedule)
        if named:
            return Match(named, (), _found(named), "schedule")
    fit = _by_words(product_words)
    if method and len(fit) > 1:
        fit = tuple(p for p in fit if lines_of(p, method)) or fit
    if jar and len(fit) > 1:
        size = jar_size(jar)
        fit = tuple(p for p in fit if any(s.jar == size for s in lines_of(p, method))) or fit
    if pack and len(fit) > 1:
        fit = tuple(p for p in fit if any(s.pack == pack for s in lines_of(p, method))) or fit
    texts: list[str] = []
    if recipe_schedule:
        texts.append(sentence("finding-schedule-unknown", schedule=Typed(recipe_schedule)))
    if fit:
        return Match(fit, (), joined(" ", (*texts, _found(fit))), "words")
    near, typed = nearest(product_words), Typed(product_words)
    if method:
        texts.append(sentence("finding-none-with", product=typed, method=fixed(method)))
    else:
        texts.append(sentence("finding-none-for", product=typed))
    texts += forbidden(product_words)
    if near:
        texts.append(sentence("finding-nearest-named", products=labels(near)))
    return Match((), near, joined(" ", texts), "nothing")


def forbidden(text: str) -> list[str]:
    """Return the warning of a document that rules out this form of a food; empty where none is held."""
    found = read(text)
    foods, forms = {one.name for one in found.foods}, set(found.forms)
    for product in products().values():
        mine = {one.name for name in product.names for one in read(name).foods}
        for row in bounds_of(product.key) if mine & foods else ():
            if row.bound == "forbidden_form" and forms & set(row.names):
                what, form = product.label.partition(",")[0], listed(row.names, "or")
                return [
                    sentence("finding-not-at-home", foods=what, form=form),
                    sentence("finding-freeze-or-fridge", source=cited(cite(row.source))),
                ]
    return []


DISH_FOODS = frozenset(
    {"soup", "stew", "jam", "pickle", "ketchup", "applesauce", "sauerkraut", "stock"}
)
_MADE_OF = frozenset({"pickle", "spread", "ferment", "mixture"})
"""Groups of products that are a recipe of their own, and not the food by itself."""


def only_as(text: str, fit: Iterable[str]) -> bool:
    """Return whether words say a food as it is, and every product found is something else made of it.

    A process for pickled zucchini is for its vinegar: none of its figures holds for zucchini.
    """
    fit, found = tuple(fit), read(text)
    dish = "dish" in found.roles or any(one.name in DISH_FOODS for one in found.foods)
    if not fit or dish or "in vinegar" in found.forms or _as_named(text):
        return False
    return recipes_of(fit) == fit


def recipes_of(fit: Iterable[str]) -> tuple[str, ...]:
    """Return those of some products that are something made by a recipe, and not a food by itself."""
    return tuple(
        key
        for key in fit
        if products()[key].group in _MADE_OF or "dish" in read(products()[key].label).roles
    )


@cache
def lines_of(product: str, method: str | None = None) -> tuple[Schedule, ...]:
    """Return the printed lines of a product, for one method or for all."""
    return tuple(s for s in load_schedules() if s.product == product and method in (None, s.method))


def _found(fit: tuple[str, ...]) -> str:
    if len(fit) == 1:
        return sentence("finding-published-as", product=label(fit[0]))
    return sentence("finding-several", products=labels(fit))


def _by_schedule(text: str) -> tuple[str, ...]:
    key = re.sub(r"[^a-z0-9]+", "_", text.casefold()).strip("_")
    for line in load_schedules():
        if re.sub(r"[^a-z0-9]+", "_", line.id) == key:
            return (line.product,)
    if key in products():
        return (key,)
    by_label = tuple(p.key for p in products().values() if _key(p.label) == _key(text))
    return by_label or _by_words(
        re.sub(r"\b(usda|nchfp|aib ?539|guide \d)\b", " ", text.casefold())
    )


@lru_cache(8192)
def _key(text: str) -> frozenset[str]:
    return frozenset(word for word in stems(text) if word not in _FILLERS)


@cache
def _named() -> dict[frozenset[str], tuple[str, ...]]:
    out: dict[frozenset[str], tuple[str, ...]] = {}
    for product in products().values():
        for name in (*product.names, product.label):
            keys = out.get(_key(name), ())
            if product.key not in keys:
                out[_key(name)] = (*keys, product.key)
    return out


def _by_words(text: str) -> tuple[str, ...]:
    text = _NO_PECTIN.sub("", text)
    bare = _IN_LIQUID.sub("", text)
    for way in (_as_named, lambda said: _by_kind(said) or _soup(said)):
        for said in dict.fromkeys((text, bare)):
            if fit := way(said):
                return fit
    return ()


def _as_named(text: str) -> tuple[str, ...]:
    return _spelled().get(stems(text), ()) or _named().get(_key(text), ())


@cache
def _spelled() -> dict[tuple[str, ...], tuple[str, ...]]:
    """Return the products by their names as they are spelled, word after word."""
    out: dict[tuple[str, ...], tuple[str, ...]] = {}
    for product in products().values():
        for name in dict.fromkeys((*product.names, product.label)):
            known = out.get(stems(name), ())
            if product.key not in known:
                out[stems(name)] = (*known, product.key)
    return out


def _soup(text: str) -> tuple[str, ...]:
    """Return the soup that a name is: with any fish or shellfish it is soup with seafood."""
    found = read(text)
    if "soup" not in {one.name for one in found.foods} or not found.exact:
        return ()
    if set(found.forms) & {"cream of", "puree", "thickened", "infused oil"}:
        return ()
    wet = any(one.group in ("fish", "shellfish") for one in found.foods)
    return ("soup_with_seafood",) if wet else ("soup_vegetable_or_meat",)


_Sense = tuple[frozenset[str], frozenset[str], frozenset[str]]


@cache
def _by_foods() -> dict[_Sense, tuple[str, ...]]:
    """Return the products by what their names say; 856 names are read once for each program."""
    of = list[tuple[list[str], list[str], list[str], list[str]]]
    kept = kept_table("products-by-foods", of, _read_by_foods)
    return {
        (frozenset(foods), frozenset(roles), frozenset(forms)): tuple(products)
        for foods, roles, forms, products in kept
    }


def _read_by_foods() -> list[tuple[list[str], list[str], list[str], list[str]]]:
    out: dict[_Sense, list[str]] = {}
    for product in products().values():
        for name in (*product.names, product.label):
            key = _sense(name)
            known = out.setdefault(key, []) if key[0] else [product.key]
            if product.key not in known:
                known.append(product.key)
    return [(*map(sorted, key), keys) for key, keys in out.items()]  # type: ignore[misc]


def _sense(text: str) -> _Sense:
    found = read(text)
    dishes = frozenset(
        _DISHES.get(word, word) for word in stems(text) if read(word).roles == ("dish",)
    )
    loose = {"cubed", "home-made part", "frozen (thawed)", "overripe", "leftover"}
    if any(one.group == "pulse" for one in found.foods):
        loose |= {"dried"}  # a kidney bean is a dry bean, whether it is said or not
    return (
        frozenset(one.name for one in found.foods),
        frozenset(found.roles) | dishes,
        frozenset(found.forms) - loose,
    )


def _by_kind(text: str) -> tuple[str, ...]:
    """Return the products that say the same foods in the same form, in other words or tongues."""
    found = read(text)
    if not found.exact:
        return ()
    return _by_foods().get(_sense(text), ())


@lru_cache(2048)
def nearest(text: str) -> tuple[str, ...]:
    """Return up to three products whose names come nearest to some words, the nearest first.

    Names are compared by the words they share; the last word (jam, butter, soup) says what kind
    of thing it is and counts more.
    """
    low = bool(read(text).low_acid)
    words = _key(text)
    last = _last(text)
    scores: dict[str, float] = {}
    for product in products().values():
        if low and not product.low_acid and product.group != "pickle":
            continue  # a process for acid food is never offered beside food of little acid
        for name in product.names:
            common = words & _key(name)
            shared = len(common)
            if shared and (_last(name) == last or _of_one_food(text, common)):
                score = shared / len(words | _key(name)) + 0.2 * (_last(name) == last)
                scores[product.key] = max(scores.get(product.key, 0.0), score)
    ranked = sorted(scores, key=lambda key: -scores[key])
    best = scores[ranked[0]] if ranked else 0.0
    return tuple(key for key in ranked[:_NEAREST] if scores[key] >= 0.6 * best)


def _of_one_food(text: str, common: Iterable[str]) -> bool:
    """Return whether words that two names share say the food, and not a form alone: butter is no bean."""
    foods = {one.name for one in read(text).foods}
    return not foods or any(one.name in foods for word in common for one in read(word).foods)


def _last(text: str) -> str:
    return (item_key(re.sub(r"[^\w\s]", " ", text)).split() or [""])[-1]
