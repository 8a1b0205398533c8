"""What several kinds share: the things of a clause as lines, loose places, a subject that is a thing."""

from __future__ import annotations

from collections.abc import Container

from ledger.messages import sentence
from ledger.saying.drafting import Body, Context, thing_text
from ledger.saying.language import CODES, language
from ledger.saying.making import Line
from ledger.saying.things import Phrase, Thing
from ledger.saying.tokens import tokens_of

__all__ = [
    "bodies",
    "kind_of_answer",
    "loose_places",
    "nothing",
    "said_things",
    "subject_is_thing",
    "subject_things",
    "take_kept",
]


def take_kept(context: Context, lines: list[Line]) -> None:
    """Put where it is kept into the lines."""
    place = context.take(("kept",), "in", "to", "on")
    if place is not None:
        for line in lines:
            line.more["kept"] = place


def bodies(lines: list[Line]) -> list[Body]:
    """Return lines as a body has them."""
    return [line.body() for line in lines]


def nothing(context: Context) -> list[tuple[str, Body]]:
    """Say what stands with a verb and no thing."""
    verb = context.clause.verb
    if verb is not None and not context.maker.questions and not context.maker.left:
        said = context.scanner.said(verb.start, verb.end)
        text = sentence("asked-what-amount", text=f"{said[:1].upper()}{said[1:]}")
        context.maker.ask("what", said, text)
    return []


def loose_places(context: Context, sorts: tuple[str, ...]) -> None:
    """Take a place that stands behind a comma alone (``..., long bed``) as said with `in` or `at`."""
    things = context.things
    for n, one in enumerate(list(things.lines)):
        if one.amounts or one.extra or one.lot or one.words is None or n == 0 or not one.joined:
            continue
        text = context.scanner.said(*one.words)
        if context.places.of_span(one.words).sort in sorts and context.known.item(text) is None:
            things.lines.remove(one)
            roles = frozenset({"in", "at", "from"})
            things.phrases.append(Phrase(roles, one.words, n, "", one.words[0]))


def subject_is_thing(context: Context) -> None:
    """Take a subject as the thing of a clause that names none: ``plums, 3 lb picked``."""
    things = context.things
    if things.lines and all(one.words is None for one in things.lines) and things.subject:
        for span in list(things.subject):
            if context.places.of_span(span).sort in ("", "bed"):
                things.subject.remove(span)
                things.lines[0].words = span
                return


def said_things(context: Context) -> str:
    """Return the things of a clause as they were said."""
    return ", ".join(thing_text(context, one) for one in context.things.lines) or "that"


def subject_things(context: Context) -> None:
    """Take ``the milk went bad`` as milk thrown out."""
    things = context.things
    for span in list(things.subject):
        if context.places.of_span(span).sort == "":
            things.subject.remove(span)
            bare = next((one for one in things.lines if one.words is None), None)
            if bare is not None:
                bare.words = span
            else:
                things.lines.append(Thing(words=span))


def kind_of_answer(answer: str | None, known: Container[str]) -> str:
    """Return the kind of some that an answer names: by its own word or by a verb of any language."""
    if answer is None:
        return ""
    said = answer.strip().lower().replace(" ", "_")
    if said in known:
        return said
    for code in CODES:
        found = language(code).find("verb", tokens_of(answer), 0)
        if found is not None and found[0].kind in known:
            return str(found[0].kind)
    return "received" if "given" in said or "gift" in said else ""
