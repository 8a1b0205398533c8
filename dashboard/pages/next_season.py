"""Next season: what fits, the beds to scale, when to sow, jars wanted, and folded: plants, weeks, chances."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from dashboard.ask import Ask
from dashboard.drawings.beds import BEDS_AT_MOST, Bed
from dashboard.drawings.beds import beds as beds_drawn
from dashboard.drawings.hours_by_week import hours_by_week
from dashboard.elements import dcc, html
from dashboard.pages._bed_lies import drawn_beds
from dashboard.pages._page import Page
from dashboard.pages._season_yield import ground_bar
from dashboard.pages._sowing import first_out, sowing
from dashboard.pages._wanted import asked_otherwise, jars_wanted, sliders, wants_of
from dashboard.parts import (
    answer_table,
    answered,
    choice,
    choices,
    figure,
    notes_of,
    nothing_yet,
    say,
    section,
    sentence,
    sentences,
)
from dashboard.parts.drawings import drawing
from dashboard.parts.folds import folds
from dashboard.parts.keeping import spoken
from ledger.errors import InputError
from ledger.projections import Answer

__all__ = ["PAGE", "draw", "says"]

_NAME = "next-season"
_AIMS = ("targets", "value", "energy")
_FOOT2_M2 = 0.09290304
_FULL = 0.01
"""A bed with less than this share free is full."""
_COLUMNS = ("crop", "needed", "plants.likely", "plants.nine_in_ten", "in_beds", "chance_text")
_WEEK_COLUMNS = ("week", "item", "makes", "batches", "takes", "loads", "hours")

Row = Mapping[str, Any]


def draw(ask: Ask) -> Any:
    """Return what is wanted, the beds it fills, when to sow it, and folded: crops and weeks."""
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
        answered(_sentence(ask, answer), under=_under(ask, answer)),
        html.P(wrong, className="caution", role="alert") if wrong else None,
        html.Div([_beds(ask, answer), sowing(ask, answer)], className="two wide"),
        section(
            words("next_season.wanted"),
            jars_wanted(ask, plain.totals["wanted"], answer),
            _back(ask),
            note=words("next_season.change_one"),
        ),
        folds(
            words("next_season.more_of"),
            _otherwise(ask, plain),
            _crops(ask, answer, options),
            _weeks(ask, kept, options),
        ),
        notes_of(ask, answer, kept),
    ]


def says(ask: Ask) -> Any:
    """Return the page's answer in a line."""
    plain = ask.show(_NAME)
    return None if plain.is_empty else [*_sentence(ask, plain), " ", *_under(ask, plain)]


def _sentence(ask: Ask, answer: Answer) -> list[Any]:
    """Return whether what is wanted fits the ground there is."""
    words, totals = ask.words, answer.totals
    short = [spoken(str(row["crop"])) for row in answer.records() if (row["short_g"] or 0) > 0]
    wanted, there = _ground(ask, totals["ground_wanted_m2"]), _ground(ask, totals["ground_m2"])
    if not totals["ground_m2"] and not totals["ground_wanted_m2"]:
        return [words("next_season.no_ground")]
    if not totals["ground_m2"]:
        return sentence(ask, "next_season.no_beds", {"wanted": wanted})
    if short:
        said = {"crops": html.Span(", ".join(short[:3]), className="look"), "there": there}
        return sentence(ask, "next_season.does_not_fit", said)
    said = {"wanted": html.Span(wanted, className="own"), "there": there}
    del words
    return sentence(ask, "next_season.fits", said)


def _under(ask: Ask, answer: Answer) -> list[Any]:
    """Return what is to be sown or set out first."""
    del answer
    said = first_out(ask)
    return [said] if said else []


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


def _beds(ask: Ask, answer: Answer) -> Any:
    """Return the beds with what is to grow in each, to one scale of ground."""
    words, made, there = ask.words, [], answer.totals["beds"]
    plants = {(row["crop"], row["bed"]): row["plants"]["planned"] for row in answer.records()}
    before = _grew_last(ask)
    for name, one in there.items():
        crops = []
        for crop, area in sorted(one["crops_m2"].items(), key=lambda pair: -pair[1]):
            n = one["crops"].get(crop) or plants.get((crop, name))
            many = spoken(str(crop))
            text = words("next_season.patch", n=words.number(n, 6), crop=many) if n else many
            crops.append((str(crop), text, float(area)))
        was = words("next_season.was", crop=before[name]) if name in before else ""
        made.append(Bed(str(name), was, float(one["area_m2"]), crops, words("next_season.free")))
    if not made:
        return section(words("next_season.beds"), sentences(ask, answer.totals["in_words"]))
    made.sort(key=lambda bed: -bed.ground)
    full = [b for b, one in there.items() if one["free_m2"] <= _FULL * one["area_m2"]]
    said = words("next_season.beds_says", n=len(made), full=", ".join(full) or words("word.none"))
    bar_of = ground_bar(ask, made[0].ground)

    def strips(several: Sequence[Bed], width: float) -> str:
        return beds_drawn(several, said, bar_of=bar_of, width=width, scheme=ask.scheme)

    more = None
    if len(made) > BEDS_AT_MOST:
        more = html.P(
            words("season.largest", n=BEDS_AT_MOST, all=len(made)), className="under small"
        )
    return section(
        words("next_season.beds_in", season=answer.totals["season"]),
        *drawn_beds(ask, "beds", made, said, strips, _bed_list(ask, answer), rows=_rows(ask, made)),
        more,
        note=words("next_season.to_scale"),
    )


