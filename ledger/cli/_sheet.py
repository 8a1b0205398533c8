"""`croftbook import` of a household's own sheet: shown in groups, asked once for each odd word."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from ledger.cli import _common
from ledger.cli._asking import Doubts
from ledger.cli._settling import settle, write_all
from ledger.errors import InputError
from ledger.saying.settled import Settled

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.saying.sheet import SheetReading

__all__ = ["import_sheet"]

_SHOWN = 12


def import_sheet(
    book: Book,
    path: Path,
    *,
    dry_run: bool,
    as_json: bool,
    yes: bool,
    keep_good: bool,
    encoding: str,
) -> int:
    """Read a sheet without a map; write what was understood, and the rest into a file beside it."""
    from ledger.saying.cells import read_cells, write_rest
    from ledger.saying.known import Known
    from ledger.saying.sheet import read_sheet

    rows = read_cells(path, encoding)
    known = Known(book.catalogue(), book.today(), book.log)

    def read(settled: Settled) -> SheetReading:
        return read_sheet(rows, known, settled, path.stem)

    settled = Settled()
    if dry_run:
        _show(read(settled), as_json=as_json)
        return 0
    try:
        reading = cast("SheetReading", settle(read, settled, yes=yes))
    except InputError:
        reading = read(settled)
        if not keep_good:
            _show(reading, as_json=as_json)
            raise
        _leave_out(reading)
    doubts = Doubts(yes=True)
    doubts.answers.spoken = True
    written = write_all(book, reading, doubts, None)
    taken = {entry.row for entry in reading.entries}
    left = {n for n, _ in reading.not_taken}
    headings = {n for n, _ in reading.skipped if n <= min((row for row in taken if row), default=0)}
    rest = write_rest(path, rows, left | (headings if left else set()))
    if as_json:
        _common.print_json({**reading.as_json(), "written": len(written)})
    else:
        _show(reading, as_json=False)
        click.echo(f"{len(written)} entries written from {len(taken)} rows.")
    if rest is not None:
        click.echo(
            f"What was not taken stands in {rest}: mend it there and import that file.", err=True
        )
    return 0


def _leave_out(reading: SheetReading) -> None:
    """Leave out the rows that a question stands in the way of."""
    doubtful = {one.row for one in reading.questions if not one.waits}
    for entry in list(reading.entries):
        if entry.row in doubtful:
            reading.entries.remove(entry)
            reading.not_taken.append((entry.row or 0, entry.said))
    reading.questions = [one for one in reading.questions if one.row not in doubtful]
    reading.not_taken.sort()


def _show(reading: SheetReading, *, as_json: bool) -> None:
    """Show a reading in groups: understood, asked, not taken, skipped."""
    if as_json:
        _common.print_json(reading.as_json())
        return
    from ledger.saying.echo import told_entry

    click.echo(f"Understood: {len(reading.entries)}")
    for entry in reading.entries[:_SHOWN]:
        said = "; ".join(line.strip() for line in told_entry(entry))
        click.echo(f"  row {entry.row}: {said}")
    if len(reading.entries) > _SHOWN:
        click.echo(f"  and {len(reading.entries) - _SHOWN} more")
    _group("Asked", [(one.row, one.text) for one in reading.questions if not one.waits])
    _group("Open", [(one.row, one.text) for one in reading.questions if one.waits])
    _group("Not taken", list(reading.not_taken))
    _group("Skipped (titles, headings, totals)", list(reading.skipped))


def _group(title: str, rows: list[tuple[int | None, str]]) -> None:
    if rows:
        click.echo(f"{title}: {len(rows)}")
        for number, text in rows[:_SHOWN]:
            click.echo(f"  row {number}: {text}")
