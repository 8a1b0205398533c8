"""Sheets: a wide table of coloured cells with text in them, which scrolls by itself and not the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from dash.development.base_component import Component

from dashboard.elements import html

__all__ = ["Cell", "Group", "sheet"]


@dataclass(frozen=True)
class Cell:
    """One cell: what stands in it, and the class that colours it."""

    content: Any
    kind: str = ""


@dataclass
class Group:
    """Rows that belong together under a title: each its name and its cells."""

    title: str
    rows: list[tuple[Any, list[Cell]]] = field(default_factory=list)


def sheet(corner: str, heads: Sequence[str], groups: Sequence[Group], *, name: str) -> Component:
    """Return a table of groups of rows in a frame of its own that scrolls sideways.

    Parameters
    ----------
    corner : str
        What the rows are.
    heads : sequence of str
        What the columns are; said again above every later group, as one may be a screen long.
    groups : sequence of Group
        Those without rows are left out.
    name : str
        What the table is, for those who hear the page.
    """
    top = html.Thead(
        html.Tr([html.Th(corner, scope="col"), *(html.Th(head, scope="col") for head in heads)])
    )
    shown = [group for group in groups if group.rows]
    return html.Div(
        html.Table(
            [
                html.Caption(name, className="heard"),
                top,
                *(_body(group, heads if i else [""] * len(heads)) for i, group in enumerate(shown)),
            ],
            className="sheet",
        ),
        className="sheet-frame", tabIndex="0", role="region", **{"aria-label": name},
    )  # fmt: skip


def _body(group: Group, heads: Sequence[str]) -> Component:
    again = [html.Td(head, **{"aria-hidden": "true"}) for head in heads]
    title = html.Tr([html.Th(group.title, scope="rowgroup"), *again], className="sheet-group")
    rows = [
        html.Tr(
            [
                html.Th(name, scope="row"),
                *(html.Td(cell.content, className=cell.kind or None) for cell in cells),
            ]
        )
        for name, cells in group.rows
    ]
    return html.Tbody([title, *rows])
