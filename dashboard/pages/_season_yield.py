"""What the season gave: beds drawn to scale, where the harvest went, net and per hour."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pandas as pd
from dash import html

from dashboard.ask import Ask
from dashboard.figures import season as drawn
from dashboard.pages._season_weeks import scaled
from dashboard.parts import answer_table, choice, choices, figure, picture, section
from ledger.projections import Answer

__all__ = ["beds", "net", "where"]

_CROPS = 24
"""Crops in one picture: those that weighed, or brought, most."""
_FATES = ("eaten fresh", "put up", "given", "lost", "sown", "on hand")
_SIZES = {"ground": "area_m2", "weight": "picked_g", "value": "shop_value"}
_SQ_FT_100 = 9.290304
"""Square metres in 100 square feet."""


def beds(ask: Ask, answer: Answer, season: str) -> Any:
    """Return the beds as tiles to one scale: of ground, weight, or worth."""
    words, frame = ask.words, answer.frame
    there = {name: column for name, column in _SIZES.items() if (_known(frame, column) > 0).any()}
    if not there:
        return None
    size = ask.query.get("scale", "")
    size = size if size in there else next(iter(there))
    data = pd.DataFrame(
        {
            "bed": [_bed(ask, bed) for bed in frame["bed"]], "crop": frame["crop"].astype(str),
            "size": _known(frame, there[size]),
            "yield": frame["per_m2_g"].astype(float).to_numpy(),
            "text": [ask.words.said(text) for text in frame["in_words.picked"].fillna("–")],
            "more": [_per_ground(ask, value) for value in frame["per_m2_g"]],
        }
    )  # fmt: skip
    is_drawn = data["size"] > 0
    left_out = [f"{row.crop} ({row.bed})" for row in data[~is_drawn].itertuples()]
    drawing = drawn.beds(data[is_drawn].reset_index(drop=True), ask.scheme)
    options = [(one, words(f"season.scale_{one}")) for one in there]
    note = words(f"season.not_drawn_{size}", crops=", ".join(left_out)) if left_out else None
    table = answer_table(
        ask, answer, columns=("crop", "bed", "area_m2", "picked_g", "per_m2_g", "in_words.yield"),
        cells={
            "area_m2": lambda row: _measured(row, "area_m2", _ground(ask, row["area_m2"])),
            "per_m2_g": lambda row: _measured(row, "per_m2_g", _per_ground(ask, row["per_m2_g"])),
        },
        options={"season": season}, caption=words("season.beds"),
    )  # fmt: skip
    return section(
        words("season.beds"),
        choices(choice("scale", words("season.scale"), size, options)),
        picture(ask, "season-beds", drawing, _beds_say(ask, answer, size), table, height=460),
        html.P(note, className="quiet") if note else None,
    )


def _known(frame: pd.DataFrame, column: str) -> Any:
    return frame[column].astype(float).fillna(0.0).to_numpy()


def _bed(ask: Ask, bed: Any) -> str:
    return bed if isinstance(bed, str) else ask.words("season.no_bed")


def _is_known(value: Any) -> bool:
    return value is not None and not pd.isna(value)


def _measured(row: Mapping[str, Any], name: str, text: str) -> Any:
    return figure(text, row["why"], name) if _is_known(row[name]) else "–"


def _ground(ask: Ask, m2: Any) -> str:
    if not _is_known(m2):
        return "–"
    if ask.words.measures == "metric":
        return ask.words("season.m2", n=ask.words.number(m2))
    return ask.words("season.sq_ft", n=ask.words.number(m2 / _SQ_FT_100 * 100))


def _per_ground(ask: Ask, per_m2: Any) -> str:
    if not _is_known(per_m2):
        return "–"
    if ask.words.measures == "metric":
        return ask.words("season.per_m2", amount=ask.words.grams(per_m2))
    return ask.words("season.per_sq_ft", amount=ask.words.grams(per_m2 * _SQ_FT_100))


def _beds_say(ask: Ask, answer: Answer, size: str) -> Any:
    words = ask.words
    rows = [row for row in answer.records() if row["per_m2_g"]]
    says = words(f"season.beds_say_{size}")
    if not rows:
        return says
    best = max(rows, key=lambda row: row["per_m2_g"])
    shown = figure(_per_ground(ask, best["per_m2_g"]), best["why"], "per_m2_g")
    most = words("season.most_for_ground", crop=best["crop"], bed=_bed(ask, best["bed"]))
    return [says, " ", most, " ", shown, "."]


def where(ask: Ask, by_crop: Answer, season: str) -> Any:
    """Return what became of each crop."""
    words = ask.words
    frame = by_crop.frame
    weight = frame["picked_g"].astype(float).fillna(0.0)
    if not (weight > 0).any():
        return None
    frame = frame.loc[weight[weight > 0].sort_values(ascending=False).index].head(_CROPS)
    data, unit = pd.DataFrame({"crop": frame["crop"].astype(str)}), ""
    for fate in _FATES:
        data[fate], unit = scaled(ask, frame[f"where_it_went.{fate}"])
    labels = {fate: words.word("answers", fate, "where_it_went") for fate in _FATES}
    drawing = drawn.where_it_went(data, labels, ask.scheme, unit=unit)
    sums = {fate: grams for fate, grams in by_crop.totals["where_it_went"].items() if grams > 0}
    says = words(
        "season.where_says",
        parts=", ".join(f"{labels[fate]} {words.grams(grams)}" for fate, grams in sums.items()),
    )
    table = answer_table(
        ask, by_crop, columns=("crop", *(f"where_it_went.{fate}" for fate in _FATES)),
        options={"season": season, "by": "crop"}, caption=words("season.where"),
    )  # fmt: skip
    height = 150 + 26 * len(data)
    return section(
        words("season.where"), picture(ask, "season-where", drawing, says, table, height=height)
    )


def net(ask: Ask, by_crop: Answer, season: str) -> Any:
    """Return what each crop brought beyond its inputs, and for an hour of work."""
    words = ask.words
    frame = by_crop.frame
    worth = frame["net"].astype(float)
    table = answer_table(
        ask, by_crop, columns=("crop", "inputs", "shop_value", "net", "hours", "net_per_hour"),
        options={"season": season, "by": "crop"}, caption=words("season.net_title"),
    )  # fmt: skip
    if not worth.notna().any():
        return section(words("season.net_title"), html.P(words("season.no_net")), table)
    frame = frame.loc[worth.dropna().sort_values(ascending=False).index].head(_CROPS)
    per_hour = frame["net_per_hour"].astype(float)
    data = pd.DataFrame(
        {
            "crop": frame["crop"].astype(str), "net": frame["net"].astype(float),
            "text": [
                words("season.an_hour", money=words.money(value)) if _is_known(value) else ""
                for value in per_hour
            ],
        }
    )  # fmt: skip
    drawing = drawn.net(data, ask.scheme, unit=words("season.net_in", currency=words.currency))
    return section(
        words("season.net_title"),
        picture(
            ask, "season-net", drawing, _net_says(ask, by_crop), table, height=110 + 26 * len(data)
        ),
    )


def _net_says(ask: Ask, by_crop: Answer) -> Any:
    words = ask.words
    rows = [row for row in by_crop.records() if row["net"] is not None]
    best = max(rows, key=lambda row: row["net"])
    out = [
        words("season.most_net", crop=best["crop"]), " ",
        figure(words.money(best["net"]), best["why"], "net"),
    ]  # fmt: skip
    timed = [row for row in rows if row["net_per_hour"] is not None]
    if timed:
        quick = max(timed, key=lambda row: row["net_per_hour"])
        out += [
            "; ", words("season.most_per_hour", crop=quick["crop"]), " ",
            figure(words.money(quick["net_per_hour"]), quick["why"], "net_per_hour"),
        ]  # fmt: skip
    return [*out, "."]
