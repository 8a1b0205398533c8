"""A reading in plain words, so that a misreading is seen: every line, and what is left open."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from ledger.kinds import KINDS
from ledger.messages import Choice, Day, Sentence, fixed, joined, measured, sentence, speaker
from ledger.messages.units import amount
from ledger.messages.words import key_of
from ledger.saying.asking import HERE, Draft, Question, Reading

__all__ = ["jars_said", "kinds_named", "told", "told_entry"]

_LINES = {
    "lines": None,
    "ate": None,
    "made": "echo-line-made",
    "used": "echo-line-from",
    "left": "echo-line-left",
}
"""Lists of lines, and how a line of each begins."""

Saying = Callable[[Any], str]


def _names(id_: str) -> Saying:
    return lambda said: sentence(id_, what=str(said))


def _counts(id_: str) -> Saying:
    return lambda many: sentence(id_, n=many)


def _amounts(id_: str) -> Saying:
    return lambda said: sentence(id_, what=measured(str(said)))


def _aside(word: Any) -> Sentence:
    return sentence("echo-aside", what=fixed(str(word)))


def _people(said: Any) -> str:
    if isinstance(said, (int, float)):
        return sentence("echo-people", n=said)
    return ", ".join(said) if isinstance(said, list) else str(said)


_WITH: Mapping[str, Saying] = {
    "shop": _names("echo-at"),
    "from": _names("echo-of"),
    "to": _names("echo-to"),
    "bed": _names("echo-in"),
    "paid": _amounts("echo-for"),
    "lot": lambda lot: sentence("echo-out-of", what=_lot(lot)),
    "kept": lambda place: sentence("echo-kept", place=Choice(place)),
    "why": _aside,
    "how": _aside,
    "people": _people,
    "guests": _counts("echo-guests"),
    "method": _aside,
    "minutes": _counts("echo-minutes"),
    "psi": _amounts("echo-at"),
    "got": _amounts("echo-for"),
    "price": lambda said: measured(str(said)),
    "note": _names("echo-note"),
    "value": _amounts("echo-worth"),
    "variety": _names("echo-aside"),
    "unsealed": _counts("echo-unsealed"),
    "row": _amounts("echo-row"),
    "plants": _counts("echo-plants"),
}


def told(reading: Reading) -> Iterator[str]:
    """Yield the reading, a line each: entries, their lines, questions, what is left over."""
    if not reading.entries:
        yield sentence("echo-nothing")
    for entry in reading.entries:
        yield from told_entry(entry)
    for one in reading.questions:
        yield _asked(one)
    for said in reading.left_over:
        yield sentence("echo-left-over", text=said)


def _asked(one: Question) -> str:
    text: str = sentence("echo-open" if one.waits else "echo-asked", text=one.text)
    if not one.options:
        return text
    return joined(" ", [text, sentence("echo-options", options=joined(" / ", one.options))])


def told_entry(entry: Draft) -> Iterator[str]:
    """Yield an entry as it was understood: the day and kind, then each line."""
    body = entry.body
    head = body.get("makes") or body.get("crop") or body.get("skill") or ""
    said: list[str] = [_done(entry.kind)]
    if head:
        said.append(str(head))
    elif "item" in body:
        said += [_amount(body["amount"])] if body.get("amount") else []
        said.append(body["item"])
    what = joined(", ", [joined(" ", said), *_more(body)])
    yield sentence("echo-entry", day=Day(entry.on), what=what)
    for name, lead in _LINES.items():
        for line in body.get(name) or ():
            text = _line(line)
            yield _below(sentence(lead, line=text) if lead else text)
    if isinstance(body.get("seed"), dict):
        yield _below(sentence("echo-line-seed", line=_line(body["seed"])))
    for one in body.get("other") or ():
        paid = measured(f"{one['paid']}")
        yield _below(sentence("echo-line-other", words=one["words"], paid=paid))


def _amount(said: Any) -> str:
    """Return an amount with its units in the language; a fraction as it was written."""
    text = str(said)
    return measured(text) if "/" in text else amount(text)


def _below(text: str) -> str:
    return joined("", ["  ", text])


def _line(line: dict[str, Any]) -> str:
    if line.get("jars"):
        said: str = jars_said(line["jars"], line.get("jar") or "jar")
    else:
        named = [line["item"]] if line.get("item") else []
        said = joined(" ", [_amount(line.get("amount", "?")), *named])
    return joined(", ", [said, *_more(line)])


def kinds_named(kinds: Iterable[str]) -> list[str]:
    """Return kinds of entries as likely answers: what is answered is the kind's own name."""
    said = [(one, _done(one)) for one in kinds]
    return [Sentence(one, done.says) if isinstance(done, Sentence) else one for one, done in said]


def _done(kind: str) -> str:
    """Return what was done by an entry of a kind: its title, in any language that has it."""
    id_ = f"kind-{key_of(kind)}"
    return sentence(id_) if speaker("en").has(id_) else KINDS[kind].title.lower()


def jars_said(n: int | str, jar: str) -> Sentence:
    """Return a count of jars in words: ``3 quart jars``, ``1 500 ml jar``."""
    size = jar.removesuffix(" jar")
    return sentence("echo-jars", n=n, size=Choice(size), jar=measured(size))


def _lot(lot: str) -> str:
    """Return a lot for the eye: a label as it stands, an id by its beginning."""
    if lot.startswith(HERE):
        return sentence("echo-picked-here")
    entry, _, n = lot.partition(":")
    return f"{entry[:8]}:{n}" if len(entry) == 36 else lot


def _more(part: dict[str, Any]) -> list[str]:
    """Return what else is said of an entry or a line, one after another."""
    out = [say(part[name]) for name, say in _WITH.items() if part.get(name)]
    for one in part.get("work") or ():
        out.append(sentence("echo-work", person=fixed(one["person"]), n=one["minutes"]))
    for one in part.get("acid") or ():
        said = {"acid": fixed(one["acid"]), "each": fixed(one.get("per", "jar"))}
        out.append(sentence("echo-acid", amount=_amount(one["amount"]), **said))
    return out
