"""A slip of a digit, asked about as a batch is written: quarts from pounds, jars a load, energy."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from ledger.amounts import jar_volume_ul, unit_factor
from ledger.messages import Sentence, joined, measured, sentence
from ledger.published.batch import BatchDone
from ledger.published.equipment import cold_heat
from ledger.published.finding import find, nearest
from ledger.published.ingredients import main_grams
from ledger.published.jars import jar_size
from ledger.published.outline import LOADS
from ledger.published.parts import parts_of
from ledger.published.strength import strength_of
from ledger.published.words import cite, figure, jar_word, labels, listed, sizes_word
from ledger.reference.schedules_sources import source
from ledger.reference.yields import Quantity, quantities

__all__ = ["Doubt", "doubts_of", "expected_jars"]

_LB_G = Fraction("453.59237")
_WIDE = Fraction(3, 2)
"""How far outside the published range a batch may be before it is asked about: half as much again.
Our own choice: fruit, trimming and how far a sauce is boiled down vary that much."""

MOST_KCAL_PER_100G = 902.0
"""Energy of pure fat: lard, USDA SR28 04002. Nothing that people eat holds more."""


@dataclass(frozen=True)
class Doubt:
    """A question about a figure that does not fit.

    Attributes
    ----------
    code : str
        ``yield``, ``load``, ``energy``, ``place``, ...
    question : str
    source : str
    """

    code: str
    question: str
    source: str
    field: str = "made"


def expected_jars(
    product: str, pounds: Fraction, jar: str
) -> tuple[int, int, list[Quantity]] | None:
    """Return the published range of jars from some pounds of fresh produce.

    Parameters
    ----------
    product : str
        A key of the tables.
    pounds : Fraction
    jar : str
        A published size; other sizes are reckoned by volume.

    Returns
    -------
    (low, high, rows) or None
        Whole jars, the low end down and the high end up.
    """
    low: list[Fraction] = []
    high: list[Fraction] = []
    rows = []
    for row in quantities(product):
        found = _range(row, pounds)
        volume, own = jar_volume_ul(f"{jar} jar"), jar_volume_ul(f"{row.jar} jar")
        if found is None or not volume or not own:
            continue
        ratio = Fraction(own, volume)
        low.append(found[0] * ratio)
        high.append(found[1] * ratio)
        rows.append(row)
    return (math.floor(min(low)), math.ceil(max(high)), rows) if rows else None


def _range(row: Quantity, pounds: Fraction) -> tuple[Fraction, Fraction] | None:
    if row.container_lb and row.jars_low and row.jars_high:
        return row.jars_low * pounds / row.container_lb, row.jars_high * pounds / row.container_lb
    if row.lb_per_jar_low and row.lb_per_jar_high:
        return pounds / row.lb_per_jar_high, pounds / row.lb_per_jar_low
    if row.recipe_lb and row.recipe_low and row.recipe_high:
        return row.recipe_low * pounds / row.recipe_lb, row.recipe_high * pounds / row.recipe_lb
    return None


def doubts_of(
    batch: BatchDone,
    *,
    loads: dict[str, int] | None = None,
    kcal: float | None = None,
    grams_made: float | None = None,
) -> list[Doubt]:
    """Return what to ask before a batch is written.

    Parameters
    ----------
    batch : BatchDone
    loads : dict, optional
        The household's own jars a load, by jar (``{"quart jar": 7}``); default: the published 7
        quarts and 9 pints.
    kcal, grams_made : float, optional
        Energy of what went in, and weight of what came out.
    """
    out = [*_yield(batch), *_loads(batch, loads or {}), *_pressure(batch), *_place(batch)]
    if kcal is not None and grams_made:
        dense = kcal / grams_made * 100
        if dense > MOST_KCAL_PER_100G:
            text: str = sentence(
                "published-denser-than-fat",
                n=round(kcal),
                x=measured(f"{grams_made / 1000:.2f}"),
                n2=round(dense),
                n3=round(MOST_KCAL_PER_100G),
            )
            out.append(Doubt("energy", text, "USDA National Nutrient Database, release 28, 04002"))
    return out


def _place(batch: BatchDone) -> list[Doubt]:
    """Ask whether jars closed by an oven or an open kettle do stand in the fridge, where nobody may have said so."""
    tool = cold_heat(batch)
    if tool is None or not batch.jars or batch.kept != ("fridge",):
        return []
    text = sentence("published-fridge-ask", tool=tool)
    return [Doubt("place", text, cite(source("UIUC_UNSAFE")))]


_DIAL_TO, _BAR = 20, 2


def _pressure(batch: BatchDone) -> list[Doubt]:
    """Ask about a bare number that no gauge in psi shows: it may be kPa, or bar."""
    said = batch.pressure_said or ""
    if batch.psi is None or not re.fullmatch(r"[\d.,\s]+", said):
        return []
    if batch.psi > _DIAL_TO:
        text = sentence("published-psi-or-kpa", said=measured(said), n=_DIAL_TO)
    elif batch.psi < _BAR:
        text = sentence("published-psi-or-bar", said=measured(said))
    else:
        return []
    return [Doubt("pressure", text, cite(source("UW_MULTICOOKER")), "psi")]


def strength_doubts(batch: BatchDone) -> list[Doubt]:
    """Return what to ask a person of vinegar whose strength its name does not say."""
    if batch.method not in ("boiling water", "pickle cold"):
        return []
    out = []
    for part in parts_of(batch.used):
        if part.role == "vinegar" and not part.strained:
            found = strength_of(part.text)
            if found.kind == "to check yourself":
                text = joined(
                    " ", (_strength(part.text, found.why), sentence("published-strength-ask"))
                )
                out.append(Doubt("strength", text, cite(source("UCANR_VINEGAR")), "used"))
    return out


def _strength(item: str, why: str) -> Sentence:
    if why == "home-made":
        return sentence("published-strength-home-made", item=item)
    if why == "essence":
        return sentence("published-strength-essence", item=item)
    return sentence("published-strength-unsaid", item=item)


def _yield(batch: BatchDone) -> list[Doubt]:
    if batch.method not in ("boiling water", "pressure") or not batch.jars:
        return []
    for product in find(batch.makes, batch.method).candidates or nearest(batch.makes)[:1]:
        grams = main_grams(product, batch.used)
        size = jar_size(batch.jars[0].jar)
        if grams is None or size is None:
            continue
        pounds = Fraction(grams).limit_denominator(1000) / _LB_G
        found = expected_jars(product, pounds, size)
        if found is None:
            continue
        made = _jars_made(batch, size)
        if found[0] / _WIDE <= made <= found[1] * _WIDE:
            return []
        text = sentence(
            "published-yield-ask",
            n=figure(pounds),
            jars=sizes_word(size, float(made)),
            n2=found[0],
            n3=found[1],
            product=labels([product]),
        )
        return [Doubt("yield", text, cite(found[2][0].source))]
    return []


def _jars_made(batch: BatchDone, size: str) -> Fraction:
    """Return everything made, in jars of one size, by volume."""
    one = (unit_factor(f"{size} jar") or ("", Fraction(1)))[1]
    total = sum((Fraction(jar_volume_ul(j.jar) or 0) * j.jars for j in batch.jars), Fraction(0))
    return total / one


def _loads(batch: BatchDone, loads: dict[str, int]) -> list[Doubt]:
    if batch.method not in ("boiling water", "pressure") or not batch.loads:
        return []
    parts = Fraction(0)
    for one in batch.jars:
        most = loads.get(one.jar) or LOADS.get(jar_size(one.jar) or "")
        if not most:
            return []
        parts += Fraction(one.jars, most)
    needed = math.ceil(parts)
    if needed <= batch.loads:
        return []
    held = listed([jar_word(one.jar, one.jars) for one in batch.jars])
    text = sentence("published-loads-ask", jars=held, n=batch.loads, n2=needed)
    return [Doubt("load", text, sentence("published-loads-source"))]
