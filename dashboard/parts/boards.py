"""Jars by item, as they stand on their boards: how many, how old, and which must not be opened."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from ledger.amounts import jar_volume_ul
from ledger.published import GRAVE, MARKED, OPEN

__all__ = ["PARTED", "TENS", "Board", "boards_of", "count_of", "is_past", "marks_of", "size_of"]

_QUART_ML, _PINT_ML = 700, 350
"""From so much on a jar is drawn as a quart, and as a pint; a smaller one as a half-pint."""
_AGES = ((92, "a1"), (183, "a2"), (366, "a3"))
"""Days up to which a jar is young, of half a year, of a year."""
_EMPTY = 0.02
"""So little of a jar is a rounding of amounts, and no jar."""
PARTED = "\x1f"
"""Stands between item and jar in a key."""
TENS = 60
"""Beyond so many jars one mark stands for ten."""


@dataclass
class Board:
    """Jars of one item and one size, oldest first.

    Attributes
    ----------
    item, jar : str
    rows : list of mapping
        The shelf's records that they stand in.
    is_grave : bool
        They are not to be eaten; nothing opens them by a tap.
    """

    item: str
    jar: str
    is_grave: bool
    rows: list[Mapping[str, Any]] = field(default_factory=list)

    @property
    def key(self) -> str:
        """What its buttons are called by: item and jar."""
        return f"{self.item}{PARTED}{self.jar}"

    @property
    def to_look_up(self) -> int:
        """Jars that are to be looked up before they are eaten."""
        return sum(count_of(row) for row in self.rows if row.get("standing") in OPEN)

    @property
    def count(self) -> int:
        """Jars with something in them."""
        return sum(count_of(row) for row in self.rows)

    @property
    def not_to_eat(self) -> int:
        """Jars in danger, and those that did not seal and are past their days in the fridge."""
        if self.is_grave:
            return self.count
        return sum(count_of(row) for row in self.rows if is_past(row))

    @property
    def size(self) -> str:
        """How one is drawn: ``qt``, ``pt`` or ``hp``."""
        return size_of(self.jar)


def is_past(row: Mapping[str, Any]) -> bool:
    """Return whether a jar that did not seal is past its published days in the fridge."""
    return str(row.get("lot") or "").endswith("f") and (row.get("days_left") or 0) < 0


def size_of(jar: str) -> str:
    """Return how a jar is drawn: ``qt``, ``pt`` or ``hp``."""
    ml = float(jar_volume_ul(jar) or 0) / 1000
    return "qt" if ml >= _QUART_ML else "pt" if ml >= _PINT_ML else "hp"


def count_of(row: Mapping[str, Any]) -> int:
    """Return how many jars of a record have something in them; one that is open counts."""
    return max(0, math.ceil(float(row["jars_left"] or 0) - _EMPTY))


def boards_of(rows: Iterable[Mapping[str, Any]]) -> list[Board]:
    """Return boards of the shelf's records in jars: those in danger first, then by the oldest jar."""
    found: dict[tuple[bool, str, str], Board] = {}
    for row in sorted(rows, key=lambda one: (one["on"] or "", one["lot"])):
        if not row["jar"] or count_of(row) == 0:
            continue
        key = (row["standing"] in GRAVE, row["item"], row["jar"])
        found.setdefault(key, Board(row["item"], row["jar"], key[0])).rows.append(row)
    return sorted(found.values(), key=lambda board: not board.is_grave)


def marks_of(board: Board, today: dt.date) -> list[tuple[int, str, str]]:
    """Return how many marks of which size and age stand on a board; see `dashboard.parts.jar_row`."""
    in_tens = board.count > TENS
    out = []
    for row in board.rows:
        many = count_of(row)
        out.append(
            (max(1, round(many / 10)) if in_tens else many, board.size, _age(row, today, board))
        )
    return out


def _age(row: Mapping[str, Any], today: dt.date, board: Board) -> str:
    if board.is_grave:
        return "bad"
    if row["standing"] in MARKED:
        return "query"
    if row["days_left"] is not None and row["days_left"] < 0:
        return "a5"
    days = (today - dt.date.fromisoformat(row["on"])).days
    return next((age for most, age in _AGES if days <= most), "a4")
