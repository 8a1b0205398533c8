"""An amount in words, for the words of every command: ``a dozen and a half eggs`` is ``18 eggs``."""

from __future__ import annotations

import re

from ledger.saying.language import CODES, language
from ledger.saying.numbers import number_at
from ledger.saying.quantities import quantity_at
from ledger.saying.tokens import tokens_of

__all__ = ["in_figures", "split_price"]

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
    tokens = tokens_of(text)
    if not tokens:
        return text
    for one in dict.fromkeys((code if code in CODES else "en", *CODES)):
        words = language(one)
        number = number_at(words, tokens, 0)
        said = quantity_at(words, tokens, 0) if number is not None else None
        if number is None or said is None or said.doubt or said.loose or said.options:
            continue
        is_packed = said.sort == "measure" and said.packs is not None
        if not (is_packed or number.is_words) or said.length >= len(tokens):
            continue
        if said.sort == "jar" and said.unit == "jar":
            continue
        rest = text[tokens[said.length].start :]
        return f"{said.text()} {rest}"
    return text


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
