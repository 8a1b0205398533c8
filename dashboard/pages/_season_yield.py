"""What the season gave: the beds drawn to scale, and folded: where it went, net and per hour."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any

import pandas as pd

from dashboard.ask import Ask
from dashboard.drawings.beds import BEDS_AT_MOST, Bed
from dashboard.drawings.beds import beds as beds_drawn
from dashboard.elements import html
from dashboard.pages._bed_lies import drawn_beds
from dashboard.parts import answer_table, figure, section
from dashboard.parts.keeping import spoken
from ledger.projections import Answer

__all__ = ["beds", "ground_bar", "net", "where"]

_FATES = ("eaten fresh", "put up", "given", "lost", "sown", "on hand")
_SQ_FT_100 = 9.290304
"""Square metres in 100 square feet."""


def ground_bar(ask: Ask, most_m2: float) -> tuple[float, str]:
    """Return ground for the bar below a plan, m2, and what it is in words: about a quarter of the largest bed."""
    per = 1.0 if ask.words.measures == "metric" else _SQ_FT_100 / 100
    steps = [n * 10**power for power in range(-1, 6) for n in (1, 2, 5)]
    value = min(steps, key=lambda one: abs(one - most_m2 / per / 4))
    return value * per, _ground(ask, value * per)


def beds(ask: Ask, answer: Answer, season: str) -> Any:
    """Return the beds with what grew in each, to one scale of ground."""
    words = ask.words
    rows = [row for row in answer.records() if row["bed"] and (row["area_m2"] or 0) > 0]
    if not rows:
        return None
    names = list(dict.fromkeys(str(row["bed"]) for row in rows))
    made = []
    for name in names:
        own = sorted((r for r in rows if r["bed"] == name), key=lambda r: -r["area_m2"])
        crops = [(str(r["crop"]), spoken(str(r["crop"])), float(r["area_m2"])) for r in own]
        made.append(Bed(name, "", sum(area for _, _, area in crops), crops, ""))
    made.sort(key=lambda bed: -bed.ground)
    bar_of = ground_bar(ask, made[0].ground)
    said = words(
        "season.beds_say",
        beds="; ".join(f"{bed.name}: {', '.join(c for _, c, _ in bed.crops)}" for bed in made),
    )
    table = answer_table(
        ask, answer, columns=("crop", "bed", "area_m2", "picked_g", "per_m2_g", "in_words.yield"),
        cells={
            "area_m2": lambda row: _measured(row, "area_m2", _ground(ask, row["area_m2"])),
            "per_m2_g": lambda row: _measured(row, "per_m2_g", _per_ground(ask, row["per_m2_g"])),
        },
        options={"season": season}, caption=words("season.beds"),
    )  # fmt: skip

    def strips(several: Sequence[Bed], width: float) -> str:
        return beds_drawn(several, said, bar_of=bar_of, width=width, scheme=ask.scheme)

    known = {(str(r["crop"]), str(r["bed"])): float(r["row_m"]) for r in rows if r["row_m"]}
    last = dt.date.fromisoformat(answer.totals["to"])

    left_out = [
        spoken(str(r["crop"])) for r in answer.records() if r["picked_g"] and not r["area_m2"]
    ]
    notes = [words("season.not_drawn", crops=", ".join(left_out))] if left_out else []
    if len(made) > BEDS_AT_MOST:
        notes.append(words("season.largest", n=BEDS_AT_MOST, all=len(made)))
    told = html.P([*_most_for_ground(ask, rows), *(f" {one}" for one in notes)], className="under")
    return section(
        words("season.beds"),
        *drawn_beds(
            ask,
            "season-beds",
            made,
            said,
            strips,
            html.Div([told, table]),
            rows=known,
            on=min(last, ask.day),
            desk=358,
        ),
        note=words("season.to_scale", season=season),
    )


def _most_for_ground(ask: Ask, rows: list[Mapping[str, Any]]) -> list[Any]:
    """Return which crop gave most for its ground."""
    known = [row for row in rows if row["per_m2_g"]]
    if not known:
        return []
    best = max(known, key=lambda row: row["per_m2_g"])
    shown = figure(_per_ground(ask, best["per_m2_g"]), best["why"], "per_m2_g")
    return [
        ask.words("season.most_for_ground", crop=spoken(best["crop"]), bed=best["bed"]),
        " ",
        shown,
        ".",
    ]


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


def where(ask: Ask, by_crop: Answer, season: str) -> Any:
    """Return, folded, what became of each crop."""
    words, frame = ask.words, by_crop.frame
    if not (frame["picked_g"].astype(float).fillna(0.0) > 0).any():
        return None
    sums = {fate: grams for fate, grams in by_crop.totals["where_it_went"].items() if grams > 0}
    labels = {fate: words.word("answers", fate, "where_it_went") for fate in _FATES}
    says = words(
        "season.where_says",
        parts=", ".join(f"{labels[fate]} {words.grams(grams)}" for fate, grams in sums.items()),
    )
    table = answer_table(
        ask, by_crop, columns=("crop", *(f"where_it_went.{fate}" for fate in _FATES)),
        options={"season": season, "by": "crop"}, caption=words("season.where"),
    )  # fmt: skip
    return html.Details([html.Summary(words("season.where")), html.P(says), table])


def net(ask: Ask, by_crop: Answer, season: str) -> Any:
    """Return, folded, what each crop brought beyond its inputs, and for an hour of work."""
    words, totals = ask.words, by_crop.totals
    table = answer_table(
        ask, by_crop, columns=("crop", "inputs", "shop_value", "net", "hours", "net_per_hour"),
        options={"season": season, "by": "crop"}, caption=words("season.net_title"),
    )  # fmt: skip
    summary = html.Summary(words("season.net_title"))
    if not by_crop.frame["net"].notna().any():
        return html.Details([summary, html.P(words("season.no_net")), table])
    whole = words(
        "season.net_says", worth=words.round_money(totals["shop_value"]),
        inputs=words.round_money(totals["inputs"]), net=words.round_money(totals["net"]),
        hours=words.number(totals["hours"]),
    )  # fmt: skip
    return html.Details([summary, html.P([whole, " ", *_net_says(ask, by_crop)]), table])


def _net_says(ask: Ask, by_crop: Answer) -> Any:
    words = ask.words
    rows = [row for row in by_crop.records() if row["net"] is not None]
    best = max(rows, key=lambda row: row["net"])
    out = [
        words("season.most_net", crop=spoken(best["crop"])), " ",
        figure(words.money(best["net"]), best["why"], "net"),
    ]  # fmt: skip
    timed = [row for row in rows if row["net_per_hour"] is not None]
    if timed:
        quick = max(timed, key=lambda row: row["net_per_hour"])
        out += [
            "; ", words("season.most_per_hour", crop=spoken(quick["crop"])), " ",
            figure(words.money(quick["net_per_hour"]), quick["why"], "net_per_hour"),
        ]  # fmt: skip
    return [*out, "."]
