"""Harvests: what was picked, dug and collected, seed saved, and a crop that failed."""

from __future__ import annotations

from ledger.saying.drafting import Body, Context
from ledger.saying.making import Line
from ledger.saying.shared import bodies, loose_places, nothing, subject_is_thing, take_kept
from ledger.saying.things import Thing

__all__ = ["harvested"]


def harvested(context: Context) -> list[tuple[str, Body]]:
    """Make a harvest: lines with their bed, and who worked."""
    things = context.things
    _animals_did(context)
    if context.verb.how == "seed" and not _saved_seed(context):
        return context.without_verb()
    subject_is_thing(context)
    loose_places(context, ("bed",))
    if context.verb.how == "failed":
        _failed(context)
    lines = context.maker.lines(things.lines, "harvested", plants=True)
    if context.verb.how == "seed":
        _own_seed(context, lines)
    _beds(context, lines)
    take_kept(context, lines)
    body: Body = {"lines": bodies(lines)}
    context.work(body)
    return [("harvested", body)] if lines else nothing(context)


def _animals_did(context: Context) -> None:
    """Take the hens that laid as no thing of the harvest; a name of theirs is a note."""
    things = context.things
    for span in list(things.subject):
        if context.places.of_span(span).sort == "animals" and things.lines:
            things.subject.remove(span)
            said = context.scanner.said(*span)
            if not context.words.is_("people.animals", said):
                context.maker.notes.append(said)


def _failed(context: Context) -> None:
    """Take ``the lettuce crop failed, hail`` as a harvest of nothing, with the word that says why."""
    things = context.things
    for span in list(things.subject):
        if context.places.of_span(span).sort in ("", "bed"):
            things.subject.remove(span)
            things.lines.insert(0, Thing(words=_crop_of(context, span)))
    for one in list(things.lines[1:]):
        if not one.amounts and one.words and one.joined == "comma":
            things.lines.remove(one)
            context.maker.notes.append(context.scanner.said(*one.words))
    for one in things.lines:
        one.is_zero = not one.amounts
    said = context.clause.verb
    if said is not None:
        context.maker.notes.insert(0, context.scanner.said(said.start, said.end))


def _crop_of(context: Context, span: tuple[int, int]) -> tuple[int, int]:
    """Return the words of a crop without ``crop`` behind them."""
    last = context.scanner.tokens[span[1] - 1].low
    return (span[0], span[1] - 1) if last in ("crop", "harvest") and span[1] > span[0] + 1 else span


def _is_seed(context: Context, span: tuple[int, int]) -> bool:
    """Return whether words name seed: ``tomato seed``, ``Bohnensamen``."""
    tokens, words = context.scanner.tokens, context.words
    ends = tuple(words.data["small"]["seeds"].split("|"))
    return any(
        words.find("small.seeds", tokens, k) is not None
        or (words.code == "de" and tokens[k].low.endswith(ends))
        for k in range(*span)
    )


def _saved_seed(context: Context) -> bool:
    """Return whether what was saved is seed; ``seed from the beans`` is bean seed."""
    spans = [one.words for one in context.things.lines if one.words] + context.things.subject
    return any(_is_seed(context, one) for one in spans)


def _own_seed(context: Context, lines: list[Line]) -> None:
    """Name saved seed by its crop, and take a new name for seed without a question."""
    for line in lines:
        if line.item is None or line.thing.words is None:
            continue
        if not _is_seed(context, line.thing.words):
            continue
        if context.words.is_("small.seeds", line.item):
            for phrase, place in context.phrases("from"):
                named = context.maker.names.find(place.text)
                if named.state in ("book", "table"):
                    context.used.add(phrase.start)
                    line.item = f"{named.item} {context.scanner.said(*line.thing.words)}"
                    line.item = context.maker.names.singular(line.item)
                    break
        item = line.item
        context.maker.questions = [
            one for one in context.maker.questions if (one.code, one.about) != ("new", item)
        ]
        if context.known.sort(item) is None:
            context.maker.sorts[item] = "garden input"


_OF_ANIMALS = frozenset({"egg", "milk", "honey", "ei", "milch", "honig"})
"""What stands beside a harvest and grew in no bed."""


def _beds(context: Context, lines: list[Line]) -> None:
    """Give each line the bed said behind it; one bed holds for all."""
    found = []
    for phrase, place in context.phrases("from", "in", "on", "at", "to"):
        if place.sort in ("bed", "animals", "wild"):
            context.used.add(phrase.start)
            if place.sort == "animals":
                if not context.words.is_("people.animals", place.text):
                    context.maker.notes.append(place.text)
                continue
            found.append((phrase.lines, place.text))
    if len(found) == 1:
        for line in lines:
            if len(lines) == 1 or (line.item or "").lower() not in _OF_ANIMALS:
                line.more["bed"] = found[0][1]
        return
    start = 0
    for n, bed in found:
        for line in lines[start:n]:
            line.more["bed"] = bed
        start = n
