"""Answers to open questions: each mends every entry that waited for it."""

from __future__ import annotations

import re
from typing import Any

from ledger.amounts import unit_factor
from ledger.door import Entry
from ledger.door.money import in_own_money
from ledger.errors import InputError
from ledger.messages import Message, Typed, joined, sentence
from ledger.saying.known import Known
from ledger.saying.language import language
from ledger.saying.numbers import figure, number_at
from ledger.saying.phrase import jar_named
from ledger.saying.plain import typed
from ledger.saying.prices import sums
from ledger.saying.quantities import quantity_at
from ledger.saying.reading import read
from ledger.saying.tokens import tokens_of
from ledger.saying.waiting import LISTS, NOT_KNOWN, Waiting

__all__ = ["answer"]

_ALL = ("all", "all of it", "everything", "yes", "alles", "alle", "ja")
_NONE = ("none", "nothing", "no", "nichts", "keine", "keins", "nein")
_OUT = ("out", "leave it out", "raus", "weg", "weglassen")
_NO = ("-", "?", "don't know", "unknown", "not known", "weiß nicht", "unbekannt", "skip")


def answer(one: Waiting, text: str, known: Known) -> list[Entry]:
    """Return the entries that write an answer down.

    Raises
    ------
    InputError
        The answer is none: what would be right.
    """
    said = text.strip()
    if said.lower() in _NO:
        return [_mended(entry, {"note": _noted(entry[3])}) for entry in one.entries]
    if one.code == "weight":
        return [_weight(one, said, known)]
    if one.code == "jar":
        return _jars(one, said, known)
    if one.code == "opening":
        return _home_made(one, said, known)
    if one.code == "other":
        return _belongs(one, said, known)
    (entry,) = one.entries
    body = entry[3]
    if one.code == "price":
        value = sums(in_own_money(said, "answer", known.catalogue))
        if len(value) != 1:
            raise InputError("answer", Message.of("refusal-not-a-price", text=Typed(said)))
        lines = [dict(line) for line in body["lines"]]
        lines[one.line]["paid"] = f"{float(value[0]):.2f}"
        return [_mended(entry, {"lines": lines})]
    if one.code == "who":
        work = [dict(part) for part in body["work"]]
        work[one.line]["person"] = said
        return [_mended(entry, {"work": work})]
    return [_mended(entry, {"used": _used(said, known)})]


def _home_made(one: Waiting, said: str, known: Known) -> list[Entry]:
    """Say of every early count which of its items were grown or made at home."""
    there = {
        known.catalogue.key(line["item"]) for _, _, _, body in one.entries for line in body["lines"]
    }
    names = [part.strip() for part in re.split(r",|;| and | und ", said) if part.strip()]
    chosen = {known.catalogue.key(known.item(part) or part) for part in names}
    if said.lower() in _ALL:
        chosen = there
    elif said.lower() in _NONE:
        chosen = set()
    elif chosen - there:
        unknown = ", ".join(
            part for part in names if known.catalogue.key(known.item(part) or part) not in there
        )
        raise InputError("answer", Message.of("refusal-not-counted-then", name=unknown))
    out = []
    for entry in one.entries:
        items = [line["item"] for line in entry[3]["lines"]]
        own = [item for item in items if known.catalogue.key(item) in chosen]
        out.append(_mended(entry, {"home_made": own}))
    return out


def _belongs(one: Waiting, said: str, known: Known) -> list[Entry]:
    """Keep other spending as such, leave it out, or make a line of what it is."""
    low = said.lower()
    out = []
    for entry in {entry[1]: entry for entry in one.entries}.values():
        other, lines = [], [dict(line) for line in entry[3]["lines"]]
        for part in entry[3]["other"]:
            if part["words"].casefold() != one.item.casefold():
                other.append(dict(part))
            elif low in _NONE:
                other.append({**part, "belongs": True})
            elif low not in _OUT:
                lines.append(_article(said, part["paid"], known))
        out.append(_mended(entry, {"lines": lines, "other": other or None}))
    return out


def _article(said: str, paid: str, known: Known) -> dict[str, Any]:
    """Return what other spending was, as a line of the purchase: ``1 lb rice``."""
    reading = read(f"bought {said}", known)
    entry = reading.entries[0] if len(reading.entries) == 1 else None
    lines = entry.body.get("lines", []) if entry and entry.kind == "bought" else []
    asked = [one.text for one in reading.questions if not one.waits and one.code != "new"]
    if len(lines) != 1 or asked or reading.left_over or not lines[0].get("amount"):
        wrong = joined("; ", asked) or sentence("refusal-no-amount-of-one", text=Typed(said))
        raise InputError("answer", wrong, Message.of("refusal-like-rice"))
    return {"item": lines[0]["item"], "amount": lines[0]["amount"], "paid": paid}


def _used(said: str, known: Known) -> list[dict[str, Any]]:
    reading = read(f"used {said}", known)
    blocking = [one.text for one in reading.questions if not one.waits] + reading.left_over
    if blocking or len(reading.entries) != 1:
        what = joined("; ", blocking) or sentence("refusal-nothing-went-in", text=Typed(said))
        raise InputError("answer", what, Message.of("refusal-like-made-of"))
    return [dict(line) for line in reading.entries[0].body["ate"]]


def _weight(one: Waiting, said: str, known: Known) -> Entry:
    """Describe what a container weighs: ``18 lb``, ``8 kg``, or grams."""
    tokens = tokens_of(said)
    words = language(known.language if known.language in ("en", "de") else "en")
    amount = quantity_at(words, tokens, 0) if tokens else None
    bare = number_at(words, tokens, 0) if tokens else None
    grams = None
    if amount is not None and amount.unit is not None and not amount.doubt:
        factor = unit_factor(amount.unit)
        grams = amount.many * factor[1] / 1000 if factor and factor[0] == "mass" else None
    elif bare is not None and bare.length == len(tokens):
        grams = bare.value
    if not grams:
        raise InputError(
            "answer",
            Message.of("refusal-not-a-weight", text=Typed(said)),
            Message.of("refusal-like-pounds"),
        )
    facts = known.catalogue.facts(one.item)
    sort = (facts.sort if facts else None) or "food"
    body = {"item": one.item, "sort": sort, "g_per": {one.unit: figure(_rounded(grams))}}
    return Entry("item_described", body)


def _rounded(grams: Any) -> Any:
    return round(grams, 3)


def _jars(one: Waiting, said: str, known: Known) -> list[Entry]:
    """Say which size the jars were, in every entry that left it open."""
    jar = jar_named(said, known.language)
    if jar is None:
        raise InputError("answer", Message.of("refusal-no-jar-size", text=Typed(said)))
    out = []
    for entry in one.entries:
        kind, _, _, body = entry
        lines = []
        for line in body[LISTS[kind]]:
            new = dict(line)
            if line.get("per") == "jar" and known.catalogue.key(
                line["item"]
            ) == known.catalogue.key(one.item):
                many = str(line["amount"]).split(" ")[0]
                new["amount"] = f"{many} {jar}{'' if many == '1' else 's'}"
            lines.append(new)
        out.append(_mended(entry, {LISTS[kind]: lines}))
    return out


def _noted(body: dict[str, Any]) -> str:
    return "; ".join([*([body["note"]] if body.get("note") else []), NOT_KNOWN])


def _mended(entry: tuple[str, str, str, dict[str, Any]], new: dict[str, Any]) -> Entry:
    """Return a correction of an entry: its body as typed, with what is new."""
    kind, id_, on, body = entry
    return Entry(kind, typed({**body, **new}), on=on, replaces=id_)
