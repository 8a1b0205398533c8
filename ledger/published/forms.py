"""Forms that change what a process was tested for: mashed, ground, dried, smoked, in oil, overripe."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ledger.published.batch import BatchDone, Finding
from ledger.published.parts import Part
from ledger.published.reading import read, stems
from ledger.published.words import cite, label
from ledger.reference.bounds import bounds_of
from ledger.reference.kinds import forms
from ledger.reference.schedules import products
from ledger.reference.schedules_sources import sources

__all__ = ["form_findings"]

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
    out = [*_pieces_left(product, parts), *_hot_only(product, batch)]
    out += [found for part in parts if (found := _named_form(product, part)) is not None]
    for form in said:
        kind = None if form in own else _kind(product, form)
        if kind is not None:
            key = forms()[form].source_id if form in forms() else ""
            where = cite(sources()[key]) if key in sources() else ""
            text = f"{form}: {label(product)} is not published in that form."
            if kind == _YOURSELF:
                text = f"{form}: compare with what is printed for {label(product)}."
            out.append(
                Finding("form", label(product), form, kind, f"{text} ({where})" if where else text)
            )
    return out


def _named_form(product: str, part: Part) -> Finding | None:
    """Return the finding of a kind that the product's document rules out by name: sugar snap, wild."""
    mine = stems(part.text)
    for row in bounds_of(product):
        if row.bound != "forbidden_form" or part.strained or product == "meat_stock":
            continue
        for name in row.names:
            size = len(stems(name))
            if any(mine[at : at + size] == stems(name) for at in range(len(mine))):
                text = f"{part.text}: {label(product)} is not published for {name} ({cite(row.source)})."
                return Finding("form", label(product), part.text, _NONE, text)
    return None


_BONES = re.compile(
    r"\bbones?\b|knochen|carcass|karkasse|\bbacks?\b|\bnecks?\b|\bwings?\b|\bfeet\b|frame|stock|broth|brühe|fond",
    re.IGNORECASE,
)
_HOT_ONLY = frozenset({"blueberry", "currant", "gooseberry", "elderberry"})


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
            f"{part.text} ({part.used.amount}) was not strained out: what is left in a stock makes it soup.",
        )
        for part in left
    ]


def _hot_only(product: str, batch: BatchDone) -> list[Finding]:
    """Return the finding of berries that the table prints for hot pack only (MSU_PFS_01600351)."""
    foods = {one.name for used in batch.used for one in read(used.item).foods}
    if product != "berries_whole" or batch.pack != "raw" or not foods & _HOT_ONLY:
        return []
    text = "Blueberries, currants, gooseberries and huckleberries are printed for hot pack only."
    return [Finding("pack", "hot", "raw", _NONE, text)]


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
