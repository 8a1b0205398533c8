"""Marks on a page: icons beside words, and jars, one mark a jar, on their boards."""

from __future__ import annotations

from collections.abc import Sequence

from dash.development.base_component import Component

from dashboard.elements import html

__all__ = ["icon", "jar_row"]


def icon(name: str, *, small: bool = False) -> Component:
    """Return an icon of `dashboard.marks`; those who hear the page hear the words beside it."""
    return html.I(className=f"ic ic-{name}{' s' if small else ''}", **{"aria-hidden": "true"})


def jar_row(
    groups: Sequence[tuple[int, str, str]], said: str, *, on_board: bool = False
) -> Component:
    """Return one mark a jar.

    Parameters
    ----------
    groups : sequence of (number, size, age)
        Size ``qt``, ``pt`` or ``hp``; age ``a1`` (to 3 months), ``a2`` (6), ``a3`` (12), ``a4`` (older),
        ``a5`` (past best), or ``bad`` (do not eat) and ``query`` (no tested process held), which bear
        their sign.
    said : str
        The count in words, for those who hear the page; empty where it stands beside.
    on_board : bool
        They stand on boards as on a shelf: all of one size then.
    """
    marks = []
    for many, size, age in groups:
        is_signed = age in ("bad", "query")
        for _ in range(many):
            jar = html.I(className=f"jar {size} {'a2' if is_signed else age}")
            marks.append(html.Span(jar, className=f"jw {age}" if is_signed else "jw"))
    told = {"role": "img", "aria-label": said} if said else {"aria-hidden": "true"}
    return html.Div(
        marks, className=f"jars board-{groups[0][1]}" if on_board and groups else "jars", **told
    )
