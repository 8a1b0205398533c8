"""Next season: what is wanted, by sliders; the beds it fills, the chances, and the preserving weeks."""

from __future__ import annotations

from typing import Any

import pandas as pd
from dash import dcc, html

from dashboard.ask import Ask
from dashboard.figures import next_season as drawn
from dashboard.pages._page import Page
from dashboard.pages._wanted import asked_otherwise, sliders, wants_of
from dashboard.parts import (
    answer_table,
    choice,
    choices,
    figure,
    notes_of,
    nothing_yet,
    picture,
    say,
    section,
    sentences,
    stat,
)
from ledger.errors import InputError
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_NAME = "next-season"
_AIMS = ("targets", "value", "energy")
_FOOT2_M2 = 0.09290304
_ITEMS = 5
"""Made things told apart in the picture of weeks; the others are drawn together."""
_CROPS = 18
"""Crops drawn: those most is needed of."""

_COLUMNS = ("crop", "needed", "plants.likely", "plants.nine_in_ten", "in_beds", "chance_text")
_WEEK_COLUMNS = ("week", "item", "makes", "batches", "takes", "loads", "hours")


def draw(ask: Ask) -> Any:
    """Return the sliders, the beds, the crops and the weeks for what is wanted."""
    plain = ask.show(_NAME)
    if plain.is_empty:
        return [nothing_yet(ask, "next_season", "harvested"), notes_of(ask, plain)]
    options, wrong = _options(ask, plain), None
    try:
        answer = ask.show(_NAME, **options)
        kept = ask.show(_NAME, preserving=True, **options)
    except InputError as error:  # an address typed by hand
        answer, options, wrong = plain, {}, ask.words.refusal(error)
        kept = ask.show(_NAME, preserving=True)
    words = ask.words
    return [
        _how(ask),
        _stats(ask, answer, kept),
        section(
            words("next_season.wanted"),
            html.P(words("next_season.wanted_says"), className="quiet"),
            html.P(wrong, className="caution", role="alert") if wrong else None,
            *sliders(ask, plain.totals["wanted"]),
            _back(ask),
        ),
        _beds(ask, answer),
        _crops(ask, answer, options),
        _chances(ask, answer),
        _weeks(ask, kept, options),
        notes_of(ask, answer, kept),
    ]


def _options(ask: Ask, plain: Answer) -> dict[str, Any]:
    """Return what the address asks, as the question takes it."""
    out: dict[str, Any] = {}
    wants = wants_of(ask.query, plain.totals["wanted"])
    if wants:
        out["want"] = "; ".join(wants)
    if ask.query.get("for") in _AIMS[1:]:
        out["for"] = ask.query["for"]
    if ask.query.get("rotate") == "yes":
        out["rotate"] = True
    return out


def _how(ask: Ask) -> Any:
    words, aim = ask.words, ask.query.get("for", "")
    aims = [("" if one == _AIMS[0] else one, words(f"next_season.for_{one}")) for one in _AIMS]
    turns = [("", words("next_season.any_bed")), ("yes", words("next_season.rotate"))]
    return choices(
        choice("for", words("next_season.for"), aim if aim in _AIMS[1:] else "", aims),
        choice("rotate", words("next_season.places"), "yes" if ask.query.get("rotate") == "yes" else "", turns),
    )  # fmt: skip


def _back(ask: Ask) -> Any:
    """Return the way back to what is wanted without any slider moved."""
    said = asked_otherwise(ask.query)
    if not said:
        return None
    href = ask.link(**dict.fromkeys(said))
    return html.Div(
        dcc.Link(ask.words("next_season.back"), href=href, className="button quiet-button"),
        className="tools",
    )


def _ground(ask: Ask, area: float | None) -> str:
    """Return ground in the household's measures."""
    if area is None:
        return "–"
    key = "next_season.m2" if _metric(ask) else "next_season.sq_ft"
    return ask.words(key, n=ask.words.number(_in_unit(ask, area)))


def _metric(ask: Ask) -> bool:
    return bool(ask.words.measures == "metric")


def _in_unit(ask: Ask, area: float) -> float:
    return area if _metric(ask) else area / _FOOT2_M2


def _stats(ask: Ask, answer: Answer, kept: Answer) -> Any:
    words, totals = ask.words, answer.totals
    short = int((answer.frame["short_g"].astype(float) > 0).sum())
    there = words("next_season.of_ground", ground=_ground(ask, totals["ground_m2"]))
    hours = kept.totals["hours"]
    return html.Div(
        [
            stat(words("next_season.season"), str(totals["season"])),
            stat(
                words("next_season.ground"),
                _ground(ask, totals["ground_wanted_m2"]),
                there if totals["ground_m2"] else None,
            ),
            stat(words("next_season.short"), words.number(short), words("next_season.short_of", n=len(answer.frame))),
            stat(
                words("next_season.hours"),
                "–" if hours is None else words("next_season.h", n=words.number(hours)),
                words("next_season.loads", n=words.number(kept.totals["loads"])),
            ),
        ],
        className="stats",
    )  # fmt: skip


