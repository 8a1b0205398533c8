"""The season: crops by week, beds to scale, where the harvest went, and what it was worth."""

from __future__ import annotations

from collections.abc import Sequence

import pandas as pd
import plotly.graph_objects as go

from dashboard.figures._base import blank
from dashboard.theme import INK, PAPER, SERIES, rgba

__all__ = ["beds", "by_week", "net", "overview", "so_far", "where_it_went"]

Ticks = Sequence[tuple[str, str]]
"""Days and what is written under them."""

_GROUND = {"light": ((226, 239, 228), (88, 160, 108)), "dark": ((41, 56, 47), (62, 122, 80))}
_WEEK_MS = 7 * 86_400_000
_UNKNOWN = {"light": "#ece7da", "dark": "#34373a"}


def _months(figure: go.Figure, ticks: Ticks) -> None:
    figure.update_xaxes(
        type="date", tickmode="array", tickvals=[day for day, _ in ticks],
        ticktext=[text for _, text in ticks], tickangle=0,
    )  # fmt: skip


def overview(frame: pd.DataFrame, scheme: str, *, ticks: Ticks) -> go.Figure:
    """Return a strip a crop, deeper where a week brought more, and a line along last season's weeks.

    Parameters
    ----------
    frame : DataFrame
        ``crop``, ``day`` (first of the week), ``now`` (share of the crop's best week, 0 to 1; NaN:
        nothing), ``text`` (what it was), ``is_last`` (whether last season picked in that week);
        crops in the order drawn, first on top.
    """
    plum = SERIES[scheme][0]
    order = list(dict.fromkeys(frame["crop"]))[::-1]
    pale, deep = ("#" + "".join(f"{part:02x}" for part in end) for end in _GROUND[scheme])
    weeks = sorted(set(frame["day"]))
    cells = frame.set_index(["crop", "day"])
    whole = pd.MultiIndex.from_product([order, weeks])
    shape = (len(order), len(weeks))
    shares, texts = (
        cells[name].reindex(whole).to_numpy().reshape(shape) for name in ("now", "text")
    )
    figure = blank(scheme)
    figure.add_heatmap(
        x=weeks, y=order, z=shares.astype(float), text=texts,
        colorscale=[[0, pale], [1, deep]], zmin=0, zmax=1, showscale=False, ygap=8,
        hoverongaps=False, hovertemplate="%{y}, %{x}: %{text}<extra></extra>",
    )  # fmt: skip
    rows = frame[frame["is_last"]]
    ends = rows.groupby("crop", sort=False)["day"].agg(["min", "max"])
    x, y = [], []
    for crop, first, last in ends.itertuples():
        x += [first, last, None]
        y += [crop, crop, None]
    figure.add_scatter(
        x=x, y=y, mode="lines+markers", showlegend=False, hoverinfo="skip",
        line={"color": plum, "width": 2}, marker={"size": 7, "color": plum},
    )  # fmt: skip
    figure.update_yaxes(type="category", categoryorder="array", categoryarray=order, dtick=1)
    _months(figure, ticks)
    return figure


def by_week(
    frame: pd.DataFrame, labels: dict[str, str], scheme: str, *, unit: str, ticks: Ticks
) -> go.Figure:
    """Return what each week brought as bars, last season as marks, all earlier ones as blocks.

    Parameters
    ----------
    frame : DataFrame
        ``day``, ``picked_g``, ``last_season_g``, ``earlier_low_g``, ``earlier_high_g``, in `unit`.
    labels : dict of str to str
        What ``now``, ``last`` and ``earlier`` are called.
    """
    figure = blank(scheme, barmode="overlay")
    plum, leaf, stone = SERIES[scheme][0], SERIES[scheme][1], SERIES[scheme][7]
    low, high = frame["earlier_low_g"], frame["earlier_high_g"]
    if low.notna().any():
        figure.add_bar(
            x=frame["day"], base=low, y=high - low, name=labels["earlier"], width=_WEEK_MS,
            marker_color=rgba(stone, 0.35), customdata=high,
            hovertemplate="%{base:.1f} – %{customdata:.1f} " + unit + "<extra>" + labels["earlier"] + "</extra>",
        )  # fmt: skip
    figure.add_bar(
        x=frame["day"], y=frame["picked_g"], name=labels["now"], width=0.55 * _WEEK_MS,
        marker_color=leaf,
        hovertemplate="%{y:.1f} " + unit + "<extra>" + labels["now"] + "</extra>",
    )  # fmt: skip
    if frame["last_season_g"].notna().any():
        figure.add_scatter(
            x=frame["day"], y=frame["last_season_g"], name=labels["last"], mode="lines+markers",
            line={"color": plum, "dash": "dot"},
            marker={"size": 11, "symbol": "diamond", "line": {"width": 2, "color": PAPER[scheme]}},
            hovertemplate="%{y:.1f} " + unit + "<extra>" + labels["last"] + "</extra>",
        )  # fmt: skip
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    _months(figure, ticks)
    return figure


