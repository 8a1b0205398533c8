"""A jar by itself: its letters, its address, and the square on its label that leads there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

import flask

from dashboard.parts.boards import count_of

__all__ = ["Jar", "code_of", "house", "is_here_only", "jars_of"]

_ID = 8
"""So many characters name an entry."""
_HERE = ("localhost", "127.0.0.1", "::1", "[::1]")


@dataclass(frozen=True)
class Jar:
    """One jar on the shelf.

    Attributes
    ----------
    row : mapping
        The shelf's record of the jars that it stands among.
    label : str or None
        Its own label; None where jars were not numbered.
    """

    row: Mapping[str, Any]
    label: str | None

    @property
    def letters(self) -> str:
        """What stands under the square, to find the jar by when nothing reads the square."""
        return self.label or short_lot(self.row["lot"])

    @property
    def path(self) -> str:
        """The jar's address in the house."""
        query = {"of": short_lot(self.row["lot"]), **({"label": self.label} if self.label else {})}
        return f"/jar?{urlencode(query, safe=':')}"


def short_lot(lot: str) -> str:
    """Return a lot's short name, ``5f0c0a0e:1``."""
    entry, _, rest = lot.partition(":")
    return f"{entry[:_ID]}:{rest}"


def jars_of(row: Mapping[str, Any]) -> list[Jar]:
    """Return the jars of a shelf's record; a jar that is open counts."""
    labels = row["labels_left"]
    if labels:
        return [Jar(row, str(label)) for label in labels]
    return [Jar(row, None)] * count_of(row)


def house() -> str:
    """Return the address under which this page was asked for, ``http://192.168.1.20:8050``."""
    return flask.request.host_url.rstrip("/") if flask.has_request_context() else "http://localhost"


def is_here_only() -> bool:
    """Return whether that address means something on this machine alone."""
    return house().split("//")[-1].rpartition(":")[0] in _HERE or house().split("//")[-1] in _HERE


def code_of(base: str, jar: Jar) -> str:
    """Return the square that a phone's camera reads (ISO/IEC 18004), as the address of a picture.

    Parameters
    ----------
    base : str
        The house's address.
    """
    import segno

    return str(segno.make(base + jar.path, error="m", micro=False).svg_data_uri(border=2))
