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
    at = [one for trace in figure.data for one in trace.x]
    ends = (
        {"range": [min(at), max(at)]} if at and min(at) < max(at) else {}
    )  # names stand beyond it
    return figure.update_xaxes(fixedrange=False, rangeslider={**strip, **ends}, **ends)


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
    for name, column, shift in ((most, "most", 9), (there, "left", -7), (least, "least", 0)):
        colour = TOKENS[scheme]["leaf"] if column == "left" else QUIET[scheme]
        _named(figure, frame[["on", column]].dropna(), name, colour, shift)
    return _near(figure, scheme)


def _named(figure: go.Figure, line: pd.DataFrame, name: str, colour: str, shift: float) -> None:
    """Write a line's name at its end, in a margin of its own; `shift` keeps it off its neighbours."""
    if line.empty:
        return
    end = line.iloc[-1]
    figure.add_annotation(
        x=end.iloc[0], y=float(end.iloc[1]), text=name, showarrow=False, xanchor="left", xshift=5,
        yshift=shift, font={"color": colour, "size": 13},
    )  # fmt: skip
    figure.layout.margin.r = max(figure.layout.margin.r, 10 + 7.2 * len(name))


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
    _named(figure, frame[["on", "shop"]].dropna(), shop, INK[scheme], 8)
    _named(figure, frame[["on", "cost"]].dropna(), ours, TOKENS[scheme]["leaf"], -8)
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
            hovertemplate=season + ": %{y:.1f} " + unit + "<extra></extra>",
        )  # fmt: skip
        colour = TOKENS[scheme]["leaf"] if is_newest else QUIET[scheme]
        above = 14 * (len(seasons) - 1 - list(seasons).index(season))
        _named(figure, pd.DataFrame(points), season, colour, above)
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    at = [one[0] for points in seasons.values() for one in points]
    span = max(at, default=0) - min(at, default=0) + 1
    figure.update_xaxes(title_text=week, tickformat="d", nticks=min(12, span))  # no half weeks
    return _near(figure, scheme)
