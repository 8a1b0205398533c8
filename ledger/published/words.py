"""Figures and names as people read them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from functools import lru_cache
from typing import Any

from ledger.kinds.telling import jar_word
from ledger.messages import Choice, Message, Names, Row, Sentence, measured, sentence
from ledger.reference.planting import Source
from ledger.reference.schedules import Schedule, products

__all__ = [
    "acid_text",
    "band",
    "cite",
    "cited",
    "figure",
    "fixed",
    "inches",
    "jar_word",
    "label",
    "labels",
    "listed",
    "number",
    "pack_word",
    "plain",
    "says",
    "size_word",
    "sizes_word",
    "without",
]

_EIGHTHS = {1: "1/8", 2: "1/4", 3: "3/8", 4: "1/2", 5: "5/8", 6: "3/4", 7: "7/8"}


def number(value: Fraction | float) -> str:
    """Return a number without needless digits: ``25``, ``12.5``."""
    return f"{float(value):.2f}".rstrip("0").rstrip(".")


def figure(value: Fraction | float) -> int | float:
    """Return a number as a message is given it: to two places, and whole where it is."""
    shown = round(float(value), 2)
    return int(shown) if shown.is_integer() else shown


@lru_cache(1024)
def inches(value: Fraction) -> str:
    """Return a length as cooks measure it: ``1 1/4 in``."""
    whole, rest = divmod(value * 8, 8)
    if rest.denominator != 1 or (not whole and not rest):
        return sentence("published-inches", x=measured(number(value)))
    parts = ([str(int(whole))] if whole else []) + ([_EIGHTHS[int(rest)]] if rest else [])
    return sentence("published-inches", x=measured(" ".join(parts)))


def plain(value: Fraction | None) -> float | None:
    """Return a figure for an answer; what is not known stays None."""
    if value is None:
        return None
    return int(value) if value.denominator == 1 else float(value)


@lru_cache(256)
def band(low_ft: int, high_ft: int | None) -> str:
    """Return a band of altitude as tables head it: ``1,001 to 3,000 ft``."""
    if high_ft is None:
        return sentence("published-band-above", n=low_ft - 1)
    return sentence("published-band", n=low_ft, n2=high_ft)


def label(product: str) -> str:
    """Return the readable name of a product."""
    return products()[product].label


def labels(keys: Iterable[str], joint: str = "or") -> str:
    """Return the readable names of products as a list in a sentence, each in quotation marks."""
    return listed((_quoted(label(key)) for key in keys), joint)


@lru_cache(512)
def _quoted(name: str) -> str:
    return sentence("published-quoted", name=name)


def cite(source: Source, part: str = "") -> str:
    """Return a source in a line: title, place in it, publisher, year."""
    where = f", {part}" if part and part not in source.title else ""
    return f"{source.title}{where}; {source.publisher}, {source.year}"


def cited(where: str, opens: str = " (", closes: str = ")") -> Sentence:
    """Return a document as it stands within a sentence; `without` leaves it out again.

    It is the parameter ``source`` of a message, with the space before it.
    """
    return Sentence(f"{opens}{where}{closes}", Row((opens, where, closes), ""))


def acid_text(schedule: Schedule) -> str | None:
    """Return what acid a jar takes: any one of those listed; None where none is asked for."""
    return _acids(schedule.acids) if schedule.acids else None


@lru_cache(64)
def _acids(acids: tuple[tuple[str, Fraction, str], ...]) -> str:
    *first, last = (_acid(*one) for one in acids)
    for one in reversed(first):
        last = sentence("published-acid-or", one=one, other=last)
    return last


def _acid(acid: str, amount: Fraction, unit: str) -> str:
    x = measured(f"{_part(amount)} {unit}")
    if acid == "lemon juice":
        return sentence("published-acid-lemon", x=x)
    if acid == "vinegar 5%":
        return sentence("published-acid-vinegar", x=x)
    return sentence("published-acid-citric", x=x)


def _part(value: Fraction) -> str:
    return str(value) if value.denominator in (1, 2, 4, 8) else number(value)


def listed(words: Iterable[str], joint: str = "and") -> str:
    """Return words as a list in a sentence."""
    several = tuple(words)
    if len(several) < 2:
        return several[0] if several else ""
    if joint == "or":
        return sentence("published-any-of", names=Names(several))
    return sentence("published-all-of", names=Names(several))


@lru_cache(256)
def fixed(word: str) -> str:
    """Return a fixed word of the ledger, ``boiling water``, so that it can be said in any language."""
    from ledger.messages import speaker

    id_ = f"word-{word.replace(' ', '-')}"
    return sentence(id_) if word and speaker("en").has(id_) else word


def pack_word(pack: str) -> str:
    """Return a style of pack within a sentence: ``hot``."""
    return sentence("published-pack", pack=Choice(pack))


_SIZES = {"1.5-pint": "pint-and-half"}


@lru_cache(64)
def size_word(size: str) -> str:
    """Return a printed size of jar: ``pint``."""
    return sentence("published-size", size=Choice(_SIZES.get(size, size)))


def sizes_word(size: str, n: float | None = None) -> str:
    """Return jars of a printed size: ``pints``, or ``9 pints``."""
    which = Choice(_SIZES.get(size, size))
    if n is None:
        return sentence("published-sizes", size=which)
    return sentence("published-sizes-counted", n=figure(n), size=which)


def says(text: object, id_: str) -> bool:
    """Return whether a text says a message, by itself or anywhere within."""
    return any(one.id == id_ for one in _messages(getattr(text, "says", None)))


def _messages(said: Any) -> Iterable[Message]:
    if isinstance(said, Message):
        yield said
        for one in said.parameters.values():
            yield from _messages(one)
    elif isinstance(said, (Row, Names)):
        for one in said.items:
            yield from _messages(one)


def without(text: str, *names: str) -> str:
    """Return a text without some of its parts.

    Parameters
    ----------
    text : str
        A `Sentence`; any other text comes back as it is.
    *names : str
        Parameters of messages, such as ``source``, and ids of whole sentences.
    """
    if not isinstance(text, Sentence):
        return text
    from ledger.messages import speaker

    said = _left(text.says, lambda name: name in names)
    return text if said is text.says else Sentence(speaker("en").value(said), said)


def _left(said: Any, out: Callable[[str], bool]) -> Any:
    """Return what a text says without those parts; the same object where it has none of them."""
    if isinstance(said, Message):
        if out(said.id):
            return None
        of = said.parameters
        new = {
            name: None if out(name) and one is not None else _left(one, out)
            for name, one in of.items()
        }
        return said if all(new[name] is of[name] for name in of) else Message(said.id, new)
    if isinstance(said, Row):
        items = tuple(_left(one, out) for one in said.items)
        if all(a is b for a, b in zip(items, said.items, strict=True)):
            return said
        left = tuple(one for one in items if one is not None)
        return Row(left, said.between, said.opens) if left else None
    return said
