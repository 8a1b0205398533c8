"""The usual cautions of home canning, short and whole, in our own words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from ledger.messages import Sentence, sentence

__all__ = ["CAUTIONS", "FIRST", "SHORT", "cautions_on"]

SHORT: Sentence
"""One line, for every answer."""

FIRST: Sentence
"""Shown once, on the first use of a canning command."""

CAUTIONS: tuple[tuple[Sentence, Sentence], ...]
"""Heading and text, whole, as in docs/cautions.md."""


_HONEY = re.compile(r"honey|honig", re.IGNORECASE)
_INFANT = re.compile(
    r"\b(bab(y|ies|ys)|infants?|newborn|toddlers?|little ones?|child|kid|säuglinge?n?|neugeborene\w*|"
    r"kleinkind\w*|kind)\b",
    re.IGNORECASE,
)
"""Who may be below one year: a child whose age is not said is told of too."""


def _cautions() -> tuple[tuple[Sentence, Sentence], ...]:
    return (
        (sentence("published-botulism"), sentence("published-botulism-whole")),
        (sentence("published-never-taste"), sentence("published-never-taste-whole")),
        (sentence("published-tested-process"), sentence("published-tested-process-whole")),
        (sentence("published-acid"), sentence("published-acid-whole")),
        (sentence("published-altitude"), sentence("published-altitude-whole")),
        (sentence("published-gauges"), sentence("published-gauges-whole")),
        (sentence("published-steam"), sentence("published-steam-whole")),
        (sentence("published-glass"), sentence("published-glass-whole")),
        (sentence("published-lids"), sentence("published-lids-whole")),
        (sentence("published-whom-to-ask"), sentence("published-whom-to-ask-whole")),
    )


def __getattr__(name: str) -> Any:
    """Say a caution when it is first asked for: not every start reads the catalogues."""
    if name == "SHORT":
        made: Any = sentence("published-caution")
    elif name == "FIRST":
        made = sentence("published-caution-first")
    elif name == "CAUTIONS":
        made = _cautions()
    else:
        raise AttributeError(name)
    globals()[name] = made
    return made


def cautions_on(kind: str, body: Mapping[str, Any]) -> list[str]:
    """Return the cautions on a jar thrown out as spoiled, or on honey that an infant ate; else none.

    Of honey and children below one year: Institut national de santé publique du Québec, "Honey: never for
    babies under age 1", https://www.inspq.qc.ca/en/tiny-tot/feeding-your-child/foods/honey-never-babies-under-age-1
    """
    if kind in ("eaten", "given_away"):
        lines = body.get("ate" if kind == "eaten" else "lines") or ()
        foods = " ; ".join(str(line.get("item", "")) for line in lines)
        who = " ".join(str(body.get(name) or "") for name in ("note", "to"))
        is_honey = bool(_HONEY.search(foods) and _INFANT.search(who))
        return [sentence("published-honey-infant")] if is_honey else []
    if kind != "discarded" or body.get("why") not in ("spoiled", "seal failed"):
        return []
    if not any(str(line.get("amount", "")).rstrip("s").endswith("jar") for line in body["lines"]):
        return []
    return [sentence("published-never-taste-whole"), sentence("published-botulism-whole")]
