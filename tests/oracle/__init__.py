"""A plain, slow engine: the reckoning of docs/formats, rule by rule, with loops and fractions.

It reads stored events as plain dicts and shares no code with the package, so that the fast one
can be held to it. ``reckon(events, as_of, known_at)`` gives a `Book`; the choices it makes where
the text leaves one are numbered in CHOICES.md. Every amount is a whole number and every figure a
`fractions.Fraction`: what must be equal is compared with ``==``.
"""

from oracle.engine import reckon
from oracle.matching import match
from oracle.model import COMPONENTS, ORIGINS, Book

__all__ = ["COMPONENTS", "ORIGINS", "Book", "match", "reckon"]
