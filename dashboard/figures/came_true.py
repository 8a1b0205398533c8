"""How much of what was said came true, by what was said."""

from __future__ import annotations

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, SERIES

__all__ = ["kept_word"]


def kept_word(frame: pd.DataFrame, scheme: str, *, share: str, expected: str) -> go.Figure:
    """Return a bar a thing said: the share that came true, with a mark where it should end.

    Parameters
    ----------
    frame : DataFrame
        ``label``, ``share`` and ``expected`` (0 to 1).
    scheme : {'light', 'dark'}
    share, expected : str
        What the bar and the mark are called.
    """
    figure = blank(scheme)
    figure.add_bar(
        y=frame["label"], x=frame["share"], orientation="h", name=share,
        marker_color=SERIES[scheme][1], hovertemplate="%{y}: %{x:.0%}<extra></extra>",
    )  # fmt: skip
    figure.add_scatter(
        y=frame["label"], x=frame["expected"], name=expected, mode="markers",
        marker={"symbol": "line-ns", "size": 26, "line": {"width": 3, "color": INK[scheme]}},
        hovertemplate="%{y}: %{x:.0%}<extra></extra>",
    )  # fmt: skip
    figure.update_xaxes(tickformat=".0%", range=[0, 1.04], tickvals=[0, 0.5, 1], tickangle=0)
    figure.update_yaxes(
        type="category", categoryarray=frame["label"].tolist(), autorange="reversed",
        ticklabelstandoff=6,
    )  # fmt: skip
    return figure
