"""CSV: one event a row, one line an event; foreign headings through a mapping file."""

from __future__ import annotations

import csv
import datetime as dt
import re
from collections.abc import Callable, Iterator
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from ledger.amounts import has_decimal_comma
from ledger.cells import plain_cell
from ledger.days import iso_day
from ledger.door.csvmap import Map
from ledger.door.texts import PARTS, Texts, whole_number
from ledger.errors import InputError, LedgerError
from ledger.kinds import KINDS, Kind, kind_of
from ledger.kinds.describing import fields_of
from ledger.messages import Code, Message, Typed

__all__ = ["csv_lines"]

LONGEST = 1_000_000
"""Characters of one line beyond which a sheet is refused."""

MOST_COLUMNS = 1_000

_ENVELOPE = ("kind", "on", "at", "by", "id", "replaces", "typed_at")
_ORDERS = {"dmy": (0, 1, 2), "mdy": (1, 0, 2)}
_DATE = re.compile(r"(\d{1,2})\s*[./-]\s*(\d{1,2})\s*[./-]\s*(\d{4}|\d{2})\.?")
_TEXTS = frozenset({"people", "equipment", "also", "steps"})
_WHOLE = frozenset({"people", "jars"})
"""Beside the fields of whole numbers: people by number where a kind takes their names, and jars."""

_MADE = ("jars", "jar", "unsealed", "kept", "labels")
_HALVES = re.compile("[\ud800-\udfff]")
_COMMA = re.compile(r"(?<=\d),(?=\d)")
_DECIMAL = re.compile(r"\d+,\d+")


def csv_lines(
    path: Path,
    texts: Callable[[], Texts],
    *,
    encoding: str = "utf-8",
    dates: str | None = None,
    mapping: Map | None = None,
) -> Iterator[tuple[int, int, dict[str, Any] | LedgerError]]:
    """Yield (row number, bytes so far, event) of a CSV file.

    Parameters
    ----------
    texts : callable
        Gives what reads short texts, as the book stands at that row: a heading that names a list
        (``used``, ``made``, ``ate``) holds texts as on the command line, with ``;`` or ``|`` between.
    encoding : str
        UTF-8 with or without a mark, unless another is named.
    dates : {'dmy', 'mdy'}, optional
        How days are written that are not ISO 8601.
    mapping : Map, optional
        Other headings, see `Map.read`.

    Raises
    ------
    InputError
        When there is no header that can be used.
    """
    mapping = mapping or Map()
    encoding = "utf-8-sig" if encoding.lower().replace("_", "-") in ("utf-8", "utf8") else encoding
    try:
        # A byte that is no character becomes half of one, which its own row is refused for.
        file = path.open(encoding=encoding, errors="surrogateescape", newline="")
    except LookupError:
        raise InputError(
            "encoding", Message.of("refusal-no-encoding", text=Typed(encoding))
        ) from None
    with file:
        before = 0
        try:
            sample = file.read(20_000)
            file.seek(0)
            reader = csv.reader(_short_lines(file), delimiter=_delimiter(sample), strict=True)
            header = next(reader, None)
            if header is not None and len(header) > MOST_COLUMNS:
                raise InputError(
                    "header",
                    Message.of("refusal-too-many-columns", n=len(header), most=MOST_COLUMNS),
                )
            names = mapping.names(header)
            named = {*names, *mapping.constants, "by"}  # a kind's own writer becomes `by`
            envelope = [name for name in _ENVELOPE if name in named]
            size, before = 0, reader.line_num
            for row in reader:
                together = "".join(row)
                size += len(together) + len(row)
                first, before = before + 1, reader.line_num
                if together and not together.isspace():
                    swallowed = _swallowed(names, row) if before > first else None
                    if swallowed is not None:
                        yield first, size, _stray(first, before, swallowed)
                    else:
                        found: dict[str, Any] | LedgerError
                        try:
                            cells = _cells(names, row, together, mapping)
                            found = _event(cells, envelope, dates, texts)
                        except LedgerError as error:
                            found = error
                        yield first, size, found
        except UnicodeError as error:
            raise InputError(
                "file",
                Message.of(
                    "refusal-not-encoded-so", encoding=Code(encoding), error=Code(str(error))
                ),
            ) from None
        except csv.Error as error:
            raise InputError(
                "row",
                Message.of(
                    "refusal-row-unreadable",
                    n=before + 1,
                    error=Code(str(error)),
                    last=reader.line_num,
                ),
            ) from None


