"""What was thrown away, lost or fed: why, off which batch, and where it stood."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ledger.door.seals import SEAL
from ledger.messages import sentence
from ledger.saying.drafting import Body, Context, thing_text
from ledger.saying.making import Line
from ledger.saying.shared import nothing, subject_things
from ledger.saying.spoiled import reason_seen
from ledger.saying.tokens import tokens_of
from ledger.saying.unsealed import name_jars, take_off_batches

__all__ = ["discarded", "fed_starter", "who_ate"]


def discarded(context: Context, why: str | None = None) -> list[tuple[str, Body]]:
    """Make what was thrown away, with the word that says why as its note."""
    things = context.things
    if context.verb.why == "fed to animals" and why is None:
        fed = fed_starter(context) or _fed_people(context)
        if fed is not None:
            return fed
    reason = why or context.verb.why or "other"
    reason = reason_seen(context.signs) if reason == "other" and context.signs else reason
    for one in list(things.lines):
        if one.amounts or one.words is None:
            continue
        found = _why(context, one.words)
        if found is not None:
            things.lines.remove(one)
            reason = found if reason in ("other", found) else reason
            context.maker.notes.append(context.scanner.said(*one.words))
    reason = _spoiled_names(context, reason)
    if why is None:
        eater = who_ate(context)
        reason = eater if eater in ("pests", "other") and reason in ("other", "pests") else reason
    if "unsealed" in things.facts:
        reason = "seal failed"
        things.facts.pop("unsealed")
    subject_things(context)
    if reason == SEAL and not name_jars(context):
        return []
    lines = context.maker.lines(things.lines, "discarded")
    reason = _why_left(context, reason)
    context.beds = context.phrases("in", "on", "from")
    reason = _why_places(context, reason)
    lost = _lost_in_bed(context, lines, reason)
    if lost is not None:
        return lost
    if "receiver" in things.facts and context.verb.why == "fed to animals":
        context.maker.notes.append(context.scanner.said(*things.facts.pop("receiver")))
    if not lines:
        return nothing(context)
    if reason == SEAL:
        take_off_batches(context, lines)
    return [("discarded", {"lines": [line.body() for line in lines], "why": reason})]


def who_ate(context: Context) -> str | None:
    """Return why what was eaten is lost, where no person ate it."""
    spans = list(context.things.subject)
    spans += [one.words for one in context.things.phrases if one.roles & {"by", "from"}]
    for span in spans:
        sort = context.places.of_span(span).sort
        why = {"pests": "pests", "pets": "other", "animals": "fed to animals"}.get(sort)
        is_subject = span in context.things.subject
        if why is None or (sort == "animals" and not is_subject):
            continue
        context.maker.notes.append(context.scanner.said(*span))
        context.things.subject = [one for one in context.things.subject if one != span]
        context.used |= {one.start for one in context.things.phrases if one.words == span}
        return why
    return None


def fed_starter(context: Context) -> list[tuple[str, Body]] | None:
    """Make the feeding of a starter a batch of it; None where something else was fed."""
    things, words = context.things, context.words
    named = things.facts.get("receiver") or next(
        (one.words for one in things.lines if one.words and not one.amounts), None
    )
    if named is None:
        named = next((one for one in things.subject), None)
    tokens = context.scanner.tokens
    if named is None or not any(
        words.find("small.starter", tokens, k) for k in range(named[0], named[1])
    ):
        return None
    things.facts.pop("receiver", None)
    things.subject = [one for one in things.subject if one != named]
    name = context.maker.item(context.scanner.said(*named), 0, makes=True).item
    food = [one for one in things.lines if one.words != named]
    wet = [one for one in food if one.words and words.find("small.water", tokens, one.words[0])]
    lines = context.maker.lines([one for one in food if one not in wet], "used")
    used = [line.body() for line in lines if line.quantity]
    amounts = [line.quantity for line in lines if line.quantity]
    amounts += [one.amounts[0] for one in wet if one.amounts]
    context.maker.notes += [thing_text(context, one) for one in wet]
    made = amounts[0] if amounts else None
    if made is not None and all(one.unit == made.unit for one in amounts):
        made = replace(made, many=sum((one.many for one in amounts), start=Fraction(0)))
    if made is None or not used:
        context.maker.ask("used", name, sentence("asked-fed-with", name=name))
        return []
    body: Body = {"makes": name, "method": "ferment", "used": used}
    return [("put_up", {**body, "made": [{"amount": made.text(), "kept": "fridge"}]})]


def _fed_people(context: Context) -> list[tuple[str, Body]] | None:
    """Make a meal of what kids, guests or people by name were fed; None where it was animals."""
    things, tokens, words = context.things, context.scanner.tokens, context.words
    who = things.facts.get("receiver")
    if who is not None and not _eats(context, who):
        return None
    several = context.phrases("to")
    told = next(
        (one for one, at in several if at.sort == "person" or _eats(context, one.words)), None
    )
    if who is None and told is not None:
        who = told.words
        context.used.add(told.start)
    first = things.lines[0] if things.lines else None
    if who is None and first is not None and first.words and not first.amounts:
        length = next(
            (
                found[1]
                for tag in ("people.kin", "people.guests", "people.words")
                if (found := words.find(tag, tokens, first.words[0])) is not None
            ),
            0,
        ) or _little(context, first.words)
        own = tokens[first.words[0]]
        if not length and context.known.people.get(own.low):
            length = 1
        if not length:
            return None if "people" not in things.facts else _meal_of(context)
        who = (first.words[0], first.words[0] + length)
        rest = (who[1], first.words[1])
        first.words = rest if rest[0] < rest[1] else None
        if first.words is None:
            things.lines.pop(0)
    if who is None and not things.facts.keys() & {"people", "guests"}:
        return None
    things.facts.pop("receiver", None)
    if who is not None:
        context.maker.notes.append(context.scanner.said(*who))
    return _meal_of(context)


def _eats(context: Context, who: tuple[int, int]) -> bool:
    """Return whether words name people: kin, guests, or a person by name."""
    tokens, words = context.scanner.tokens, context.words
    if any(words.find(f"people.{tag}", tokens, who[0]) for tag in ("guests", "words")):
        return True
    return _little(context, who) > 0 or context.places.of_span(who).sort == "person"


def _little(context: Context, span: tuple[int, int]) -> int:
    """Return how many words of a span name a small child: ``the baby``; not ``baby chicks``."""
    tokens, words = context.scanner.tokens, context.words
    found = words.find("people.little", tokens, span[0])
    if found is None or context.places.of_span(span).sort in ("animals", "pets"):
        return 0
    if any(place.sort in ("animals", "pets") for _, place in context.phrases("to")):
        return 0
    is_led = span[0] > 0 and words.find("small.article_known", tokens, span[0] - 1) is not None
    return found[1] if is_led or found[1] == span[1] - span[0] else 0


def _meal_of(context: Context) -> list[tuple[str, Body]]:
    context.verb = type(context.verb)("eaten")
    return context.makers[0]("eaten", context)(context)


def _lost_in_bed(context: Context, lines: list[Line], reason: str) -> list[tuple[str, Body]] | None:
    """Make a crop lost where it stood a harvest of nothing; None where it was in the house."""
    beds = [place.text for _, place in context.beds if place.sort == "bed"]
    if reason not in ("lost", "pests") or not beds or any(line.quantity for line in lines):
        return None
    names = {line.item for line in lines}
    context.maker.questions = [
        one for one in context.maker.questions if one.code != "amount" or one.about not in names
    ]
    for line in lines:
        line.thing.is_zero = True
        line.more["bed"] = beds[-1]
    return [("harvested", {"lines": [line.body() for line in lines]})]


def _why_places(context: Context, reason: str) -> str:
    """Take where it went, and to whom, as a note; given to animals it was fed to them."""
    for phrase, place in context.phrases("to", "in", "on", "from", "with", "by"):
        if place.sort == "" and _why_text(context, place.text) is not None:
            context.used.add(phrase.start)
            context.maker.notes.append(place.text)
        elif place.sort in ("animals", "pets", "pests", "person", "wild", "bed", "kept"):
            context.used.add(phrase.start)
            context.maker.notes.append(context.scanner.said(phrase.start, phrase.words[1]))
            reason = (
                "fed to animals" if place.sort == "animals" and "to" in phrase.roles else reason
            )
    return reason


def _why_left(context: Context, reason: str) -> str:
    """Take the first left-over words that say why as the reason."""
    for n, tail in enumerate(list(context.maker.left)):
        found = _why_text(context, tail)
        if found is not None:
            context.maker.left.pop(n)
            context.maker.notes.append(tail)
            return found if reason == "other" else reason
    return reason


def _spoiled_names(context: Context, reason: str) -> str:
    """Take ``moldy bread`` as bread, thrown out because it was moldy."""
    tokens = context.scanner.tokens
    for one in context.things.lines:
        if one.words is None or one.words[1] - one.words[0] < 2:
            continue
        found = context.words.find("why", tokens, one.words[0])
        if found is None or context.known.item(context.scanner.said(*one.words)) is not None:
            continue
        start = one.words[0] + found[1]
        if start < one.words[1]:
            context.maker.notes.append(context.scanner.said(one.words[0], start))
            one.words = (start, one.words[1])
            reason = found[0] if reason == "other" else reason
    return reason


def _why(context: Context, span: tuple[int, int]) -> str | None:
    """Return the reason that words say, where they name nothing that the book has."""
    text = context.scanner.said(*span)
    if context.known.item(text) is not None:
        return None
    return _why_text(context, text)


def _why_text(context: Context, text: str) -> str | None:

    tokens = tokens_of(text)
    for k in range(len(tokens)):
        found = context.words.find("why", tokens, k)
        if found is not None:
            return str(found[0])
    return None
