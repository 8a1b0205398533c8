"""Choices that stand in a page's address: a filter can be kept, sent and gone back from."""

from __future__ import annotations

from collections.abc import Iterable

from dash.development.base_component import Component

from dashboard.elements import html
from dashboard.parts.alive import Box, Choice

__all__ = ["choice", "choices", "drawn_with", "written"]


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
    return Choice(id={"choice": name}, label=label, value=value, options=data, **drawn_with(value))


def written(
    name: str,
    label: str,
    value: str,
    example: str,
    *,
    error: str | None = None,
    keypad: bool = False,
) -> Component:
    """Return a choice that is written: a number, a name.

    Parameters
    ----------
    name, label, value : str
        As for `choice`.
    example : str
    error : str, optional
        What is wrong with it.
    keypad : bool
        Whether a number is wanted, so that a phone shows its keypad.
    """
    return Box(
        id={"choice": name}, label=label, value=value, debounce=True, placeholder=example,
        autoComplete="off", error=error, inputMode="decimal" if keypad else None,
        **drawn_with(value),
    )  # fmt: skip


def drawn_with(value: object) -> dict[str, str]:
    """Return the mark of a choice's value as drawn: only what differs from it was changed by hand."""
    return {"data-drawn": str(value)}


def choices(*some: Component) -> Component:
    """Return choices beside each other."""
    return html.Div(list(some), className="choices")
