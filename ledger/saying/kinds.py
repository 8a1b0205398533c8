"""Which kind a clause is, and what comes in: harvests, purchases, gifts, prices, sowings, practice."""

from __future__ import annotations

from typing import Any

from ledger.saying.drafting import Body, Context, Make, thing_text
from ledger.saying.making import Line
from ledger.saying.money import money_text
from ledger.saying.numbers import figure
from ledger.saying.prices import give_prices
from ledger.saying.things import Phrase, Thing

__all__ = ["make_of"]

_CROPS = ("food",)


def make_of(kind: str | None, context: Context) -> Make:
    """Return what makes the entries of a clause."""
    from ledger.saying import batches, going_out

    table: dict[str, Make] = {
        "harvested": harvested, "bought": bought, "received": received, "got": got,
        "price_seen": price_seen, "planted": planted, "practised": practised,
        "put_up": batches.put_up, "eaten": going_out.eaten, "given_away": going_out.given_away,
        "discarded": going_out.discarded, "counted": going_out.counted, "out_of": going_out.out_of,
        "leftovers": going_out.leftovers,
    }  # fmt: skip
    return table[kind] if kind else _verbless


def _kept(context: Context, lines: list[Line]) -> None:
    """Put where it is kept into the lines."""
    place = context.take(("kept",), "in", "to", "on")
    if place is not None:
        for line in lines:
            line.more["kept"] = place


def _bodies(lines: list[Line]) -> list[Body]:
    return [line.body() for line in lines]


def _own(context: Context) -> list[Line]:
    """Return the lines of the clause; a subject that is a thing counts as its first."""
    things = context.things
    named = [one for one in things.lines if one.words or one.amounts or one.lot]
    if things.subject and all(one.words is None for one in named):
        for span in list(things.subject):
            if context.places.of_span(span).sort == "":
                things.subject.remove(span)
                for one in named[:1]:
                    one.words = span
    return context.maker.lines(named, context.verb.kind)


# -- harvests -------------------------------------------------------------------------------


def harvested(context: Context) -> list[tuple[str, Body]]:
    """Make a harvest: lines with their bed, and who worked."""
    things = context.things
    _animals_did(context)
    if context.verb.how == "seed" and not _saved_seed(context):
        context.verb = type(context.verb)("")
        return _verbless(context)
    _subject_is_thing(context)
    loose_places(context, ("bed",))
    if context.verb.how == "failed":
        _failed(context)
    lines = context.maker.lines(things.lines, "harvested", plants=True)
    if context.verb.how == "seed":
        _own_seed(context, lines)
    _beds(context, lines)
    _kept(context, lines)
    body: Body = {"lines": _bodies(lines)}
    context.work(body)
    return [("harvested", body)] if lines else _nothing(context)


def _animals_did(context: Context) -> None:
    """Take the hens that laid as no thing of the harvest; a name of theirs is a note."""
    things = context.things
    for span in list(things.subject):
        if context.places.of_span(span).sort == "animals" and things.lines:
            things.subject.remove(span)


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


def _subject_is_thing(context: Context) -> None:
    things = context.things
    if things.lines and all(one.words is None for one in things.lines) and things.subject:
        for span in list(things.subject):
            if context.places.of_span(span).sort in ("", "bed"):
                things.subject.remove(span)
                things.lines[0].words = span
                return


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
            line.more["bed"] = found[0][1]
        return
    start = 0
    for n, bed in found:
        for line in lines[start:n]:
            line.more["bed"] = bed
        start = n


def _nothing(context: Context) -> list[tuple[str, Body]]:
    """Say what stands with a verb and no thing."""
    verb = context.clause.verb
    if verb is not None and not context.maker.questions and not context.maker.left:
        said = context.scanner.said(verb.start, verb.end)
        context.maker.ask("what", said, f"{said[:1].upper()}{said[1:]}: what, and how much?")
    return []


