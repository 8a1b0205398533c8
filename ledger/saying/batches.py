"""Batches as they are said: what was made in which jars, out of what, by which method."""

from __future__ import annotations

from ledger.kinds.methods import CANNING
from ledger.messages import Names, fixed, joined, sentence
from ledger.published import batch_as_typed, caution_before
from ledger.published.danger import oil_named
from ledger.published.equipment import (
    closes_jars,
    is_steam,
    multi_cooker_named,
    tool_named,
    untested,
)
from ledger.published.words import says
from ledger.saying.again import again_batch
from ledger.saying.drafting import Body, Context
from ledger.saying.making import Line
from ledger.saying.numbers import figure
from ledger.saying.parting import shared_by_weight, split, went_in
from ledger.saying.put_in_jars import asked_jars, kept, made_of, unsealed
from ledger.saying.shared import nothing
from ledger.saying.things import Thing
from ledger.saying.went_in import came_out, itself, used_of, used_phrases

__all__ = ["put_up"]

_METHODS_ASKED = ["boiling water", "pressure"]


def put_up(context: Context) -> list[tuple[str, Body]]:
    """Make a batch of each thing made; what stands behind `from` went in."""
    things = context.things
    used_phrases(context)
    came_out(context)
    _done_with(context)
    method = _method(context)
    if "again" in things.facts:
        again = again_batch(context)
        if again is not None:
            return again
    batches, used = split(context, things.lines, method)
    if not batches:
        return nothing(context)
    out: list[tuple[str, Body]] = []
    for made in batches:
        context.maker.part = len(out)
        body = _batch(context, made, used, method)
        if body is not None:
            out.append(("put_up", body))
            used = []
    if len(out) > 1 and shared_by_weight(out):
        makes = {body["makes"] for _, body in out}
        maker = context.maker
        maker.questions = [
            one for one in maker.questions if one.code != "used" or one.about not in makes
        ]
        return out
    if len(out) > 1 and any(one.mode == "used" for one in things.lines):
        names = Names(tuple(body["makes"] for _, body in out))
        context.maker.ask("used", "used", sentence("asked-used-of-which", names=names))
    return out


def _done_with(context: Context) -> None:
    """Keep a verb that says what closed the jars in the note; what was dried in an oven says so."""
    things, spoken = context.things, context.clause.verb
    if spoken is None:
        return
    said = context.scanner.said(spoken.start, spoken.end)
    way = context.words.find("process", context.scanner.tokens, spoken.start)
    if way is not None and way[0] in ("hot", "raw"):
        things.facts.setdefault("pack", way[0])
    if tool_named(said) is not None:
        things.notes.insert(0, said)
    elif context.verb.method == "dry":
        dried = [(one, f"{said} {one}") for one in things.notes]
        things.notes = [
            long if tool_named(one) and not tool_named(long) else one for one, long in dried
        ]


def _method(context: Context) -> str | None:
    """Return the method said, by its own words before the verb's; None: to be asked."""
    things = context.things
    said = things.facts.get("method") or context.verb.method
    place = next((one for _, one in context.phrases("in", "to", "on") if one.sort == "kept"), None)
    if said is None and place is not None:
        said = {"freezer": "freeze", "cellar": "cellar"}.get(place.text)
    if said is None and "psi" in things.facts:
        said = "pressure"
    main = [thing for thing in things.lines if thing.mode == "main"]
    amounts = [one for thing in main for one in thing.amounts]
    jars = any(one.sort == "jar" for one in amounts)
    if any(one.jar() for one in amounts) and closes_jars(_noted(context)):
        jars = True  # pints that were turned over or sealed with wax
    if said == "cook" and jars and things.facts.get("method") is None and place is None:
        return None
    if said is None and context.verb.how != "jars" and not jars:
        said = _described(context, main)
    return said


def _described(context: Context, main: list[Thing]) -> str | None:
    """Return the method that the name of a thing says: ``vacuum sealed 4 lb frozen beans``."""
    said = None
    for one in main:
        verb = one.words and context.words.find("verb", context.scanner.tokens, one.words[0])
        if one.words is None or not verb or verb[0].method not in ("freeze", "dry"):
            continue
        if context.known.item(context.scanner.said(*one.words)) is None and verb[1] < (
            one.words[1] - one.words[0]
        ):
            said, one.words = verb[0].method, (one.words[0] + verb[1], one.words[1])
    return said


def _noted(context: Context) -> str:
    return " ; ".join((*context.things.notes, *context.maker.notes))


