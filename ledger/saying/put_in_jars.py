"""What came out of a batch as it is said: jars or amounts, where they are kept, which did not seal."""

from __future__ import annotations

import re
from fractions import Fraction

from ledger.kinds.methods import CANNING, kept_by
from ledger.messages import Names, fixed, measured, sentence
from ledger.saying.drafting import Body, Context
from ledger.saying.making import Line
from ledger.saying.measuring import amounts_named
from ledger.saying.phrase import jar_named
from ledger.saying.quantities import Quantity

__all__ = ["asked_jars", "kept", "made_of", "unsealed"]

_SIZES = ["quart jar", "pint jar", "half-pint jar"]
_METRIC_SIZES = ["1 l jar", "500 ml jar", "250 ml jar"]


def made_of(context: Context, line: Line, method: str | None, *, is_canned: bool) -> list[Body]:
    """Return what came out as lines: jars of a size, which is asked where it was left out, or an amount."""
    maker, said = context.maker, line.quantity
    if said is None:
        return []
    jar = said.jar() if is_canned or said.sort == "jar" else None
    if jar == "jar":
        jar = _size(context, line.item or "")
        if jar is None:
            return [{"jars": int(said.many)}] if said.many.denominator == 1 else []
    if jar is None:
        maker.questions = [one for one in maker.questions if one.code != "jar"]
        return [{"amount": said.text()}]
    if said.options:
        text = sentence("asked-which-meant", names=amounts_named(said.options))
        answer = maker.amount_of(maker.ask("jar-fraction", line.item or "", text, said.options))
        if answer is None:
            return []
        said, jar = answer, answer.jar() or jar
    if said.many.denominator != 1:
        text = sentence("asked-full-jars", amount=measured(said.text()))
        maker.ask("jars", "made", text)
        return []
    return [{"jars": int(said.many), "jar": jar}]


def _size(context: Context, item: str) -> str | None:
    """Return which jars an item is put into: its only size so far, else what is answered."""
    known = context.known.jars(item)
    if len(known) == 1:
        return known[0]
    sizes = _METRIC_SIZES if context.known.measures == "metric" else _SIZES
    options = list(map(fixed, known or sizes))
    answer = context.maker.ask("jar", "jar", sentence("asked-which-jars"), options)
    return (jar_named(answer, context.known.language) or answer) if answer else None


def asked_jars(context: Context, name: str) -> list[Body]:
    """Ask for the jars of what was canned by weight or piece: ``7 quarts and 2 pints``."""
    answer = context.maker.ask("jars-of", name, sentence("asked-how-many-jars", name=name))
    said = [context.maker.amount_of(one) for one in re.split(_BETWEEN, answer or "")]
    out: list[Body] = []
    for one in said:
        jar = one.jar() if one is not None and one.unit is not None else "jar"
        if one is not None and one.many.denominator == 1 and jar is not None:
            jar = _size(context, name) if jar == "jar" else jar
            out.append({"jars": int(one.many), **({"jar": jar} if jar else {})})
    return out


_BETWEEN = r"\s*(?:[,;+&]|\band\b|\bund\b)\s*"


def kept(context: Context, entries: list[Body], method: str | None) -> None:
    """Put what came out where it was said to be kept, else where its method keeps it."""
    place = context.take(("kept",), "in", "to", "on")
    for one in entries:
        if method != "cook" or not one.get("jars"):  # where jars of a cook stand is asked
            one["kept"] = kept_by(method) if method else "shelf"
    if place is not None:
        several = entries if method not in CANNING else entries[-1:]
        for one in several if len(entries) > 1 else entries:
            one["kept"] = place


def unsealed(context: Context, entries: list[Body]) -> None:
    """Put the jars that did not seal where they belong; of two sizes it is asked which."""
    fact = context.things.facts.pop("unsealed", None)
    if fact is None:
        return
    many, unit = fact
    jars = [one for one in entries if one.get("jars")]
    if unit is not None and unit != "jar":
        size = Quantity(Fraction(1), unit, "measure", 0).jar() or unit
        jars = [one for one in jars if one.get("jar") == size] or jars
    if many == 0:
        return
    if not jars:
        context.maker.left.append("did not seal")
    elif many == -1:
        for one in jars:
            one["unsealed"] = one["jars"]
    else:
        _ask_unsealed(context, jars, many)


def _ask_unsealed(context: Context, jars: list[Body], many: Fraction | None) -> None:
    """Put a number of jars that did not seal where it belongs, or ask."""
    if many is None:
        answer = context.maker.ask("unsealed", "unsealed", sentence("asked-unsealed"), ["1"])
        if answer and answer.strip().isdigit() and len(jars) == 1:
            jars[0]["unsealed"] = int(answer)
    elif len(jars) > 1:
        sizes = [str(one["jar"]) for one in jars]
        text = sentence("asked-unsealed-size", names=Names(tuple(map(fixed, sizes))))
        answer = context.maker.ask("unsealed", "unsealed", text, list(map(fixed, sizes)))
        for one in jars:
            if answer and str(one["jar"]).startswith(answer.strip().lower().rstrip("s")):
                one["unsealed"] = int(many)
                break
    elif many.denominator == 1 and many <= jars[0]["jars"]:
        jars[0]["unsealed"] = int(many)
    else:
        answer = context.maker.ask("unsealed", "unsealed", sentence("asked-unsealed"), [])
        if answer and answer.strip().isdigit():
            jars[0]["unsealed"] = int(answer)
