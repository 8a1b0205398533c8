"""An old notebook or sheet, without a map: headings and columns by their words and by what they hold.

Each row is put into words and read as if it had been said; what a row says of who, where and why goes
to the field that has it, else to the note.
"""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass, field
from typing import Any

from ledger.messages import sentence
from ledger.saying.asking import Question, Reading
from ledger.saying.columns import MEANINGS, Layout, layout_of
from ledger.saying.known import Known
from ledger.saying.language import Language, language
from ledger.saying.reading import read
from ledger.saying.row_days import RowDays
from ledger.saying.row_fields import place_cells
from ledger.saying.settled import Settled
from ledger.saying.tokens import tokens_of

__all__ = ["SheetReading", "read_sheet"]

Row = list[str]
_DITTO = ('"', "''", "“", "”", "〃", "do", "do.", "dito", "ditto", '-"-')


@dataclass(slots=True)
class SheetReading(Reading):
    """A reading of a sheet.

    Attributes
    ----------
    skipped : list of (int, str)
        Titles, headings and totals: no entries, and nothing to be mended.
    """

    skipped: list[tuple[int, str]] = field(default_factory=list)

    def as_json(self) -> dict[str, Any]:
        """Return the reading with the rows that were not taken, and those that are no entries."""
        rows = [{"row": n, "text": text} for n, text in self.not_taken]
        more = [{"row": n, "text": text} for n, text in self.skipped]
        return {**Reading.as_json(self), "not_taken": rows, "skipped": more}


def read_sheet(
    rows: list[tuple[int, Row]],
    known: Known,
    settled: Settled | None = None,
    title: str = "",
    name: str = "",
) -> SheetReading:
    """Return what a sheet says.

    Parameters
    ----------
    rows : list of (int, list of str)
        Each with its number in the file; 1 is the first.
    title : str
        The file's name: it may say what the sheet is, and of which year.
    name : str
        The sheet's name in its workbook, which may say the same; empty where it is the only one.
    """
    words = _language_of(rows, known)
    layout = layout_of(rows, words, known, f"{name} {title}".strip())
    return _Sheet(rows, known, words, layout, settled or Settled(), name).read()


def _language_of(rows: list[tuple[int, Row]], known: Known) -> Language:
    from ledger.saying.language import of_text

    text = "\n".join(" ".join(cells) for _, cells in rows[:60])
    return of_text(tokens_of(text), known.language)


