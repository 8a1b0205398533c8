"""What goes out: meals, gifts, sales, swaps and counts."""

from __future__ import annotations

from fractions import Fraction

from ledger.messages import measured, sentence
from ledger.saying.again import dish_lines
from ledger.saying.coming_in import received
from ledger.saying.drafting import Body, Context
from ledger.saying.making import Line
from ledger.saying.money import money_text
from ledger.saying.numbers import number_at
from ledger.saying.picked import harvested
from ledger.saying.prices import all_or_each, in_dozens, of_dozens, price_of
from ledger.saying.shared import nothing, subject_things
from ledger.saying.swapping import swapped
from ledger.saying.things import Thing
from ledger.saying.thrown_out import discarded, who_ate
from ledger.saying.tokens import tokens_of

__all__ = ["counted", "eaten", "given_away", "leftovers", "out_of"]


def eaten(context: Context) -> list[tuple[str, Body]]:
    """Make a meal; what mice or a dog ate nobody had a meal of."""
    things = context.things
    eater = who_ate(context)
    if eater is not None:
        return discarded(context, why=eater)
    body: Body = {}
    _people_for(context, body)
    for phrase, place in context.phrases("with"):
        named = context.maker.names.find(place.text) if place.sort == "" else None
        if named is not None and named.state == "book":
            context.used.add(phrase.start)
            things.lines.append(Thing(words=phrase.words))
    dish_said = context.take(("",), "to", "against") if things.lines else None
    if dish_said is not None:
        body["dish"] = dish_said
    kept = context.take(("kept",), "from", "in")
    if kept is not None:
        context.maker.notes.append(f"from the {kept}")
    dish = dish_lines(context)
    if dish is not None:
        body, things.lines = {**dish, **body}, []
    lines = context.maker.lines(things.lines, "eaten")
    if not lines and dish is None:
        return nothing(context)
    for name in ("people", "guests"):
        if name in things.facts:
            body[name] = things.facts[name]
    if "meal" in things.facts:
        context.maker.notes.append(things.facts["meal"])
    people = context.people()
    if people:
        context.maker.notes.append(" and ".join(people))
    return [("eaten", {"ate": [line.body() for line in lines], **body})]


def _people_for(context: Context, body: Body) -> None:
    """Take ``soup for 4`` as four people."""
    things = context.things
    for money, _ in list(things.money):
        plain = money.is_bare and money.led == "for" and not money.per and not money.count
        if plain and money.value.denominator == 1 and "people" not in body:
            body["people"] = int(money.value)
            things.money = [one for one in things.money if one[0] is not money]


def leftovers(context: Context) -> list[tuple[str, Body]]:
    """Keep what is left of the meal said before; which part of the dish it is, is asked."""
    kept = context.take(("kept",), "in", "to", "on") or "fridge"
    meal = next((one for one in reversed(context.drafts) if one.kind == "eaten"), None)
    lines = [one for one in context.maker.lines(context.things.lines, "left") if one.quantity]
    if meal is None or not lines:
        context.maker.ask("meal", "left", sentence("asked-leftovers-of"))
        return []
    there = [one["item"] for one in meal.body["ate"]]
    for line in lines:
        whole = next((one for one in there if one.endswith(f" {line.item}")), line.item)
        line.item = line.item if line.item in there else whole
        text = sentence("asked-share-of-dish", name=f"{line.item}")
        said = context.maker.ask("share", str(line.item), text, ["1/4", "1/3", "1/2"])
        tokens = tokens_of(said or "")
        part = number_at(context.words, tokens, 0) if tokens else None
        left = {**line.body(), "kept": kept}
        if part is not None and 0 < part.value <= 1:
            left["share"] = round(float(part.value), 4)
        meal.body.setdefault("left", []).append(left)
    return []


