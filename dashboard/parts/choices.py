"""Choices that stand in a page's address: a filter can be kept, sent and gone back from."""

from __future__ import annotations

from collections.abc import Iterable

import dash_mantine_components as dmc
from dash import html
from dash.development.base_component import Component

__all__ = ["choice", "choices"]


def choice(name: str, label: str, value: str, options: Iterable[tuple[str, str]]) -> Component:
    """Return a choice of one among several.

    Parameters
    ----------
    name : str
        Its name in the address: ``season`` of ``?season=2025``.
    label : str
    value : str
        What is chosen now.
    options : iterable of (value, label)
    """
    data = [{"value": one, "label": text} for one, text in options]
    return dmc.Select(
        id={"choice": name}, label=label, value=value, data=data, allowDeselect=False,
        searchable=len(data) > 12, checkIconPosition="right", comboboxProps={"withinPortal": True},
    )  # fmt: skip


def choices(*some: Component) -> Component:
    """Return choices beside each other."""
    return html.Div(list(some), className="choices")
