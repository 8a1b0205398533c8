"""Questions that a reading leaves, and the reading itself: what goes out as JSON."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

__all__ = ["HERE", "Draft", "Question", "Reading", "place_of"]


HERE = "@"
"""Before the place of an entry in a reading: a lot that the same text brings in has no id yet."""


@dataclass(slots=True)
class Question:
    """Something that was not said, or can be meant in two ways.

    Attributes
    ----------
    about : str
        What it is about, in the words of the text or of a body: ``method``, ``bucket of apple``.
    text : str
    options : list of str
        Likely answers, the likeliest first.
    waits : bool
        The entry can stand without the answer.
    code : str
        Which question it is, for who answers it by program.
    entry : int or None
        Which entry it is about, by its place in the reading.
    line : int or None
        Which line of that entry.
    row : int or None
        Which row of a sheet.
    sheet : str
        Which sheet, where the file holds several.
    key : tuple of (str, str, int)
        By which its answer is found when the text is read again (`Settled`).
    """

    about: str
    text: str
    options: list[str] = field(default_factory=list)
    waits: bool = False
    code: str = ""
    entry: int | None = None
    line: int | None = None
    row: int | None = None
    sheet: str = ""
    key: tuple[str, str, int] = ("", "", 0)

    def as_json(self) -> dict[str, Any]:
        """Return what capture says of a question."""
        out: dict[str, Any] = {
            "about": self.about, "text": self.text, "options": self.options, "waits": self.waits,
        }  # fmt: skip
        return out | place_of(self.row, self.sheet)


@dataclass(slots=True)
class Draft:
    """One entry as it was read: what the door is given."""

    kind: str
    on: str
    body: dict[str, Any]
    row: int | None = None
    said: str = ""
    sheet: str = ""

    def as_json(self) -> dict[str, Any]:
        """Return the entry as in formats.md, with `row` where it stood in a sheet."""
        out: dict[str, Any] = {"kind": self.kind, "on": self.on, "body": _shown(self.body)}
        return out | place_of(self.row, self.sheet)


def _shown(body: dict[str, Any]) -> dict[str, Any]:
    """Return a body without lots that have no id yet."""
    lines = [one for one in body.get("used") or () if str(one.get("lot", "")).startswith(HERE)]
    if not lines:
        return body
    used = [
        {k: v for k, v in one.items() if k != "lot"} if one in lines else one
        for one in body["used"]
    ]
    return {**body, "used": used}


def place_of(row: int | None, sheet: str) -> dict[str, Any]:
    """Return `row`, and of a workbook of several sheets also `sheet`, as JSON has them."""
    if row is None:
        return {}
    return {"row": row, "sheet": sheet} if sheet else {"row": row}


@dataclass(slots=True)
class Reading:
    """What a text was read as.

    Attributes
    ----------
    entries : list of Draft
    questions : list of Question
    left_over : list of str
        Words that found no place, and what did not happen.
    notes : list of str
        What was understood otherwise than it stands, or taken from the food table; for the echo.
    not_taken : list of (int, str)
        Rows of a sheet that were not taken, and what stands there.
    aliases : list of (str, str)
        Words that were said to be another name of an item, and that item.
    sorts : dict of str to str
        Sorts of supplies that are named for the first time.
    left_keys : list of (str, str, int)
        By which the answers to what is left over are found (`Settled`).
    unhappened : set of (str, str, int)
        Those of them that are about what did not happen.
    signs : list of str
        Signs of spoilage told of a jar, as they were said.
    hint : str
        Which question to ask of what is no entry (a power cut); empty: none.
    """

    hint: str = ""

    entries: list[Draft] = field(default_factory=list)
    questions: list[Question] = field(default_factory=list)
    left_over: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    not_taken: list[tuple[int, str]] = field(default_factory=list)
    aliases: list[tuple[str, str]] = field(default_factory=list)
    sorts: dict[str, str] = field(default_factory=dict)
    left_keys: list[tuple[str, str, int]] = field(default_factory=list)
    unhappened: set[tuple[str, str, int]] = field(default_factory=set)
    signs: list[str] = field(default_factory=list)

    @property
    def blocks(self) -> bool:
        """Return whether something has to be said before it is written."""
        return bool(self.left_over) or any(not one.waits for one in self.questions)

    def as_json(self) -> dict[str, Any]:
        """Return the reading in the shape that capture gives."""
        return {
            "entries": [one.as_json() for one in self.entries],
            "questions": [one.as_json() for one in self.questions],
            "left_over": self.left_over,
        }
