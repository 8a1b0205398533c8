"""Forms that change what a process was tested for: mashed, ground, dried, smoked, in oil, overripe."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from ledger.messages import Sentence, joined, sentence
from ledger.published.batch import BatchDone, Finding
from ledger.published.names import stems
from ledger.published.parts import Part, part_said
from ledger.published.reading import read
from ledger.published.words import cite, cited, fixed, label
from ledger.reference.bounds import bounds_of
from ledger.reference.kinds import forms
from ledger.reference.schedules import products
from ledger.reference.schedules_sources import sources

__all__ = ["form_findings", "form_word"]

_NONE = "no published process"
_YOURSELF = "to check yourself"

_ANOTHER = frozenset(
    {
        "puree", "butter", "refried", "cream style", "cream of", "thickened", "dry in the jar", "smoked", "infused oil",
        "white flesh", "leavened", "in vinegar", "fermented", "bone in", "dried",
    }
)  # fmt: skip
_COMPARE = frozenset({"grated", "salted", "in honey", "leftover", "low-sugar"})
_NEVER = frozenset({"cubed", "strained out", "home-made part", "green (unripe)"})
_SOFT = ("fruit", "spread")


def form_findings(product: str, parts: Sequence[Part], batch: BatchDone) -> list[Finding]:
    """Return what the forms that were said mean for this product; its own forms mean nothing.

    Forms are read from what was made and from every line that went in.
    """
    said = dict.fromkeys(read(batch.makes).forms)
    for part in parts:
        if not part.strained and part.role == "food":
            said |= dict.fromkeys(part.reading.forms)
    if batch.note:
        said |= dict.fromkeys(set(read(batch.note).forms) & {"overripe", "puree", "refried"})
    own = {
        form for name in (*products()[product].names, label(product)) for form in read(name).forms
    }
    out = [
        *_pieces_left(product, parts),
        *_hot_only(product, batch),
        *_unsaid(product, parts, batch),
    ]
    out += [*_another_kind(product, parts, batch), *_not_cooked(product, parts, batch)]
    out += [found for part in parts if (found := _named_form(product, part)) is not None]
    for form in said:
        kind = None if form in own else _kind(product, form)
        if kind is not None:
            key = forms()[form].source_id if form in forms() else ""
            told = {"form": form_word(form), "product": label(product)}
            text: str = (
                sentence("finding-form-compare", **told)
                if kind == _YOURSELF
                else sentence("finding-form-not-published", **told)
            )
            if key in sources():
                where = sentence("published-source", text=cite(sources()[key]))
                text = joined(" ", (text, where))
            out.append(Finding("form", label(product), form_word(form), kind, text))
    return out


def form_word(form: str) -> Sentence:
    """Return a form of food, by the name that the tables give it: ``puree``, ``frozen (thawed)``."""
    return sentence("form-" + re.sub("[^a-z]+", "-", form).strip("-"))


def _named_form(product: str, part: Part) -> Finding | None:
    """Return the finding of a kind that the product's document rules out by name: sugar snap, wild."""
    mine = stems(part.text)
    for row in bounds_of(product):
        if row.bound != "forbidden_form" or part.strained or product == "meat_stock":
            continue
        for name in row.names:
            size = len(stems(name))
            if any(mine[at : at + size] == stems(name) for at in range(len(mine))):
                text = sentence(
                    "finding-not-published-for",
                    item=part.text,
                    product=label(product),
                    name=name,
                    source=cited(cite(row.source)),
                )
                return Finding("form", label(product), part.text, _NONE, text)
    return None


_BONES = re.compile(
    r"\bbones?\b|knochen|carcass|karkasse|\bbacks?\b|\bnecks?\b|\bwings?\b|\bfeet\b|frame|stock|broth|brühe|fond",
    re.IGNORECASE,
)
_HOT_ONLY = frozenset({"blueberry", "currant", "gooseberry", "elderberry"})


_CUT = frozenset({"pumpkin_winter_squash_cubed", "sweet_potatoes_pieces_or_whole"})
"""Products whose food is as often mashed as cut: the form is asked for where it is not said."""

_ANOTHER_KIND = {
    "corn_whole_kernel": re.compile(r"\bcobs?\b|baby|hominy|kolben|ear of", re.IGNORECASE),
    "meat_ground_or_chopped": re.compile(
        r"salami|bacon|\bham\b|hot ?dog|frankfurter|mettwurst|cured|liver|leber|speck|schinken",
        re.IGNORECASE,
    ),
}
_COOKED = re.compile(r"soak|boil|cook|eingeweicht|gekocht|heiß|hot pack", re.IGNORECASE)
_MAIN = {"vegetable": 4, "meat": 4, "tomato": 1}
"""How many of a product's ingredients are the food itself, by group; the rest goes with it."""


