"""Drawings to explore: drag over days to come nearer, tap twice to see all again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, LINE, QUIET, TOKENS

__all__ = ["batches", "stock", "weeks"]


def _near(figure: go.Figure, scheme: str) -> go.Figure:
    """Let a figure be brushed along its days, with a strip of the whole below it."""
    figure.update_layout(dragmode="zoom", hovermode="x unified", showlegend=False)
    strip = {"visible": True, "thickness": 0.12, "bordercolor": LINE[scheme], "borderwidth": 1}
    return figure.update_xaxes(fixedrange=False, rangeslider=strip)


def stock(
    frame: pd.DataFrame, scheme: str, *, unit: str, least: str, most: str, there: str
) -> go.Figure:
    """Return what was there at each month's end, within the least and most of the month.

    Parameters
    ----------
    frame : DataFrame
        ``on`` (day), ``left``, ``least``, ``most`` in one unit, ``in_words``.
    scheme : {'light', 'dark'}
    unit, least, most, there : str
        What the axis and the three lines are called.
    """
    figure = blank(scheme)
    thin = {"width": 1, "color": QUIET[scheme], "shape": "hv"}
    figure.add_scatter(x=frame["on"], y=frame["most"], name=most, mode="lines", line=thin)
    figure.add_scatter(
        x=frame["on"],
        y=frame["least"],
        name=least,
        mode="lines",
        line=thin,
        fill="tonexty",
        fillcolor=LINE[scheme],
    )
    figure.add_scatter(
        x=frame["on"], y=frame["left"], name=there, mode="lines", line={"width": 2.5, "color": TOKENS[scheme]["leaf"]},
        customdata=frame["in_words"], hovertemplate="%{customdata}<extra></extra>",
    )  # fmt: skip
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    return _near(figure, scheme)


def batches(frame: pd.DataFrame, scheme: str, *, ours: str, shop: str, unit: str) -> go.Figure:
    """Return what each batch cost, with the shop's price of its day.

    Parameters
    ----------
    frame : DataFrame
        ``on`` (day), ``item``, ``cost``, ``shop`` (money of one unit; NaN where none is known).
    scheme : {'light', 'dark'}
    ours, shop, unit : str
        What the two marks and the axis are called.
    """
    figure = blank(scheme)
    for name, column, mark, colour in (
        (ours, "cost", "circle", TOKENS[scheme]["leaf"]),
        (shop, "shop", "line-ew-open", INK[scheme]),
    ):
        figure.add_scatter(
            x=frame["on"], y=frame[column], name=name, mode="markers", customdata=frame["item"],
            marker={"symbol": mark, "size": 9, "color": colour},
            hovertemplate="%{customdata}: " + name + " %{y:.2f}<extra></extra>",
        )  # fmt: skip
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    return _near(figure, scheme).update_layout(hovermode="closest")


def weeks(seasons: Mapping[str, Sequence[Any]], scheme: str, *, unit: str, week: str) -> go.Figure:
    """Return a crop's pickings by week of the season, the newest season in front.

    Parameters
    ----------
    seasons : mapping of str to sequence of (int, float)
        By season, oldest first: week of the season and what was picked in it.
    scheme : {'light', 'dark'}
    unit, week : str
        What the axes are called.
    """
    figure = blank(scheme)
    newest = list(seasons)[-1] if seasons else ""
    for season, points in seasons.items():
        is_newest = season == newest
        figure.add_scatter(
            x=[one[0] for one in points], y=[one[1] for one in points], name=season, mode="lines",
            line={"width": 3 if is_newest else 1.2, "color": TOKENS[scheme]["leaf"] if is_newest else QUIET[scheme]},
            hovertemplate=season + ": %{y:.1f}<extra></extra>",
        )  # fmt: skip
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    at = [one[0] for points in seasons.values() for one in points]
    span = max(at, default=0) - min(at, default=0) + 1
    figure.update_xaxes(title_text=week, tickformat="d", nticks=min(12, span))  # no half weeks
    return _near(figure, scheme)
