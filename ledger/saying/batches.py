"""Batches as they are said: what was made in which jars, out of what, by which method."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from ledger.amounts import unit_factor
from ledger.kinds.methods import CANNING, kept_by
from ledger.messages import Names, fixed, measured, sentence
from ledger.saying.again import again_batch
from ledger.saying.drafting import Body, Context
from ledger.saying.making import Line
from ledger.saying.measuring import amounts_named
from ledger.saying.numbers import figure
from ledger.saying.quantities import Quantity
from ledger.saying.shared import nothing
from ledger.saying.things import Thing

__all__ = ["put_up"]

_PUT_AWAY = frozenset({"freeze", "dry", "cellar"})
_METHODS_ASKED = ["boiling water", "pressure"]
_ACIDS = {
    "lemon juice": "lemon juice",
    "bottled lemon juice": "lemon juice",
    "citric acid": "citric acid",
    "vinegar": "vinegar 5%",
    "zitronensaft": "lemon juice",
    "zitronensäure": "citric acid",
    "essig": "vinegar 5%",
}
_SIZES = ["quart jar", "pint jar", "half-pint jar"]
_METRIC_SIZES = ["1 l jar", "500 ml jar", "250 ml jar"]


def put_up(context: Context) -> list[tuple[str, Body]]:
    """Make a batch of each thing made; what stands behind `from` went in."""
    things = context.things
    _used_phrases(context)
    method = _method(context)
    if "again" in things.facts:
        again = again_batch(context)
        if again is not None:
            return again
    batches, used = _split(context, things.lines, method)
    if not batches:
        return nothing(context)
    out: list[tuple[str, Body]] = []
    for made in batches:
        context.maker.part = len(out)
        body = _batch(context, made, used, method)
        if body is not None:
            out.append(("put_up", body))
            used = []
    if len(out) > 1 and _shared_by_weight(out):
        makes = {body["makes"] for _, body in out}
        maker = context.maker
        maker.questions = [
            one for one in maker.questions if one.code != "used" or one.about not in makes
        ]
        return out
    if len(out) > 1 and any(one.mode == "used" for one in things.lines):
        names = Names(tuple(body["makes"] for _, body in out))
        context.maker.ask("used", "used", sentence("asked-used-of-which", names=names))
    return out


def _used_phrases(context: Context) -> None:
    """Take ``from our tomatoes`` as what went in, though nobody said how much."""
    for phrase, place in context.phrases("from", "with"):
        if place.sort not in ("person", "shop", "kept") and not (
            place.sort == "bed" and "with" not in phrase.roles
        ):
            named = context.maker.names.find(place.text)
            if place.sort == "" and named.state in ("book", "table", "made", "sort"):
                context.used.add(phrase.start)
                context.things.lines.append(Thing(words=phrase.words, mode="used"))


def _method(context: Context) -> str | None:
    """Return the method said, by its own words before the verb's; None: to be asked."""
    things = context.things
    said = things.facts.get("method") or context.verb.method
    place = next((one for _, one in context.phrases("in", "to", "on") if one.sort == "kept"), None)
    if said is None and place is not None:
        said = {"freezer": "freeze", "cellar": "cellar"}.get(place.text)
    if said is None and "psi" in things.facts:
        said = "pressure"
    jars = any(
        one.sort == "jar" for thing in things.lines if thing.mode == "main" for one in thing.amounts
    )
    if said == "cook" and jars and things.facts.get("method") is None and place is None:
        return None
    return said


