"""CSV: one event a row, one line an event; foreign headings through a mapping file."""

from __future__ import annotations

import csv
import datetime as dt
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from ledger.errors import InputError
from ledger.events import KINDS, kind_of

__all__ = ["csv_lines", "read_map"]

_ENVELOPE = ("kind", "on", "at", "by", "id", "replaces")
_ORDERS = {"dmy": (0, 1, 2), "mdy": (1, 0, 2)}
_LISTS = frozenset({"people", "equipment", "also", "steps"})
_WHOLE = frozenset(
    {"people", "guests", "jars", "unsealed", "loads", "went", "liked", "plants", "times"}
)


def read_map(path: Path) -> dict[str, Any]:
    """Return a mapping file: ``[columns]`` heading = field, ``[constants]`` field = value.

    Raises
    ------
    InputError
    """
    try:
        with path.open("rb") as file:
            data = tomllib.load(file)
    except OSError as error:
        raise InputError(
            "map", f"{path} cannot be read ({error.strerror})", "Name a TOML file"
        ) from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise InputError(
            "map", f"{path} is not TOML ({error})", 'Write [columns] and lines like "Date" = "on"'
        ) from None
    unknown = set(data) - {"columns", "constants"}
    if unknown:
        raise InputError(
            "map",
            f"{sorted(unknown)[0]!r} is not a part of a mapping",
            "It has [columns] and [constants]",
        )
    return data


def csv_lines(
    path: Path,
    *,
    encoding: str = "utf-8",
    dates: str | None = None,
    mapping: dict[str, Any] | None = None,
) -> Iterator[tuple[int, int, dict[str, Any] | InputError]]:
    """Yield (row number, bytes so far, event) of a CSV file.

    Parameters
    ----------
    encoding : str
        UTF-8 with or without a mark, unless another is named.
    dates : {'dmy', 'mdy'}, optional
        How days are written that are not ISO 8601.
    mapping : dict, optional
        As `read_map` gives it.

    Raises
    ------
    InputError
        When there is no header that can be used.
    """
    mapping = mapping or {}
    columns, constants = mapping.get("columns", {}), mapping.get("constants", {})
    encoding = "utf-8-sig" if encoding.lower().replace("_", "-") in ("utf-8", "utf8") else encoding
    try:
        file = path.open(encoding=encoding, newline="")
    except LookupError:
        raise InputError(
            "encoding", f"{encoding!r} is not an encoding", "Write utf-8 or latin-1"
        ) from None
    with file:
        try:
            sample = file.read(20_000)
        except UnicodeDecodeError as error:
            raise InputError(
                "file",
                f"is not {encoding} (byte {error.start + 1})",
                "Name its encoding with --encoding",
            ) from None
        file.seek(0)
        reader = csv.reader(file, delimiter=_delimiter(sample), strict=False)
        try:
            header = next(reader, None)
            names = _header(header, columns, constants)
            size = 0
            for row in reader:
                size += sum(map(len, row)) + len(row)
                if not any(cell.strip() for cell in row):
                    continue
                try:
                    yield reader.line_num, size, _event(names, row, constants, dates)
                except InputError as error:
                    yield reader.line_num, size, error
        except (csv.Error, UnicodeDecodeError) as error:
            yield (
                reader.line_num,
                0,
                InputError(
                    "row", f"cannot be read ({error})", "Check the file's encoding and quotes"
                ),
            )


def _delimiter(sample: str) -> str:
    first = sample.splitlines()[0] if sample else ""
    return max(",;\t", key=first.count)


def _header(
    header: list[str] | None, columns: dict[str, str], constants: dict[str, Any]
) -> list[str]:
    if not header:
        raise InputError(
            "header", "is missing", "The first row names the columns: on,kind,item,amount,..."
        )
    names = [columns.get(cell.strip(), "" if columns else cell.strip()) for cell in header]
    for wanted in ("on", "kind"):
        if wanted not in names and wanted not in constants:
            raise InputError(
                "header",
                f"has no column {wanted!r}",
                "Write on,kind,item,amount,... or map the headings with --map",
            )
    return names


def _event(
    names: list[str], row: list[str], constants: dict[str, Any], dates: str | None
) -> dict[str, Any]:
    cells = {
        name: cell.strip() for name, cell in zip(names, row, strict=False) if name and cell.strip()
    }
    cells = {**{name: str(value) for name, value in constants.items()}, **cells}
    if "kind" not in cells or "on" not in cells:
        raise InputError("kind" if "kind" not in cells else "on", "is empty", "Each row needs both")
    kind = kind_of(_kind_name(cells["kind"]))
    event: dict[str, Any] = {name: cells.pop(name) for name in _ENVELOPE if name in cells}
    event["kind"] = kind.name
    event["on"] = _day(event["on"], dates)
    event["body"] = {name: _typed(name, value) for name, value in cells.items()}
    return event


def _kind_name(text: str) -> str:
    """Return a kind by its name or by its command (``harvest`` for ``harvested``)."""
    return next((kind.name for kind in KINDS.values() if kind.command == text.lower()), text)


def _typed(name: str, value: str) -> Any:
    if name in _LISTS and not (name == "people" and value.isdigit()):
        return [part.strip() for part in re.split(r"[;|]", value) if part.strip()]
    if name in _WHOLE and value.isdigit():
        return int(value)
    return value


def _day(text: str, dates: str | None) -> str:
    try:
        return dt.date.fromisoformat(text).isoformat()
    except ValueError:
        pass
    parts = re.findall(r"\d+", text)
    if dates not in _ORDERS or len(parts) != 3:
        raise InputError(
            "on",
            f"{text!r} is not a day",
            "Write it like 2026-09-02, or say how days are written with --dates dmy or mdy",
        )
    day, month, year = (int(parts[i]) for i in _ORDERS[dates])
    year += 2000 if year < 70 else 1900 if year < 100 else 0
    try:
        return dt.date(year, month, day).isoformat()
    except ValueError:
        raise InputError(
            "on", f"{text!r} is not a day ({dates})", "Check the order of day and month"
        ) from None
