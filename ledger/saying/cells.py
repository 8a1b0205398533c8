"""The cells of a sheet as text: CSV, and with the extra ``sheets`` also .xlsx and .ods."""

from __future__ import annotations

import csv
import datetime as dt
import re
from pathlib import Path
from typing import Any

from ledger.cells import plain_cell
from ledger.errors import InputError

__all__ = ["is_sheet", "read_cells", "write_rest"]

_BOOKS = (".xlsx", ".ods", ".xls", ".xlsm")
_MOST = 20_000
"""Rows of a sheet that are read; a longer one is refused."""


def is_sheet(path: Path) -> bool:
    """Return whether a file is read as a household's own sheet: no columns `kind` and `on`."""
    if path.suffix.lower() in _BOOKS:
        return True
    if path.suffix.lower() not in (".csv", ".tsv", ".txt") or not path.is_file():
        return False
    rows = read_cells(path)[:1]
    named = {cell.strip().lower() for _, cells in rows for cell in cells}
    return bool(rows) and not {"kind", "on"} <= named and not named & {"kind", "on"}


def read_cells(path: Path, encoding: str = "utf-8") -> list[tuple[int, list[str]]]:
    """Return each row with its number in the file, the first being 1; cells as text.

    Raises
    ------
    InputError
        It cannot be read as a sheet.
    """
    if not path.is_file():
        raise InputError("file", f"there is no file {path}", "Check the path")
    if path.suffix.lower() in _BOOKS:
        return _of_book(path)
    data = path.read_bytes()
    for one in ("utf-8-sig" if encoding.lower() in ("utf-8", "utf8") else encoding, "cp1252"):
        try:
            text = data.decode(one)
            break
        except (UnicodeDecodeError, LookupError):
            continue
    else:
        text = data.decode("latin-1")
    lines = text.splitlines()
    mark = max(",;\t|", key=lambda one: sum(line.count(one) for line in lines[:50]))
    if not any(mark in line for line in lines):
        return [(n, [line]) for n, line in enumerate(lines, 1)][:_MOST]
    out, last = [], 0
    try:
        alone = re.compile(rf'(?:(?<=^)|(?<={re.escape(mark)}))"(?=$|{re.escape(mark)})')
        reader = csv.reader((alone.sub("〃", line) for line in lines), delimiter=mark)
        for cells in reader:
            out.append((last + 1, [plain_cell(cell) for cell in cells]))
            last = reader.line_num
            if len(out) > _MOST:
                raise InputError("file", f"has more than {_MOST:,} rows", "Import it in parts")
    except csv.Error as error:
        raise InputError("file", f"line {last + 1}: {error}", "Save it anew as CSV") from None
    return out


def _of_book(path: Path) -> list[tuple[int, list[str]]]:
    try:
        from python_calamine import CalamineError, CalamineWorkbook
    except ImportError:
        raise InputError(
            "file",
            f"{path.suffix} needs the extra `sheets`",
            "Install it (pip install 'croftbook[sheets]'), or save the sheet as CSV",
        ) from None
    try:
        book = CalamineWorkbook.from_path(str(path))
        rows = book.get_sheet_by_index(0).to_python(skip_empty_area=False)
    except (CalamineError, OSError, IndexError) as error:
        raise InputError("file", f"{path.name} cannot be read: {error}", "Save it anew") from None
    return [(n, [_text(cell) for cell in cells]) for n, cells in enumerate(rows[:_MOST], 1)]


def _text(cell: Any) -> str:
    if isinstance(cell, (dt.datetime, dt.date)):
        return cell.isoformat()[:10]
    if isinstance(cell, float):
        return f"{cell:.10g}"
    return "" if cell is None else str(cell)


def write_rest(path: Path, rows: list[tuple[int, list[str]]], taken: set[int]) -> Path | None:
    """Write the rows that were not taken into a file beside the sheet; return it, or None.

    The headings go along, so that the file can be mended and imported by itself.
    """
    from ledger.cells import shown_cell

    if not taken:
        return None
    rest = path.with_name(f"{path.stem}.not-taken.csv")
    with rest.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        for number, cells in rows:
            if number in taken:
                writer.writerow([shown_cell(cell) for cell in cells])
    return rest
