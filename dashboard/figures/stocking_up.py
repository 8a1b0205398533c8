"""Weeks of each staple in the house, against the weeks wanted."""

from __future__ import annotations

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, PAPER, SERIES

__all__ = ["weeks"]


def weeks(
    frame: pd.DataFrame, scheme: str, *, here: str, planned: str, wanted: str, unit: str
) -> go.Figure:
    """Return a bar a staple: weeks in the house, with those that a plan adds, and the target marked.

    Parameters
    ----------
    frame : DataFrame
        ``item``, ``weeks``, ``added`` (weeks that the packs planned last), ``target`` (weeks; not
        known: None); what lasts shortest first.
    scheme : {'light', 'dark'}
    here, planned, wanted, unit : str
        What the bars, the mark and the axis are called.
    """
    figure = blank(scheme, barmode="stack")
    figure.add_bar(
        y=frame["item"], x=frame["weeks"], orientation="h", name=here, marker_color=SERIES[scheme][1],
        hovertemplate="%{y}<br>" + here + ": %{x:.1f}<extra></extra>",
    )  # fmt: skip
    if (frame["added"] > 0).any():
        figure.add_bar(
            y=frame["item"], x=frame["added"], orientation="h", name=planned,
            marker={
                "color": SERIES[scheme][2],
                "pattern": {"shape": "/", "fgcolor": PAPER[scheme], "size": 6, "solidity": 0.25},
            },
            hovertemplate="%{y}<br>" + planned + ": %{x:.1f}<extra></extra>",
        )  # fmt: skip
    if frame["target"].notna().any():
        figure.add_scatter(
            y=frame["item"], x=frame["target"], name=wanted, mode="markers",
            marker={"symbol": "line-ns", "size": 18, "line": {"width": 4, "color": INK[scheme]}},
            hovertemplate="%{y}<br>" + wanted + ": %{x:.1f}<extra></extra>",
        )  # fmt: skip
    figure.update_xaxes(title_text=unit, rangemode="tozero", nticks=6)
    figure.update_yaxes(
        type="category", autorange="reversed", ticklabelstandoff=6,
        categoryorder="array", categoryarray=frame["item"].tolist(),
    )  # fmt: skip
    return figure