def so_far(
    frame: pd.DataFrame, labels: dict[str, str], scheme: str, *, unit: str, ticks: Ticks
) -> go.Figure:
    """Return what had been picked by each week, last season's the same, and the published range.

    Parameters
    ----------
    frame : DataFrame
        ``day``, ``picked_so_far_g``, ``last_season_so_far_g``, ``published_low_g``,
        ``published_high_g`` (of the whole season), in `unit`.
    labels : dict of str to str
        What ``now``, ``last`` and ``published`` are called.
    """
    figure = blank(scheme)
    plum, leaf, straw = SERIES[scheme][:3]
    if frame["published_low_g"].notna().any():
        _band(figure, frame, ("published_low_g", "published_high_g"), labels["published"], straw)
    for name, column, colour, dash in (
        ("last", "last_season_so_far_g", plum, "dot"), ("now", "picked_so_far_g", leaf, "solid"),
    ):  # fmt: skip
        if frame[column].notna().any():
            figure.add_scatter(
                x=frame["day"], y=frame[column], name=labels[name], mode="lines+markers",
                line={"color": colour, "width": 3, "dash": dash}, marker={"size": 7},
                hovertemplate="%{y:.1f} " + unit + "<extra>" + labels[name] + "</extra>",
            )  # fmt: skip
    figure.update_yaxes(title_text=unit, rangemode="tozero")
    _months(figure, ticks)
    return figure


def _band(
    figure: go.Figure, frame: pd.DataFrame, ends: tuple[str, str], name: str, colour: str
) -> None:  # fmt: skip
    for i, column in enumerate(ends):
        figure.add_scatter(
            x=frame["day"], y=frame[column], name=name, showlegend=i == 1, mode="lines",
            line={"width": 2, "color": colour}, fill="tonexty" if i else None,
            fillcolor=rgba(colour, 0.22), hovertemplate="%{y:.1f}<extra>" + name + "</extra>",
        )  # fmt: skip


def beds(frame: pd.DataFrame, scheme: str) -> go.Figure:
    """Return a tile a crop within its bed, as large as ``size``; the greener, the more ``yield``.

    Parameters
    ----------
    frame : DataFrame
        ``bed``, ``crop``, ``size`` (above 0), ``yield`` (NaN: not known, a plain tile), ``text``
        (under the crop's name), ``more`` (said on a tap).
    """
    names = list(dict.fromkeys(frame["bed"]))
    most = frame["yield"].max() or 1.0  # nothing picked yet: all tiles are pale
    tiles = [_UNKNOWN[scheme]] * len(names)
    for value in frame["yield"]:
        tiles.append(_UNKNOWN[scheme] if pd.isna(value) else _green(value / most, scheme))
    figure = blank(scheme, margin={"l": 0, "r": 0, "t": 0, "b": 0})
    figure.add_trace(
        go.Treemap(
            ids=[f"bed {name}" for name in names] + [f"crop {i}" for i in range(len(frame))],
            labels=[*names, *frame["crop"]],
            parents=[""] * len(names) + [f"bed {name}" for name in frame["bed"]],
            values=[0] * len(names) + list(frame["size"]),
            text=[""] * len(names) + list(frame["text"]),
            texttemplate="%{label}<br>%{text}",
            customdata=[""] * len(names) + list(frame["more"]),
            hovertemplate="%{label}<br>%{text}<br>%{customdata}<extra></extra>",
            marker={"colors": tiles, "line": {"width": 1, "color": INK[scheme]}, "cornerradius": 3},
            pathbar={"visible": False},
            tiling={"pad": 2},
            root={"color": "rgba(0,0,0,0)"},
            outsidetextfont={"color": INK[scheme]},
        )
    )
    figure.update_layout(uniformtext={"minsize": 11, "mode": "hide"})  # the table names them all
    return figure


def _green(share: float, scheme: str) -> str:
    pale, deep = _GROUND[scheme]
    mixed = (round(a + (b - a) * share) for a, b in zip(pale, deep, strict=True))
    return "#" + "".join(f"{part:02x}" for part in mixed)


def where_it_went(
    frame: pd.DataFrame, labels: dict[str, str], scheme: str, *, unit: str
) -> go.Figure:
    """Return a bar a crop, in parts by what became of it.

    Parameters
    ----------
    frame : DataFrame
        ``crop`` and a column a fate, in `unit`; first on top.
    labels : dict of str to str
        Fates in their order, with what they are called.
    """
    colours = [SERIES[scheme][i] for i in (1, 0, 3, 4, 5, 2)]
    figure = blank(scheme, barmode="stack")
    for (fate, label), colour in zip(labels.items(), colours, strict=True):
        if frame[fate].fillna(0).sum() > 0:
            figure.add_bar(
                x=frame[fate], y=frame["crop"], name=label, orientation="h", marker_color=colour,
                hovertemplate="%{y}: " + label + " %{x:.1f} " + unit + "<extra></extra>",
            )  # fmt: skip
    figure.update_yaxes(type="category", autorange="reversed", dtick=1)
    figure.update_xaxes(title_text=unit, nticks=5)
    return figure


def net(frame: pd.DataFrame, scheme: str, *, unit: str) -> go.Figure:
    """Return a bar of net worth a crop, with ``text`` (what an hour gave) behind it.

    Parameters
    ----------
    frame : DataFrame
        ``crop``, ``net``, ``text``; first on top.
    """
    leaf, clay = SERIES[scheme][1], SERIES[scheme][4]
    figure = blank(scheme)
    figure.add_bar(
        x=frame["net"], y=frame["crop"], orientation="h", text=frame["text"],
        textposition="outside", cliponaxis=False,
        marker_color=[leaf if value >= 0 else clay for value in frame["net"]],
        hovertemplate="%{y}: %{x:.2f}<br>%{text}<extra></extra>",
    )  # fmt: skip
    figure.update_yaxes(type="category", autorange="reversed", dtick=1)
    low, high = min(0.0, float(frame["net"].min())), max(0.0, float(frame["net"].max()))
    room = (high - low or 1.0) * 0.45
    figure.update_xaxes(title_text=unit, nticks=5, range=[low * 1.05, high + room])
    return figure
