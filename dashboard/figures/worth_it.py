"""A season's money in and out, what lasting things have earned back, home against shop over the years."""

from __future__ import annotations

from collections.abc import Mapping

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, SERIES

__all__ = ["home_and_shop", "in_and_out", "paid_back"]


def in_and_out(
    frame: pd.DataFrame, labels: Mapping[str, str], scheme: str, *, net: str, unit: str
) -> go.Figure:
    """Return a bar a line of the season: what it brought to the right, what it cost to the left.

    Parameters
    ----------
    frame : DataFrame
        ``label`` (the line), the columns of `labels` in money, ``net``; cost is 0 or more.
    labels : mapping of str to str
        ``worth``, ``money_in`` and ``cost``, with what they are called.
    scheme : {'light', 'dark'}
    net, unit : str
        What the mark and the axis are called.
    """
    colours = dict(zip(labels, (SERIES[scheme][i] for i in (1, 2, 0)), strict=True))
    figure = blank(scheme, barmode="relative")
    for name, label in labels.items():
        if frame[name].abs().sum() > 0:
            sign = -1 if name == "cost" else 1
            figure.add_bar(
                y=frame["label"], x=sign * frame[name], orientation="h", name=label,
                marker_color=colours[name], customdata=frame[[name]],
                hovertemplate="%{y}<br>" + label + " %{customdata[0]:,.2f}<extra></extra>",
            )  # fmt: skip
    figure.add_scatter(
        y=frame["label"], x=frame["net"], name=net, mode="markers",
        marker={"symbol": "diamond", "size": 12, "color": INK[scheme]},
        hovertemplate="%{y}<br>" + net + " %{x:,.2f}<extra></extra>",
    )  # fmt: skip
    figure.add_vline(x=0, line={"color": INK[scheme], "width": 1})
    figure.update_xaxes(title_text=unit, nticks=5)
    figure.update_yaxes(
        type="category", autorange="reversed", ticklabelstandoff=6,
        categoryorder="array", categoryarray=frame["label"].tolist(),
    )  # fmt: skip
    return figure


def paid_back(frame: pd.DataFrame, scheme: str, *, full: str, unit: str) -> go.Figure:
    """Return a bar a lasting thing: the share of its price that it has earned, its price marked.

    Parameters
    ----------
    frame : DataFrame
        ``item``, ``share`` (1 is all of its price).
    scheme : {'light', 'dark'}
    full, unit : str
        What the mark and the axis are called.
    """
    figure = blank(scheme, showlegend=False)
    is_done = frame["share"] >= 1
    for part, colour, shape in ((frame[is_done], 1, ""), (frame[~is_done], 2, "/")):
        figure.add_bar(
            y=part["item"], x=part["share"], orientation="h", hovertemplate="%{y}: %{x:.0%}<extra></extra>",
            marker={"color": SERIES[scheme][colour], "pattern": {"shape": shape, "solidity": 0.3}},
        )  # fmt: skip
    figure.add_vline(
        x=1, line={"color": INK[scheme], "width": 2, "dash": "dot"},
        annotation={"text": full, "yref": "paper", "y": 1.0, "yanchor": "bottom", "xanchor": "center"},
    )  # fmt: skip
    figure.update_xaxes(title_text=unit, tickformat=".0%", nticks=5, rangemode="tozero")
    figure.update_yaxes(
        type="category", categoryarray=frame["item"], autorange="reversed", ticklabelstandoff=6
    )
    figure.update_layout(margin_t=26, barmode="overlay")
    return figure


def home_and_shop(
    frame: pd.DataFrame, labels: Mapping[str, str], scheme: str, *, unit: str
) -> go.Figure:
    """Return lines of an item's price at home and in the shop, season by season.

    Parameters
    ----------
    frame : DataFrame
        ``season`` (text, oldest first) and the columns of `labels`; not known: NaN, a gap.
    labels : mapping of str to str
        Prices in their order, with what they are called; the last one is the shop's.
    scheme : {'light', 'dark'}
    unit : str
        What the axis is called.
    """
    looks = (
        (SERIES[scheme][1], "circle", "solid"),
        (SERIES[scheme][0], "square", "dot"),
        (INK[scheme], "diamond", "dash"),
    )
    figure = blank(scheme)
    for (name, label), (colour, symbol, dash) in zip(labels.items(), looks, strict=True):
        if frame[name].notna().any():
            figure.add_scatter(
                x=frame["season"], y=frame[name], name=label, mode="lines+markers",
                line={"color": colour, "width": 3, "dash": dash},
                marker={"symbol": symbol, "size": 11, "color": colour},
                hovertemplate="%{x}<br>" + label + " %{y:,.2f}<extra></extra>",
            )  # fmt: skip
    figure.update_xaxes(
        type="category", categoryorder="array", categoryarray=frame["season"].tolist(), nticks=10
    )
    figure.update_yaxes(title_text=unit, rangemode="tozero", nticks=6)
    return figure
