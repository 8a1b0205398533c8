"""An amount in words, for the words of every command: ``a dozen and a half eggs`` is ``18 eggs``."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice

from ledger.amounts import canonical_jar
from ledger.kinds.methods import METHODS
from ledger.saying.language import CODES, Language, language
from ledger.saying.measures import length_text, time_at
from ledger.saying.numbers import Number, figure, number_at
from ledger.saying.quantities import Quantity, quantity_at
from ledger.saying.tokens import tokens_of

__all__ = ["heard", "in_figures", "jar_named", "length", "method", "minutes", "span", "split_price"]

_PRICE = re.compile(
    r"(?P<line>.*?\D\S*)\s+(?:(?:for|für)\s+)?"
    r"(?P<paid>[-−]?(?:[$€£]\s?)?\d{1,6}(?:[.,]\d{1,3})?(?:\s?(?:[$€£]|EUR|USD|GBP|CHF|euros?|dollars?))?)",
    re.IGNORECASE | re.DOTALL,
)


def in_figures(text: str, code: str) -> str:
    """Return a text whose amount is in figures, where it begins with words or multiplies packs.

    Parameters
    ----------
    text : str
        ``a dozen and a half eggs``, ``2 5-lb bags of sugar``, ``3 x 500 g pasta``.
    code : str
        The book's language; the others are tried after it.

    Returns
    -------
    str
        As it was, where it is no such text, or may be meant in two ways.

    Examples
    --------
    >>> in_figures("a dozen and a half eggs", "en"), in_figures("31 lb plum", "en")
    ('18 eggs', '31 lb plum')
    """
    for number, said, rest in islice(_amounts(text, code), 1):
        is_packed = said.sort == "measure" and said.packs is not None
        if (is_packed or number.is_words) and rest and said.unit != "jar":
            return f"{said.text()} {rest}"
    return text


def heard(text: str, code: str) -> str | None:
    """Return a text that begins with an amount as any language says it, its amount in plain figures.

    Parameters
    ----------
    text : str
        What the units of every book do not know: ``7 500-ml-Gläser``, ``3 Pfund Äpfel``.
    code : str
        The book's language; the others are tried after it.

    Returns
    -------
    str or None
        None where no amount is said, or one that may be meant in two ways.

    Examples
    --------
    >>> heard("7 500-ml-Gläser", "de"), heard("sieben Gläser à 500 ml Apfelmus", "de")
    ('7 500 ml jars', '7 500 ml jars Apfelmus')
    """
    return next((f"{said.text()} {rest}".strip() for _, said, rest in _amounts(text, code)), None)


def span(text: str, code: str) -> str | None:
    """Return a length of time as a body has it: ``4 days`` of ``vier Tage``; None where it is none."""
    tokens = tokens_of(text)
    for words in _languages(code):
        number = number_at(words, tokens, 0)
        if number is None:
            continue
        for unit in ("day", "week", "month", "year"):
            found = words.find(f"days.{unit}", tokens, number.length)
            if found is not None and number.length + found[1] == len(tokens):
                return f"{figure(number.value)} {unit}{'' if number.value == 1 else 's'}"
    return None


def minutes(text: str, code: str) -> tuple[str, str] | None:
    """Return what stands before a length of time at a text's end, and how many minutes that is.

    Examples
    --------
    >>> minutes("Ada 1 h 30 min", "en"), minutes("zwei Stunden", "de"), minutes("Ada 90", "en")
    (('Ada', '90'), ('', '120'), None)
    """
    tokens = tokens_of(text)
    for words in _languages(code):
        for i, one in enumerate(tokens):
            found = time_at(words, tokens, i) if one.sort in ("num", "word") else None
            if found is not None and i + found[2] == len(tokens):
                return text[: one.start].strip(), figure(found[0])
    return None


def jar_named(text: str, code: str) -> str | None:
    """Return the jar that words name, as an amount has it; None where they name none of a known size.

    Examples
    --------
    >>> jar_named("pint", "en"), jar_named("500-ml-Glas", "de"), jar_named("Glas zu 1 l", "de")
    ('pint jar', '500 ml jar', '1 l jar')
    """
    own = canonical_jar(text) or canonical_jar(f"{text} jar")
    said = "" if own else (heard(f"1 {text}", code) or "")
    return own or canonical_jar(said.removeprefix("1 "))


def length(text: str, code: str) -> str | None:
    """Return a length or an area in the units of every book; None where it is none.

    Examples
    --------
    >>> length("1/2 Zoll", "de"), length("1,2 cm", "de"), length("10 Quadratmeter", "de")
    ('1/2 in', '1.2 cm', '10 m2')
    """
    tokens = tokens_of(text)
    for words in _languages(code):
        found = length_text(words, tokens, 0)
        if found is None or found[1] != len(tokens):
            continue
        unit = found[0].partition(" ")[2]
        typed = re.match(r"[\d\s/½¼¾⅓⅔]+(?![\d.,])", text.strip())  # a fraction stays one
        return f"{typed[0].strip()} {unit}" if typed else found[0]
    return None


def method(text: str, code: str) -> str | None:
    """Return the way of putting up that words name; "canning" where it may be either way of that.

    Examples
    --------
    >>> method("im Wasserbad", "de"), method("eingefroren", "de"), method("Einkochen", "de")
    ('boiling water', 'freeze', 'canning')
    """
    tokens = tokens_of(text)
    for words in _languages(code):
        way, verb = words.find("process", tokens, 0), words.find("verb", tokens, 0)
        if way is not None and way[0] in METHODS and way[1] == len(tokens):
            return str(way[0])
        if verb is not None and verb[1] == len(tokens) and verb[0].kind == "put_up":
            return verb[0].method or "canning"
        if words.is_("meaning", text) and words.find("meaning", tokens, 0) == (
            "batches",
            len(tokens),
        ):
            return "canning"
    return None


def _languages(code: str) -> Iterator[Language]:
    return map(language, dict.fromkeys((code if code in CODES else "en", *CODES)))


def _amounts(text: str, code: str) -> Iterator[tuple[Number, Quantity, str]]:
    """Yield the plain amount that a text begins with, as each language reads it, and what is behind."""
    tokens = tokens_of(text)
    for words in _languages(code):
        number = number_at(words, tokens, 0)
        said = quantity_at(words, tokens, 0) if number is not None else None
        if number is None or said is None or said.doubt or said.loose or said.options:
            continue
        yield number, said, text[tokens[said.length].start :] if said.length < len(tokens) else ""


def split_price(text: str) -> tuple[str, str | None]:
    """Return ``10 lb sugar 7.90`` as the line and its price, with its sign; without a price, None.

    Examples
    --------
    >>> split_price("10 lb sugar 7.90"), split_price("10 lb sugar")
    (('10 lb sugar', '7.90'), ('10 lb sugar', None))
    """
    match = _PRICE.fullmatch(text.strip())
    if match is None or not re.search(r"[^\W\d_]", match["line"]):
        return text, None
    return match["line"], match["paid"]