def _beds(ask: Ask, answer: Answer) -> Any:
    words, rows = ask.words, []
    said = {
        (crop, bed): words.said(text.removesuffix(f" in {bed}"))
        for crop, texts in zip(answer.frame["crop"], answer.frame["in_beds"], strict=True)
        for bed in answer.totals["beds"]
        for text in texts or ()
        if text.endswith(f" in {bed}")
    }
    for bed, one in answer.totals["beds"].items():
        for crop, area in sorted(one["crops_m2"].items(), key=lambda pair: -pair[1]):
            text = f"{said.get((crop, bed), '')}, {_ground(ask, area)}".removeprefix(", ")
            rows.append({"bed": bed, "crop": crop, "ground": _in_unit(ask, area), "says": text})
        left = one["free_m2"]
        if left > 0.01 * one["area_m2"]:
            rows.append(
                {"bed": bed, "crop": None, "ground": _in_unit(ask, left), "says": _ground(ask, left)}
            )  # fmt: skip
    if not rows:
        return None
    data = pd.DataFrame(rows)
    unit = words("next_season.axis_m2" if _metric(ask) else "next_season.axis_sq_ft")
    free = words("next_season.free")
    drawing = drawn.beds(data, ask.scheme, unit=unit, free=free)
    full = [b for b, one in answer.totals["beds"].items() if one["free_m2"] <= 0.01 * one["area_m2"]]  # fmt: skip
    says = words(
        "next_season.beds_says",
        n=len(answer.totals["beds"]),
        full=", ".join(full) or words("word.none"),
    )
    table = html.Ul(
        [html.Li(f"{row['bed']}: {row['crop'] or free}, {row['says']}") for row in rows]
    )
    height = 110 + 62 * len(answer.totals["beds"])
    return section(
        words("next_season.beds"),
        picture(ask, "beds", drawing, says, table, height=height),
        sentences(ask, answer.totals["in_words"]),
    )


def _crops(ask: Ask, answer: Answer, options: dict[str, Any]) -> Any:
    words = ask.words
    lacking = (answer.frame["short_g"].astype(float) > 0).any()
    columns = (*_COLUMNS[:-1], *(("short_g",) if lacking else ()), _COLUMNS[-1])
    why = [
        html.Li([html.B(f"{row['crop']}: "), say(ask, row["because"])]) for row in answer.records()[:60]
    ]  # fmt: skip
    return section(
        words("next_season.crops"),
        html.P(words("next_season.crops_says"), className="quiet"),
        answer_table(
            ask, answer, columns=columns, options=options,
            cells={"needed": lambda row: _needed(ask, row)},
        ),
        html.Details([html.Summary(words("next_season.because")), html.Ul(why)]),
    )  # fmt: skip


def _needed(ask: Ask, row: Any) -> Any:
    return (
        "–"
        if not row["needed"]
        else figure(ask.words.said(row["needed"]), row["why"], "needed_g.likely")
    )


def _chances(ask: Ask, answer: Answer) -> Any:
    words, frame = ask.words, answer.frame[answer.frame["chance_short"].notna()].head(_CROPS)
    if frame.empty:
        return None
    data = pd.DataFrame(
        {"crop": frame["crop"].to_numpy(), "chance": frame["chance_short"].astype(float).to_numpy()}
    ).sort_values("chance", ascending=False)
    worst = frame.loc[frame["chance_short"].astype(float).idxmax()]
    if worst["chance_text"] == "even":
        chance: Any = words("next_season.about_even")
    else:
        chance = figure(words.percent(worst["chance_short"]), worst["why"], "chance_short")
    says = [words("next_season.worst", crop=worst["crop"]), " ", chance, "."]
    drawing = drawn.chances(
        data, ask.scheme, unit=words("next_season.chance"), even=words("next_season.even")
    )
    table = answer_table(ask, answer, columns=("crop", "chance_text", "short_g"))
    return section(
        words("next_season.chances"),
        picture(ask, "chances", drawing, says, table, height=120 + 26 * len(data)),
    )


def _weeks(ask: Ask, kept: Answer, options: dict[str, Any]) -> Any:
    words, frame = ask.words, kept.frame
    if frame.empty:
        return section(words("next_season.weeks"), sentences(ask, kept.totals["missing"]))
    asked = {"preserving": True, **options}
    table = answer_table(ask, kept, columns=_WEEK_COLUMNS, options=asked)
    return section(
        words("next_season.weeks"),
        _hours(ask, frame, table),
        sentences(ask, kept.totals["in_words"]),
    )


def _hours(ask: Ask, frame: pd.DataFrame, table: Any) -> Any:
    words = ask.words
    known = frame[frame["week"].notna() & frame["hours"].notna()]
    if known.empty:
        return table
    data = pd.DataFrame(
        {
            "week": known["week"].to_numpy(),
            "item": known["item"].to_numpy(),
            "hours": known["hours"].astype(float).to_numpy(),
        }
    )
    most = data.groupby("item")["hours"].sum().nlargest(_ITEMS).index
    others = words("next_season.others")
    data["item"] = data["item"].where(data["item"].isin(most), others)
    items = [*most, *([others] if (data["item"] == others).any() else [])]
    data = data.groupby(["week", "item"], sort=True)["hours"].sum().reset_index()
    data["label"] = [words.day(week, short=True) for week in data["week"]]
    by_week = data.groupby("week")["hours"].sum()
    says = words(
        "next_season.weeks_says",
        n=len(by_week),
        day=words.day(str(by_week.idxmax())),
        hours=words.number(float(by_week.max()), 2),
    )
    drawing = drawn.weeks(data, ask.scheme, items=items, unit=words("next_season.axis_hours"))
    return picture(ask, "weeks", drawing, says, table, height=420)


PAGE = Page("next_season", "/next-season", draw, has_pictures=True)