def _rows(ask: Ask, made: Sequence[Bed]) -> dict[tuple[str, str], float]:
    """Return metres of row in each patch, as far apart as the crop's rows were before."""
    apart = {
        row["crop"]: row["area_m2"] / row["row_m"]
        for row in ask.show("season").records()
        if row["area_m2"] and row["row_m"]
    }
    return {
        (crop, bed.name): ground / apart[crop]
        for bed in made
        for crop, _, ground in bed.crops
        if crop in apart
    }


def _grew_last(ask: Ask) -> dict[str, str]:
    """Return what took most of each bed's ground in the season that was planted last."""
    out: dict[str, tuple[float, str]] = {}
    for row in ask.show("season").records():
        if row["bed"] and row["area_m2"] and row["area_m2"] > out.get(row["bed"], (0.0, ""))[0]:
            out[row["bed"]] = (row["area_m2"], str(row["crop"]))
    return {bed: spoken(crop) for bed, (_, crop) in out.items()}


def _bed_list(ask: Ask, answer: Answer) -> Any:
    """Return the beds in words: each crop with its ground, and what is left over."""
    lines = []
    for name, one in answer.totals["beds"].items():
        parts = [f"{crop} {_ground(ask, area)}" for crop, area in one["crops_m2"].items()]
        if one["free_m2"] > _FULL * one["area_m2"]:
            parts.append(f"{ask.words('next_season.free')} {_ground(ask, one['free_m2'])}")
        lines.append(html.Li([html.B(f"{name}: "), ", ".join(parts)]))
    return html.Ul(lines)


def _otherwise(ask: Ask, plain: Answer) -> Any:
    """Return, folded, everything wanted by sliders, and what the beds are to bring most of."""
    words = ask.words
    return html.Details(
        [
            html.Summary(words("next_season.everything")),
            html.P(words("next_season.wanted_says"), className="under"),
            _how(ask),
            *sliders(ask, plain.totals["wanted"]),
        ],
        open=_is_otherwise(ask),
    )


def _is_otherwise(ask: Ask) -> bool:
    return bool({"for", "rotate"} & set(ask.query) or asked_otherwise(ask.query))


def _crops(ask: Ask, answer: Answer, options: dict[str, Any]) -> Any:
    words = ask.words
    columns = (*_COLUMNS[:-1], "short_g", _COLUMNS[-1])
    why = [
        html.Li([html.B(f"{row['crop']}: "), say(ask, row["because"])]) for row in answer.records()[:60]
    ]  # fmt: skip
    table = answer_table(
        ask, answer, columns=columns, options=options, cells={"needed": lambda row: _needed(ask, row)},
    )  # fmt: skip
    return html.Details(
        [
            html.Summary(words("next_season.crops")),
            html.P([words("next_season.crops_says"), " ", *_worst(ask, answer)], className="under"),
            table,
            sentences(ask, answer.totals["in_words"]),
            html.Details([html.Summary(words("next_season.because")), html.Ul(why)]),
        ],
        open=ask.wants_all("next-season") or _is_otherwise(ask),
    )


def _needed(ask: Ask, row: Any) -> Any:
    return (
        "–"
        if not row["needed"]
        else figure(ask.words.said(row["needed"]), row["why"], "needed_g.likely")
    )


def _worst(ask: Ask, answer: Answer) -> list[Any]:
    """Return which crop is most in doubt."""
    words, frame = ask.words, answer.frame[answer.frame["chance_short"].notna()]
    if frame.empty:
        return []
    worst = frame.loc[frame["chance_short"].astype(float).idxmax()]
    if worst["chance_text"] == "even":
        chance: Any = words("next_season.about_even")
    else:
        chance = figure(words.percent(worst["chance_short"]), worst["why"], "chance_short")
    return [words("next_season.worst", crop=spoken(worst["crop"])), " ", chance, "."]


def _weeks(ask: Ask, kept: Answer, options: dict[str, Any]) -> Any:
    """Return, folded, the weeks of preserving that it implies."""
    words, frame = ask.words, kept.frame
    summary = html.Summary(words("next_season.weeks"))
    if frame.empty:
        return html.Details([summary, sentences(ask, kept.totals["missing"])])
    asked = {"preserving": True, **options}
    table = answer_table(ask, kept, columns=_WEEK_COLUMNS, options=asked)
    return html.Details(
        [summary, _hours(ask, kept, table), sentences(ask, kept.totals["in_words"])]
    )


def _hours(ask: Ask, kept: Answer, table: Any) -> Any:
    words, known = ask.words, kept.frame
    known = known[known["week"].notna() & known["hours"].notna()]
    if known.empty:
        return table
    by_week = known["hours"].astype(float).groupby(known["week"]).sum().sort_index()
    said = words(
        "next_season.weeks_says", n=len(by_week), day=words.day(str(by_week.idxmax())),
        hours=words.number(float(by_week.max()), 2),
    )  # fmt: skip
    weeks = [(words.day(str(week), short=True), float(hours)) for week, hours in by_week.items()]
    most = words("next_season.h", n=words.number(float(by_week.max()), 2))

    def make(width: float) -> str:
        return hours_by_week(weeks, most, said, width=width, scheme=ask.scheme)

    return html.Div([html.P(said, className="under"), drawing(ask, "weeks", make, said, table)])


PAGE = Page("next_season", "/next-season", draw)
