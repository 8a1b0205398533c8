"""Open questions of a book: what was written down though something was not known, and its answer.

They are found in the book itself: a price that was not said, a bucket of unknown weight, what went
into a batch, who worked. An answer mends every entry that it touches.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from ledger.amounts import unit_factor
from ledger.door import Entry
from ledger.errors import InputError
from ledger.saying.known import Known
from ledger.saying.language import language
from ledger.saying.numbers import figure, number_at
from ledger.saying.prices import sums
from ledger.saying.quantities import quantity_at
from ledger.saying.tokens import tokens_of

__all__ = ["Waiting", "answer", "waiting"]

NOT_KNOWN = "not known"
"""In the note of an entry: nobody knows, so it is asked no more."""
_LISTS = {
    "harvested": "lines", "bought": "lines", "received": "lines", "eaten": "ate",
    "given_away": "lines", "discarded": "lines", "counted": "lines", "put_up": "used",
}  # fmt: skip
_STORED = ("n", "whole", "basis", "measure", "per", "times", "trimmed_whole")
_NO = ("-", "?", "don't know", "unknown", "not known", "weiß nicht", "unbekannt", "skip")


@dataclass(frozen=True)
class Waiting:
    """One open question.

    Attributes
    ----------
    code : str
        ``weight``, ``jar``, ``price``, ``used`` or ``who``.
    text : str
    entries : list of (str, str, str, dict)
        Kind, id, day and body of the entries that wait for it.
    item, unit : str
    line : int
    """

    code: str
    text: str
    entries: list[tuple[str, str, str, dict[str, Any]]] = field(default_factory=list)
    item: str = ""
    unit: str = ""
    line: int = 0


def waiting(known: Known) -> list[Waiting]:
    """Return the open questions of a book, the newest first; each is asked once."""
    found = [*_weights(known), *_prices(known), *_batches(known), *_workers(known)]
    return sorted(found, key=lambda one: max(day for _, _, day, _ in one.entries), reverse=True)


def _weights(known: Known) -> Iterator[Waiting]:
    """Find containers whose content nobody said, by item and container."""
    asked = {unit for code in ("en", "de") for unit in language(code).data["unknown"]} | {"jar"}
    found: dict[tuple[str, str], Waiting] = {}
    for kind, name in _LISTS.items():
        for id_, on, body, _ in known.rows(kind):
            for line in body.get(name) or ():
                unit = str(line.get("per") or "")
                if unit not in asked or known.weighs(line["item"], unit) or _is_closed(body):
                    continue
                item = known.catalogue.name(line["item"])
                text = (
                    f"What does a {unit} of {item} weigh?"
                    if unit != "jar"
                    else f"How big is a jar of {item}?"
                )
                code = "jar" if unit == "jar" else "weight"
                one = found.setdefault(
                    (known.catalogue.key(item), unit), Waiting(code, text, [], item, unit)
                )
                one.entries.append((kind, id_, on, body))
    yield from found.values()


def _prices(known: Known) -> Iterator[Waiting]:
    for id_, on, body, _ in known.rows("bought"):
        for n, line in enumerate(body["lines"]):
            if line.get("paid") is None and not _is_closed(body):
                text = f"What did {line['amount']} {line['item']} cost, bought on {on}?"
                yield Waiting("price", text, [("bought", id_, on, body)], line["item"], "", n)


def _batches(known: Known) -> Iterator[Waiting]:
    for id_, on, body, _ in known.rows("put_up"):
        if not body["used"] and not _is_closed(body):
            text = f"What went into the {body['makes']} of {on}?"
            yield Waiting("used", text, [("put_up", id_, on, body)], body["makes"])


def _workers(known: Known) -> Iterator[Waiting]:
    for kind in ("harvested", "planted", "put_up"):
        for id_, on, body, _ in known.rows(kind):
            for n, one in enumerate(body.get("work") or ()):
                if one["person"] == "household" and not _is_closed(body):
                    text = f"Who worked for {one['minutes']} minutes on {on}?"
                    yield Waiting("who", text, [(kind, id_, on, body)], line=n)


def _is_closed(body: dict[str, Any]) -> bool:
    return NOT_KNOWN in (body.get("note") or "")


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
    (entry,) = one.entries
    body = entry[3]
    if one.code == "price":
        value = sums(said)
        if len(value) != 1:
            raise InputError("answer", f"{said!r} is not a price", "Write it like 7.90")
        lines = [dict(line) for line in body["lines"]]
        lines[one.line]["paid"] = f"{float(value[0]):.2f}"
        return [_mended(entry, {"lines": lines})]
    if one.code == "who":
        work = [dict(part) for part in body["work"]]
        work[one.line]["person"] = said
        return [_mended(entry, {"work": work})]
    return [_mended(entry, {"used": _used(said, known)})]


def _used(said: str, known: Known) -> list[dict[str, Any]]:
    from ledger.saying.reading import read

    reading = read(f"used {said}", known)
    blocking = [one.text for one in reading.questions if not one.waits] + reading.left_over
    if blocking or len(reading.entries) != 1:
        what = "; ".join(blocking) or f"{said!r} names nothing that went in"
        raise InputError("answer", what, "Write it like 16 lb plums and 3 lb sugar")
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
        raise InputError("answer", f"{said!r} is not a weight", "Write it like 18 lb or 8 kg")
    facts = known.catalogue.facts(one.item)
    sort = (facts.sort if facts else None) or "food"
    body = {"item": one.item, "sort": sort, "g_per": {one.unit: figure(_rounded(grams))}}
    return Entry("item_described", body)


def _rounded(grams: Any) -> Any:
    return round(grams, 3)


def _jars(one: Waiting, said: str, known: Known) -> list[Entry]:
    """Say which size the jars were, in every entry that left it open."""
    from ledger.amounts import canonical_jar

    jar = canonical_jar(said) or canonical_jar(f"{said} jar")
    if jar is None:
        raise InputError(
            "answer", f"{said!r} is not a size of jar", "Write it like pint jar or 500 ml jar"
        )
    out = []
    for entry in one.entries:
        kind, _, _, body = entry
        lines = []
        for line in body[_LISTS[kind]]:
            new = dict(line)
            if line.get("per") == "jar" and known.catalogue.key(
                line["item"]
            ) == known.catalogue.key(one.item):
                many = str(line["amount"]).split(" ")[0]
                new["amount"] = f"{many} {jar}{'' if many == '1' else 's'}"
            lines.append(new)
        out.append(_mended(entry, {_LISTS[kind]: lines}))
    return out


def _noted(body: dict[str, Any]) -> str:
    return "; ".join([*([body["note"]] if body.get("note") else []), NOT_KNOWN])


def _mended(entry: tuple[str, str, str, dict[str, Any]], new: dict[str, Any]) -> Entry:
    """Return a correction of an entry: its body as typed, with what is new."""
    kind, id_, on, body = entry
    return Entry(kind, typed({**body, **new}), on=on, replaces=id_)


def typed(body: dict[str, Any]) -> dict[str, Any]:
    """Return a stored body without what the door adds."""
    out: dict[str, Any] = {}
    for name, value in body.items():
        if name in _STORED:
            continue
        if isinstance(value, list):
            out[name] = [
                {k: v for k, v in one.items() if k not in _STORED} if isinstance(one, dict) else one
                for one in value
            ]
        elif isinstance(value, dict) and name == "seed":
            out[name] = {k: v for k, v in value.items() if k not in _STORED}
        else:
            out[name] = value
    return out
