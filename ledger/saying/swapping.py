"""Both sides of a swap: what went, and what came."""

from __future__ import annotations

from ledger.saying.drafting import Body, Context
from ledger.saying.money import money_text
from ledger.saying.things import Thing

__all__ = ["swapped"]


def swapped(context: Context, *, is_got: bool) -> list[tuple[str, Body]]:
    """Make both sides of a swap: what went, and what came."""
    things = context.things
    partner = None
    for phrase, place in context.phrases("with", "from", "to", "by"):
        if place.sort in ("person", "shop", ""):
            context.used.add(phrase.start)
            partner = place.text
            break
    if partner is None and "receiver" in things.facts:
        partner = context.places.of_span(things.facts.pop("receiver")).text
    for phrase, place in context.phrases("against", "to"):
        context.used.add(phrase.start)
        things.lines.append(Thing(words=phrase.words, mode="other"))
        del place
    main = [one for one in things.lines if one.mode == "main"]
    other = [one for one in things.lines if one.mode == "other"]
    gone, come = (other, main) if is_got else (main, other)
    out: list[tuple[str, Body]] = []
    lines = context.maker.lines(gone, "given_away")
    if lines:
        body: Body = {"how": "barter", "lines": [line.body() for line in lines]}
        out.append(("given_away", body | ({"to": partner} if partner else {})))
    lines = context.maker.lines(come, "received")
    if lines:
        came: Body = {"how": "barter", "lines": [line.body() for line in lines]}
        out.append(("received", came | ({"from": partner} if partner else {})))
    context.maker.left += [money_text(one.value) for one, _ in things.money]
    return out
