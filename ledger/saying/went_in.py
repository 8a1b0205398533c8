"""What went into a batch as it is said: lines, acid a jar, today's picking."""

from __future__ import annotations

from typing import Any

from ledger.published.danger import oil_named
from ledger.saying.drafting import Body, Context
from ledger.saying.making import Line
from ledger.saying.things import Thing
from ledger.saying.units import unit_at

__all__ = ["came_out", "itself", "used_of", "used_phrases"]

_ACIDS = {
    "lemon juice": "lemon juice",
    "bottled lemon juice": "lemon juice",
    "citric acid": "citric acid",
    "vinegar": "vinegar 5%",
    "zitronensaft": "lemon juice",
    "zitronensäure": "citric acid",
    "essig": "vinegar 5%",
}


def used_phrases(context: Context) -> None:
    """Take ``from our tomatoes`` as what went in, though nobody said how much; ``in oil`` as a note."""
    for phrase, place in context.phrases("from", "with"):
        if place.sort not in ("person", "shop", "kept") and not (
            place.sort == "bed" and "with" not in phrase.roles
        ):
            named = context.maker.names.find(place.text)
            if place.sort == "" and named.state in ("book", "table", "made", "sort"):
                context.used.add(phrase.start)
                context.things.lines.append(Thing(words=phrase.words, mode="used"))
    for phrase, _ in context.phrases("in", "on", "to", "with"):
        said = context.scanner.said(phrase.start, phrase.words[1])
        held = unit_at(context.words, context.scanner.tokens, phrase.words[1] - 1)
        is_bags = "in" in phrase.roles and held is not None and held[1] == "unknown"
        if is_bags or oil_named(said):  # the door reads oil in the note, and cautions
            context.used.add(phrase.start)
            context.maker.notes.append(said)


def came_out(context: Context) -> None:
    """Tell what came out from what went in where that was said first: ``aus 3 kg Äpfeln 7 Gläser Mus``."""
    lines = context.things.lines
    used = [one for one in lines if one.mode == "used"]
    for one in used:
        if one.words is None and one.lot is None and any(a.sort == "jar" for a in one.amounts):
            one.mode = "main"  # jars without a name are never what went in
    if not used or any(one.words is not None and one.mode != "used" for one in lines):
        return
    named = [one for one in used if one.mode == "used" and one.words is not None]
    for k, one in enumerate(named[1:], 1):
        jars = any(a.sort == "jar" for a in one.amounts)
        if not one.joined or (one.joined == "comma" and jars):
            for other in named[k:]:
                other.mode = "main"
            return
    if named:
        _cut(context, named[-1])


def _cut(context: Context, last: Thing) -> None:
    """Part ``Äpfeln Apfelmus`` into what went in and what came out of it, where both are known."""
    start, end = last.words or (0, 0)
    find, said = context.maker.names.find, context.scanner.said
    for cut in range(start + 1, end):
        one, other = find(said(start, cut)), find(said(cut, end), makes=True)
        if one.state in ("book", "table") and other.state in ("book", "table", "made"):
            last.words = (start, cut)
            lines = context.things.lines
            lines.insert(lines.index(last) + 1, Thing(words=(cut, end), joined="and"))
            return


def used_of(context: Context, used: list[Thing], body: Body) -> list[Body]:
    """Return what went in as lines with an amount; acid a jar goes into the batch's `body`."""
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


def itself(context: Context, lines: list[Line], method: str | None) -> list[Body]:
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
