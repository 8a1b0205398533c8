"""Published figures for the winter's questions: stove and freezer, canner loads, cellar, hens, water.

Each is kept as printed, one figure a row, with its source and whether it was read there. What was
recalled and not seen is marked ``from_memory``: it may be shown only as such.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from ledger.reference._read import rows

__all__ = ["Figure", "check", "decimal", "document", "figure", "figures", "is_memory", "table"]

_CHECKED = ("read", "read, recomputed", "second_hand", "memory", "computed")
_NUMERIC = {
    "energy": ("record_type", "item", ""),
    "feed_eggs": ("record_type", "item", ""),
    "glut": ("record_type", "item", ""),
    "keeping": ("item", "food", "condition"),
    "watering": ("record_type", "item", "month"),
}
"""Tables of plain figures: the columns of topic, item and condition."""


@dataclass(frozen=True)
class Figure:
    """One published figure.

    Attributes
    ----------
    topic, item, condition : str
    place : str
        Where it holds: ``cold and damp``, a latitude; '' elsewhere.
    low, high : float or None
        In `unit`; equal where one figure is printed, None where the row holds words or a formula.
    text : str
        As printed.
    unit : str
    source : str
        Id of its document, see `document`.
    checked : {'read', 'read, recomputed', 'second_hand', 'memory', 'computed'}
    note : str
    """

    topic: str
    item: str
    condition: str
    place: str
    low: float | None
    high: float | None
    text: str
    unit: str
    source: str
    checked: str
    note: str

    @property
    def from_memory(self) -> bool:
        """Whether it was recalled and not seen."""
        return is_memory(self.checked)

    @property
    def middle(self) -> float:
        """The middle of low and high."""
        assert self.low is not None
        return (self.low + (self.low if self.high is None else self.high)) / 2


def is_memory(checked: str) -> bool:
    """Return whether a row as a whole was recalled and not seen."""
    return checked == "memory"


def decimal(row: Mapping[str, str], column: str, table_name: str) -> float | None:
    """Return a cell as a number; None where it is blank, which is not known and never 0.

    Raises
    ------
    ValueError
        Naming the table, the column and what stood there.
    """
    text = row[column].strip()
    if not text:
        return None
    try:
        return float(text)
    except ValueError:
        msg = f"winter table {table_name}, column {column}: {text!r} is not a number"
        raise ValueError(msg) from None


def table(name: str) -> list[dict[str, str]]:
    """Return the rows of a winter table as text, each with a known standing and document.

    Raises
    ------
    ValueError
        When a row has more or fewer cells than the table, or does not say how it was checked.
    """
    found = rows(f"winter_{name}")
    for number, row in enumerate(found, 2):
        if None in row or None in row.values():
            msg = f"winter table {name}, line {number}: cells do not fit the columns"
            raise ValueError(msg)
        if name != "sowing" and row["checked"] not in _CHECKED:
            msg = f"winter table {name}, line {number}: checked is {row['checked']!r}"
            raise ValueError(msg)
    return found


@cache
def _documents() -> dict[str, str]:
    text = files("ledger.reference").joinpath("winter_sources.csv").read_text("utf-8")
    return {row["id"]: row["document"] for row in csv.DictReader(text.splitlines())}


def document(source: str) -> str:
    """Return the title of a document by its id; of several, joined by ``+``, each of them."""
    known = _documents()
    return "; ".join(known[one] for one in source.replace("+", " ").split() if one in known)


@cache
def _figures(name: str) -> tuple[Figure, ...]:
    topic, item, condition = _NUMERIC[name]
    out = []
    for row in table(name):
        low = None if _in_words(row["value_low"]) else decimal(row, "value_low", name)
        high = decimal(row, "value_high", name)
        out.append(
            Figure(
                row[topic], row[item], row[condition] if condition else "",
                row.get("place") or row.get("latitude") or "",
                low, low if high is None else high, row["value_low"], row["unit"],
                row["source_id"], row["checked"], row["note"],
            )
        )  # fmt: skip
    return tuple(out)


def _in_words(text: str) -> bool:
    return any(mark in text for mark in "*=/(") or " " in text.strip()


def figures(name: str, topic: str | None = None, item: str | None = None) -> tuple[Figure, ...]:
    """Return figures of a table (``energy``, ``feed_eggs``, ``glut``, ``keeping``, ``watering``)."""
    return tuple(
        one
        for one in _figures(name)
        if (topic is None or one.topic == topic) and (item is None or one.item == item)
    )


def figure(name: str, topic: str, item: str) -> Figure:
    """Return the first figure of a topic and an item.

    Raises
    ------
    KeyError
        When there is none.
    """
    found = figures(name, topic, item)
    if not found:
        raise KeyError(f"{name}: {topic}, {item}")
    return found[0]


def check() -> None:
    """Read every row; a row that does not parse raises ValueError."""
    for name in _NUMERIC:
        _figures(name)
    table("work_value")
