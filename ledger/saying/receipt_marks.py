"""Lines of a receipt that are no article: totals, taxes, how it was paid, and what the till adds."""

from __future__ import annotations

import re

from ledger.saying.language import Language
from ledger.saying.tokens import tokens_of

__all__ = ["mark_of"]

_TAX_ROW = re.compile(r"[A-Z]?\s*[=:]?\s*\d{1,2}(?:[.,]\d{1,2})?\s?%[\s\d.,€=EUR]*")
"""``A 7% 5,77 0,40 6,17``: a row of the table of taxes."""


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
