"""Forms that change what a process was tested for: mashed, ground, dried, smoked, in oil, overripe."""

from __future__ import annotations

from collections.abc import Sequence

from ledger.published.batch import BatchDone, Finding
from ledger.published.parts import Part
from ledger.published.reading import read
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
        "puree", "refried", "cream style", "cream of", "thickened", "dry in the jar", "smoked", "infused oil",
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
    out = []
    for form in said:
        kind = _kind(product, form)
        if kind is not None:
            known = forms()[form]
            where = cite(sources()[known.source_id]) if known.source_id in sources() else ""
            text = f"{form}: {label(product)} is not published in that form."
            if kind == _YOURSELF:
                text = f"{form}: compare with what is printed for {label(product)}."
            out.append(
                Finding("form", label(product), form, kind, f"{text} ({where})" if where else text)
            )
    return out


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
