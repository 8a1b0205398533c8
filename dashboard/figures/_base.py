"""What every picture shares: paper, ink, type, and that it lets the page scroll."""

from __future__ import annotations

from typing import Any

import plotly.graph_objects as go

from dashboard.theme import INK, LINE, QUIET

__all__ = ["blank"]


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
            "font": {"family": "system-ui, sans-serif", "size": 14, "color": INK[scheme]},
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
