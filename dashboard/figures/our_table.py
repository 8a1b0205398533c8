"""Where what was eaten came from, month by month, and the food's way from bed or shop to the table."""

from __future__ import annotations

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, ORIGIN_COLOURS, QUIET, SERIES, rgba

__all__ = ["by_month", "flow"]


def by_month(frame: pd.DataFrame, labels: dict[str, str], scheme: str, *, unit: str) -> go.Figure:
    """Return stacked bars of the share of each origin, one bar a month.

    Parameters
    ----------
    frame : DataFrame
        ``label`` (the month), ``origin``, ``share`` (0 to 1).
    labels : dict of str to str
        Origins in their order, with what they are called.
    """
    figure = blank(scheme, barmode="stack")
    for origin, label in labels.items():
        rows = frame[frame["origin"] == origin]
        if len(rows):
            figure.add_bar(
                x=rows["label"], y=rows["share"], name=label,
                marker_color=ORIGIN_COLOURS[scheme][origin],
                hovertemplate="%{x}<br>" + label + " %{y:.0%}<extra></extra>",
            )  # fmt: skip
    order = list(dict.fromkeys(frame["label"]))
    figure.update_xaxes(
        type="category", categoryorder="array", categoryarray=order, nticks=12, tickangle=-60
    )
    figure.update_yaxes(title_text=unit, tickformat=".0%", range=[0, 1.0])
    return figure


def flow(frame: pd.DataFrame, scheme: str, *, unit: str) -> go.Figure:
    """Return the ways of the food as bands from its source through what was made to its end.

    Parameters
    ----------
    frame : DataFrame
        ``source``, ``through``, ``to`` (texts) and ``amount``; one row a way.
    unit : str
        Shown behind an amount.
    """
    colours = SERIES[scheme]
    stages = ("source", "through", "to")
    names: list[tuple[str, str]] = []
    for stage in stages:
        order = frame.groupby(stage)["amount"].sum().sort_values(ascending=False)
        names += [(stage, str(name)) for name in order.index]
    place = {name: i for i, name in enumerate(names)}
    links = []
    for left, right in (("source", "through"), ("through", "to")):
        for (a, b), amount in frame.groupby([left, right])["amount"].sum().items():
            links.append((place[left, str(a)], place[right, str(b)], float(amount)))
    tint = {name: colours[i % 7] for i, name in enumerate(names)}
    figure = blank(scheme)
    figure.add_trace(
        go.Sankey(
            arrangement="snap",
            node={
                "label": [name for _, name in names],
                "color": [tint[name] for name in names],
                "pad": 14,
                "thickness": 14,
                "line": {"width": 0},
                "hovertemplate": "%{label}: %{value:,.0f} " + unit + "<extra></extra>",
            },
            link={
                "source": [a for a, _, _ in links],
                "target": [b for _, b, _ in links],
                "value": [v for _, _, v in links],
                "color": [rgba(tint[names[a]], 0.35) for a, _, _ in links],
                "hovertemplate": "%{source.label} → %{target.label}: %{value:,.0f} "
                + unit
                + "<extra></extra>",
            },
            textfont={"color": INK[scheme], "size": 14, "shadow": "none"},
        )
    )
    figure.update_layout(font_color=QUIET[scheme])
    return figure
