"""Drawings to explore: drag over days to come nearer, tap twice to see all again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, LINE, QUIET, TOKENS

__all__ = ["batches", "is_cut", "stock", "weeks"]


_YEARS = 5
"""Years of months that are legible at once; the strip below has all of them."""
_REACH = 40
"""How far from a finger a mark is told, px."""
_TALL, _LINE = 250, 15
"""Height of a drawing and of a line's name, about, px."""


def _near(figure: go.Figure, scheme: str, first: Any = None) -> go.Figure:
    """Let a figure be brushed along its days, with a strip of the whole below it; `first` is where it begins.

    Wherever a finger is, the nearest day is told: points of a stretch come nearer lie far apart.
    """
    figure.update_layout(dragmode="zoom", hovermode="x unified", hoverdistance=-1, showlegend=False)
    strip = {"visible": True, "thickness": 0.12, "bordercolor": LINE[scheme], "borderwidth": 1}
    at = [one for trace in figure.data for one in trace.x]
    if not at or min(at) >= max(at):
        return figure.update_xaxes(fixedrange=False, rangeslider=strip)
    ends = [min(at), max(at)]  # names stand beyond it
    seen = [max(first, ends[0]) if first is not None else ends[0], ends[1]]
    return figure.update_xaxes(fixedrange=False, rangeslider={**strip, "range": ends}, range=seen)


def _from(days: pd.Series) -> str | None:
    """Return the day from which the newest years are drawn; None where there are no more of them."""
    last = str(days.iloc[-1])
    first = f"{int(last[:4]) - _YEARS}{last[4:]}"
    return first if str(days.iloc[0]) < first else None


def is_cut(days: pd.Series) -> bool:
    """Return whether a drawing of these days begins with the newest years alone."""
    return _from(days) is not None


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
    of = {least: "least", there: "left", most: "most"}  # in the order in which equal ends are named
    told = {name: frame[["on", column]].dropna() for name, column in of.items()}
    apart = _apart({name: line.to_numpy().tolist() for name, line in told.items()})
    for name, line in told.items():
        colour = TOKENS[scheme]["leaf"] if name == there else QUIET[scheme]
        _named(figure, line, name, colour, apart.get(name, 0.0))
    return _near(figure, scheme, _from(frame["on"]))


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


def batches(
    frame: pd.DataFrame, scheme: str, *, ours: str, shop: str, unit: str, money: tuple[str, str]
) -> go.Figure:
    """Return what each batch cost, with the shop's price of its day.

    Parameters
    ----------
    frame : DataFrame
        ``on`` (day), ``item``, ``cost``, ``shop`` (money of one unit; NaN where none is known).
    scheme : {'light', 'dark'}
    ours, shop, unit : str
        What the two marks and the axis are called.
    money : (str, str)
        What stands before and behind an amount of money.
    """
    figure = blank(scheme)
    for name, column, mark, colour in (
        (ours, "cost", "circle", TOKENS[scheme]["leaf"]),
        (shop, "shop", "line-ew-open", INK[scheme]),
    ):
        figure.add_scatter(
            x=frame["on"], y=frame[column], name=name, mode="markers", customdata=frame["item"],
            marker={"symbol": mark, "size": 9, "color": colour},
            hovertemplate="%{customdata}: " + name + " " + "%{y:.2f}".join(money) + "<extra></extra>",
        )  # fmt: skip
    figure.update_yaxes(
        title_text=unit, rangemode="tozero", tickprefix=money[0], ticksuffix=money[1]
    )
    _named(figure, frame[["on", "shop"]].dropna(), shop, INK[scheme], 8)
    _named(figure, frame[["on", "cost"]].dropna(), ours, TOKENS[scheme]["leaf"], -8)
    near = _near(figure, scheme, _from(frame["on"]))
    return near.update_layout(hovermode="closest", hoverdistance=_REACH)


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
    newest, apart = list(seasons)[-1] if seasons else "", _apart(seasons)
    for season, points in seasons.items():
        is_newest = season == newest
        figure.add_scatter(
            x=[one[0] for one in points], y=[one[1] for one in points], name=season, mode="lines",
            line={"width": 3 if is_newest else 1.2, "color": TOKENS[scheme]["leaf"] if is_newest else QUIET[scheme]},
            hovertemplate=season + ": %{y:.1f} " + unit + "<extra></extra>",
        )  # fmt: skip
        colour = TOKENS[scheme]["leaf"] if is_newest else QUIET[scheme]
        _named(figure, pd.DataFrame(points), season, colour, apart.get(season, 0.0))
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    at = [one[0] for points in seasons.values() for one in points]
    span = max(at, default=0) - min(at, default=0) + 1
    figure.update_xaxes(title_text=week, tickformat="d", nticks=min(12, span))  # no half weeks
    return _near(figure, scheme)


def _apart(lines: Mapping[str, Sequence[Any]]) -> dict[str, float]:
    """Return by how much the name of each line is raised, px, so that none lies on another."""
    most = max((one[1] for points in lines.values() for one in points), default=0) or 1
    ends = sorted((points[-1][1] / most * _TALL, name) for name, points in lines.items() if points)
    out: dict[str, float] = {}
    free = -float(_LINE)
    for at, name in sorted(ends, key=lambda end: end[0]):
        free = max(at, free + _LINE)
        out[name] = free - at
    return out