def _short_lines(file: Any) -> Iterator[str]:
    """Yield a file's lines, of which none may take the whole memory."""
    for number in range(1, 1 << 62):
        line = file.readline(LONGEST + 1)
        if not line:
            return
        if len(line) > LONGEST:
            raise InputError(f"line {number}", Message.of("refusal-line-long-characters"))
        yield line


def _swallowed(names: list[str], row: list[str]) -> str | None:
    """Return the line within a cell that looks like a row of its own, None where there is none.

    A text in quotes may go on over several lines; a stray quote makes one cell of whole rows.
    """
    kind, on = (names.index(name) if name in names else None for name in ("kind", "on"))
    for cell in row:
        for line in cell.splitlines()[1:]:
            cells = [part.strip(' "') for part in re.split(r"[,;\t]", line)]
            if len(cells) < min(3, len(names)):
                continue
            day = cells[on] if on is not None and on < len(cells) else ""
            what = cells[kind] if kind is not None and kind < len(cells) else ""
            is_day = re.fullmatch(r"\d{4}-\d\d-\d\d", day) or _DATE.fullmatch(day)
            if is_day or _kind_name(what) in KINDS:
                return line
    return None


def _stray(first: int, last: int, line: str) -> InputError:
    return InputError(
        "row",
        Message.of("refusal-quote-open", last=last, line=Typed(line.strip()[:60]), first=first),
    )


def _delimiter(sample: str) -> str:
    first = sample.splitlines()[0] if sample else ""
    return max(",;\t", key=first.count)


def _cells(names: list[str], row: list[str], together: str, mapping: Map) -> dict[str, str]:
    if len(row) > len(names) and any(cell.strip() for cell in row[len(names) :]):
        raise InputError(
            "row",
            Message.of("refusal-cells-over-headings", n=len(row), n2=len(names)),
        )
    cells = {name: cell for name, cell in zip(names, map(str.strip, row), strict=False) if cell}
    cells.pop("", None)
    if "'" in together:
        cells = {name: plain_cell(cell) for name, cell in cells.items()}
    if "\x00" in together or not together.isascii():
        for name, cell in cells.items():
            if "\x00" in cell:
                raise InputError(
                    name, Message.of("refusal-nul-character"), Message.of("refusal-take-it-out")
                )
            if _HALVES.search(cell):
                raise InputError(name, Message.of("refusal-byte-no-character"))
    return {**mapping.constants, **cells} if mapping.constants else cells


def _event(
    cells: dict[str, str], envelope: list[str], dates: str | None, texts: Callable[[], Texts]
) -> dict[str, Any]:
    for name in ("kind", "on"):
        if name not in cells:
            raise InputError(name, Message.of("refusal-empty"), Message.of("refusal-kind-and-day"))
    kind = _kind(cells["kind"])
    own = None
    if kind.writer != "by":  # the body has a `by` of its own
        by, own = cells.pop(kind.writer, None), cells.pop("by", None)
        cells = {**cells, **({"by": by} if by else {})}
    event: dict[str, Any] = {name: cells.pop(name) for name in envelope if name in cells}
    event["kind"] = kind.name
    event["on"] = _day(event["on"], dates)
    if "at" in event and re.fullmatch(r"\d:\d\d", event["at"]):
        event["at"] = "0" + event["at"]
    event["body"] = _body(kind, cells, texts)
    if own:
        is_day = kind.name == "target_set"
        event["body"]["by"] = _day(own, dates, "by") if is_day else own
    return event


