"""What has no verb: a price, a count, or the likeliest kind, which is asked."""

from __future__ import annotations

from ledger.messages import Choice, sentence
from ledger.published.danger import under_oil
from ledger.saying.coming_in import bought, is_fee, price_seen, received
from ledger.saying.drafting import Body, Context, Make
from ledger.saying.echo import kinds_named
from ledger.saying.going_out import counted, eaten, given_away
from ledger.saying.money import money_text
from ledger.saying.picked import harvested
from ledger.saying.planting import planted
from ledger.saying.shared import kind_of_answer, said_things
from ledger.saying.thrown_out import discarded

__all__ = ["verbless"]


def verbless(context: Context) -> list[tuple[str, Body]]:
    """Read what has no verb: a price, a jar's count, or the likeliest kind, asked."""
    things = context.things
    if "unsealed" in things.facts and things.lines:
        return discarded(context)
    if any(one.words and is_fee(context, one.words) for one in things.lines):
        context.verb = type(context.verb)("bought")
        return bought(context)
    if things.facts.get("left") or any(one.is_zero for one in things.lines):
        return counted(context)
    priced = [one for one, _ in things.money if one.per or one.each]
    if priced and len(things.lines) == 1 and not things.lines[0].amounts:
        return price_seen(context)
    real = [one for one in things.lines if (one.amounts or one.lot)]
    for one in things.lines:
        if one not in real and one.words:
            context.maker.left.append(context.scanner.said(*one.words))
    things.lines = [one for one in real if one.words or one.lot or one.is_empty]
    context.maker.left += [
        one.text() for thing in real if thing not in things.lines for one in thing.amounts
    ]
    if things.lines and _is_batch(context):
        context.verb = type(context.verb)("put_up")
        _take_used(context)
        return context.makers[0]("put_up", context)(context)
    if not things.lines:
        context.maker.left += [money_text(one.value) for one, _ in things.money]
        return []
    if "meal" in things.facts and not things.money:
        context.verb = type(context.verb)("eaten")
        return eaten(context)
    return _likeliest(context)


def _is_batch(context: Context) -> bool:
    """Return whether a canner or an oven is named, or jars are under oil: that was put up."""
    things = context.things
    jars = any(one.sort == "jar" for thing in things.lines for one in thing.amounts)
    said = [context.scanner.said(one.start, one.words[1]) for one in things.phrases]
    closed = "method" in things.facts or things.is_done_with
    said += [context.scanner.said(*one.words) for one in things.lines if one.words]
    return closed or (jars and any(map(under_oil, said)))


def _take_used(context: Context) -> None:
    """Take what stands behind `from` as what went in: without a verb it was not known for that."""
    things, words, tokens = context.things, context.words, context.scanner.tokens
    for span in things.left:
        found = words.all_of("prep", tokens, span[0])
        if found is None or "from" not in found[0]:
            continue
        context.maker.left.remove(context.scanner.said(*span))
        for one in things.lines:
            if one.words is not None and one.words[0] >= span[1]:
                one.mode = "used"


def _likeliest(context: Context) -> list[tuple[str, Body]]:
    things = context.things
    said = said_things(context)
    jars = any(one.sort == "jar" for thing in things.lines for one in thing.amounts)
    sorts = [place.sort for _, place in context.phrases("from", "at", "in")]
    options = ["harvested", "bought", "eaten", "received"]
    if context.signs:
        options = ["discarded", "counted", "eaten"]
    elif things.money or "shop" in sorts or things.lines[0].extra:
        options = ["bought", "price_seen", "given_away"]
    elif any(one.is_empty for one in things.lines):
        options = ["counted", "bought", "given_away"]
    elif jars or any(one.lot for one in things.lines) or "people" in things.facts:
        options = ["eaten", "counted", "given_away"]
    elif "person" in sorts:
        options = ["received", "bought"]
    text = sentence("asked-likely-kind", text=said, kind=Choice(options[0]))
    code = "became" if context.signs else "kind"  # a yes to everything throws nothing out
    answer = context.maker.ask(code, "kind", text, kinds_named(options))
    kind = kind_of_answer(answer, _MAKES) or options[0]
    context.verb = type(context.verb)(kind)
    return _MAKES.get(kind, harvested)(context)


_MAKES: dict[str, Make] = {
    "harvested": harvested, "bought": bought, "eaten": eaten, "received": received,
    "counted": counted, "given_away": given_away, "price_seen": price_seen,
    "discarded": discarded, "planted": planted,
}  # fmt: skip
"""What a text without a verb may have meant."""
