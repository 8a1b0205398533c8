"""A table as a page shows it, in CSV: the same rows, the same words, under the headings that are read."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from dash import html
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.drawing import draw_page
from ledger.cells import shown_cell
from ledger.errors import NotFound
from ledger.messages import Code, Message, Typed

__all__ = ["table_shown"]

_BELOW_ZERO = re.compile(r"[-\u2212][$\u20ac\u00a3]?[\d.,]+(?: ?[$\u20ac\u00a3%])?")
"""A number below zero: no formula, though it begins like one."""
_SPACED = ("Br", "Li", "P", "Div")


def table_shown(ask: Ask, table: str) -> str:
    """Return a table of a page as CSV, with all its rows.

    Parameters
    ----------
    ask : Ask
        The page, with the choices in its address.
    table : str
        Which of its tables: as `answer_table` named it.

    Raises
    ------
    NotFound
        When the page shows no such table.
    """
    page = draw_page(replace(ask, query={**ask.query, "rows": "all"}))
    for one in _walk(page):
        if getattr(one, "data-table", None) == table:
            found = next(part for part in _walk(one) if isinstance(part, html.Table))
            return _csv(found)
    raise NotFound(
        "table",
        Message.of("refusal-no-table-on-page", path=Code(str(ask.path)), table=Typed(table)),
    )


def _csv(table: html.Table) -> str:
    out = io.StringIO()
    write = csv.writer(out, lineterminator="\n")
    for row in _walk(table):
        if isinstance(row, html.Tr):
            cells = [one for one in row.children if isinstance(one, (html.Th, html.Td))]
            write.writerow([_cell(cell) for cell in cells])
    return out.getvalue()


def _cell(part: Component) -> str:
    text = " ".join(_text(part).split())
    return text if _BELOW_ZERO.fullmatch(text) else shown_cell(text)


def _walk(part: Any) -> Iterator[Component]:
    """Yield the components of a part of a page, outer ones first."""
    if isinstance(part, (list, tuple)):
        for one in part:
            yield from _walk(one)
    elif isinstance(part, Component):
        yield part
        yield from _walk(getattr(part, "children", None))


def _text(part: Any) -> str:
    """Return what is read in a part; what is only heard, or only drawn, is left out."""
    if isinstance(part, (list, tuple)):
        return "".join(map(_text, part))
    if not isinstance(part, Component):
        return "" if part is None else str(part)
    kinds = (getattr(part, "className", None) or "").split()
    if "heard" in kinds or getattr(part, "aria-hidden", None) == "true":
        return ""
    inside = _text(getattr(part, "children", None))
    is_apart = type(part).__name__ in _SPACED or "mark" in kinds
    return f" {inside} " if is_apart else inside
