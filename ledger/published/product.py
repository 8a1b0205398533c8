"""Which published product a batch is: by its name or schedule, if what went in bears it out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ledger.messages import Typed, joined, sentence
from ledger.published.batch import BatchDone, Finding
from ledger.published.finding import DISH_FOODS, Match, find, lines_of
from ledger.published.ingredients import holds, ingredient_findings, nearest_by_used
from ledger.published.parts import Part, parts_of
from ledger.published.reading import read
from ledger.published.recipe import recipe_findings
from ledger.published.words import fixed, labels, listed, published_for_said, says, without
from ledger.reference.schedules import products

_FERMENTED = re.compile(
    r"ferment|gegoren|milchsauer|sour pickle|salzgurke|brined|weeks|wochen", re.IGNORECASE
)

__all__ = ["Matched", "match_batch"]

_NONE = "no published process"
_YOURSELF = "to check yourself"


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
        said = without(match.text, "finding-nearest-named")
        text = joined(" ", [one for one in (said, _compared(near)) if one])
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
        schedule = Typed(batch.schedule)
        text = sentence("finding-schedule-not-held", schedule=schedule)
        if match.by == "schedule":
            text = sentence("finding-schedule-set-aside", schedule=schedule)
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
    if not read(batch.makes).unknown:
        return []
    words = [word for word in batch.makes.split() if read(word).unknown]
    text = sentence("finding-words-not-known", names=listed(words or read(batch.makes).unknown))
    return [Finding("product", None, batch.makes, _YOURSELF, text)]


def _of_product(product: str, parts: Sequence[Part], batch: BatchDone) -> list[Finding]:
    out = [*_name_against(product, batch), *ingredient_findings(product, parts, batch)]
    if not _outside(out):
        out += recipe_findings(product, parts, batch)
    return out


def _name_against(product: str, batch: BatchDone) -> list[Finding]:
    """Return foods that the name says and the product does not hold: chicken noodle soup."""
    known = products()[product]
    said = [one.name for one in read(batch.makes).foods if one.name not in DISH_FOODS]
    own = {one.name for name in (*known.names, known.label) for one in read(name).foods}
    strange = [name for name in said if name not in own and not holds(product, name)]
    if not strange:
        return []
    typed = [w for w in batch.makes.split() if any(f.name in strange for f in read(w).foods)]
    text = sentence(
        "finding-name-says", item=batch.makes, names=listed(typed or strange), product=known.label
    )
    return [Finding("product", known.label, batch.makes, _NONE, text)]


def _outside(findings: Sequence[Finding]) -> bool:
    """Return whether it is another product: by what went in, not by how much of it."""
    return any(_departs(one) for one in findings)


def _departs(one: Finding) -> bool:
    return one.kind == _NONE and not says(one.text, "finding-more-than-tested")


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
        text = sentence("finding-compared-with", product=named)
        return Finding("product", named, batch.makes, "as published", text)
    return Finding("product", named, batch.makes, "not recorded", match.text)


def _departed(
    match: Match, batch: BatchDone, parts: Sequence[Part], found: dict[str, list[Finding]]
) -> Matched:
    """Return the findings of a recipe that bears a published name and is another thing."""
    product = min(found, key=lambda p: sum(_departs(one) for one in found[p]))
    outside = [one for one in found[product] if _departs(one)]
    near = tuple(dict.fromkeys((*match.candidates[:1], *nearest_by_used(batch))))[:3]
    none = sentence("finding-none-for-recipe", method=fixed(batch.method))
    text = joined(" ", [one for one in (none, _compared(near)) if one])
    first = Finding("product", None, batch.makes, _NONE, text)
    return Matched((), match.candidates, (first, *outside), near)


def _compared(near: tuple[str, ...]) -> str:
    """Return the nearest published products with their methods, for comparison only."""
    out = [
        sentence("finding-nearest-one", product=labels([product]), methods=_methods((product,)))
        for product in near
    ]
    return sentence("finding-nearest", products=joined("; ", out)) if out else ""


@lru_cache(1024)
def _methods(fit: tuple[str, ...]) -> str:
    """Return the methods that are printed for some products: ``boiling water or pressure``."""
    return listed(map(fixed, dict.fromkeys(s.method for p in fit for s in lines_of(p))), "or")


def _method(fit: tuple[str, ...], batch: BatchDone) -> Finding:
    methods = _methods(fit)
    if any(lines_of(p, batch.method) for p in fit):
        text = published_for_said(methods)
        return Finding("method", methods, fixed(batch.method), "as published", text)
    text = sentence(
        "finding-other-method", methods=methods, method=fixed(batch.method), product=labels(fit)
    )
    if batch.method == "boiling water" and any(products()[p].low_acid for p in fit):
        text = joined(" ", (text, sentence("finding-not-hot-enough")))
    return Finding("method", methods, fixed(batch.method), _NONE, text)
