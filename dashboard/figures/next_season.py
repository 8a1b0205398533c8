"""Beds filled, chances of falling short, and the hours of preserving week by week."""

from __future__ import annotations

from collections.abc import Sequence

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, LINE, PAPER, SERIES

__all__ = ["beds", "chances", "weeks"]


def beds(frame: pd.DataFrame, scheme: str, *, unit: str, free: str) -> go.Figure:
    """Return a bar a bed, as long as its ground, cut into what grows there.

    Parameters
    ----------
    frame : DataFrame
        ``bed``, ``crop`` (None for ground left over), ``ground`` (in `unit`), ``says`` (how much, in
        words); rows in the order in which they are drawn.
    scheme : {'light', 'dark'}
    unit, free : str
        What the axis is called, and what ground left over is.
    """
    colours = SERIES[scheme]
    crops = [one for one in dict.fromkeys(frame["crop"]) if isinstance(one, str)]
    tint = {crop: colours[i % 7] for i, crop in enumerate(crops)}
    grows = frame["crop"].notna()
    figure = blank(scheme, showlegend=False, barmode="stack", bargap=0.3)
    figure.add_bar(
        y=frame["bed"], x=frame["ground"], orientation="h",
        text=frame["crop"].where(grows, free), textposition="inside", insidetextanchor="middle",
        textangle=0, insidetextfont={"color": [PAPER[scheme] if g else INK[scheme] for g in grows]},
        marker={
            "color": [tint.get(crop, LINE[scheme]) for crop in frame["crop"]],
            "line": {"width": 2, "color": PAPER[scheme]},
        },
        customdata=frame[["says"]], hovertemplate="%{y}<br>%{text}: %{customdata[0]}<extra></extra>",
    )  # fmt: skip
    figure.update_layout(uniformtext={"minsize": 12, "mode": "hide"})
    figure.update_xaxes(title_text=unit, rangemode="tozero", nticks=6)
    figure.update_yaxes(type="category", autorange="reversed", ticklabelstandoff=6)
    return figure


def chances(frame: pd.DataFrame, scheme: str, *, unit: str, even: str) -> go.Figure:
    """Return a bar a crop: the chance of a season that falls short, with an even chance marked.

    Parameters
    ----------
    frame : DataFrame
        ``crop``, ``chance`` (0 to 1), the surest last.
    scheme : {'light', 'dark'}
    unit, even : str
        What the axis and the mark are called.
    """
    figure = blank(scheme, showlegend=False)
    figure.add_bar(
        y=frame["crop"], x=frame["chance"], orientation="h", marker_color=SERIES[scheme][2],
        hovertemplate="%{y}: %{x:.0%}<extra></extra>",
    )  # fmt: skip
    figure.add_vline(
        x=0.5, line={"color": INK[scheme], "width": 2, "dash": "dot"},
        annotation={"text": even, "yref": "paper", "y": 1.0, "yanchor": "bottom", "xanchor": "center"},
    )  # fmt: skip
    figure.update_xaxes(title_text=unit, tickformat=".0%", range=[0, 1], dtick=0.25)
    figure.update_yaxes(type="category", autorange="reversed", ticklabelstandoff=6)
    figure.update_layout(margin_t=26)
    return figure


def weeks(frame: pd.DataFrame, scheme: str, *, items: Sequence[str], unit: str) -> go.Figure:
    """Return stacked bars of the hours of each week by what is put up.

    Parameters
    ----------
    frame : DataFrame
        ``label`` (the week, in its order), ``item``, ``hours``; at most eight items.
    scheme : {'light', 'dark'}
    items : sequence of str
        The items in the order of the legend.
    unit : str
        What the axis is called.
    """
    figure = blank(scheme, barmode="stack")
    order = list(dict.fromkeys(frame["label"]))
    for i, item in enumerate(items):
        rows = frame[frame["item"] == item]
        figure.add_bar(
            x=rows["label"], y=rows["hours"], name=item, marker_color=SERIES[scheme][i % 8],
            hovertemplate="%{x}<br>%{fullData.name}: %{y:.1f}<extra></extra>",
        )  # fmt: skip
    figure.update_xaxes(
        type="category", categoryorder="array", categoryarray=order, tickangle=-60, nticks=16
    )
    figure.update_yaxes(title_text=unit, rangemode="tozero", nticks=6)
    return figure
