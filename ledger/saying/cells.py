"""The cells of a sheet as text: CSV, and with the extra ``sheets`` also .xlsx and .ods."""

from __future__ import annotations

import csv
import datetime as dt
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ledger.cells import plain_cell
from ledger.errors import InputError
from ledger.messages import Code, Message, Typed

__all__ = ["Table", "is_sheet", "read_cells", "read_tables", "write_rest"]

_BOOKS = (".xlsx", ".ods", ".xls", ".xlsm")
_MOST = 20_000
"""Rows of a sheet that are read; a longer one is refused."""


@dataclass(slots=True)
class Table:
    """One sheet of a file.

    Attributes
    ----------
    name : str
        As it is called in its workbook; empty where the file holds no other.
    rows : list of (int, list of str)
        Each with its number in the sheet, the first being 1.
    """

    name: str
    rows: list[tuple[int, list[str]]]


def is_sheet(path: Path) -> bool:
    """Return whether a file is read as a household's own sheet: no columns `kind` and `on`."""
    if path.suffix.lower() in _BOOKS:
        return True
    if path.suffix.lower() not in (".csv", ".tsv", ".txt") or not path.is_file():
        return False
    rows = read_cells(path)[:1]
    named = {cell.strip().lower() for _, cells in rows for cell in cells}
    return bool(rows) and not {"kind", "on"} <= named and not named & {"kind", "on"}


def read_tables(path: Path, encoding: str = "utf-8", only: str | None = None) -> list[Table]:
    """Return the sheets of a file that hold anything, in their order.

    Parameters
    ----------
    only : str, optional
        The name of the one sheet wanted.

    Raises
    ------
    InputError
        It cannot be read as a sheet, or has none of that name.
    """
    if not path.is_file():
        raise InputError(
            "file",
            Message.of("refusal-no-file", path=Code(str(path))),
            Message.of("refusal-check-path"),
        )
    if path.suffix.lower() not in _BOOKS:
        if only is not None:
            raise InputError("sheet", Message.of("refusal-one-sheet", name=Code(path.name)))
        return [Table("", read_cells(path, encoding))]
    tables = _of_book(path)
    if only is not None:
        named = [one for one in tables if one.name.strip().lower() == only.strip().lower()]
        if not named:
            names = ", ".join(one.name for one in tables)
            raise InputError("sheet", Message.of("refusal-no-sheet", text=Typed(only), names=names))
        tables = named
    full = [one for one in tables if any(cell.strip() for _, cells in one.rows for cell in cells)]
    if len(full) < 2 and only is None:
        return [Table("", one.rows) for one in full]
    return full


def read_cells(path: Path, encoding: str = "utf-8") -> list[tuple[int, list[str]]]:
    """Return each row with its number in the file, the first being 1; cells as text.

    Of a workbook these are the rows of its first sheet that holds anything.

    Raises
    ------
    InputError
        It cannot be read as a sheet.
    """
    if not path.is_file():
        raise InputError(
            "file",
            Message.of("refusal-no-file", path=Code(str(path))),
            Message.of("refusal-check-path"),
        )
    if path.suffix.lower() in _BOOKS:
        return next((one.rows for one in read_tables(path)), [])
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
                raise InputError("file", Message.of("refusal-too-many-rows", n=_MOST))
    except csv.Error as error:
        raise InputError(
            "file", Message.of("refusal-line-fault", n=last + 1, why=Code(str(error)))
        ) from None
    return out


def _of_book(path: Path) -> list[Table]:
    try:
        from python_calamine import CalamineError, CalamineWorkbook
    except ImportError:
        raise InputError(
            "file",
            Message.of("refusal-needs-sheets", suffix=Code(path.suffix)),
        ) from None
    try:
        book = CalamineWorkbook.from_path(str(path))
        names = book.sheet_names
        sheets = [book.get_sheet_by_name(name).to_python(skip_empty_area=False) for name in names]
    except (CalamineError, OSError, IndexError) as error:
        raise InputError(
            "file",
            Message.of("refusal-cannot-be-read", name=path.name, why=Code(str(error))),
            Message.of("refusal-save-anew"),
        ) from None
    if sum(map(len, sheets)) > _MOST:
        raise InputError("file", Message.of("refusal-too-many-rows", n=_MOST))
    return [
        Table(name, [(n, [_text(cell) for cell in cells]) for n, cells in enumerate(rows, 1)])
        for name, rows in zip(names, sheets, strict=True)
    ]


def _text(cell: Any) -> str:
    if isinstance(cell, (dt.datetime, dt.date)):
        return cell.isoformat()[:10]
    if isinstance(cell, float):
        return f"{cell:.10g}"
    return "" if cell is None else str(cell)


def write_rest(path: Path, table: Table, taken: set[int]) -> Path | None:
    """Write the rows that were not taken into a file beside the sheet; return it, or None.

    The headings go along, so that the file can be mended and imported by itself; of a workbook each
    sheet has a file of its own.
    """
    from ledger.cells import shown_cell

    if not taken:
        return None
    name = re.sub(r"[^\w-]+", "-", table.name).strip("-")
    rest = path.with_name(".".join([path.stem, *([name] if name else []), "not-taken.csv"]))
    with rest.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file)
        for number, cells in table.rows:
            if number in taken:
                writer.writerow([shown_cell(cell) for cell in cells])
    return rest
