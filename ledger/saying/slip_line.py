"""What stands on one line of a receipt: its price, how many at what each, a code of the shop."""

from __future__ import annotations

import re
from fractions import Fraction

from ledger.saying.language import Language
from ledger.saying.numbers import figures
from ledger.saying.tokens import tokens_of

__all__ = [
    "CENT",
    "EACH",
    "PRICE",
    "is_coded",
    "many_of",
    "mark_of",
    "several_of",
    "uncoded",
    "value_of",
]

_SIGN = r"(?:[$€£]|EUR|USD|CHF)"
PRICE = re.compile(
    rf"(?:^|(?<=[\s:=]))(?P<minus>-)?\s?{_SIGN}?\s?(?P<sum>\d{{1,3}}(?:[.,]\d{{3}})*[.,]\d{{2}}|\d{{1,5}}[.,]\d{{2}})"
    rf"(?P<behind>-)?\s*{_SIGN}?\s*[A-Z*]?\s*$"
)
_TIMES = re.compile(
    r"^(?P<many>.+?)\s*[x×*@]\s*(?P<each>[$€]?\s?\d+[.,]\d{2})(?:\s*(?:€|EUR|/\s?\w+))*\s*"
)
EACH = re.compile(
    r"(?<!\S)(?P<many>\d{1,3})\s*[x×*@]\s*[$€]?\s?(?P<each>\d{1,4}[.,]\d{2})(?!\S)", re.IGNORECASE
)
"""``2 @ 3.49``, before or behind what it is of."""
_RATE = re.compile(r"\s[@x×*]?\s*[$€]?\d+[.,]\d{2}\s*/\s?\w+\.?(?=\s|$)", re.IGNORECASE)
"""``@ 1.29/LB``: the price of one, beside what it is of."""
_TAX_ROW = re.compile(r"[A-Z]?\s*[=:]?\s*\d{1,2}(?:[.,]\d{1,2})?\s?%[\s\d.,€=EUR]*")
"""``A 7% 5,77 0,40 6,17``: a row of the table of taxes."""
CENT = Fraction(1, 100)


_CODE = re.compile(
    r"\s*[#*]?(?:[A-Z]{1,2}(?=0\d{3})|[A-Z]{1,2}(?=\d{5}))?(?:0\d{2,}|\d{4,})\s+(?=\S)"
)
"""``0412``, ``#0413``, ``A0412``: the number under which a shop keeps an article."""
_SURE = re.compile(r"\s*[#*]?(?:0\d{2,}|\d{6,})\s+(?=\D)")


def uncoded(line: str) -> str:
    """Return a line of a receipt without the shop's number of the article before it."""
    return _RATE.sub("", _CODE.sub("", line, count=1) if _CODE.match(line) else line)


def is_coded(line: str) -> bool:
    """Return whether a line alone can be of a receipt only: the shop's number before, the price behind."""
    return _SURE.match(line) is not None and PRICE.search(line) is not None


def mark_of(line: str, words: Language) -> str | None:
    """Return which of the lines that are no article one is: total, tax, cash and the like."""
    if _TAX_ROW.fullmatch(line):
        return "paid"
    tokens = [one for one in tokens_of(line) if one.low not in ("*", "-", "=", ".")]
    for name in ("discount", "subtotal", "total", "tax", "paid"):
        found = words.find(f"receipt.{name}", tokens, 0)
        if found is None:
            continue
        rest = [one for one in tokens[found[1] :] if one.sort == "word"]
        allowed = ("eur", "usd", "b", "a", "incl", "inkl", "off", "due", "cash", "card", "sales")
        if all(one.low in allowed or len(one.low) < 3 for one in rest) or name in ("tax", "paid"):
            return name
    return None


def value_of(price: re.Match[str], words: Language) -> Fraction:
    """Return a price as a number, whichever sign parts its cents."""
    text = price["sum"]
    head, tail = text[:-3], text[-2:]
    whole = figures(re.sub(r"[.,]", "", head), comma=words.comma) or Fraction(0)
    return whole + Fraction(int(tail), 100)


def several_of(said: str, value: Fraction) -> tuple[str, int]:
    """Return an article without ``2 @ 3.49``, and how many it was, where the price says the same."""
    match = EACH.search(said)
    if match is None:
        return said, 1
    many, each = int(match["many"]), Fraction(match["each"].replace(",", "."))
    if not many or abs(many * each - value) > CENT:
        return said, 1
    return f"{said[: match.start()]} {said[match.end() :]}".strip(), many


def many_of(said: str) -> str:
    """Return the amount of ``0,756 kg x 2,99``, without the price of one."""
    match = _TIMES.match(said + " ")
    return match["many"] if match else said
