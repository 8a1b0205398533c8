"""A stock over time as steps, with its range ahead; and jars by item and age."""

from __future__ import annotations

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, SERIES, rgba

__all__ = ["by_age", "over_time"]


def over_time(
    frame: pd.DataFrame, labels: dict[str, str], scheme: str, *, unit: str, next_on: str | None
) -> go.Figure:
    """Return the past as a stepped area and the weeks ahead as a band.

    Parameters
    ----------
    frame : DataFrame
        ``day`` (ISO), ``left`` (of the past), ``low``, ``likely``, ``high`` (ahead); NaN elsewhere.
    labels : dict
        What ``past``, ``range``, ``likely`` and ``next`` are called.
    next_on : str, optional
        Day on which more is likely to come: marked.
    """
    leaf, straw = SERIES[scheme][1], SERIES[scheme][2]
    past, ahead = frame[frame["left"].notna()], frame[frame["likely"].notna()]
    figure = blank(scheme)
    figure.add_scatter(
        x=past["day"], y=past["left"], name=labels["past"], mode="lines", fill="tozeroy",
        line={"shape": "hv", "color": leaf, "width": 2}, fillcolor=rgba(leaf, 0.25),
        hovertemplate="%{x|%d %b %Y}<br>%{y:.3~g} " + unit + "<extra></extra>",
    )  # fmt: skip
    if len(ahead):
        figure.add_scatter(
            x=[*ahead["day"], *ahead["day"][::-1]], y=[*ahead["high"], *ahead["low"][::-1]],
            name=labels["range"], fill="toself", mode="lines", line={"width": 0},
            fillcolor=rgba(straw, 0.3), hoverinfo="skip",
        )  # fmt: skip
        figure.add_scatter(
            x=ahead["day"], y=ahead["likely"], name=labels["likely"], mode="lines",
            line={"color": straw, "width": 2, "dash": "dash"},
            hovertemplate="%{x|%d %b %Y}<br>%{y:.3~g} " + unit + "<extra></extra>",
        )  # fmt: skip
    if next_on:
        figure.add_shape(
            type="line", x0=next_on, x1=next_on, y0=0, y1=1, yref="paper",
            line={"color": INK[scheme], "width": 2, "dash": "dot"},
        )  # fmt: skip
        figure.add_annotation(
            x=next_on, y=1, yref="paper", text=labels["next"], showarrow=False, xanchor="left",
            yanchor="top", xshift=4,
        )  # fmt: skip
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    figure.update_xaxes(type="date", nticks=6)
    return figure


def by_age(frame: pd.DataFrame, ages: list[str], scheme: str, *, unit: str) -> go.Figure:
    """Return jars by item as bars, each stacked by how old the jars are.

    Parameters
    ----------
    frame : DataFrame
        ``item``, ``age`` (one of `ages`), ``jars``.
    ages : list of str
        From the youngest to the oldest, as they are called.
    """
    figure = blank(scheme, barmode="stack")
    order = frame.groupby("item")["jars"].sum().sort_values().index
    tints = [SERIES[scheme][i] for i in (1, 2, 4)]
    for age, colour in zip(ages, tints, strict=True):
        rows = frame[frame["age"] == age].groupby("item")["jars"].sum().reindex(order, fill_value=0)
        if rows.sum() > 0:
            figure.add_bar(
                y=list(rows.index), x=rows.to_list(), name=age, orientation="h", marker_color=colour,
                hovertemplate="%{y}, " + age + ": %{x:.1f} " + unit + "<extra></extra>",
            )  # fmt: skip
    figure.update_xaxes(title_text=unit, rangemode="tozero")
    figure.update_yaxes(type="category")
    return figure
