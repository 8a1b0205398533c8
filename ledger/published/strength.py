"""How strong an acid is, by what its name says; never by what people usually buy."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["FULL", "Strength", "is_bottled", "strength_of"]

FULL = Fraction(5)
"""Per cent of acid that tested recipes count on (PSU_HOMEVINEGAR, UCANR_VINEGAR)."""

_PERCENT = re.compile(
    r"(\d+(?:[.,]\d+)?)\s*(?:%|per\s*cent|percent|pct|prozent|-?prozentig\w*)", re.IGNORECASE
)
_GRAIN = re.compile(r"(\d+)\s*-?\s*grain", re.IGNORECASE)
_WEAKENED = re.compile(
    r"home|\bown\b|dilut|\bmade\b|\bours?\b|\bmy\b|weak|verdünnt|selbst|eigen|hausgemacht|watered",
    re.IGNORECASE,
)
_ESSENCE = re.compile(r"essenz|essence|concentrate", re.IGNORECASE)
_FRESH = re.compile(
    r"fresh|frisch|squeezed|pressed|gepresst|home|\bown\b|\blemons\b", re.IGNORECASE
)
_BOTTLED = re.compile(r"bottle|flasche", re.IGNORECASE)
_UPPER = Fraction(15)


@dataclass(frozen=True)
class Strength:
    """What a name says of a vinegar.

    Attributes
    ----------
    percent : Fraction or None
        None where no strength counts: unsaid, home-made, diluted, an essence.
    why : {'home-made', 'unsaid', 'essence', 'said'}
        Why no strength counts; ``said`` where one does.
    """

    percent: Fraction | None
    why: str

    @property
    def kind(self) -> str:
        """How it stands to the 5 per cent of the tested recipes."""
        if self.percent is None:
            return "to check yourself"
        return "as published" if self.percent >= FULL else "short of it"


def strength_of(text: str) -> Strength:
    """Return the strength of a vinegar by its name: ``vinegar 4.5 %``, ``50 grain``.

    Parameters
    ----------
    text : str
        As written down; of several figures the weakest counts.

    Notes
    -----
    A grain is a tenth of a per cent (UCANR_VINEGAR). Home-made and diluted vinegar counts for
    nothing whatever figure stands beside it (PSU_HOMEVINEGAR).
    """
    if _WEAKENED.search(text):
        return Strength(None, "home-made")
    found = [Fraction(m[1].replace(",", ".")) for m in _PERCENT.finditer(text)]
    found += [Fraction(m[1]) / 10 for m in _GRAIN.finditer(text)]
    if not found:
        return Strength(None, "unsaid")
    percent = min(found)
    if _ESSENCE.search(text) or percent > _UPPER:
        return Strength(None, "essence")
    return Strength(percent, "said")


def is_bottled(text: str) -> bool | None:
    """Return whether a juice is said to be bottled; None where nothing is said.

    Fresh juice varies in acid: tested recipes and jars count on bottled juice (MU_GH1456).
    """
    if _FRESH.search(text):
        return False
    return True if _BOTTLED.search(text) else None
