"""Answers as tables that a person likes to read."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from ledger.cli._columns import part_of_table, widths_of
from ledger.cli._console import console_of, short
from ledger.cli._speech import say, told
from ledger.cli._values import amount, day, entry, fixed, heading, number, unit, word
from ledger.messages import Code, Day

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from rich.console import Console

    from ledger.book import Book
    from ledger.history import HistoryRow
    from ledger.projections import Answer, Column

__all__ = ["print_answer", "print_history"]

_SHOWN = 5
_NAMED = frozenset({"item", "crop", "bed", "variety", "person", "shop", "label", "name", "skill"})
"""Columns that hold what the household called a thing."""
_UNSAID = frozenset({"", "day", "yes or no", "jars", "times", "0 to 1", "its unit"})
"""Units that a heading does not say: another column has it, or the figure itself."""


def print_answer(
    answer: Answer,
    *,
    wide: bool = False,
    since: str | None = None,
    most: int | None = None,
    notes: bool = False,
    keep: Callable[[Answer], bool] | None = None,
    measures: str = "us",
) -> None:
    """Print an answer as a table, with its day, its unit of money and what it rests on.

    Parameters
    ----------
    wide : bool
        Every column.
    since : str, optional
        Show no record of an earlier day; the totals stay those of all.
    most : int, optional
        Show no more records than so many, the first; the totals stay those of all.
    notes : bool
        Everything that the answer rests on, not the first of it alone.
    keep : callable, optional
        Keeps which rows are shown and tells whether `croftbook why` takes their numbers.
    measures : {'us', 'uk', 'metric'}
        What weights, volumes, lengths and ground are said in.
    """
    from ledger.projections import PROJECTIONS

    console = console_of(markup=False)
    rest = answer.footnotes
    whole, answer = answer, _first(_from(answer, since), most)
    for grave in answer.cautions:
        console.print(f"{told(grave.text)}\n", style="bold")
    below = PROJECTIONS[answer.name].below if answer.name in PROJECTIONS else None
    numbered = keep is not None and keep(answer)
    if answer.is_empty:
        console.print(say("table-empty", question=Code(answer.name)))
    elif below is not None and not wide:
        _print_blocks(console, answer, below(answer), numbered=numbered, measures=measures)
    else:
        _print_table(console, answer, wide=wide, numbered=numbered, measures=measures)
    if numbered:
        console.print(f"\n{say('table-why')}", style="dim")
    if hidden := whole.count - answer.count:
        told_of = (
            say("table-earlier", day=Day(str(since)), n=hidden)
            if since
            else say("table-more", n=hidden)
        )
        console.print(f"\n{told_of}")
    known = answer.known_at
    money = any(column.unit.startswith("money") for column in answer.columns)
    console.print(
        "\n"
        + say(
            "table-as-of",
            day=Day(answer.as_of),
            known=Code(known) if known else None,
            currency=Code(answer.currency) if money else None,
        ),
        style="dim",
    )
    _totals(console, answer)
    most = len(rest) if notes else _SHOWN
    for assumption in rest[:most]:
        console.print(f"- {told(assumption.text)}", style="dim")
    if len(rest) > most:
        console.print(f"- {say('table-more-notes', n=len(rest) - most)}", style="dim")


def _from(answer: Answer, since: str | None) -> Answer:
    """Return an answer without the records of days before one."""
    if since is None:
        return answer
    from ledger.projections import PROJECTIONS

    days = answer.cells[PROJECTIONS[answer.name].dated]
    keep = [at for at, day in enumerate(days) if day >= since]
    cells: dict[str, Sequence[Any]] = {
        name: [column[at] for at in keep] for name, column in answer.cells.items()
    }
    return replace(answer, cells=cells)


def _first(answer: Answer, most: int | None) -> Answer:
    """Return an answer with the first records alone."""
    if most is None:
        return answer
    return replace(answer, cells={name: cells[:most] for name, cells in answer.cells.items()})


def _print_table(
    console: Console, answer: Answer, *, wide: bool, numbered: bool, measures: str
) -> None:
    """Print each record as a row; how its jars stand goes beneath it, over the whole width."""
    from rich.padding import Padding
    from rich.text import Text

    columns = [
        c for c in answer.columns if c.is_shown(measures) or (wide and c.name != "assumptions")
    ]
    columns = [c for c in columns if wide or not c.rare or answer.says(c.name)]
    if wide:
        console.width = 30 * len(columns)
    beneath = [] if wide else [c for c in columns if c.name in _BENEATH]
    columns = [c for c in columns if c not in beneath]
    heads = [_head(answer.name, column, answer.currency) for column in columns]
    rows, marks = list[list[str]](), list[list[str]]()
    for row in answer.rows():
        rows.append(
            [c.mark(row) + _cell(row[c.name], c, measures) + _past(c, row) for c in columns]
        )
        marks.append([_cell(row[c.name], c, measures) for c in beneath if row[c.name]])
    is_number = [column.unit not in ("", "day") for column in columns]
    stays = [column.unit == "day" for column in columns]
    if numbered:
        rows = [[str(at), *cells] for at, cells in enumerate(rows, 1)]
        heads, is_number, stays = ["#", *heads], [True, *is_number], [True, *stays]
    texts = list(zip(heads, *rows, strict=True))
    whole = {at for at, one in enumerate(stays) if one}
    widths = widths_of(texts, console.width - len(heads), whole)
    ends = [at for at, said in enumerate(marks, 1) if said]
    begin = 0
    for end in dict.fromkeys([*ends, len(rows)]):
        part = zip(heads, widths, is_number, strict=True)
        console.print(part_of_table(part, rows[begin:end], has_head=begin == 0))
        for said in marks[end - 1] if rows else ():
            console.print(Padding(Text(said, style="bold"), (0, 0, 0, 4)))
        begin = end


_BENEATH = frozenset({"standing_text", "mark"})
"""Columns of whole sentences, for which no column is wide enough."""


def _print_blocks(
    console: Console, answer: Answer, below: list[list[str]], *, numbered: bool, measures: str
) -> None:
    """Print each record as a line, with what is to be said of it beneath, over the whole width."""
    from rich.padding import Padding
    from rich.text import Text

    columns = [c for c in answer.columns if c.is_shown(measures) and answer.says(c.name)]
    heads = [[short(_cell(value, c, measures)) for value in answer.cells[c.name]] for c in columns]
    if numbered:
        most = len(str(answer.count))
        heads.insert(0, [f"{at:>{most}}" for at in range(1, answer.count + 1)])
    widths = [max(map(len, cells)) for cells in heads]
    for *cells, lines in zip(*heads, below, strict=True):
        head = "  ".join(text.ljust(width) for text, width in zip(cells, widths, strict=True))
        console.print(Text(head.rstrip(), style="bold" if lines else ""))
        for line in lines:
            console.print(Padding(Text(told(line)), (0, 0, 0, 4)))


def _head(question: str, column: Column, currency: str) -> str:
    from ledger.amounts import format_measured

    label = heading(question, column.name, column.label)
    if column.unit.startswith("money"):
        return f"{label}\n{currency}"
    if column.unit in _UNSAID or " or " in column.unit or ", " in column.unit:
        return label
    if format_measured(0.0, column.unit) is not None:  # each says its own unit
        return label
    named = unit(column.unit)
    return label if label.casefold().startswith(named.casefold()) else f"{label}\n{named}"


def _past(column: Column, row: Mapping[str, Any]) -> str:
    """Return the mark behind a day by which to use what is past it, as the pages mark it."""
    is_past = column.name == "use_by" and (row.get("days_left") or 0) < 0
    return f" {say('table-past')}" if is_past else ""


def _cell(value: Any, column: Column, measures: str) -> str:
    from ledger.amounts import format_measured

    if value is None or (isinstance(value, float) and math.isnan(value)):
        return "-"
    if isinstance(value, bool):
        return say("table-yes") if value else ""
    if isinstance(value, dict):
        return ", ".join(f"{_told(name)} {one}" for name, one in value.items())
    if isinstance(value, list):
        return ", ".join(map(_told, value))
    if isinstance(value, float):
        said = format_measured(value, column.unit, measures=measures)
        return amount(said) if said is not None else number(_figure(value, column.unit))
    if not isinstance(value, str):
        return str(value)
    if column.unit == "day":
        return day(value)
    return told(value) if column.unit or column.name in _NAMED else fixed(value, column.name)


def _told(value: Any) -> str:
    """Return what the ledger says, or any other value, as text; a plain ``str()`` forgets the message."""
    return told(value if isinstance(value, str) else str(value))


def _figure(value: float, unit: str) -> str:
    if unit.startswith(("0 to 1", "share", "chance")):
        return f"{value * 100:.3g} %" if value >= 0.001 or not value else "<0.1 %"
    if unit.startswith("money"):
        return f"{value:,.2f}"
    return f"{value:,.3g}" if abs(value) < 1000 else f"{value:,.0f}"


def _totals(console: Console, answer: Answer) -> None:
    totals = dict(answer.totals)
    missing = totals.pop("missing", [])
    bounds = totals.pop("bounds", {})
    in_words = totals.pop("in_words", None)
    if in_words is not None:  # what a person wants of the totals; --json has the numbers
        totals = {}
    for sentence in in_words or []:
        console.print(told(sentence))
    for name, value in totals.items():
        if isinstance(value, dict):
            for item, row in value.items():
                text = (
                    ", ".join(
                        f"{count} {word(name.replace('_', ' '))}"
                        for name, count in row.items()
                        if count
                    )
                    if isinstance(row, dict)
                    else _told(row)
                )
                console.print(f"{fixed(item)}: {text}")
            continue
        shown = number(f"{value:,.2f}") if isinstance(value, float) else _told(value)
        shown = f"{bounds.get(name, '')}{shown}"
        console.print(say("table-total", name=fixed(name.replace("_", " "), "totals"), value=shown))
    for sentence in missing:
        console.print(f"- {told(sentence)}")


def _mark(row: HistoryRow, marks: dict[str, str]) -> str:
    from rich.markup import escape

    mark = marks.get(row.entry) if row.kind == "put_up" and row.state == "holds" else None
    return "" if mark is None else f"\n[bold]! {escape(told(mark))}[/bold]"


def print_history(rows: list[HistoryRow], count: int, marks: dict[str, str], book: Book) -> None:
    """Print entries, one a line; `marks` say how a batch stands, by its entry."""
    from rich.table import Table

    console = console_of()
    table = Table(box=None, pad_edge=False, padding=(0, 1, 0, 0), header_style="bold")
    for name in ("table-id", "table-day", "table-by", "table-state", "table-what"):
        table.add_column(say(name), no_wrap=name in ("table-id", "table-day"), overflow="fold")
    from rich.markup import escape

    for row in rows:
        table.add_row(
            row.id[:8],
            day(row.on),
            escape(row.by or ""),
            "" if row.state == "holds" else fixed(row.state, "state"),
            escape(entry(row.line, book))
            + (escape(f" ({row.note})") if row.note else "")
            + _mark(row, marks),
        )
    console.print(table)
    if len(rows) < count:
        console.print(say("table-limit", n=len(rows), of=count), style="dim")