def given_away(context: Context) -> list[tuple[str, Body]]:
    """Make a gift, a sale or a swap; ``Ida gave us`` is a gift that came."""
    things, how = context.things, context.verb.how or "gift"
    subjects = [context.places.of_span(one).sort for one in things.subject]
    if how == "gift" and "animals" in subjects:  # the goat gave milk
        context.verb = type(context.verb)("harvested")
        return harvested(context)
    if how == "gift" and _is_to_us(context):
        giver = context.people()
        context.verb = type(context.verb)("received", how="gift")
        made = received(context)
        for _, came in made:
            if giver:
                came["from"] = " and ".join(giver)
        return made
    if how == "barter":
        return swapped(context, is_got=False)
    body: Body = {"how": how}
    receiver = _receiver(context)
    if receiver:
        body["to"] = receiver
    mine = [one for one in things.lines if one.mode == "main"]
    lines = context.maker.lines(mine, "given_away")
    _got(context, body, lines)
    if any(one.mode == "other" for one in things.lines):
        return swapped(context, is_got=False)
    people = context.people()
    if people:
        context.maker.notes.append(" and ".join(people))
    body["lines"] = [line.body() for line in lines]
    if not lines:
        return nothing(context)
    return [("given_away", body)]


def _is_to_us(context: Context) -> bool:
    """Return whether a person of another house is said to have given it to us."""
    clause, tokens = context.clause, context.scanner.tokens
    pieces = [*clause.before, *clause.pieces, *([clause.verb] if clause.verb else [])]
    start, end = min(one.start for one in pieces), max(one.end for one in pieces)
    ours = {"us", "me", "uns", "mir"}
    is_ours = any(one.low in ours for one in tokens[start:end])
    someone = any(context.places.of_span(span).sort == "person" for span in context.things.subject)
    return is_ours and (someone or "receiver" in context.things.facts)


def _receiver(context: Context) -> str | None:
    span = context.things.facts.pop("receiver", None)
    if span is not None:
        return context.places.of_span(span).text
    return context.take(("person", "shop", "", "animals"), "to", "with", "at")


def _got(context: Context, body: Body, lines: list[Line]) -> None:
    """Put the money that came for it into `got`."""
    total = Fraction(0)
    several = context.things.money
    most = max(len(lines), 1)
    context.maker.left += [money_text(one.value) for one, _ in several[most:]]
    for money, _ in several[:most]:
        if len(lines) == 1 and in_dozens(context.maker, money, lines[0]):
            total += of_dozens(context.maker, money, lines[0]) or 0
            continue
        paid = (
            price_of(money, lines[0])
            if len(lines) == 1
            else (None if money.per or money.each else money.value)
        )
        if paid is None:
            value = money_text(money.value)
            text = sentence("asked-all-or-each", n=measured(value))
            answer = context.maker.ask("at", "got", text, all_or_each(value))
            if answer is None:
                continue
            paid = money.value
            if "each" in answer and lines and lines[0].quantity:
                paid *= lines[0].quantity.packs or lines[0].quantity.many
        total += paid
    for line in lines:
        if line.thing.extra and context.verb.how == "sold":
            total += line.thing.extra[-1].many
        elif line.thing.extra:
            context.maker.left += [one.text() for one in line.thing.extra]
    if total and context.verb.how == "gift":
        context.maker.left.append(money_text(total))
    elif total:
        body["got"] = money_text(total)


def counted(context: Context) -> list[tuple[str, Body]]:
    """Make a count of what is there."""
    things = context.things
    place = None
    for phrase, where in context.phrases("in", "on", "from"):
        if where.sort in ("kept", "bed", ""):
            context.used.add(phrase.start)
            place = context.scanner.said(phrase.start, phrase.words[1])
    if place is not None:
        context.maker.notes.append(place)
    lines = context.maker.lines(things.lines, "counted")
    if not lines:
        return nothing(context)
    return [("counted", {"lines": [line.body() for line in lines]})]


def out_of(context: Context) -> list[tuple[str, Body]]:
    """Make a count of nothing: ``ran out of sugar``."""
    if any(one.amounts for one in context.things.lines):  # half a pound was used up
        context.verb = type(context.verb)("eaten")
        return eaten(context)
    subject_things(context)
    for one in context.things.lines:
        one.is_zero = True
    return counted(context)
