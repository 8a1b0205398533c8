"""Bringing an amount into the measure an item is kept by, by the first weight that is known."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ledger.amounts import NAMED_PIECES, Amount, jar_volume_ul, unit_factor, weight_factor
from ledger.errors import WeightNeeded
from ledger.items import ItemFacts
from ledger.reference import containers, foods

__all__ = ["Crossed", "cross"]


@dataclass(frozen=True)
class Crossed:
    """An amount in an item's measure.

    `basis` says by which weight: ``exact``, ``item``, ``food table``, ``container table``; where it
    is not exact, `per` is the unit typed and `times` thousandths of it. `note` says it in words.
    """

    whole: int
    basis: str
    per: str | None = None
    times: int | None = None
    note: str = ""


def cross(amount: Amount, item: str, facts: ItemFacts, target: str) -> Crossed:
    """Return `amount` in the measure `target` of an item.

    The item's own weight is taken first, then the food table's household measure, then the
    published weight of a container.

    Raises
    ------
    WeightNeeded
        When no weight is known; the message says what to give.
    """
    if amount.measure == target and (target == "count" or amount.unit not in NAMED_PIECES):
        return Crossed(amount.whole, "exact")
    own = weight_factor(amount.unit, target, facts.g_per or {}, facts.g_per_ml)
    if own is not None:
        return Crossed(
            round(amount.times * own), "item", amount.unit, amount.times, "by the item's own weight"
        )
    for basis, grams, note in _published(amount, item, facts):
        each = _grams_per_whole(target, facts)
        if each is not None:
            return Crossed(
                round(amount.times * grams / 1000 / each), basis, amount.unit, amount.times, note
            )
    raise WeightNeeded(
        "amount",
        f"{amount.text!r} of {item} cannot be brought into {target}",
        _ask(amount, item, target),
    )


def _published(amount: Amount, item: str, facts: ItemFacts) -> list[tuple[str, Fraction, str]]:
    """Return (basis, grams of one unit, note) from the published tables, in their order."""
    out = []
    known = unit_factor(amount.unit)
    if known is not None and known[0] == "mass":
        return (
            [("food table", known[1] / 1000, f"by a measure of {foods.SOURCE}")]
            if facts.food
            else []
        )
    if facts.food is not None:
        measure = foods.household_measure(facts.food, amount.unit)
        if measure is None and known is not None and known[0] == "volume":
            cup, one_cup = foods.household_measure(facts.food, "cup"), unit_factor("cup")
            if cup is not None and one_cup is not None:
                note = f"one {cup.label} weighs {float(cup.grams):g} g ({cup.source})"
                out.append(("food table", cup.grams * known[1] / one_cup[1], note))
        elif measure is not None:
            note = f"one {measure.label} weighs {float(measure.grams):g} g ({measure.source})"
            out.append(("food table", measure.grams, note))
    container = containers.weight(item, amount.unit)
    if container is not None:
        pounds = float(container.grams) / 453.59237
        note = f"a {amount.unit} weighs {pounds:g} lb ({container.basis}, {container.source})"
        out.append(("container table", container.grams, note))
    return out


def _grams_per_whole(target: str, facts: ItemFacts) -> Fraction | None:
    """Return grams in one whole unit of an item kept by `target`: own weight, else the food table's."""
    if target == "mass":
        return Fraction(1, 1000)
    own = weight_factor("g", target, facts.g_per or {}, facts.g_per_ml)
    if own is not None:
        return 1 / (own * 1000)
    if facts.food is None:
        return None
    unit = {"volume": "cup", "count": "piece"}.get(target)
    measure = foods.household_measure(facts.food, unit) if unit else None
    factor = unit_factor(unit) if unit else None
    return None if measure is None or factor is None else measure.grams / factor[1]


def _ask(amount: Amount, item: str, target: str) -> str:
    unit = amount.jar or amount.unit
    if target == "count" and unit_factor(unit) is not None:
        return f'How much does one piece of {item} weigh? Say it with: croftbook item "{item}" --g-per "piece 120"'
    if amount.measure == "mass":
        return f'How much does one ml of {item} weigh? Say it with: croftbook item "{item}" --g-per-ml 1.0'
    ul = jar_volume_ul(amount.jar) if amount.jar else None  # of a jar, as if it were water
    grams = 5 if ul is None else round(ul / 1000)
    return f'How much does one {unit} of {item} weigh, in grams? Say: croftbook item "{item}" --g-per "{unit} {grams}"'
