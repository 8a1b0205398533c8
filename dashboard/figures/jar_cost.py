"""Home against shop, per jar or per quart, stacked by component."""

from __future__ import annotations

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, component_colour

__all__ = ["per_quart"]


def per_quart(
    frame: pd.DataFrame, labels: dict[str, str], scheme: str, *, shop: str, unit: str
) -> go.Figure:
    """Return a stacked bar a batch with the shop's price of the same day as a mark.

    Parameters
    ----------
    frame : DataFrame
        ``label`` (text, one a bar), a column a component in money per quart, ``shop_price_per_quart``.
    labels : dict of str to str
        Components in their order, with what they are called.
    scheme : {'light', 'dark'}
    shop, unit : str
        What the mark and the axis are called.
    """
    figure = blank(scheme, barmode="stack")
    for name, label in labels.items():
        if frame[name].abs().sum() > 0:
            figure.add_bar(
                x=frame["label"], y=frame[name], name=label, marker_color=component_colour(name, scheme),
                hovertemplate="%{x}<br>" + label + " %{y:.2f}<extra></extra>",
            )  # fmt: skip
    if frame["shop_price_per_quart"].notna().any():
        figure.add_scatter(
            x=frame["label"], y=frame["shop_price_per_quart"], name=shop, mode="markers",
            marker={"symbol": "line-ew", "size": 34, "line": {"width": 4, "color": INK[scheme]}},
            hovertemplate="%{x}<br>" + shop + " %{y:.2f}<extra></extra>",
        )  # fmt: skip
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    figure.update_xaxes(type="category", tickangle=-60 if len(frame) > 6 else 0)
    return figure