class _Sheet:
    def __init__(
        self,
        rows: list[tuple[int, Row]],
        known: Known,
        words: Language,
        layout: Layout,
        settled: Settled,
        name: str,
    ) -> None:
        self.rows, self.known, self.words, self.layout = rows, known, words, layout
        self.settled, self.name = settled, name
        self._kind_key = ("sheet-kind", name or "kind", 0)
        self.out = SheetReading()
        self.days = RowDays(known, words, layout)
        self.before: dict[str, str] = {}
        self.kind_asked = False
        self.again = ""  # the thing of the row before

    def read(self) -> SheetReading:
        for number, cells in self.rows:
            text = " ".join(cell for cell in cells if cell).strip()
            if not any(one.isalnum() for one in text):
                continue
            if number in self.layout.titles or self._is_total(cells):
                self.out.skipped.append((number, text))
            elif self.layout.crops:
                self._row_of_crops(number, cells)
            elif self.layout.columns:
                self._row(number, cells)
            else:
                self._sentence(number, text, {})
        return self.out

    def _is_total(self, cells: Row) -> bool:
        first = next((cell for cell in cells if cell.strip()), "").strip().rstrip(":").lower()
        tokens = tokens_of(first)
        found = self.words.find("sheet.total", tokens, 0)
        return found is not None and (
            found[1] == len(tokens)
            or first.split()[0] in ("total", "totals", "summe", "gesamt", "sum")
        )

    # -- rows ----------------------------------------------------------------------------

    def _row(self, number: int, cells: Row) -> None:
        said = self._own_verb(self._cells(cells))
        if not said.get("item") and not said.get("what"):
            if said.get("note") and not said.get("amount"):
                self._sentence(number, said["note"], said)
                return
            self.out.not_taken.append((number, " ".join(cell for cell in cells if cell)))
            return
        if (
            said.get("amount", "").strip() in ("-", "–", "—", "none", "0", "keine")
            and self._kind(said) != "counted"
        ):
            self.out.not_taken.append((number, " ".join(cell for cell in cells if cell)))
            return
        self._sentence(number, self._in_words(said), said)

    def _cells(self, cells: Row) -> dict[str, str]:
        """Return the cells by their role, those that repeat from above carried down."""
        said: dict[str, str] = {}
        for place, role in self.layout.columns.items():
            cell = cells[place].strip() if place < len(cells) else ""
            if cell in _DITTO or cell.lower() in _DITTO:
                cell = self.before.get(role, "")
            elif not cell and role in ("day", "kind") and role in self.before:
                cell = self.before[role]
            elif not cell and role == "item" and self.layout.repeats_items:
                cell = self.before.get(role, "")
            elif cell:
                self.before[role] = cell
            if cell:
                said[role] = f"{said[role]} {cell}" if role in said else cell
        return said

    def _own_verb(self, said: dict[str, str]) -> dict[str, str]:
        """Take a verb that stands in the thing's cell, or alone with a place in the note, as the row's own.

        ``Picked tomatoes``; ``gave to neighbour``. What is put up is a name (``canned tomatoes``), and in
        a sheet of harvests a note tells what became of it later.
        """
        out = dict(said)
        if said.get("kind"):
            return out
        for role in ("item", "note"):
            tokens = tokens_of(said.get(role, ""))
            found = self.words.find("verb", tokens, 0) if tokens else None
            if found is None or found[0].kind in ("put_up", "planted", "practised"):
                continue
            verb, rest = " ".join(one.text for one in tokens[: found[1]]), tokens[found[1] :]
            text = said[role][rest[0].start :] if rest else ""
            if role == "item":
                fits = bool(rest) and self.known.item(said[role]) is None
            else:
                leads = not rest or self.words.find("prep", rest, 0) is not None
                fits = leads and self.layout.kind in (None, "bought", "counted")
                fits = fits and not said.keys() & {"paid", "each"}
            is_again = role == "note" and said.get("item") and self.again == said["item"]
            if fits and ("kind" not in out or is_again):
                out["kind"] = verb
            elif role == "note":
                continue
            if fits:
                out[role] = text
        self.again = said.get("item", "")
        return {name: one for name, one in out.items() if one}

    def _kind(self, said: dict[str, str]) -> str | None:
        """Return the kind of a row: by its own word, else that of the sheet, else by its columns."""
        cell = said.get("kind", "")
        if cell:
            for words in (self.words, *(language(code) for code in ("en", "de"))):
                found = words.find("verb", tokens_of(cell), 0)
                if found is not None:
                    kind = str(found[0].kind)
                    return "received" if kind == "got" else kind
                meaning = words.find("meaning", tokens_of(cell), 0)
                if meaning is not None:
                    return MEANINGS[meaning[0]]
        return self.layout.kind

    def _verb(self, said: dict[str, str]) -> str:
        """Return the word that the row is read with: its own verb, or that of its kind."""
        cell = said.get("kind", "")
        if cell and self.words.find("verb", tokens_of(cell), 0) is not None:
            return cell
        kind = self._kind(said) or self._asked_kind()
        return str(self.words.data["rows"].get(kind or "", ""))

    def _asked_kind(self) -> str | None:
        return self.settled.answers.get(self._kind_key)

    def _in_words(self, said: dict[str, str]) -> str:
        amount = said.get("amount", "")
        unit = said.get("unit", "") or (
            self.layout.unit if re.fullmatch(r"[\d.,/ ½¼¾]+", amount) else ""
        )
        if self.layout.is_jars and unit and not re.search(r"(?i)jar|glas|gläs|bag|beutel", unit):
            unit = f"{unit} jars" if self.words.code == "en" else f"{unit}-Gläser"
        elif self.layout.is_jars and not unit:
            unit = "jars" if self.words.code == "en" else "Gläser"
        item = said.get("item", "") or said.get("what", "")
        price = ""
        if said.get("paid"):
            price = f" for {said['paid']}" if self.words.code == "en" else f" für {said['paid']}"
        elif said.get("each"):
            price = f" at {said['each']} each" if self.words.code == "en" else f" je {said['each']}"
        verb = self._verb(said)
        if not amount and re.search(r"\d", item):
            return f"{verb}: {item}{price}"
        return f"{verb}: {amount} {unit} {item}{price}".replace("  ", " ")

    def _sentence(self, number: int, text: str, said: dict[str, str]) -> None:
        day = self._day(said.get("day"), number)
        found = self._with_note(text, number, day, said)
        if not found.entries:
            self.out.not_taken.append((number, self._whole(number)))
            return
        first = len(self.out.entries)
        for entry in found.entries:
            entry.row = number
            entry.said = self._whole(number)
            place_cells(entry.body, entry.kind, said, self.words)
            self.out.entries.append(entry)
        if day is None and said.get("day"):
            self._ask_day(number, first, said["day"])
        self._questions(found, number, first)
        self.out.aliases += found.aliases
        self.out.sorts |= found.sorts

    def _with_note(
        self, text: str, number: int, day: dt.date | None, said: dict[str, str]
    ) -> Reading:
        """Read a row with the words of its note, where these only say more of the same thing."""
        found = self._read(text, number, day)
        note = said.get("note", "")
        if not note or not said.get("item") or not found.entries:
            return found
        more = self._read(f"{text}, {note}", number, day)
        if _shape(more) != _shape(found):
            return found
        said.pop("note")
        return more

    def _read(self, text: str, number: int, day: dt.date | None) -> Reading:
        """Read a row's words; what finds no place goes into its note."""
        settled = Settled(dict(self._answers(number)))
        found = read(
            text.lstrip(": "),
            self.known,
            on=day or self.days.day,
            words=self.words,
            settled=settled,
        )
        for key in found.left_keys:
            settled.answers[key] = "out" if key in found.unhappened else "note"
        if found.left_keys:
            found = read(
                text.lstrip(": "),
                self.known,
                on=day or self.days.day,
                words=self.words,
                settled=settled,
            )
        return found

    def _answers(self, number: int) -> dict[tuple[str, str, int], str]:
        """Return the answers to this row's questions; a word is asked once for the whole sheet."""
        return {
            (code, about, 0): answer for (code, about, _), answer in self.settled.answers.items()
        }

    def _questions(self, found: Reading, number: int, first: int) -> None:
        known = {
            (one.code, one.about)
            for one in self.out.questions
            if one.code in ("slip", "new", "kind")
        }
        for one in found.questions:
            if one.code == "kind":
                one.about, one.key = "kind", self._kind_key
            if (one.code, one.about) in known and one.code in ("slip", "new", "kind"):
                continue
            one.row = number
            one.entry = None if one.entry is None else first + one.entry
            self.out.questions.append(one)

    def _whole(self, number: int) -> str:
        cells = next(cells for n, cells in self.rows if n == number)
        return " ".join(cell for cell in cells if cell).strip()

    # -- days ----------------------------------------------------------------------------

    def _day(self, cell: str | None, number: int) -> dt.date | None:
        """Return a row's day, or the one that was answered; None where the cell is no day."""
        day = self.days.of(cell)
        answer = self.settled.answers.get(self._day_key(number)) if day is None and cell else None
        return self.days.of(answer) if answer else day

    def _day_key(self, number: int) -> tuple[str, str, int]:
        return "day", f"{self.name} row {number}".strip(), 0

    def _ask_day(self, number: int, first: int, cell: str) -> None:
        text = sentence("asked-row-day", n=number, text=cell)
        key = self._day_key(number)
        self.out.questions.append(
            Question("on", text, [], code="day", entry=first, row=number, key=key)
        )

    # -- crops as columns ----------------------------------------------------------------

    def _row_of_crops(self, number: int, cells: Row) -> None:
        place = self.layout.day_column
        day = self.days.of(
            cells[place].strip() if place is not None and place < len(cells) else None
        )
        for column, item in self.layout.crops.items():
            cell = cells[column].strip() if column < len(cells) else ""
            if not cell or cell in ("-", "–", "0"):
                continue
            unit = self.layout.units.get(column, self.layout.unit)
            amount = cell if re.search(r"[A-Za-z]", cell) else f"{cell} {unit}"
            verb = self.words.data["rows"][self.layout.kind or "harvested"]
            said = {"day": cells[place] if place is not None and place < len(cells) else ""}
            before = self.days.day
            self._sentence(number, f"{verb}: {amount} {item}", said)
            self.days.day = day or before


def _shape(reading: Reading) -> list[tuple[str, int]]:
    """Return the kinds of a reading, each with how many lines, and how much stands in its way."""
    lines = [
        (one.kind, len(one.body.get("lines") or one.body.get("ate") or one.body.get("used") or ()))
        for one in reading.entries
    ]
    return [*lines, ("asked", sum(not one.waits for one in reading.questions))]
