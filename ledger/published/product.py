"""Which published product a batch is: by its name or schedule, if what went in bears it out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from ledger.published.batch import BatchDone, Finding
from ledger.published.finding import Match, find, lines_of
from ledger.published.ingredients import holds, ingredient_findings, nearest_by_used
from ledger.published.parts import Part, parts_of
from ledger.published.reading import read
from ledger.published.recipe import recipe_findings
from ledger.published.words import labels, listed
from ledger.reference.schedules import products

_FERMENTED = re.compile(
    r"ferment|gegoren|milchsauer|sour pickle|salzgurke|brined|weeks|wochen", re.IGNORECASE
)

__all__ = ["NEAREST", "Matched", "match_batch"]

_NONE = "no published process"
_YOURSELF = "to check yourself"
NEAREST = "For comparison only:"
"""Begins what the nearest published products are, where none fits."""


@dataclass(frozen=True)
class Matched:
    """What a batch was matched with.

    Attributes
    ----------
    fit : tuple of str
        Products that remain; several where the entry leaves it open.
    named : tuple of str
        Products that its name or schedule names, whether they fit or not.
    findings : tuple of Finding
        Of the product, its ingredients, their amounts, and the method.
    near : tuple of str
        Where nothing remains, for comparison only.
    """

    fit: tuple[str, ...]
    named: tuple[str, ...]
    findings: tuple[Finding, ...]
    near: tuple[str, ...] = ()


def match_batch(batch: BatchDone) -> Matched:
    """Return which published products a batch is, and what was found on the way."""
    parts = parts_of(batch.used)
    match, findings = _match(batch, parts)
    if not match.candidates:
        near = tuple(dict.fromkeys((*match.near, *nearest_by_used(batch))))[:3]
        text = f"{match.text} {_compared(near)}".strip()
        none = Finding("product", None, batch.makes, _NONE, text)
        return Matched((), (), (none, *findings), near)
    found = {product: _of_product(product, parts, batch) for product in match.candidates}
    fit = tuple(p for p in match.candidates if not _outside(found[p]))
    if not fit:
        return _departed(match, batch, parts, found)
    fit = _best(fit, found, batch)
    findings = [_named(match, fit, batch), *findings]
    for product in fit:
        findings += found[product]
    method = _method(fit, batch)
    findings.append(method)
    kept = tuple(p for p in fit if lines_of(p, batch.method))
    if method.kind == _NONE:
        return Matched((), match.candidates, tuple(dict.fromkeys(findings)), fit)
    return Matched(kept, match.candidates, tuple(dict.fromkeys(findings)))


def _match(batch: BatchDone, parts: Sequence[Part]) -> tuple[Match, list[Finding]]:
    """Return the products named, by the schedule where it fits what went in, else by the name."""
    jar = batch.jars[0].jar if len(batch.jars) == 1 else None
    findings: list[Finding] = []
    if batch.schedule:
        match = find(batch.makes, batch.method, jar, batch.pack, batch.schedule)
        fits = [p for p in match.candidates if not _outside(ingredient_findings(p, parts, batch))]
        if match.by == "schedule" and fits and _bears(match.candidates, batch.makes):
            return match, _unknown_words(batch)
        text = f"The schedule {batch.schedule!r} is not among the tables held here: compare with its document."
        if match.by == "schedule":
            text = f"The schedule {batch.schedule!r} does not fit what went in: it is set aside."
        findings.append(Finding("schedule", None, batch.schedule, _YOURSELF, text))
    match = find(batch.makes, batch.method, jar, batch.pack)
    if match.candidates:
        return match, findings
    known = " ".join(w for w in batch.makes.split() if not read(w).unknown)
    if known and known != batch.makes:
        fewer = find(known, batch.method, jar, batch.pack)
        if fewer.candidates:
            return fewer, [*findings, *_unknown_words(batch)]
    return match, findings


def _bears(candidates: Sequence[str], makes: str) -> bool:
    """Return whether a name says nothing that the scheduled products do not hold."""
    foods = read(makes).foods
    if not foods:
        return True
    named = find(makes).candidates
    return any(
        product in named or all(holds(product, one.name) for one in foods) for product in candidates
    )


def _unknown_words(batch: BatchDone) -> list[Finding]:
    words = read(batch.makes).unknown
    if not words:
        return []
    text = f"{listed(words)}: in no table here. Does it change what was made?"
    return [Finding("product", None, batch.makes, _YOURSELF, text)]


def _of_product(product: str, parts: Sequence[Part], batch: BatchDone) -> list[Finding]:
    out = ingredient_findings(product, parts, batch)
    if not _outside(out):
        out += recipe_findings(product, parts, batch)
    return out


def _outside(findings: Sequence[Finding]) -> bool:
    """Return whether it is another product: by what went in, not by how much of it."""
    return any(_departs(one) for one in findings)


def _departs(one: Finding) -> bool:
    return one.kind == _NONE and not one.text.startswith("Published:")


def _best(
    fit: tuple[str, ...], found: dict[str, list[Finding]], batch: BatchDone
) -> tuple[str, ...]:
    """Return the products that every part of the batch fits; where none, all that remain."""
    said = " ".join((batch.makes, *(one.item for one in batch.used))).casefold()
    liquid = "liquid" in said or "flüssig" in said
    sorted_out = tuple(
        p for p in fit if not ("liquid" in p and not liquid) and not ("powdered" in p and liquid)
    )
    fit = sorted_out or fit
    if not _FERMENTED.search(f"{said} {batch.note}"):
        # Brine that ferments and brine that does not look alike: the graver reading holds.
        fit = tuple(p for p in fit if p != "pickles_dill_fermented") or fit
    whole = tuple(p for p in fit if not any(o.kind != "as published" for o in found[p]))
    if whole or len(fit) == 1:
        return whole or fit
    graver = (_NONE, "short of it", "not recorded", _YOURSELF)
    kinds = {
        p: min((graver.index(o.kind) for o in found[p] if o.kind in graver), default=9) for p in fit
    }
    best = max(kinds.values())
    return tuple(p for p in fit if kinds[p] == best)


def _named(match: Match, fit: tuple[str, ...], batch: BatchDone) -> Finding:
    named = labels(fit)
    if len(fit) == 1:
        return Finding("product", named, batch.makes, "as published", f"Compared with: {named}.")
    return Finding("product", named, batch.makes, "not recorded", match.text)


def _departed(
    match: Match, batch: BatchDone, parts: Sequence[Part], found: dict[str, list[Finding]]
) -> Matched:
    """Return the findings of a recipe that bears a published name and is another thing."""
    product = min(found, key=lambda p: sum(_departs(one) for one in found[p]))
    outside = [one for one in found[product] if _departs(one)]
    near = tuple(dict.fromkeys((*match.candidates[:1], *nearest_by_used(batch))))[:3]
    text = f"No process is published for this recipe with {batch.method}, whatever its name. {_compared(near)}"
    first = Finding("product", None, batch.makes, _NONE, text.strip())
    return Matched((), match.candidates, (first, *outside), near)


def _compared(near: tuple[str, ...]) -> str:
    """Return the nearest published products with their methods, for comparison only."""
    out = []
    for product in near:
        methods = listed(dict.fromkeys(s.method for s in lines_of(product)), "or")
        out.append(f"{labels([product])} ({methods})")
    return f"{NEAREST} {'; '.join(out)}." if out else ""


def _method(fit: tuple[str, ...], batch: BatchDone) -> Finding:
    methods = listed(dict.fromkeys(s.method for p in fit for s in lines_of(p)), "or")
    if any(lines_of(p, batch.method) for p in fit):
        return Finding("method", methods, batch.method, "as published", f"Published for {methods}.")
    text = f"Published for {methods} only: no {batch.method} process is printed for {labels(fit)}."
    if batch.method == "boiling water" and any(products()[p].low_acid for p in fit):
        text += " It is low in acid, and boiling water does not get hot enough for it."
    return Finding("method", methods, batch.method, _NONE, text)
