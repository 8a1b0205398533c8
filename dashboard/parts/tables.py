"""Tables: an answer's records, each figure opening to its arithmetic; cards on a narrow screen."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any
from urllib.parse import urlencode

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.figures import figure
from ledger.projections import Answer, Column

__all__ = ["answer_table", "csv_link", "plain_table"]

ROWS = 12
"""Rows drawn at once; the rest come when asked for."""

_NAMED = ("item", "crop", "variety", "bed", "person", "shop", "what")
"""Columns of names that the household gave: they are shown as they were written."""

_COUNTED = ("season", "week")
"""Numbers that name a row: nothing gave them."""

_NONE = ("", "–", None)
"""What says nothing: a card on a narrow screen leaves it out."""

Cell = Callable[[Mapping[str, Any]], Any]


def answer_table(
    ask: Ask,
    answer: Answer,
    *,
    columns: Sequence[str] = (),
    cells: Mapping[str, Cell] | None = None,
    keep: Callable[[Mapping[str, Any]], bool] | None = None,
    newest_first: bool = False,
    caption: str | None = None,
    options: Mapping[str, Any] | None = None,
    asked: Mapping[str, Any] | None = None,
    most: int = ROWS,
    stays: Callable[[Mapping[str, Any]], Any] | None = None,
    is_lined: bool = False,
) -> Component:
    """Return an answer as a table, with links to it as CSV: as it is shown, and every column of it.

    Parameters
    ----------
    ask : Ask
    answer : Answer
    columns : sequence of str
        Which columns, in their order; default: the answer's main ones.
    cells : mapping of str to callable, optional
        Another way to draw a column: ``cells["item"](row)`` gives a component; None: as ever.
    keep : callable, optional
        Which rows are drawn; the CSV holds all.
    newest_first : bool
        Turn the answer's order round.
    caption : str, optional
        What the table is; default: the name of the answer's page.
    options : mapping, optional
        What the answer was asked with: the CSV is asked the same.
    asked : mapping, optional
        The same, where `options` tells apart several tables of one answer.
    most : int
        Rows drawn at once.
    stays : callable, optional
        Rows of which this is true stand first, those where it is least before all, and are never left out.
    is_lined : bool
        On a phone a row is a line or two, not a card; links to files fold there.
    """
    by_name = {column.name: column for column in answer.columns}
    shown = (
        [by_name[n] for n in columns]
        if columns
        else [c for c in answer.columns if c.is_shown(ask.words.measures)]
    )
    said = dict(options or {})
    group = said.pop("group", None)  # several tables of one answer are told apart by it
    table = "-".join([answer.name, *sorted(map(str, said)), *([str(group)] if group else [])])
    many = None if ask.wants_all(table) else most
    rows, count = _rows(answer, keep, stays, many, newest_first=newest_first)
    heads = [ask.words.label(answer.name, column) for column in shown]
    body = [
        [
            _cell(ask, column, head, row, (cells or {}).get(column.name))
            for column, head in zip(shown, heads, strict=True)
        ]
        for row in rows
    ]
    numeric = [column.unit not in ("", "day") for column in shown]
    drawn = plain_table(
        heads, body, numeric=numeric, caption=caption or _name(ask, answer), is_lined=is_lined
    )
    files = [
        _shown_link(ask, table),
        csv_link(ask, answer.name, (options if asked is None else asked) or {}),
    ]
    left = count - len(body)
    return html.Div(
        [drawn, *(_lined_ends if is_lined else _ends)(ask, table, left, count, files)],
        className="set",
        **{"data-table": table},
    )


def _rows(
    answer: Answer,
    keep: Callable[[Mapping[str, Any]], bool] | None,
    stays: Callable[[Mapping[str, Any]], Any] | None,
    many: int | None,
    *,
    newest_first: bool,
) -> tuple[list[dict[str, Any]], int]:
    """Return the rows to draw, and how many there are in all; as in `answer_table`."""
    if keep is None and stays is None:
        at = range(answer.count)[:: -1 if newest_first else 1]
        return answer.rows(at[:many]), len(at)
    rows = [row for row in answer.rows() if keep is None or keep(row)]
    if newest_first:
        rows.reverse()
    staying = sorted(filter(stays, rows), key=stays) if stays is not None else []
    if stays is not None:
        rows = [*staying, *(row for row in rows if not stays(row))]
    return rows[: None if many is None else max(many, len(staying))], len(rows)


def _ends(ask: Ask, table: str, left: int, n: int, files: list[Component]) -> list[Component]:
    """Return buttons below a table: all rows, and its files."""
    more = None
    if left:
        more = dcc.Link(
            ask.words("table.all", n=n), href=ask.link_all(table), className="button quiet-button"
        )
    return [html.Div([more, *files], className="tools")]


def _lined_ends(ask: Ask, table: str, left: int, n: int, files: list[Component]) -> list[Component]:
    """Return how many rows are not drawn, a link that opens them, and the files folded."""
    more = None
    if left:
        text = ask.words("table.more", n=ask.words.number(left, 9))
        more = dcc.Link(text, href=ask.link_all(table), className="rows-left")
    kept = html.Details(
        [html.Summary(ask.words("table.files")), html.Div(files, className="tools")],
        className="files",
    )
    return [html.Div([more, kept], className="lined-ends")]


def _shown_link(ask: Ask, table: str) -> Component:
    """Return the link to a table as the page shows it, as CSV."""
    said = {**ask.query, "path": ask.path, "table": table}
    for name in ("as_of", "known_at"):
        if value := getattr(ask.moment, name):
            said[f"moment.{name}"] = value
    return html.A(
        ask.words("table.csv"), href=f"/files/page.csv?{urlencode(said)}", download=f"{table}.csv",
        className="button quiet-button",
    )  # fmt: skip


def _name(ask: Ask, answer: Answer) -> str:
    return ask.words.word("nav", answer.name.replace("-", "_"))


def _cell(ask: Ask, column: Column, head: str, row: Mapping[str, Any], drawn: Cell | None) -> Any:
    own = None if drawn is None else drawn(row)
    if own is not None:
        return own
    value = row[column.name]
    if isinstance(value, float) and math.isnan(value):
        value = None  # a text that is not known
    if isinstance(value, str) and column.unit == "":
        named = column.name in _NAMED
        return value if named else _word(ask, value, column.name)
    text = ask.words.cell(column, value)
    if value is not None and (bound := column.mark(row)):
        text = f"{bound} {text}"
    if column.unit == "day":
        return html.Time(text)
    is_figure = (
        isinstance(value, (int, float))
        and not isinstance(value, bool)
        and column.name not in _COUNTED
    )
    return figure(text, row.get("why"), column.name, what=head) if is_figure else text


def _word(ask: Ask, value: str, of: str) -> str:
    """Return a fixed word of an answer, or what it says, in the language."""
    return ask.words.fixed(value, of)


def plain_table(
    heads: Sequence[str],
    rows: Sequence[Sequence[Any]],
    *,
    numeric: Sequence[bool] = (),
    caption: str = "",
    foot: Sequence[Any] = (),
    keeps_columns: bool = False,
    is_lined: bool = False,
) -> Component:
    """Return a table of components; the first column names the row.

    Parameters
    ----------
    heads : sequence of str
    rows : sequence of sequences
    numeric : sequence of bool
        Which columns are figures, set right.
    caption : str
        For those who hear the page.
    foot : sequence
        A last row, the sum, under a rule.
    keeps_columns : bool
        Few and narrow columns stay columns on a phone; else each row becomes a card there.
    is_lined : bool
        Each row becomes a line or two there: what it is, then the rest behind one another.
    """
    classes = ["number" if is_number else None for is_number in numeric] or [None] * len(heads)
    head = [
        html.Th(text, scope="col", className=cls) if text else html.Td(className=cls)
        for text, cls in zip(heads, classes, strict=True)
    ]
    body = [
        html.Tr(
            [
                (html.Th if i == 0 else html.Td)(
                    cell,
                    className=" ".join(filter(None, [cls, "none" if cell in _NONE else None]))
                    or None,
                    **({"scope": "row"} if i == 0 else {}),
                    **{"data-label": label},
                )
                for i, (cell, cls, label) in enumerate(zip(row, classes, heads, strict=True))
            ]
        )
        for row in rows
    ]
    last = [
        html.Th(cell, className=cls, scope="row")
        if i == 0 and cell
        else html.Td(cell, className=cls, **{"data-label": label})
        for i, (cell, cls, label) in enumerate(zip(foot, classes, heads, strict=False))
    ]
    return html.Table(
        [
            html.Caption(caption, className="heard"),
            html.Thead(html.Tr(head)),
            html.Tbody(body),
            *([html.Tfoot(html.Tr(last))] if foot else []),
        ],
        className="tab" if keeps_columns else "records lined" if is_lined else "records",
    )


def csv_link(ask: Ask, name: str, options: Mapping[str, Any]) -> Component:
    """Return the link to a whole answer as CSV: every column under its own name, unrounded.

    It is asked with these options at the page's moment.
    """
    said = {f"o.{key}": value for key, value in options.items() if value not in (None, "", False)}
    if ask.moment.as_of:
        said["as_of"] = ask.moment.as_of
    if ask.moment.known_at:
        said["known_at"] = ask.moment.known_at
    query = f"?{urlencode(said, doseq=True)}" if said else ""
    return html.A(
        ask.words("table.every"), href=f"/files/{name}.csv{query}", download=f"{name}.csv",
        className="button quiet-button",
    )  # fmt: skip
