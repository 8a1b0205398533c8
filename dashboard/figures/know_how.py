"""The learning curve: minutes for one, batch by batch, with the fitted curve and its range."""

from __future__ import annotations

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import SERIES, rgba

__all__ = ["learning_curve"]


def learning_curve(
    frame: pd.DataFrame, labels: dict[str, str], scheme: str, *, across: str, unit: str
) -> go.Figure:
    """Return each batch as a point, the fitted curve as a line and its range as a band.

    Parameters
    ----------
    frame : DataFrame
        ``repetition``, ``day`` (text), ``minutes`` (for one; NaN where unknown), ``low``, ``likely``,
        ``high`` (NaN without a curve); one row a batch.
    labels : dict of str to str
        What ``batch``, ``range`` and ``curve`` are called.
    across, unit : str
        What the two axes are called.
    """
    figure = blank(scheme)
    plum, leaf = SERIES[scheme][0], SERIES[scheme][1]
    x = frame["repetition"]
    if frame["likely"].notna().any():
        for name in ("low", "high"):
            figure.add_scatter(
                x=x, y=frame[name], name=labels["range"], showlegend=name == "high", mode="lines",
                line={"width": 0, "shape": "spline"}, hoverinfo="skip",
                fill="tonexty" if name == "high" else None, fillcolor=rgba(leaf, 0.2),
            )  # fmt: skip
        figure.add_scatter(
            x=x, y=frame["likely"], name=labels["curve"], mode="lines",
            line={"color": leaf, "width": 3, "shape": "spline"},
            hovertemplate="%{y:.1f}<extra>" + labels["curve"] + "</extra>",
        )  # fmt: skip
    figure.add_scatter(
        x=x, y=frame["minutes"], name=labels["batch"], mode="markers", text=frame["day"],
        marker={"color": plum, "size": 9}, hovertemplate="%{text}: %{y:.1f}<extra></extra>",
    )  # fmt: skip
    few = {"tick0": 1, "dtick": 1} if len(frame) <= 12 else {"nticks": 6}
    figure.update_xaxes(title_text=across, **few)
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    return figure