# -- purchases and gifts --------------------------------------------------------------------


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
    lines = context.maker.lines(things.lines, "bought")
    give_prices(context.maker, things, lines)
    _animals(context, lines)
    for phrase, place in crops:
        named = context.maker.names.find(place.text)
        if named.state in ("book", "table") and not named.tail:
            context.used.add(phrase.start)
            for line in lines:
                line.more["for_crop"] = named.item
    _kept(context, lines)
    people = context.people()
    if people:
        context.maker.notes.append("with " + " and ".join(people))
    if not lines and not other:
        return _nothing(context)
    body["lines"] = _bodies(lines)
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
    spans = [one.words for one in things.lines if one.words and _is_fee(context, one.words)]
    phrases = [
        one for one, _ in context.phrases("to", "against", "at") if _is_fee(context, one.words)
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


def _is_fee(context: Context, span: tuple[int, int]) -> bool:
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
    body: Body = {"how": how}
    giver = context.take(
        ("person", "wild", "bed", "shop", ""), "from", "by", "in", "with", "at", "on"
    )
    if giver is not None:
        body["from"] = giver
    lines = context.maker.lines(context.things.lines, "received")
    _kept(context, lines)
    for money, _ in context.things.money:
        if len(lines) == 1 and not money.per:
            lines[0].more["value"] = money_text(money.value)
        else:
            context.maker.left.append(money_text(money.value))
    body["lines"] = _bodies(lines)
    return [("received", body)] if lines else _nothing(context)


def got(context: Context) -> list[tuple[str, Body]]:
    """Settle what `got` means: by a price or shop, a bed or animals, a person; else it is asked."""
    from ledger.saying import going_out

    things = context.things
    if any(one.mode == "other" for one in things.lines):
        return going_out.swapped(context, is_got=True)
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
    options = ["bought", "received", "harvested"]
    text = f"{_said(context)}: bought, picked, or given?"
    answer = context.maker.ask("kind", "kind", text, options)
    table: dict[str, Make] = {"bought": bought, "harvested": harvested}
    return table.get(_kind_of(answer), received)(context)


def _is_passive(context: Context) -> bool:
    verb = context.clause.verb
    said = context.scanner.said(verb.start, verb.end).lower() if verb else ""
    return "given" in said or "geschenkt" in said or said in ("received", "erhalten")


def _said(context: Context) -> str:
    return ", ".join(thing_text(context, one) for one in context.things.lines) or "that"


def price_seen(context: Context) -> list[tuple[str, Body]]:
    """Make a price that was seen: the item, the package and what it costs."""
    things = context.things
    _subject_is_thing(context)
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
        context.maker.ask("price", "price", f"{_said(context)}: what does how much of it cost?")
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
            text = f"How much {body['item']} costs {money_text(money[0].value)}?"
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


# -- sowings and practice -------------------------------------------------------------------


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
    for n, thing in enumerate(things.lines):
        context.maker.part = len(out)
        text = context.scanner.said(*thing.words) if thing.words else ""
        crop, seed_word, rows = _crop(text)
        if not crop:
            context.maker.ask("item", "crop", "Which crop was it?")
            continue
        named = context.maker.item(crop, n, plants=True)
        body: Body = {"crop": named.item}
        if named.variety:
            body["variety"] = named.variety
        if how:
            body["how"] = how
        _how_much(context, body, thing, (seed_word, rows))
        out.append(("planted", body))
    for name, field_ in (("row", "row"), ("area", "area"), ("length", "row")):
        if name in things.facts and out:
            for _, body in out:
                body[field_] = things.facts[name]
    for phrase, place in beds:
        context.used.add(phrase.start)
        for _, body in out:
            body["bed"] = place.text
    for _, body in out:
        context.work(body)
    return out or _nothing(context)


def _was_laid(context: Context) -> bool:
    """Return whether hens laid what German says as it says of bulbs: ``gelegt``."""
    subjects = [context.places.of_span(one).sort for one in context.things.subject]
    names = [context.scanner.said(*one.words) for one in context.things.lines if one.words]
    eggs = [context.maker.names.find(one).item in ("egg", "Ei") for one in names]
    return "animals" in subjects or (bool(eggs) and all(eggs))


def _crop(text: str) -> tuple[str, str, bool]:
    """Return a crop's name without ``plants``, ``rows of`` and ``seed``, and which of those stood there."""
    import re

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
        text = f"How much {body['crop']} was planted?"
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
        return _nothing(context)
    body: Body = {"skill": texts[0], "people": people}
    if not people:
        who = context.maker.ask("people", "people", f"Who practised {texts[0]}?")
        body["people"] = [one.strip() for one in who.split(",")] if who else []
    if things.times:
        body["minutes"] = figure(
            sum((many for many, _ in things.times), start=things.times[0][0] * 0)
        )
        things.times = []
    return [("practised", body)]


# -- without a verb -------------------------------------------------------------------------


def _verbless(context: Context) -> list[tuple[str, Body]]:
    """Read what has no verb: a price, a jar's count, or the likeliest kind, asked."""
    things = context.things
    if "unsealed" in things.facts and things.lines:
        from ledger.saying.going_out import discarded

        return discarded(context)
    if any(one.words and _is_fee(context, one.words) for one in things.lines):
        context.verb = type(context.verb)("bought")
        return bought(context)
    if things.facts.get("left") or any(one.is_zero for one in things.lines):
        from ledger.saying.going_out import counted

        return counted(context)
    priced = [one for one, _ in things.money if one.per or one.each]
    if priced and len(things.lines) == 1 and not things.lines[0].amounts:
        return price_seen(context)
    real = [one for one in things.lines if (one.amounts or one.lot)]
    for one in things.lines:
        if one not in real and one.words:
            context.maker.left.append(context.scanner.said(*one.words))
    things.lines = [one for one in real if one.words or one.lot]
    context.maker.left += [
        one.text() for thing in real if not thing.words and not thing.lot for one in thing.amounts
    ]
    if not things.lines:
        context.maker.left += [money_text(one.value) for one, _ in things.money]
        return []
    return _likeliest(context)


def _likeliest(context: Context) -> list[tuple[str, Body]]:
    from ledger.saying import going_out

    things = context.things
    said = _said(context)
    jars = any(one.sort == "jar" for thing in things.lines for one in thing.amounts)
    sorts = [place.sort for _, place in context.phrases("from", "at", "in")]
    options = ["harvested", "bought", "eaten", "received"]
    if things.money or "shop" in sorts or things.lines[0].extra:
        options = ["bought", "price_seen", "given_away"]
    elif jars or any(one.lot for one in things.lines) or "people" in things.facts:
        options = ["eaten", "counted", "given_away"]
    elif "person" in sorts:
        options = ["received", "bought"]
    answer = context.maker.ask("kind", "kind", f"{said}: {_word(options[0])}?", options)
    kind = _kind_of(answer) or options[0]
    context.verb = type(context.verb)(kind)
    table: dict[str, Make] = {
        "harvested": harvested, "bought": bought, "eaten": going_out.eaten, "received": received,
        "counted": going_out.counted, "given_away": going_out.given_away, "price_seen": price_seen,
        "discarded": going_out.discarded, "planted": planted,
    }  # fmt: skip
    return table.get(kind, harvested)(context)


def _kind_of(answer: str | None) -> str:
    """Return the kind that an answer names: by its own word or by a verb of any language."""
    if answer is None:
        return ""
    from ledger.saying.language import CODES, language
    from ledger.saying.tokens import tokens_of

    said = answer.strip().lower().replace(" ", "_")
    known = ("harvested", "bought", "eaten", "received", "counted", "given_away", "price_seen",
             "discarded", "planted")  # fmt: skip
    if said in known:
        return said
    for code in CODES:
        found = language(code).find("verb", tokens_of(answer), 0)
        if found is not None and found[0].kind in known:
            return str(found[0].kind)
    return "received" if "given" in said or "gift" in said else ""


def _word(kind: str) -> str:
    return {"harvested": "picked", "eaten": "eaten", "received": "a gift"}.get(kind, kind)
