"""Which icon an entry of a kind bears."""

from __future__ import annotations

from ledger.kinds import KINDS

__all__ = ["icon_of"]


def icon_of(kind: str) -> str:
    """Return the icon's name; that of writing for what has no form, or is not known here."""
    form = KINDS[kind].form if kind in KINDS else None
    return form.icon if form is not None else "write"
