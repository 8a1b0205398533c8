"""German names in either number and case: for comparing only, never shown."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

__all__ = ["german_key"]

_UMLAUTS = str.maketrans({"ä": "a", "ö": "o", "ü": "u", "ß": "ss"})


@lru_cache(maxsize=65536)
def german_key(name: str) -> str:
    """Return a key that is the same for ``Äpfel`` and ``Apfel``, ``grünen Bohnen`` and ``grüne Bohne``.

    Examples
    --------
    >>> german_key("Äpfel") == german_key("Apfel"), german_key("Eier") == german_key("Eis")
    (True, False)
    """
    plain = unicodedata.normalize("NFC", name).lower().replace("-", " ").translate(_UMLAUTS)
    return " ".join(_stem(word) for word in plain.split())


def _stem(word: str) -> str:
    if len(word) < 4:
        return word
    word = re.sub(r"sse[ns]?$", "ss", word)
    for ending in ("ern", "en", "er", "es", "em", "e", "n"):
        if word.endswith(ending) and len(word) - len(ending) >= (2 if ending == "er" else 3):
            return word[: -len(ending)]
    return word