@lru_cache(maxsize=200)
def _kind(text: str) -> Kind:
    return kind_of(_kind_name(text))


def _kind_name(text: str) -> str:
    """Return a kind by its name or by its command (``harvest`` for ``harvested``)."""
    return _commands().get(text.lower(), text)


@cache
def _commands() -> dict[str, str]:
    """Return the kinds by their commands, the first of each."""
    return {kind.command: kind.name for kind in reversed(KINDS.values()) if kind.command}


def _body(kind: Kind, cells: dict[str, str], texts: Callable[[], Texts]) -> dict[str, Any]:
    ways = _ways(kind.name)
    body: dict[str, Any] = dict(cells)
    for name, value in cells.items():
        if name in ways:
            body[name] = ways[name](texts, name, value)
        elif "," in value and _DECIMAL.fullmatch(value) and _reads_comma(texts()):
            body[name] = _COMMA.sub(".", value)
    several = kind.row
    if (
        several not in (None, "lines")
        and several not in body
        and "item" in body
        and "amount" in body
    ):
        line = {name: body.pop(name) for name in ("item", "amount", "lot") if name in body}
        body[several] = line if several == "seed" else [line]
    if kind.name == "put_up" and "made" not in body and "jars" in body:
        body["made"] = [{name: body.pop(name) for name in _MADE if name in body}]
    return body


def _reads_comma(texts: Texts) -> bool:
    return has_decimal_comma(texts.catalogue.setting("language"))


@cache
def _whole(kind: str) -> frozenset[str]:
    """Return the fields of a kind that are whole numbers."""
    return frozenset(one.name for one in fields_of(KINDS[kind]) if one.kind == "whole")


_Way = Callable[[Callable[[], Texts], str, str], Any]


def _parts(texts: Callable[[], Texts], name: str, value: str) -> Any:
    some = texts()
    parts = [PARTS[name](some, part, name) for part in _split(value)]
    return parts[0] if name == "seed" else parts


def _several(texts: Callable[[], Texts], name: str, value: str) -> Any:
    return whole_number(value) if name == "people" and value.isdecimal() else _split(value)


def _number(texts: Callable[[], Texts], name: str, value: str) -> Any:
    number = whole_number(value)
    if number != value:
        return number
    comma = _DECIMAL.fullmatch(value) and _reads_comma(texts())
    return _COMMA.sub(".", value) if comma else value


@cache
def _ways(kind: str) -> dict[str, _Way]:
    """Return how a cell is read under each heading at which it is more than its text."""
    return {
        **dict.fromkeys(_WHOLE | _whole(kind), _number),
        **dict.fromkeys(_TEXTS, _several),
        "keeps": lambda texts, _, value: dict(texts().keeps(part) for part in _split(value)),
        **dict.fromkeys(
            ("g_per", "pieces_per"),
            lambda texts, name, value: dict(texts().pair(part, name) for part in _split(value)),
        ),
        **dict.fromkeys(PARTS.keys() - {"lines"}, _parts),
        "labels": lambda texts, _, value: texts().labels(value),
    }


def _split(value: str) -> list[str]:
    return [part.strip() for part in re.split(r"[;|\n]", value) if part.strip()]


@lru_cache(maxsize=2_000)
def _day(text: str, dates: str | None, field: str = "on") -> str:
    try:
        return iso_day(text).isoformat()
    except ValueError:
        pass
    parts = _DATE.fullmatch(text)
    if dates not in _ORDERS or parts is None:
        raise InputError(
            field,
            Message.of("refusal-not-a-day", text=Typed(text[:40])),
            Message.of("refusal-like-day-or-dates"),
        )
    day, month, year = (int(parts[i + 1]) for i in _ORDERS[dates])
    if year < 100:
        year += 2000 if year < 70 else 1900
    try:
        return dt.date(year, month, day).isoformat()
    except ValueError:
        raise InputError(
            field, Message.of("refusal-not-a-day-so", text=Typed(text), dates=Code(dates))
        ) from None
