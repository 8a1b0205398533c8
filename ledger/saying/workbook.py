"""A workbook of several sheets: each is read for itself, a word that several hold is asked once."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from ledger.saying.asking import Reading, place_of
from ledger.saying.cells import Table
from ledger.saying.known import Known
from ledger.saying.settled import Settled
from ledger.saying.sheet import SheetReading, read_sheet

__all__ = ["WorkbookReading", "read_workbook"]

_OF_NAMES = ("slip", "new")


@dataclass(slots=True)
class WorkbookReading(Reading):
    """A reading of all sheets of a file.

    Attributes
    ----------
    parts : list of (Table, SheetReading)
        The sheets, each with its own reading.
    """

    parts: list[tuple[Table, SheetReading]] = field(default_factory=list)

    def as_json(self) -> dict[str, Any]:
        """Return the reading, and by sheet the rows that were not taken or are no entries."""
        out = Reading.as_json(self)
        for name in ("not_taken", "skipped"):
            out[name] = [
                {**place_of(row, table.name), "text": text}
                for table, part in self.parts
                for row, text in getattr(part, name)
            ]
        return out

    def leave_out_doubtful(self) -> None:
        """Leave out the rows that a question stands in the way of: they are not taken."""
        for _, part in self.parts:
            doubtful = {one.row for one in part.questions if not one.waits}
            for entry in list(part.entries):
                if entry.row in doubtful:
                    part.entries.remove(entry)
                    part.not_taken.append((entry.row or 0, entry.said))
            part.questions = [one for one in part.questions if one.row not in doubtful]
            part.not_taken = sorted(set(part.not_taken))
        self.gather()

    def gather(self) -> None:
        """Take the entries and questions of the parts together."""
        self.entries, self.questions, self.aliases, self.sorts = [], [], [], {}
        asked: set[tuple[str, str]] = set()
        for table, part in self.parts:
            first = len(self.entries)
            for entry in part.entries:
                entry.sheet = table.name
                self.entries.append(entry)
            for one in part.questions:
                if one.code in _OF_NAMES and (one.code, one.about) in asked:
                    continue
                asked.add((one.code, one.about))
                one.sheet = table.name
                one.entry = None if one.entry is None else first + one.entry
                self.questions.append(one)
            self.aliases += part.aliases
            self.sorts |= part.sorts


def read_workbook(
    tables: list[Table], known: Known, settled: Settled | None = None, title: str = ""
) -> WorkbookReading:
    """Return what the sheets of a file say.

    Parameters
    ----------
    tables : list of Table
    settled : Settled, optional
        Answers to the questions of an earlier reading.
    title : str
        The file's name: it may say what the sheets are, and of which year.
    """
    settled = settled or Settled()
    out = WorkbookReading()
    for table in tables:
        out.parts.append((table, read_sheet(table.rows, known, settled, title, table.name)))
    out.gather()
    return out
