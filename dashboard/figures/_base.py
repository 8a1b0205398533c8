"""What every picture shares: paper, ink, type, and that it lets the page scroll."""

from __future__ import annotations

import html
from typing import Any

import plotly.graph_objects as go

from dashboard.theme import INK, LINE, QUIET

__all__ = ["blank", "plain_names"]

_SANS = (
    '-apple-system, "Segoe UI", Roboto, "Noto Sans", "Liberation Sans", "DejaVu Sans", sans-serif'
)
"""The page's own face (croft.css)."""
_NAMES = ("x", "y", "name", "text", "labels", "customdata")
_OF_AXES = ("categoryarray", "ticktext", "tickvals")
"""Where a figure holds names that somebody wrote."""


def blank(scheme: str, **layout: Any) -> go.Figure:
    """Return an empty figure in the theme; `layout` is laid over it.

    Dragging is off, so that on a phone the page scrolls under a picture and a tap still shows a value.
    """
    axis = {
        "gridcolor": LINE[scheme],
        "linecolor": QUIET[scheme],
        "zerolinecolor": LINE[scheme],
        "fixedrange": True,
        "automargin": True,
        "title": {"standoff": 8},
    }
    figure = go.Figure(
        layout={
            "paper_bgcolor": "rgba(0,0,0,0)",
            "plot_bgcolor": "rgba(0,0,0,0)",
            "font": {"family": _SANS, "size": 13, "color": INK[scheme]},
            "margin": {"l": 8, "r": 8, "t": 8, "b": 8},
            "dragmode": False,
            "hovermode": "closest",
            "legend": {
                "orientation": "h",
                "yanchor": "bottom",
                "y": 1.02,
                "x": 0,
                "traceorder": "normal",
            },
            "xaxis": axis,
            "yaxis": axis,
            "bargap": 0.25,
        }
    )
    figure.update_layout(**layout)
    return figure


def plain_names(figure: go.Figure) -> go.Figure:
    """Return a figure whose names show as they were written.

    The charting script reads tags in texts (``<b>``, ``<a href>``): what looks like one is escaped, so
    that nothing that somebody wrote becomes type or a link. Templates, which are ours, stay.
    """
    for trace in figure.data:
        _escape(trace, _NAMES)
        if trace.type == "sankey":
            _escape(trace.node, ("label",))
    for axis in (*figure.select_xaxes(), *figure.select_yaxes()):
        _escape(axis, _OF_AXES)
        _escape(axis.title, ("text",))
    for note in figure.layout.annotations:
        _escape(note, ("text",))
    return figure


def _escape(part: Any, names: tuple[str, ...]) -> None:
    for name in names:
        value = getattr(part, name, None)
        plain = _plain(value)
        if plain is not value:
            part[name] = plain


def _plain(value: Any) -> Any:
    """Return a text, or texts in lists, escaped; the same object where there is nothing to escape."""
    if isinstance(value, str):
        plain = html.escape(value, quote=False)
        return value if plain == value else plain
    several = value.tolist() if str(getattr(value, "dtype", "")) == "object" else value
    if not isinstance(several, (list, tuple)):
        return value
    plain = [_plain(one) for one in several]
    return value if all(a is b for a, b in zip(several, plain, strict=True)) else plain
