"""Sowings, and practice of a skill."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

from ledger.messages import sentence
from ledger.saying.drafting import Body, Context, thing_text
from ledger.saying.numbers import figure
from ledger.saying.picked import harvested
from ledger.saying.shared import loose_places, nothing

__all__ = ["planted", "practised"]


def planted(context: Context) -> list[tuple[str, Body]]:
    """Make a sowing of each crop: plants, a row, an area, or seed from stock."""
    things, how = context.things, context.verb.how
    if _was_laid(context):
        context.verb = type(context.verb)("harvested")
        return harvested(context)
    loose_places(context, ("bed",))
    beds: list[Any] = [
        (one, place)
        for one, place in context.phrases("in", "at", "on", "to")
        if place.sort in ("bed", "", "wild")
    ]
    out: list[tuple[str, Body]] = []
    many = _rows_apart(context)
    for n, thing in enumerate(things.lines):
        context.maker.part = len(out)
        text = context.scanner.said(*thing.words) if thing.words else ""
        crop, seed_word, rows = _crop(text)
        if not crop:
            context.maker.ask("item", "crop", sentence("asked-crop"))
            continue
        named = context.maker.item(crop, n, plants=True)
        body: Body = {"crop": named.item}
        if named.variety:
            body["variety"] = named.variety
        if how:
            body["how"] = how
        many = _rows_of(thing) if rows else many
        _how_much(context, body, thing, (seed_word, rows))
        out.append(("planted", body))
    for name, field_ in (("row", "row"), ("area", "area"), ("length", "row")):
        if name in things.facts and out:
            for _, body in out:
                body[field_] = _whole_row(context, name, many)
    for phrase, place in beds:
        context.used.add(phrase.start)
        for _, body in out:
            body["bed"] = place.text
    for _, body in out:
        context.work(body)
    return out or nothing(context)


def _rows_of(thing: Any) -> Fraction:
    """Return how many rows a thing is."""
    return thing.amounts[0].many if thing.amounts and not thing.amounts[0].doubt else Fraction(1)


def _rows_apart(context: Context) -> Fraction:
    """Take how many rows stand apart from the crop: ``carrots in 3 rows, 25 ft each``, ``3 25 ft rows of carrots``."""
    things, many = context.things, Fraction(1)
    for one in [*things.lines] if len(things.lines) > 1 else ():
        words = context.scanner.said(*one.words) if one.words else ""
        is_length = "row" in things.facts and not words
        if one.amounts and (is_length or re.fullmatch(r"(?i)rows?|reihen?", words)):
            things.lines.remove(one)
            many = _rows_of(one)
            context.maker.notes.append(f"{figure(many)} rows")
            context.maker.left = [
                left for left in context.maker.left if left.lower() not in ("in", "as")
            ]
    return many


def _whole_row(context: Context, name: str, many: Fraction) -> str:
    """Return how long all rows are together, where the length said is that of each."""
    said, span = str(context.things.facts[name]), context.things.spans.get(name)
    tokens, find = context.scanner.tokens, context.words.find
    each = name == "row" or any(find("small.each", tokens, k) for k in range(*(span or (0, 0))))
    number, _, unit = said.partition(" ")
    if name == "area" or many <= 1 or not each:
        return said
    context.maker.notes.append(f"{said} each")
    return f"{figure(many * Fraction(number))} {unit}"


def _was_laid(context: Context) -> bool:
    """Return whether hens laid what German says as it says of bulbs: ``gelegt``."""
    subjects = [context.places.of_span(one).sort for one in context.things.subject]
    names = [context.scanner.said(*one.words) for one in context.things.lines if one.words]
    eggs = [context.maker.names.find(one).item in ("egg", "Ei") for one in names]
    return "animals" in subjects or (bool(eggs) and all(eggs))


def _crop(text: str) -> tuple[str, str, bool]:
    """Return a crop's name without ``plants``, ``rows of`` and ``seed``, and which of those stood there."""
    rows = re.match(r"(?i)(?:rows?|reihen?)\s+(?:of\s+)?(.*)", text)
    text = rows[1] if rows else text
    match = re.fullmatch(
        r"(?i)(.+?)[\s-]?(seeds?|seedlings?|plants?|starts?|transplants?|sets?|slips?|pflanzen|setzlinge|samen|saatgut|jungpflanzen)",
        text,
    )
    first = re.fullmatch(r"(?i)(?:seed\s+(.+)|(?:saat|pflanz|steck)(\w{4,}))", text)
    if match is None and first is not None:
        crop = first[1] or first[2].capitalize()
        return crop, "sets", rows is not None
    if match is None:
        return text, "", rows is not None
    return match[1], match[2].lower(), rows is not None


def _how_much(context: Context, body: Body, thing: Any, said: tuple[str, bool]) -> None:
    """Put an amount where it belongs: plants, seed from stock, or rows into the note."""
    seed_word, rows = said
    amount = thing.amounts[0] if thing.amounts else None
    context.maker.left += [one.text() for one in thing.amounts[1:]]
    if amount is None:
        return
    if amount.doubt:
        text = sentence("asked-planted-amount", name=body["crop"])
        answer = context.maker.ask(amount.doubt, body["crop"], text, amount.options)
        amount = context.maker.amount_of(answer)
        if amount is None:
            return
    if rows:
        context.maker.notes.append(f"{figure(amount.many)} rows")
        return
    is_seed = seed_word in ("seed", "seeds", "samen", "saatgut", "set", "sets")
    if amount.unit is None and not is_seed and amount.many.denominator == 1:
        body["plants"] = int(amount.many)
        return
    item = f"{body['crop']} seed" if seed_word in ("seed", "seeds") else body["crop"]
    if is_seed or amount.unit is not None:
        body["seed"] = {"item": item, "amount": amount.text()}


def practised(context: Context) -> list[tuple[str, Body]]:
    """Make a practice of a skill: who, and for how long."""
    things = context.things
    people = context.people()
    for phrase, place in context.phrases("to", "by"):
        if place.sort == "person":
            context.used.add(phrase.start)
            people.append(place.text)
    texts = [
        context.scanner.said(*one.words) for one in things.lines if one.words and not one.amounts
    ]
    if len(texts) > 1 and context.places.of_span(things.lines[0].words or (0, 0)).sort == "person":
        people.append(texts.pop(0))
    if len(texts) == 1:
        words = texts[0].split(" ")
        span = things.lines[0].words or (0, 0)
        if len(words) > 1 and context.places.of_span((span[0], span[0] + 1)).sort == "person":
            people.append(words.pop(0))
            texts = [" ".join(words)]
    context.maker.left += [thing_text(context, one) for one in things.lines if one.amounts]
    for phrase, place in context.phrases("from", "in", "at"):
        if place.sort == "person":
            context.used.add(phrase.start)
            context.maker.notes.append(context.scanner.said(phrase.start, phrase.words[1]))
    if len(texts) != 1:
        context.maker.left += texts
        return nothing(context)
    body: Body = {"skill": texts[0], "people": people}
    if not people:
        who = context.maker.ask("people", "people", sentence("asked-who-practised", skill=texts[0]))
        body["people"] = [one.strip() for one in who.split(",")] if who else []
    if things.times:
        body["minutes"] = figure(
            sum((many for many, _ in things.times), start=things.times[0][0] * 0)
        )
        things.times = []
    return [("practised", body)]
