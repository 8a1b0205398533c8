"""What comes in by money or from others: purchases, fees, gifts, prices seen."""

from __future__ import annotations

from ledger.messages import measured, sentence
from ledger.saying.drafting import Body, Context, Make
from ledger.saying.echo import kinds_named
from ledger.saying.making import Line
from ledger.saying.money import money_text
from ledger.saying.picked import harvested
from ledger.saying.prices import give_prices, share_out
from ledger.saying.shared import (
    bodies,
    kind_of_answer,
    loose_places,
    nothing,
    said_things,
    subject_is_thing,
    take_kept,
)
from ledger.saying.swapping import swapped
from ledger.saying.things import Thing

__all__ = ["bought", "got", "is_fee", "price_seen", "received"]


def bought(context: Context) -> list[tuple[str, Body]]:
    """Make a purchase: lines with what each cost, and the shop."""
    things = context.things
    loose_places(context, ("shop", "person"))
    body: Body = {}
    other = _fees(context)
    if other:
        body["other"] = other
    shop = context.take(("shop", "person", "", "bed"), "at", "from", "in", "by")
    if shop is not None:
        body["shop"] = shop
    crops = [(one, place) for one, place in context.phrases("to") if place.sort in ("", "bed")]
    share_out(things)
    lines = context.maker.lines(things.lines, "bought")
    give_prices(context.maker, things, lines)
    _animals(context, lines)
    for phrase, place in crops:
        named = context.maker.names.find(place.text)
        if named.state in ("book", "table") and not named.tail:
            context.used.add(phrase.start)
            for line in lines:
                line.more["for_crop"] = named.item
    take_kept(context, lines)
    people = context.people()
    if people:
        context.maker.notes.append("with " + " and ".join(people))
    if not lines and not other:
        return nothing(context)
    body["lines"] = bodies(lines)
    return [("bought", body)]


def _animals(context: Context, lines: list[Line]) -> None:
    """Take new animals as what goes into what they give: layers into eggs."""
    for line in lines:
        if line.item is None or context.maker.sorts.get(line.item) != "food":
            continue
        span = line.thing.words
        found = span and context.words.find("sorts", context.scanner.tokens, span[1] - 1)
        if found and found[0] in ("animal", "layer"):
            context.maker.sorts[line.item] = str(found[0])


def _fees(context: Context) -> list[Body]:
    """Take out what is no thing: a membership, postage, a repair; it is other spending by its words."""
    things = context.things
    spans = [one.words for one in things.lines if one.words and is_fee(context, one.words)]
    phrases = [
        one for one, _ in context.phrases("to", "against", "at") if is_fee(context, one.words)
    ]
    spans += [one.words for one in phrases]
    if len(spans) != 1:
        return []
    loose = [one for one in things.lines if one.words is None or one.words == spans[0]]
    bare = [q for one in loose for q in (*one.amounts, *one.extra) if q.unit is None]
    money = [one.value for one, _ in things.money]
    values = money or [one.many for one in bare]
    if len(values) != 1 or len(things.lines) > len(loose):
        return []
    context.used |= {one.start for one in phrases}
    things.lines, things.money = [], []
    said = context.scanner.said(*spans[0])
    rest = [one for one, _ in context.phrases("from", "at", "in", "to") if one not in phrases]
    for one in rest[:1]:
        context.used.add(one.start)
        said = f"{said} {context.scanner.said(one.start, one.words[1])}"
    return [{"words": said, "paid": money_text(values[0]), "belongs": True}]


def is_fee(context: Context, span: tuple[int, int]) -> bool:
    """Return whether words name no thing: a membership, postage, a repair."""
    tokens, words = context.scanner.tokens, context.words
    ends = tuple(one for one in words.data["small"]["fees"].split("|") if len(one) > 4)
    return any(
        words.find("small.fees", tokens, k) is not None
        or (words.code == "de" and tokens[k].low.endswith(ends))
        for k in range(*span)
    )


def received(context: Context) -> list[tuple[str, Body]]:
    """Make what came as a gift, by barter or from the wild."""
    how = context.verb.how or "gift"
    if not context.things.lines:
        return nothing(context)
    body: Body = {"how": how}
    giver = context.take(
        ("person", "wild", "bed", "shop", ""), "from", "by", "in", "with", "at", "on"
    )
    if giver is not None:
        body["from"] = giver
    lines = context.maker.lines(context.things.lines, "received")
    take_kept(context, lines)
    for money, _ in context.things.money:
        if len(lines) == 1 and not money.per:
            lines[0].more["value"] = money_text(money.value)
        else:
            context.maker.left.append(money_text(money.value))
    body["lines"] = bodies(lines)
    return [("received", body)] if lines else nothing(context)


def got(context: Context) -> list[tuple[str, Body]]:
    """Settle what `got` means: by a price or shop, a bed or animals, a person; else it is asked."""
    things = context.things
    if any(one.mode == "other" for one in things.lines):
        return swapped(context, is_got=True)
    places = [place.sort for _, place in context.phrases("from", "at", "in", "by")]
    if things.money or "shop" in places or any(one.extra for one in things.lines):
        return bought(context)
    if any(sort in ("bed", "animals") for sort in places):
        return harvested(context)
    if "wild" in places:
        context.verb = type(context.verb)("received", how="forage")
        return received(context)
    if "person" in places or _is_passive(context):
        return received(context)
    options = kinds_named(("bought", "received", "harvested"))
    text = sentence("asked-came-how", text=said_things(context))
    answer = context.maker.ask("kind", "kind", text, options)
    table: dict[str, Make] = {"bought": bought, "harvested": harvested}
    return table.get(kind_of_answer(answer, options), received)(context)


def _is_passive(context: Context) -> bool:
    verb = context.clause.verb
    said = context.scanner.said(verb.start, verb.end).lower() if verb else ""
    return "given" in said or "geschenkt" in said or said in ("received", "erhalten")


def price_seen(context: Context) -> list[tuple[str, Body]]:
    """Make a price that was seen: the item, the package and what it costs."""
    things = context.things
    subject_is_thing(context)
    for span in list(things.subject):
        if not things.lines:
            things.subject.remove(span)
            things.lines.append(Thing(words=span))
    shop = context.take(("shop", "person", "", "bed"), "at", "in", "from", "by")
    lines = context.maker.lines([one for one in things.lines if one.amounts], "price_seen")
    bare = [one for one in things.lines if not one.amounts]
    out: list[tuple[str, Body]] = []
    money = [one for one, _ in things.money]
    if len(things.lines) != 1 or len(money) != 1:
        text = sentence("asked-price-of-what", text=said_things(context))
        context.maker.ask("price", "price", text)
        return []
    body: Body = {}
    if bare:
        named = (
            context.maker.item(context.scanner.said(*bare[0].words), 0) if bare[0].words else None
        )
        body["item"] = named.item if named else ""
        body["amount"] = f"1 {money[0].per}" if money[0].per else "1"
        if money[0].per == "dozen":
            body["amount"] = "12"
        if money[0].per and money[0].per[:1].isdigit():
            body["amount"] = money[0].per
        if not (money[0].per or money[0].each):
            price = measured(money_text(money[0].value))
            text = sentence("asked-costs-how-much", name=body["item"], n=price)
            amount = context.maker.amount_of(context.maker.ask("amount", body["item"], text))
            body["amount"] = amount.text() if amount else body["amount"]
    else:
        body = {"item": lines[0].item, "amount": lines[0].body().get("amount", "")}
        context.used |= set()
    body["price"] = money_text(money[0].value)
    if shop:
        body["shop"] = shop
    out.append(("price_seen", body))
    return out
