"""`croftbook import` of a household's own sheet: shown in groups, asked once for each odd word."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from ledger.cli import _common
from ledger.cli._asking import Doubts
from ledger.cli._settling import settle, write_all
from ledger.cli._speech import echo, say, told
from ledger.errors import InputError
from ledger.messages import Code
from ledger.saying.settled import Settled

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.saying.cells import Table
    from ledger.saying.sheet import SheetReading
    from ledger.saying.workbook import WorkbookReading

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
    only: str | None = None,
) -> int:
    """Read a sheet without a map; write what was understood, and the rest into a file beside it."""
    from ledger.saying.cells import read_tables
    from ledger.saying.known import Known
    from ledger.saying.workbook import read_workbook

    tables = read_tables(path, encoding, only)
    known = Known(book.catalogue(), book.today(), book.log)

    def read(settled: Settled) -> WorkbookReading:
        return read_workbook(tables, known, settled, path.stem)

    settled = Settled()
    if dry_run:
        _show(read(settled), as_json=as_json)
        return 0
    try:
        reading = cast("WorkbookReading", settle(read, settled, yes=yes))
    except InputError:
        reading = read(settled)
        if not keep_good:
            _show(reading, as_json=as_json)
            raise
        reading.leave_out_doubtful()
    doubts = Doubts(yes=True)
    doubts.answers.spoken = True
    written = write_all(book, reading, doubts, None)
    rest = [one for table, part in reading.parts if (one := _write_rest(path, table, part))]
    if as_json:
        _common.print_json({**reading.as_json(), "written": len(written)})
    else:
        _show(reading, as_json=False)
        rows = len({(entry.sheet, entry.row) for entry in reading.entries})
        echo("cli-sheet-written", n=len(written), rows=rows)
    for one in rest:
        echo("cli-sheet-rest", err=True, file=Code(str(one)))
    return 0


def _write_rest(path: Path, table: Table, part: SheetReading) -> Path | None:
    """Write what was not taken of one sheet into a file, with its headings."""
    from ledger.saying.cells import write_rest

    left = {n for n, _ in part.not_taken}
    first = min((entry.row for entry in part.entries if entry.row), default=0)
    headings = {n for n, _ in part.skipped if n <= first}
    return write_rest(path, table, left | headings if left else set())


def _show(reading: WorkbookReading, *, as_json: bool) -> None:
    """Show a reading in groups, sheet by sheet: understood, asked, not taken, skipped."""
    if as_json:
        _common.print_json(reading.as_json())
        return
    for table, part in reading.parts:
        if table.name:
            echo("cli-sheet-name", name=table.name)
        _show_part(part)
    if len(reading.parts) > 1:
        echo("cli-sheet-one")


def _show_part(part: SheetReading) -> None:
    from ledger.saying.echo import told_entry

    echo("cli-sheet-understood", n=len(part.entries))
    for entry in part.entries[:_SHOWN]:
        said = "; ".join(told(line).strip() for line in told_entry(entry))
        click.echo(f"  {say('cli-sheet-row', n=entry.row, text=said)}")
    if len(part.entries) > _SHOWN:
        click.echo(f"  {say('cli-and-more', n=len(part.entries) - _SHOWN)}")
    _group("cli-sheet-asked", [(one.row, one.text) for one in part.questions if not one.waits])
    _group("cli-sheet-open", [(one.row, one.text) for one in part.questions if one.waits])
    _group("cli-sheet-not-taken", list(part.not_taken))
    _group("cli-sheet-skipped", list(part.skipped))


def _group(title: str, rows: list[tuple[int | None, str]]) -> None:
    if rows:
        echo(title, n=len(rows))
        for number, text in rows[:_SHOWN]:
            click.echo(f"  {say('cli-sheet-row', n=number, text=told(text))}")
        if len(rows) > _SHOWN:
            click.echo(f"  {say('cli-and-more', n=len(rows) - _SHOWN)}")
