"""Acid as it is typed: ``1 tbsp lemon juice per jar``, ``2 EL Essig 5% je Glas``."""

from __future__ import annotations

import re
from typing import Any

from ledger.errors import InputError
from ledger.messages import Message, Typed

__all__ = ["read_acid"]

_FRESH = re.compile(
    r"\b(fresh|squeezed|home-?made|diluted|own|frisch\w*|\w*gepresst\w*|selbst\s?gemacht\w*"
    r"|hausgemacht\w*|verdünnt\w*|eigen\w*)\b",
    re.IGNORECASE,
)
_BOTTLED = re.compile(r"\bbottled\s+|\s+aus der flasche\b", re.IGNORECASE)
_PER = (
    ("jar", re.compile(r"\b(?:per jar|(?:je|pro|per) glas|in jedes glas)\b", re.IGNORECASE)),
    ("batch", re.compile(r"\b(?:per batch|(?:je|pro|per) ansatz)\b", re.IGNORECASE)),
)
_ACIDS = (
    ("lemon juice", re.compile(r"lemon juice|zitronensaft", re.IGNORECASE)),
    ("citric acid", re.compile(r"citric acid|zitronensäure", re.IGNORECASE)),
    (
        "vinegar 5%",
        re.compile(
            r"vinegar 5%|essig\s*\(?5\s?(?:%|prozent)\)?|5[-\s]?(?:%|prozent)\s*-?iger\s+essig",
            re.IGNORECASE,
        ),
    ),
)
"""As they are stored, and as they are typed; of vinegar the strength is said."""


def read_acid(text: str, field: str = "acid") -> dict[str, Any]:
    """Return an acid, its amount, and whether that is ``per`` jar or batch; the words in any order.

    Raises
    ------
    InputError
        Where the acid is fresh or home-made, whose strength varies; or no acid with an amount is named.
    """
    words, per = " ".join(text.replace(":", " ").split()), "jar"
    for name, said in _PER:
        if said.search(words):
            words, per = said.sub(" ", words), name
    if _FRESH.search(words):
        raise InputError(field, Message.of("refusal-acid-varies", text=Typed(text)))
    words = _BOTTLED.sub(" ", words)
    for acid, said in _ACIDS:
        found = said.search(words)
        rest = "" if found is None else f"{words[: found.start()]} {words[found.end() :]}"
        amount = " ".join(rest.split()).removesuffix(" of")
        if amount:  # in the letters typed: T and t are two units
            return {"acid": acid, "amount": amount, "per": per}
    raise InputError(field, Message.of("refusal-not-an-acid", text=Typed(text)))
