"""What goes out: meals, gifts, sales, swaps, what was thrown away, and counts."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ledger.door.seals import SEAL, batches_for, own_batch
from ledger.saying.again import dish_lines
from ledger.saying.drafting import Body, Context, thing_text
from ledger.saying.making import Line
from ledger.saying.money import money_text
from ledger.saying.numbers import number_at
from ledger.saying.prices import price_of
from ledger.saying.things import Thing
from ledger.saying.tokens import tokens_of

__all__ = ["counted", "discarded", "eaten", "given_away", "leftovers", "out_of", "swapped"]


def eaten(context: Context) -> list[tuple[str, Body]]:
    """Make a meal; what mice or a dog ate nobody had a meal of."""
    things = context.things
    eater = _eater(context)
    if eater is not None:
        return discarded(context, why=eater)
    body: Body = {}
    for money, _ in list(things.money):
        plain = money.is_bare and money.led == "for" and not money.per and not money.count
        if plain and money.value.denominator == 1 and "people" not in body:
            body["people"] = int(money.value)
            things.money = [one for one in things.money if one[0] is not money]
    for phrase, place in context.phrases("with"):
        named = context.maker.names.find(place.text) if place.sort == "" else None
        if named is not None and named.state == "book":
            context.used.add(phrase.start)
            things.lines.append(Thing(words=phrase.words))
    kept = context.take(("kept",), "from", "in")
    if kept is not None:
        context.maker.notes.append(f"from the {kept}")
    dish = dish_lines(context)
    if dish is not None:
        body, things.lines = {**dish, **body}, []
    lines = context.maker.lines(things.lines, "eaten")
    if not lines and dish is None:
        from ledger.saying.kinds import _nothing

        return _nothing(context)
    for name in ("people", "guests"):
        if name in things.facts:
            body[name] = things.facts[name]
    if "meal" in things.facts:
        context.maker.notes.append(things.facts["meal"])
    people = context.people()
    if people:
        context.maker.notes.append(" and ".join(people))
    return [("eaten", {"ate": [line.body() for line in lines], **body})]


def leftovers(context: Context) -> list[tuple[str, Body]]:
    """Keep what is left of the meal said before; which part of the dish it is, is asked."""
    kept = context.take(("kept",), "in", "to", "on") or "fridge"
    meal = next((one for one in reversed(context.drafts) if one.kind == "eaten"), None)
    lines = [one for one in context.maker.lines(context.things.lines, "left") if one.quantity]
    if meal is None or not lines:
        text = "What is left over belongs to a meal: say the meal with it (ate ..., leftovers 1 qt soup)."
        context.maker.ask("meal", "left", text)
        return []
    there = [one["item"] for one in meal.body["ate"]]
    for line in lines:
        whole = next((one for one in there if one.endswith(f" {line.item}")), line.item)
        line.item = line.item if line.item in there else whole
        text = f"Which part of the dish is the {line.item}?"
        said = context.maker.ask("share", str(line.item), text, ["1/4", "1/3", "1/2"])
        tokens = tokens_of(said or "")
        part = number_at(context.words, tokens, 0) if tokens else None
        left = {**line.body(), "kept": kept}
        if part is not None and 0 < part.value <= 1:
            left["share"] = round(float(part.value), 4)
        meal.body.setdefault("left", []).append(left)
    return []


def _eater(context: Context) -> str | None:
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


# -- gifts, sales and swaps -----------------------------------------------------------------


def given_away(context: Context) -> list[tuple[str, Body]]:
    """Make a gift, a sale or a swap; ``Ida gave us`` is a gift that came."""
    things, how = context.things, context.verb.how or "gift"
    subjects = [context.places.of_span(one).sort for one in things.subject]
    if how == "gift" and "animals" in subjects:  # the goat gave milk
        from ledger.saying.kinds import harvested

        context.verb = type(context.verb)("harvested")
        return harvested(context)
    if how == "gift" and _is_to_us(context):
        giver = context.people()
        context.verb = type(context.verb)("received", how="gift")
        from ledger.saying.kinds import received

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
        from ledger.saying.kinds import _nothing

        return _nothing(context)
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
        paid = (
            price_of(money, lines[0])
            if len(lines) == 1
            else (None if money.per or money.each else money.value)
        )
        if paid is None:
            value = money_text(money.value)
            text = f"Is {value} for all of it, or for one?"
            options = [f"{value} for all of it", f"{value} each"]
            answer = context.maker.ask("at", "got", text, options)
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


# -- thrown away ----------------------------------------------------------------------------


def discarded(context: Context, why: str | None = None) -> list[tuple[str, Body]]:
    """Make what was thrown away, with the word that says why as its note."""
    things = context.things
    if context.verb.why == "fed to animals" and why is None:
        fed = fed_starter(context)
        if fed is not None:
            return fed
    reason = why or context.verb.why or "other"
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
        eater = _eater(context)
        reason = eater if eater in ("pests", "other") and reason in ("other", "pests") else reason
    if "unsealed" in things.facts:
        reason = "seal failed"
        things.facts.pop("unsealed")
    _subject_things(context)
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
        from ledger.saying.kinds import _nothing

        return _nothing(context)
    if reason == SEAL:
        for n, line in enumerate(lines):
            _own_batch(context, line, n)
    return [("discarded", {"lines": [line.body() for line in lines], "why": reason})]


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
        context.maker.ask("used", name, f"What was the {name} fed with?")
        return []
    body: Body = {"makes": name, "method": "ferment", "used": used}
    return [("put_up", {**body, "made": [{"amount": made.text(), "kept": "fridge"}]})]


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


def _own_batch(context: Context, line: Line, at: int) -> None:
    """Take a jar that failed to seal off its own batch: that of the day, else it is asked."""
    if line.item is None or line.thing.lot or line.quantity is None:
        return
    on = context.on.isoformat()
    jar = line.quantity.unit if line.quantity.sort == "jar" else None
    many = float(line.quantity.many) if jar else 1
    found = batches_for(context.known.catalogue, line.item, on, jar, many)
    own = own_batch(found, on)
    if own is None and found:
        options = [one.text for one in found[:4]]
        text = f"Which jars of {line.item} failed to seal?"
        answer = context.maker.ask("batch", line.item, text, options, line=at)
        own = next((one for one in found if answer and (one.on in answer)), None)
    if own is not None:
        line.thing.lot = own.lot


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


def _subject_things(context: Context) -> None:
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


def _why(context: Context, span: tuple[int, int]) -> str | None:
    """Return the reason that words say, where they name nothing that the book has."""
    text = context.scanner.said(*span)
    if context.known.item(text) is not None:
        return None
    return _why_text(context, text)


def _why_text(context: Context, text: str) -> str | None:
    from ledger.saying.tokens import tokens_of

    tokens = tokens_of(text)
    for k in range(len(tokens)):
        found = context.words.find("why", tokens, k)
        if found is not None:
            return str(found[0])
    return None


# -- counts ---------------------------------------------------------------------------------


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
        from ledger.saying.kinds import _nothing

        return _nothing(context)
    return [("counted", {"lines": [line.body() for line in lines]})]


def out_of(context: Context) -> list[tuple[str, Body]]:
    """Make a count of nothing: ``ran out of sugar``."""
    _subject_things(context)
    for one in context.things.lines:
        if not one.amounts:
            one.is_zero = True
    return counted(context)