def _batch(
    context: Context, made: list[Thing], used: list[Thing], method: str | None
) -> Body | None:
    maker, things = context.maker, context.things
    is_canned = method in CANNING or method is None
    lines = maker.lines(_filled(context, made), "made")
    if not lines:
        return None
    name = lines[0].item or ""
    body: Body = {"makes": name}
    said = lines[0].quantity
    if method is None and maker.part and said is not None and said.jar() is None:
        method, is_canned = "cook", False  # what came out beside the jars
    if method is not None:
        body["method"] = method
    else:
        method = _ask_method(context, name, made)
        if method is not None:
            body["method"] = method
            is_canned = method in CANNING
    is_asked = is_canned and _lacks_jars(context, lines, method)
    if is_asked:
        used = [*(one for one in made if went_in(one)), *used]
    used_body = used_of(context, used, body) or itself(context, lines, method)
    body["used"] = used_body
    if not used_body:
        text = sentence("asked-used", name=name)
        answer = maker.ask("used", name, text, _as_it_is(lines), waits=True)
        body["used"] = _lines_of(context, answer)
    entries: list[Body] = asked_jars(context, name) if is_asked else []
    for line in lines if not is_asked else ():
        entries += made_of(context, line, method, is_canned=is_canned)
    kept(context, entries, method)
    unsealed(context, entries)
    if "labels" in things.facts and entries:
        entries[0]["labels"] = things.facts["labels"]
    body["made"] = entries
    _process(context, body)
    context.work(body)
    return body


def _lacks_jars(context: Context, lines: list[Line], method: str | None) -> bool:
    """Return whether something was canned and nobody said in which jars: ``canned 14 lb beans``."""
    said = [one.quantity for one in lines if one.quantity is not None]
    if not said or (method not in CANNING and context.verb.how != "jars"):
        return False
    return not any(one.sort == "jar" or one.jar() not in (None, "gallon jar") for one in said)


def _ask_method(context: Context, name: str, made: list[Thing]) -> str | None:
    """Ask how it was put up, the caution first where no canner closed the jars."""
    before = [one for one in context.known.methods(name) if one in _METHODS_ASKED]
    ways = list(dict.fromkeys([*before, *_METHODS_ASKED]))
    vacuum = tool_named(_noted(context))
    if vacuum is not None and says(vacuum, "finding-vacuum") and context.verb.how != "jars":
        jars = any(one.jar() for thing in made for one in thing.amounts)
        ways = [*(ways if jars else ()), "freeze", "dry"]  # bags go into the freezer
    options = list(map(fixed, ways))
    text: str = sentence("asked-method", name=name, ways=Names(tuple(options)))
    caution = None if ways[0] == "freeze" else _closed_otherwise(context, name, made)
    if caution is not None:  # an oven, a steamer: neither way is meant by a yes to everything
        text, options = joined(" ", (caution, text)) if caution else text, []
    return _method_of(context, context.maker.ask("method", name, text, options))


def _closed_otherwise(context: Context, name: str, made: list[Thing]) -> str | None:
    """Return the caution on jars closed by no canner or under oil, "" where none is due; None: neither."""
    note = _noted(context)
    jars = [{"jar": "jar"} for thing in made for one in thing.amounts if one.jar()]
    said = {"makes": name, "method": _METHODS_ASKED[0], "note": note, "made": jars}
    done = batch_as_typed(said)
    named = tool_named(note) or multi_cooker_named(note) or oil_named(note)
    if done is None or not (named or is_steam(done)):
        return None
    return caution_before(done) or untested(done) or ""


def _method_of(context: Context, answer: str | None) -> str | None:
    """Return the method that an answer names."""
    from ledger.kinds.methods import METHODS
    from ledger.saying.tokens import tokens_of

    said = (answer or "").strip().lower()
    found = context.words.find("process", tokens_of(said), 0) if said else None
    near = [one for one in METHODS if said and one.startswith(said)]
    return next(iter(near), None) or (found[0] if found and found[0] in METHODS else None)


def _lines_of(context: Context, answer: str | None) -> list[Body]:
    """Return an answer (``16 lb plums and 3 lb sugar``) as lines."""
    if not answer or answer.strip().lower() in ("nothing", "nichts", "-"):
        return []
    said = context.read(f"used {answer}").entries
    return [dict(one) for one in said[0].body.get("ate", ())] if said else []


def _as_it_is(lines: list[Line]) -> list[str]:
    """Return what is frozen or dried as the likeliest thing that went in."""
    return [
        f"{one.quantity.text()} {one.item}"
        for one in lines[:1]
        if one.quantity and one.quantity.sort == "measure"
    ]


def _filled(context: Context, made: list[Thing]) -> list[Thing]:
    """Give every size the name that was said with one of them."""
    words = next((one.words for one in made if one.words is not None), None)
    for one in made:
        one.words = one.words or words
    full = [one for one in made if one.amounts]
    for one in made if full else ():
        named = context.maker.names.find(context.scanner.said(*one.words)) if one.words else None
        if not one.amounts and named is not None:
            context.maker.left += [part for part in (named.tail, named.lead) if part]
    return full or made


def _process(context: Context, body: Body) -> None:
    """Put minutes, pressure, headspace and the like into a batch."""
    things = context.things
    plain = [many for many, is_work in things.times if not is_work]
    if plain:
        body["minutes"] = figure(plain[0])
        things.times.remove((plain[0], False))
    for name in ("psi", "headspace", "pack", "gauge", "altitude"):
        if name in things.facts:
            body[name] = things.facts[name]