def _unsaid(product: str, parts: Sequence[Part], batch: BatchDone) -> list[Finding]:
    """Return the question in which form it was, where the form that is not printed is as usual."""
    if product not in _CUT or not parts:
        return []
    said = set(read(batch.makes).forms).union(*(part.reading.forms for part in parts))
    if said:
        return []
    text = sentence("finding-pieces-ask", product=label(product))
    return [Finding("form", label(product), None, _YOURSELF, text)]


def _another_kind(product: str, parts: Sequence[Part], batch: BatchDone) -> list[Finding]:
    """Return what is sold under the food's name and is another thing: corn on the cob, salami."""
    pattern = _ANOTHER_KIND.get(product)
    texts = [batch.makes, *(part.text for part in parts if not part.strained)]
    return [
        Finding(
            "form",
            label(product),
            text,
            _NONE,
            sentence("finding-another-thing", item=text, product=label(product)),
        )
        for text in texts
        if pattern is not None and pattern.search(text)
    ]


def _not_cooked(product: str, parts: Sequence[Part], batch: BatchDone) -> list[Finding]:
    """Return what has to be cooked first, or has no process of its own, and is not said to."""
    out = []
    soup = product.startswith("soup_")
    for part in parts:
        if part.strained or part.role != "food":
            continue
        pulse = any(one.group == "pulse" or one.name == "dry bean" for one in part.reading.foods)
        dry = pulse and product in (
            "dry_beans_or_peas",
            "soup_vegetable_or_meat",
            "soup_with_seafood",
        )
        if dry and not _COOKED.search(f"{part.text} {batch.note} {batch.makes}"):
            text = sentence("finding-soaked-ask", item=part.text)
            printed = sentence("finding-soaked")
            out.append(Finding("form", printed, part.text, _YOURSELF, text))
        elif soup and not pulse and not _has_own_process(part):
            text = sentence("finding-part-of-soup", item=part.text)
            out.append(Finding("ingredients", label(product), part.text, _YOURSELF, text))
        elif product == "beans_dry_with_sauce" and any(
            f.group == "meat" for f in part.reading.foods
        ):
            text = part_said("finding-one-cube-of-pork", part)
            out.append(Finding("ingredients", label(product), part.text, _YOURSELF, text))
    return out


@lru_cache(1024)
def _process_of(food: str) -> bool:
    return any(
        food
        in {
            one.name for name in known.ingredients[: _MAIN[known.group]] for one in read(name).foods
        }
        for known in products().values()
        if known.group in _MAIN
    )


def _has_own_process(part: Part) -> bool:
    skip = {"stock", "meat", "seafood"}
    return all(
        one.name in skip or one.group in ("fish", "shellfish", "fruit") or _process_of(one.name)
        for one in part.reading.foods
    )


def _pieces_left(product: str, parts: Sequence[Part]) -> list[Finding]:
    """Return the finding of stock with what it was made of still in it: that is soup."""
    if product != "meat_stock":
        return []
    left = [p for p in parts if p.role == "food" and not p.strained and not _BONES.search(p.text)]
    return [
        Finding(
            "form",
            label(product),
            part.text,
            _NONE,
            part_said("finding-not-strained-out", part),
        )
        for part in left
    ]


def _hot_only(product: str, batch: BatchDone) -> list[Finding]:
    """Return the finding of berries that the table prints for hot pack only (MSU_PFS_01600351)."""
    foods = {one.name for used in batch.used for one in read(used.item).foods}
    if product != "berries_whole" or batch.pack != "raw" or not foods & _HOT_ONLY:
        return []
    text = sentence("finding-berries-hot-only")
    return [Finding("pack", fixed("hot"), fixed("raw"), _NONE, text)]


def _kind(product: str, form: str) -> str | None:
    known = products()[product]
    if form in known.forms or form in _NEVER:
        return None
    if _is_forbidden(product, form):
        return _NONE
    if form == "overripe":
        return _NONE if "tomato" in known.ingredients else _YOURSELF
    if form == "frozen (thawed)":
        return None if known.group in (*_SOFT, "tomato") else _YOURSELF
    if form == "ground":
        return _NONE if known.group == "meat" else None
    if form in _ANOTHER:
        return _NONE
    return _YOURSELF if form in _COMPARE else None


def _is_forbidden(product: str, form: str) -> bool:
    names = {
        name for row in bounds_of(product) if row.bound == "forbidden_form" for name in row.names
    }
    return any(form in read(name).forms for name in names)
