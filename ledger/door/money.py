"""Sums of money as they are typed: with the sign of the book's currency, or none."""

from __future__ import annotations

import re

from ledger.errors import InputError
from ledger.known.catalogue import Catalogue
from ledger.messages import Code, Message, Typed

__all__ = ["in_own_money"]

_SIGN = re.compile(r"^(?:[$€£]|[^\W\d_]{3,}(?=[\s\d]))\s*|\s*(?:[$€£]|[^\W\d_]{3,})$")


def in_own_money(text: str, field: str, catalogue: Catalogue) -> str:
    """Return a sum without the sign, code or word of its currency, which must be the book's.

    Raises
    ------
    InputError
    """
    for match in _SIGN.finditer(text):
        from ledger.messages.language import has_dollar
        from ledger.saying.language import currency_of

        sign = match[0].strip()
        found = currency_of(sign, catalogue.setting("language") or "en")
        found = found or (sign if sign.isupper() and len(sign) == 3 else None)
        own = catalogue.setting("currency", default="USD") or "USD"
        if found in (None, own) or (found == "$" and has_dollar(own)):
            text = text if found is None else text.replace(match[0], "")
            continue
        other = Code("USD" if found == "$" else found or "")
        said = Message.of("refusal-other-currency", text=Typed(text), own=Code(own), other=other)
        raise InputError(field, said)
    return text
