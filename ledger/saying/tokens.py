"""A text to tokens: words, numbers, days in figures, labels, signs and ends of lines.

Nothing of a text is lost: what is no letter, figure or space is a token of its own.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["MOST", "Token", "fraction_of", "signed", "tokens_of"]

MOST = 20_000
"""Letters of one text that are read; what follows is named as left over."""

_SIGNS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_MINUS, _COINS = ("-", "−", "–"), ("$", "€", "£")
_PATTERN = re.compile(
    rf"""
    (?P<nl>\n)
  | (?P<date>\d{{4}}-\d{{1,2}}-\d{{1,2}}(?!\d)
      | \d{{1,2}}\.\s?(?:0?[1-9]|1[0-2])\.(?:\s?\d{{4}}(?!\d)|\d{{2}}(?![\d.,]))?(?!\d)
      | \d{{1,2}}/\d{{1,2}}/(?:\d{{4}}|\d{{2}})(?![\d/]))
  | (?P<code>[A-Za-z]{{1,4}}\d{{1,3}}-\d{{1,6}}(?![\w]) | (?!x\d)[A-Za-z]{{1,3}}-?\d{{1,6}}(?![\w.,/]))
  | (?P<num>\d+\s?[{_SIGNS}] | \d+(?:[\s-]\d+)?\s?[/⁄]\s?\d+(?![\d/]) | [{_SIGNS}]
      | \d+(?:[.,]\d+)+ | (?<![\w.,])\.\d+ | \d+)
  | (?P<word>[^\W\d_]+(?:['’‘`][^\W\d_]+)*['’]?)
  | (?P<space>[^\S\n]+)
  | (?P<sym>.)
    """,
    re.VERBOSE | re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Token:
    """One piece of a text.

    Attributes
    ----------
    sort : str
        ``word``, ``num``, ``date``, ``code``, ``sym`` or ``nl``.
    text, low : str
        As typed; and casefolded, apostrophes alike.
    start, end : int
        Where it stands.
    tight : bool
        Nothing, or a hyphen alone, parts it from the token before.
    """

    sort: str
    text: str
    low: str
    start: int
    end: int
    tight: bool


def tokens_of(text: str) -> list[Token]:
    """Return the tokens of a text, in order; hyphens between words and figures are no tokens."""
    out: list[Token] = []
    end = -1
    found = [m for m in _PATTERN.finditer(text[:MOST]) if m.lastgroup != "space"]
    for i, match in enumerate(found):
        sort = match.lastgroup or "sym"
        said = match[0]
        tight = match.start() == end
        if sort == "sym" and said in "-–‐" and tight and i + 1 < len(found):
            after = found[i + 1]
            before = out[-1].sort in ("word", "num", "code") if out else False
            joins = before and after.start() == match.end() and after.lastgroup in ("word", "num")
            if joins and not (out[-1].sort == "num" and after.lastgroup == "num"):
                end = match.end()
                continue
        out.append(Token(sort, said, _fold(said), match.start(), match.end(), tight))
        end = match.end()
    return out


def signed(tokens: list[Token]) -> list[Token]:
    """Return tokens in which a minus belongs to its number: ``picked -3 lb plums``, ``-$3``.

    A dash between two numbers is a range, and one that begins a line of several is a list's.
    """
    out: list[Token] = []
    is_list = any(one.sort == "nl" for one in tokens)
    for token in tokens:
        coin = out.pop() if token.sort == "num" and out and out[-1].low in _COINS else None
        minus = out[-1] if token.sort == "num" and out else None
        if minus is not None and _is_minus(minus, coin or token, out[:-1], is_list=is_list):
            out.pop()
            said = f"-{token.text}"
            number = Token("num", said, said, minus.start, token.end, tight=False)
        else:
            number = token
        out += [number] if coin is None else [coin, number]
    return out


def _is_minus(sign: Token, after: Token, before: list[Token], *, is_list: bool) -> bool:
    """Return whether a token is the minus of the number, or of the money, that comes after it."""
    if sign.low == "minus" or (sign.low == "−" and not before):
        return True
    if sign.low not in _MINUS or not after.tight:
        return False
    if not before or before[-1].sort == "nl":
        return not is_list
    return before[-1].low in _COINS or not (sign.tight or before[-1].sort == "num")


def _fold(text: str) -> str:
    plain = unicodedata.normalize("NFC", text).lower()
    return re.sub("[’‘`]", "'", plain)


def fraction_of(text: str) -> Fraction | None:
    """Return what ``1/2``, ``1 1/2``, ``2½`` or ``½`` is, or None where it is no such number."""
    plain = unicodedata.normalize("NFKC", re.sub(rf"([{_SIGNS}])", r" \1", text))
    plain = plain.replace("⁄", "/").strip()
    match = re.fullmatch(r"(?:(\d+)[\s-]+)?(\d+)\s?/\s?(\d+)", plain)
    if match is None or not int(match[3]):
        return None
    return Fraction(int(match[1] or 0)) + Fraction(int(match[2]), int(match[3]))
