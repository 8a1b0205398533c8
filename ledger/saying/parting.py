"""Which of the things said is a batch of its own, and which went in."""

from __future__ import annotations

import re
from fractions import Fraction

from ledger.amounts import unit_factor
from ledger.kinds.methods import CANNING
from ledger.messages import measured, sentence
from ledger.saying.drafting import Body, Context
from ledger.saying.numbers import figure
from ledger.saying.packing import packed_up
from ledger.saying.quantities import Quantity
from ledger.saying.things import Thing

__all__ = ["shared_by_weight", "split", "went_in"]

_PUT_AWAY = frozenset({"freeze", "dry", "cellar"})


def split(
    context: Context, things: list[Thing], method: str | None
) -> tuple[list[list[Thing]], list[Thing]]:
    """Return the things of each batch, and what went in."""
    batches: list[list[Thing]] = []
    used = [one for one in things if one.mode == "used"]
    main = [one for one in things if one.mode in ("main", "made")]
    for one in main:
        if not batches:
            batches.append([one])
        elif _went_in(context, batches[-1], one):
            used.append(one)
        elif one.words is None or _is_same(context, batches[-1][0], one):
            batches[-1].append(one)
        elif _is_made(one, method) or one.mode == "made" or _is_by_product(context, one, used):
            batches.append([one])
        elif one.amounts and not one.joined and method not in _PUT_AWAY:
            used.append(one)
        elif one.amounts and one.joined == "and" and len(main) == 2 and not used:
            name = context.scanner.said(*one.words)
            text = sentence("asked-side", name=name)
            options = [sentence("asked-went-in"), sentence("asked-came-out")]
            if "out" in (context.maker.ask("side", name, text, options) or ""):
                batches.append([one])
            else:
                used.append(one)
        else:
            used.append(one)
    for batch in batches:
        used += packed_up(batch) if method in _PUT_AWAY else _raw_of(context, batch, method)
    return batches, used


def _raw_of(context: Context, batch: list[Thing], method: str | None) -> list[Thing]:
    """Take out of a batch the weight that went in, beside its jars: ``14 lb beans, 7 quart jars``."""
    if any(said.jar() is not None for one in batch for said in one.amounts):
        for one in batch:  # "a mess of greens, 7 pints"
            one.amounts = [said for said in one.amounts if not said.loose]
    jars = [one for one in batch if any(said.jar() is not None for said in one.amounts)]
    raw = [one for one in batch if went_in(one)]
    if not jars or not raw:
        return []
    first = batch[0]
    for one in jars:
        one.words = one.words or first.words
    batch[:] = [one for one in batch if one not in raw]
    went = [one for one in raw if one is first or not _is_pressure(context, one, first, method)]
    for one in went:
        one.words = one.words or first.words
    return went


_GAUGE = range(5, 16)
"""Pounds that a canner's gauge is held at; at sea level 10 or 11 (USDA Complete Guide, guide 1)."""


def _is_pressure(context: Context, thing: Thing, of: Thing, method: str | None) -> bool:
    """Ask whether ``90 min 15 lb`` behind jars is the pressure or what went in; return whether it is no food."""
    said = thing.amounts[0]
    may_be = said.unit == "lb" and said.many in _GAUGE and len(thing.amounts) == 1
    if not may_be or method not in ("pressure", None) or "psi" in context.things.facts:
        return False
    name = context.scanner.said(*of.words) if of.words else ""
    text = sentence("asked-pressure-or-weight", amount=measured(said.text()), name=name)
    options = [  # a yes to everything vouches for no pressure
        sentence("asked-as-weight", amount=measured(said.text()), name=name),
        sentence("asked-as-pressure", amount=measured(said.text())),
    ]
    answer = context.maker.ask("gauge", said.text(), text, options)
    if answer and re.search("press|druck", answer, re.IGNORECASE):
        context.things.facts["psi"] = figure(said.many)
        context.things.spans["psi"] = (0, 0)
        return True
    return answer is None


_PACKED = frozenset({"can", "tin", "bottle", "carton"})
"""Counted units that may be what it was put into."""


def went_in(thing: Thing) -> bool:
    """Return whether the amounts of a thing are what goes into jars: a weight, a bushel, a crate."""
    return bool(thing.amounts) and all(map(_goes_in, thing.amounts))


def _goes_in(said: Quantity) -> bool:
    if said.sort in ("unknown", "counted"):
        return said.unit not in _PACKED
    return said.sort == "measure" and (
        said.unit in ("bushel", "peck") or _grams(said.text()) is not None
    )


def _went_in(context: Context, made: list[Thing], thing: Thing) -> bool:
    """Return whether a weight of what stands in jars is what went into them: named once more, beside them."""
    if thing.words is None or not _is_same(context, made[0], thing):
        return False
    jars = any(one.sort == "jar" or one.jar() is not None for one in made[0].amounts)
    weighed = [_grams(one.text()) is not None for one in thing.amounts]
    return jars and bool(weighed) and all(weighed)


def _is_by_product(context: Context, thing: Thing, used: list[Thing]) -> bool:
    """Return whether a further thing came out too: cracklings, whey; what went in is named apart."""
    last = context.scanner.said(*thing.words).split(" ")[-1] if thing.words else ""
    return bool(used and thing.amounts) and context.words.is_("made", last)


def shared_by_weight(out: list[tuple[str, Body]]) -> bool:
    """Give each by-product as much of the one thing that went in as it weighs; the first has the rest."""
    bodies = [body for _, body in out]
    used = bodies[0]["used"]
    if len(used) != 1 or "amount" not in used[0]:
        return False
    whole = _grams(used[0]["amount"])
    parts = [_grams(made.get("amount", "")) for body in bodies[1:] for made in body["made"]]
    if whole is None or None in parts or sum(one or 0 for one in parts) >= whole:
        return False
    unit = used[0]["amount"].split(" ", 1)[1]
    each = _grams(f"1 {unit}")
    assert each is not None
    left = Fraction(whole)
    for body, part in zip(bodies[1:], parts, strict=False):
        body["used"] = [{**used[0], "amount": f"{figure(round((part or 0) / each, 3))} {unit}"}]
        left -= round((part or 0) / each, 3) * each
    used[0]["amount"] = f"{figure(round(left / each, 3))} {unit}"
    return True


def _grams(text: str) -> Fraction | None:
    """Return an amount in grams; None where it is no weight."""
    many, _, unit = text.partition(" ")
    factor = unit_factor(unit) if unit else None
    if factor is None or factor[0] != "mass":
        return None
    return Fraction(many) * Fraction(factor[1]) / 1000


def _is_same(context: Context, one: Thing, other: Thing) -> bool:
    if one.words is None or other.words is None:
        return False
    names = context.maker.names
    return (
        names.find(context.scanner.said(*one.words)).item
        == names.find(context.scanner.said(*other.words)).item
    )


def _is_made(thing: Thing, method: str | None) -> bool:
    """Return whether a further thing is a batch of its own: in jars, or put away by itself."""
    jars = any(one.sort == "jar" or one.jar() is not None for one in thing.amounts)
    return (jars and method in (*CANNING, None)) or method in _PUT_AWAY
