"""Foods by how much acid they hold, and the forms that change what a process was tested for.

Every row of ``data/kinds.csv.gz`` names one food or one form, in English and German, with its
source. pH ranges are those of the FDA lists; a food without a range is classed by common practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ledger.errors import InputError
from ledger.messages import Code, Message
from ledger.reference._read import rows

__all__ = ["CLASSES", "Food", "Form", "check_kinds", "foods", "forms"]

CLASSES = ("low_acid", "borderline", "acid")
"""From little acid to much; borderline counts as acid only with the acid of its own recipe."""


@dataclass(frozen=True)
class Food:
    """A food and how much acid it holds.

    Attributes
    ----------
    name : str
        In English, singular.
    names : tuple of str
        Every name of it, English and German, its own included.
    acidity : {'low_acid', 'borderline', 'acid'}
    group : str
        ``vegetable``, ``meat``, ``fish``, ``pulse``, ``fruit``, ``herb``, ``dairy``, ...
    note : str
    """

    name: str
    names: tuple[str, ...]
    acidity: str
    group: str
    note: str


@dataclass(frozen=True)
class Form:
    """A way in which a food is cut, ground, dried or mixed.

    Attributes
    ----------
    name : str
    names : tuple of str
    effect : str
        What the documents say of a food in that form.
    source_id : str
    """

    name: str
    names: tuple[str, ...]
    effect: str
    source_id: str


def check_kinds(table: list[dict[str, str]]) -> list[str]:
    """Return what is wrong with a table of kinds, in words; empty where nothing is."""
    out, seen = [], set()
    for row in table:
        key = (row["row"], row["name"])
        if key in seen:
            out.append(f"{row['name']}: there twice")
        seen.add(key)
        if row["row"] not in ("food", "form"):
            out.append(f"{row['name']}: neither a food nor a form")
        if row["row"] == "food" and row["class"] not in CLASSES:
            out.append(f"{row['name']}: no class of acid")
        if row["row"] == "form" and not row["effect"]:
            out.append(f"{row['name']}: does not say what the form means")
    return out


@cache
def _table() -> tuple[dict[str, str], ...]:
    found = rows("kinds")
    if problems := check_kinds(found):
        raise InputError(
            "kinds",
            Message.of("refusal-table-faults", faults=Code("; ".join(problems[:5]))),
            Message.of("refusal-install-anew"),
        )
    return tuple(found)


def _names(row: dict[str, str]) -> tuple[str, ...]:
    more = [name for cell in (row["also"], row["german"]) for name in cell.split("|")]
    return tuple(dict.fromkeys(name.strip() for name in (row["name"], *more) if name.strip()))


@cache
def foods() -> dict[str, Food]:
    """Return every food by its name.

    Raises
    ------
    InputError
        When the packaged table breaks one of the rules of `check_kinds`.
    """
    return {
        row["name"]: Food(row["name"], _names(row), row["class"], row["group"], row["note"])
        for row in _table()
        if row["row"] == "food"
    }


@cache
def forms() -> dict[str, Form]:
    """Return every form by its name.

    Raises
    ------
    InputError
        As `foods`.
    """
    return {
        row["name"]: Form(row["name"], _names(row), row["effect"], row["source_id"])
        for row in _table()
        if row["row"] == "form"
    }
