"""What whoever asks is given before signing in: nothing of the book stands in it."""

from __future__ import annotations

from dashboard.away.sign import SIZES

__all__ = ["OPEN"]

OPEN = ("/croftbook.webmanifest", "/worker.js", "/sign.svg", *(f"/sign/{name}" for name in SIZES))
"""Addresses that need no session: a browser asks for them by itself, and without its cookies."""