def _split(
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
    return batches, used


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


def _shared_by_weight(out: list[tuple[str, Body]]) -> bool:
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


def _batch(
    context: Context, made: list[Thing], used: list[Thing], method: str | None
) -> Body | None:
    maker, things = context.maker, context.things
    is_canned = method in CANNING or method is None
    lines = maker.lines(_filled(context, made), "made")
    if not lines:
        return None
    name = lines[0].item or ""
    body: Body = {"makes": name}
    said = lines[0].quantity
    if method is None and maker.part and said is not None and said.jar() is None:
        method, is_canned = "cook", False  # what came out beside the jars
    if method is not None:
        body["method"] = method
    else:
        before = [one for one in context.known.methods(name) if one in _METHODS_ASKED]
        options = [fixed(one) for one in dict.fromkeys([*before, *_METHODS_ASKED])]
        text = sentence("asked-method", name=name, ways=Names(tuple(options)))
        method = _method_of(context, maker.ask("method", name, text, options))
        if method is not None:
            body["method"] = method
            is_canned = method in CANNING
    used_body = _used(context, used, body) or _itself(context, lines, method)
    body["used"] = used_body
    if not used_body:
        text = sentence("asked-used", name=name)
        answer = maker.ask("used", name, text, _as_it_is(lines), waits=True)
        body["used"] = _lines_of(context, answer)
    entries: list[Body] = []
    for line in lines:
        entries += _made(context, line, method, is_canned=is_canned)
    _kept(context, entries, method)
    _unsealed(context, entries)
    if "labels" in things.facts and entries:
        entries[0]["labels"] = things.facts["labels"]
    body["made"] = entries
    _process(context, body)
    context.work(body)
    return body


def _method_of(context: Context, answer: str | None) -> str | None:
    """Return the method that an answer names."""
    from ledger.kinds.methods import METHODS
    from ledger.saying.tokens import tokens_of

    said = (answer or "").strip().lower()
    found = context.words.find("process", tokens_of(said), 0) if said else None
    near = [one for one in METHODS if said and one.startswith(said)]
    return next(iter(near), None) or (found[0] if found and found[0] in METHODS else None)


def _lines_of(context: Context, answer: str | None) -> list[Body]:
    """Return an answer (``16 lb plums and 3 lb sugar``) as lines."""
    if not answer or answer.strip().lower() in ("nothing", "nichts", "-"):
        return []
    said = context.read(f"used {answer}").entries
    return [dict(one) for one in said[0].body.get("ate", ())] if said else []


def _as_it_is(lines: list[Line]) -> list[str]:
    """Return what is frozen or dried as the likeliest thing that went in."""
    return [
        f"{one.quantity.text()} {one.item}"
        for one in lines[:1]
        if one.quantity and one.quantity.sort == "measure"
    ]


def _filled(context: Context, made: list[Thing]) -> list[Thing]:
    """Give every size the name that was said with one of them."""
    words = next((one.words for one in made if one.words is not None), None)
    for one in made:
        one.words = one.words or words
    full = [one for one in made if one.amounts]
    for one in made if full else ():
        named = context.maker.names.find(context.scanner.said(*one.words)) if one.words else None
        if not one.amounts and named is not None:
            context.maker.left += [part for part in (named.tail, named.lead) if part]
    return full or made


# -- what came out --------------------------------------------------------------------------


def _made(context: Context, line: Line, method: str | None, *, is_canned: bool) -> list[Body]:
    maker, said = context.maker, line.quantity
    if said is None:
        return []
    jar = said.jar() if is_canned or said.sort == "jar" else None
    if jar == "jar":
        known = context.known.jars(line.item or "")
        jar = known[0] if len(known) == 1 else None
        if jar is None:
            sizes = _METRIC_SIZES if context.known.measures == "metric" else _SIZES
            jar = maker.ask(
                "jar", "jar", sentence("asked-which-jars"), list(map(fixed, known or sizes))
            )
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


def _kept(context: Context, entries: list[Body], method: str | None) -> None:
    place = context.take(("kept",), "in", "to", "on")
    for one in entries:
        one["kept"] = kept_by(method) if method else "shelf"
    if place is not None:
        several = entries if method not in CANNING else entries[-1:]
        for one in several if len(entries) > 1 else entries:
            one["kept"] = place


def _unsealed(context: Context, entries: list[Body]) -> None:
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


# -- what went in ---------------------------------------------------------------------------


def _used(context: Context, used: list[Thing], body: Body) -> list[Body]:
    out: list[Body] = []
    rest: list[Thing] = []
    for one in used:
        acid = _acid(context, one)
        if acid is not None:
            body.setdefault("acid", []).append(acid)
        else:
            rest.append(one)
    for line in context.maker.lines(rest, "used"):
        _todays(context, line)
        out.append(line.body())
    return [one for one in out if "amount" in one]


def _itself(context: Context, lines: list[Line], method: str | None) -> list[Body]:
    """Return what was put away as what went in, weight for weight, where such stands in the house.

    What is dried weighs less than what went in, and a quart bag holds no known weight: both are asked.
    """
    said = [one.quantity for one in lines if one.quantity is not None]
    if method not in ("freeze", "cellar") or not lines[0].item or len(said) != len(lines):
        return []
    if any(one.doubt or one.sort == "jar" or one.dimension == "volume" for one in said):
        return []
    item = lines[0].item
    if not context.came(item):
        return []
    out = [one.body() for one in lines]
    if context.known.is_made(
        item
    ):  # the oldest may stand in the freezer: what came in last is meant
        on, here = context.on.isoformat(), context.picked(item)
        for one in out:
            lot = here or context.known.newest(item, on, one["amount"])
            one.update({"lot": lot} if lot else {})
    return out


def _todays(context: Context, line: Line) -> None:
    """Take ``today's plums`` out of what was picked that day, and not the oldest first."""
    span, words, tokens = line.thing.words, context.words, context.scanner.tokens
    if span is None or line.thing.lot or line.item is None:
        return
    said = any(
        found is not None and k + found[1] == span[0]
        for k in range(max(span[0] - 3, 0), span[0])
        if (found := words.find("small.todays", tokens, k))
    )
    if said:
        line.thing.lot = context.picked(line.item)


def _acid(context: Context, thing: Thing) -> dict[str, Any] | None:
    """Return ``2 tbsp lemon juice per jar`` as acid; without `per jar` it is what went in."""
    if thing.words is None or not thing.amounts:
        return None
    text = context.scanner.said(*thing.words).lower()
    for phrase in context.words.data["process"]["per_jar"].split("|"):
        if text.endswith(f" {phrase}"):
            name = text.removesuffix(f" {phrase}")
            if name in _ACIDS:
                return {"acid": _ACIDS[name], "amount": thing.amounts[0].text(), "per": "jar"}
    return None


def _process(context: Context, body: Body) -> None:
    """Put minutes, pressure, headspace and the like into a batch."""
    things = context.things
    plain = [many for many, is_work in things.times if not is_work]
    if plain:
        body["minutes"] = figure(plain[0])
        things.times.remove((plain[0], False))
    for name in ("psi", "headspace", "pack", "gauge", "altitude"):
        if name in things.facts:
            body[name] = things.facts[name]
