"""The usual cautions of home canning, short and whole, in our own words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ledger.messages import Sentence, sentence

__all__ = ["CAUTIONS", "FIRST", "SHORT", "jar_gone_bad"]

SHORT: Sentence
"""One line, for every answer."""

FIRST: Sentence
"""Shown once, on the first use of a canning command."""

CAUTIONS: tuple[tuple[Sentence, Sentence], ...]
"""Heading and text, whole, as in docs/cautions.md."""


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


def jar_gone_bad(kind: str, body: Mapping[str, Any]) -> list[str]:
    """Return the cautions on a jar that was thrown out as spoiled; none for anything else."""
    if kind != "discarded" or body.get("why") not in ("spoiled", "seal failed"):
        return []
    if not any(str(line.get("amount", "")).rstrip("s").endswith("jar") for line in body["lines"]):
        return []
    return [sentence("published-never-taste-whole"), sentence("published-botulism-whole")]
