"""Is it the published product at all? By name, by method and by what went in."""

from __future__ import annotations

from ledger.published.batch import BatchDone, Finding
from ledger.published.finding import Match, lines_of
from ledger.published.mixture import departures, nearest_by_used
from ledger.published.proportions import parts_of_batch
from ledger.published.words import cite, label, labels, listed
from ledger.reference.schedules import products

__all__ = ["NEAREST", "product_findings"]

_NONE = "no published process"
NEAREST = "For comparison only:"
"""Begins what the nearest published products are, where none fits."""


def product_findings(
    match: Match, batch: BatchDone
) -> tuple[tuple[str, ...], list[Finding], tuple[str, ...], tuple[str, ...]]:
    """Return which products remain, findings of product and method, the nearest ones, and notes.

    Where nothing remains, the findings say why, and the nearest are for comparison only.
    """
    if not match.candidates:
        near = tuple(dict.fromkeys((*match.near, *nearest_by_used(batch.used))))[:3]
        text = f"{match.text} {_compared(near, batch)}".strip()
        return (), [Finding("product", None, batch.makes, _NONE, text)], near, ()
    fit, findings, notes = [], [], []
    for product in match.candidates:
        found = departures(product, batch.used)
        if any(one.kind != "seasoning" for one in found):
            continue
        fit.append(product)
        notes += [one.text for one in found]
    if not fit:
        return (), *_departed(match, batch), ()
    findings.append(_named(match, tuple(fit), batch))
    if any(note for note in notes):
        text = " ".join(dict.fromkeys(notes))
        findings.append(Finding("product", label(fit[0]), batch.makes, "not recorded", text))
    findings += _proportions(tuple(fit), batch)
    method = _method(tuple(fit), batch)
    findings.append(method)
    if method.kind == _NONE:
        return (), findings, tuple(fit), ()
    return tuple(fit), findings, (), ()


def _named(match: Match, fit: tuple[str, ...], batch: BatchDone) -> Finding:
    named = labels(fit)
    if len(fit) == 1:
        return Finding("product", named, batch.makes, "as published", f"Compared with: {named}.")
    return Finding("product", named, batch.makes, "not recorded", match.text)


def _departed(match: Match, batch: BatchDone) -> tuple[list[Finding], tuple[str, ...]]:
    """Return the findings of a recipe that bears a published name and is another thing."""
    product = min(match.candidates, key=lambda p: len(departures(p, batch.used)))
    found = [one for one in departures(product, batch.used) if one.kind != "seasoning"]
    near = tuple(dict.fromkeys((*match.candidates[:1], *nearest_by_used(batch.used))))[:3]
    text = (
        f"No process is published for this recipe with {batch.method}, whatever its name. "
        + " ".join(one.text for one in found)
        + " A process is tested for what its recipe holds: added oil, low-acid vegetables, meat or "
        "thickening make another product of it. " + _compared(near, batch)
    )
    return [Finding("product", None, batch.makes, _NONE, text.strip())], near


def _compared(near: tuple[str, ...], batch: BatchDone) -> str:
    """Return how the nearest published products differ, for comparison only."""
    out = []
    for product in near:
        found = departures(product, batch.used)
        if not batch.used:
            continue
        kinds = listed(dict.fromkeys(f"{one.item} ({one.kind})" for one in found)) if found else ""
        parts = [p for p in parts_of_batch(product, batch.used) if p.holds is not True]
        limits = "; ".join(f"{p.name}: {p.published}, here {p.done or 'not known'}" for p in parts)
        methods = listed(dict.fromkeys(s.method for s in lines_of(product)), "or")
        text = f"{labels([product])} ({methods})"
        text += f" differs in {kinds}" if kinds else ""
        if not kinds and not limits:
            text += " holds the same things; what was made of them here is another product"
        text += f"{' and' if kinds else ' differs'} in proportion ({limits})" if limits else ""
        out.append(text)
    return f"{NEAREST} {'. '.join(out)}." if out else ""


def _proportions(fit: tuple[str, ...], batch: BatchDone) -> list[Finding]:
    """Return the findings of the acid a recipe relies on and the low-acid parts it limits."""
    if len(fit) != 1 or not batch.used:
        return []
    out = []
    for part in parts_of_batch(fit[0], batch.used):
        text = f"Published recipe, {part.name}: {part.published} ({cite(part.source)})."
        if part.holds is None:
            kind = "not recorded"
            text += f" How much {part.name} was it, by weight or in cups, to how much of the main thing?"
        elif part.holds:
            kind, text = "as published", f"{text} Done: {part.done}."
        elif part.is_limit:
            kind, text = _NONE, f"{text} Done: {part.done}: more than the tested recipe allows."
        else:
            kind, text = (
                "short of it",
                f"{text} Done: {part.done}: less acid than the tested recipe.",
            )
        field = "product" if part.is_limit else "acid"
        out.append(Finding(field, part.published, part.done or None, kind, text))
    return out


def _method(fit: tuple[str, ...], batch: BatchDone) -> Finding:
    methods = listed(dict.fromkeys(s.method for p in fit for s in lines_of(p)), "or")
    if any(lines_of(p, batch.method) for p in fit):
        return Finding("method", methods, batch.method, "as published", f"Published for {methods}.")
    text = f"Published for {methods} only: no {batch.method} process is printed for {labels(fit)}."
    if batch.method == "boiling water" and any(products()[p].low_acid for p in fit):
        text += " It is low in acid, and boiling water does not get hot enough for it."
    return Finding("method", methods, batch.method, _NONE, text)
