"""What the winter's questions on the year tell: what to do when, what it costs, what it is worth."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from typing import Any

from dashboard.ask import Ask
from dashboard.drawings.ranked import Bar
from dashboard.drawings.spans import Span, spans
from dashboard.elements import html
from dashboard.pages._told import MOST, Told, bars, columns, figured, name_of, spoken, told
from dashboard.parts import figure
from dashboard.parts.drawings import text_of
from dashboard.parts.keeping import named
from dashboard.parts.saying import say
from ledger.messages import fixed, says
from ledger.projections import Answer

__all__ = ["TOLD"]

_LEAST = 0.005
_NEXT = 8
"""Things to do that are named."""


def glut(ask: Ask, answer: Answer) -> Told | None:
    """Tell what is to be done with what is here or comes within days."""
    rows = answer.rows()
    if not rows:
        missing = answer.totals.get("missing", ())
        return Told([say(ask, missing[0])]) if missing else None
    said = answer.totals["in_words"]
    several = [
        Bar(
            f"{ask.words.day(r['day'], short=True)}, {r['crop']}: {name_of(ask, r['do'])}",
            ask.words.grams(1000 * r["kg"]),
            r["kg"],
            looks=r["do"] == "lost",
        )
        for r in rows
        if r["kg"]
    ]
    under = [part for text in said[1:3] for part in (say(ask, text), " ")]
    return bars(ask, Told([say(ask, said[0])], under or None), several)


def first_year(ask: Ask, answer: Answer) -> Told | None:
    """Tell how much of each food a published plan would put up, beside the own record."""
    rows = sorted((r for r in answer.rows() if r["quarts"]), key=lambda r: -r["quarts"])
    if not rows:
        return None
    cell = {c.name: c for c in answer.columns}["quarts"]
    several = [
        Bar(name_of(ask, r["food"]), ask.words.cell(cell, r["quarts"]), r["quarts"]) for r in rows
    ]
    parts = {
        "n": len(rows),
        "what": name_of(ask, rows[0]["food"]),
        "much": figured(ask, answer, rows[0], "quarts"),
    }
    under = say(ask, answer.totals["in_words"][0])
    return bars(ask, told(ask, "winter.first_year_says", parts, under), several)


def when_to_sow(ask: Ask, answer: Answer) -> Told | None:
    """Tell what is sown first, and draw when each crop is sown and set out."""
    words = ask.words
    rows = [r for r in answer.rows() if r["indoors_from"] or r["out_from"]]
    if not rows:
        return None
    rows.sort(key=lambda r: r["indoors_from"] or r["out_from"])
    first = rows[0]
    day = first["indoors_from"] or first["out_from"]
    where = "winter.indoors" if first["indoors_from"] else "winter.outdoors"
    parts = {
        "what": named(first["crop"]),
        "where": words(where),
        "day": html.Span(words.day(day, short=True), className="own"),
    }
    under = spoken(ask, answer.totals["in_words"])
    one = told(ask, "winter.sow_says", parts, [*under, html.Br(), words("winter.sow_key")])
    start = dt.date.fromisoformat(day).replace(day=1)
    last = max(max(r["last_sowing"] or "", r["out_from"] or "") for r in rows)
    days = (dt.date.fromisoformat(last) - start).days + 14

    def at(text: str) -> float:
        return (dt.date.fromisoformat(text) - start).days / days

    several = []
    for r in rows[:16]:
        spots = []
        if r["indoors_from"]:
            spots.append((at(r["indoors_from"]), at(r["out_from"] or r["indoors_to"]), "f-soft"))
        if r["out_from"]:
            spots.append(
                (at(r["out_from"]), at(max(r["last_sowing"] or "", r["out_from"])), "f-leaf")
            )
        several.append(
            Span(r["crop"], words.day(r["out_from"], short=True) if r["out_from"] else "", spots)
        )
    starts = [dt.date(start.year, m, 1) for m in range(start.month, 13)]
    months = [
        ((one - start).days / days, (words.month(one.month), words.month(one.month)[:1]))
        for one in starts
        if (one - start).days < days
    ]
    said = text_of(one.says)

    def make(width: float) -> str:
        return spans(several, months, said, width=width, scheme=ask.scheme)

    return Told(one.says, one.under, make)


def months(ask: Ask, answer: Answer) -> Told | None:
    """Tell what is next to do, and how much there is in each month."""
    words, rows = ask.words, answer.rows()
    if not rows:
        return None
    first = rows[0]
    parts = {
        "n": answer.totals["things"],
        "day": html.Span(words.day(first["day"], short=True), className="own"),
    }
    coming = html.Ul(
        [
            html.Li(
                [html.Span(words.said(r["what"])), html.Span(words.day(r["day"], short=True))],
                className="line1",
            )
            for r in rows[:_NEXT]
        ],
        className="rows upcoming",
    )
    one = told(ask, "winter.months_says", parts)
    many = Counter(r["month"] for r in rows)
    at = [(words.month(int(month[5:7])), float(n)) for month, n in sorted(many.items())]
    most = words("winter.n_things", n=max(many.values()))
    drawn = columns(ask, one, at, most)
    return Told(drawn.says, coming, drawn.make)


def whole_year(ask: Ask, answer: Answer) -> Told | None:
    """Tell what the plan costs, what it lacks, and what it plants."""
    words, rows = ask.words, answer.rows()
    if not rows:
        return None
    planted = sorted((r for r in rows if r["do"] == "plant"), key=lambda r: -r["amount"])
    several = [
        Bar(f"{r['what']}, {r['bed']}", words.figure(r["amount"], "m2"), r["amount"])
        for r in planted
    ]
    lacks = [text for text in answer.totals["in_words"] if says(text, "year-not-met")]
    parts = {
        "money": html.Span(words.round_money(answer.totals["cost"]), className="shop"),
        "n": len(lacks),
    }
    key = "winter.year_says" if lacks else "winter.year_enough"
    lacking = [text.says.parameters["nutrient"] for text in lacks]
    short = [
        name_of(ask, name)
        for name in answer.totals["short"]
        if getattr(fixed(name), "says", None) in lacking
    ]
    under = spoken(ask, answer.totals["in_words"][:1])
    if short:
        under += [html.Br(), words("winter.year_lacks", what=words.listed(short))]
    return bars(ask, told(ask, key, parts, under), several)


def year_weeks(ask: Ask, answer: Answer) -> Told | None:
    """Tell which week of the plan is the fullest."""
    words, rows = ask.words, [r for r in answer.rows() if r["hours"] is not None]
    if not rows:
        return None
    best = max(rows, key=lambda r: r["hours"])
    parts = {
        "day": words.day(best["week"], short=True),
        "hours": html.Span(
            figure(words("winter.n_hours", n=words.number(best["hours"], 2)), best["why"], "hours"),
            className="own",
        ),
    }
    at, before = [], ""
    for r in rows:
        month = words.month(int(r["week"][5:7]))
        at.append((month if month != before else "", r["hours"]))
        before = month
    most = words("winter.n_hours", n=words.number(best["hours"], 2))
    under = spoken(ask, answer.totals["in_words"][:1])
    return columns(ask, told(ask, "winter.weeks_says", parts, under), at, most)


def limits(ask: Ask, answer: Answer) -> Told | None:
    """Tell which needs the plan meets least, and what holds it."""
    words, rows = ask.words, [r for r in answer.rows() if r["share"] is not None]
    needs = [r for r in rows if " of " in r["unit"] and r["limit"] != "sodium"]
    if not needs:
        return None
    least = min(needs, key=lambda r: r["share"])
    parts = {
        "what": name_of(ask, least["limit"], begins=True),
        "share": figured(ask, answer, least, "share", "look"),
        "n": sum(bool(r["binds"]) for r in rows),
    }
    several = [
        Bar(
            name_of(ask, r["limit"]),
            words.percent(r["share"]),
            min(r["share"], 1.2),
            1.0,
            looks=r["share"] < 1 - _LEAST,
        )
        for r in sorted(needs, key=lambda r: r["share"])
    ]
    holds = [name_of(ask, r["limit"]) for r in rows if r["binds"] and r not in needs]
    under = words("winter.limits_under", what=words.listed(holds[:6])) if holds else None
    return bars(ask, told(ask, "winter.limits_says", parts, under), several, words("winter.need"))


def power(ask: Ask, answer: Answer) -> Told | None:
    """Tell what a good jar takes in heat, and what full loads would save."""
    words, rows = ask.words, [r for r in answer.rows() if r["kwh_per_good_jar"] is not None]
    if not rows:
        return None
    newest: dict[str, dict[str, Any]] = {}
    for r in rows:
        newest.setdefault(r["item"], r)
    several = [
        Bar(
            f"{r['item']}, {words.day(r['on'], short=True)}",
            f"{words.number(r['kwh_per_good_jar'])} kWh",
            r["kwh_per_good_jar"],
        )
        for r in sorted(newest.values(), key=lambda r: -r["kwh_per_good_jar"])
    ]
    dear = max(newest.values(), key=lambda r: r["kwh_per_good_jar"])
    kwh = f"{words.number(dear['kwh_per_good_jar'])} kWh"
    parts = {
        "kwh": html.Span(figure(kwh, dear["why"], "kwh_per_good_jar"), className="own"),
        "what": dear["item"],
    }
    under = spoken(ask, answer.totals["in_words"])
    return bars(ask, told(ask, "winter.power_says", parts, under), several)


def work(ask: Ask, answer: Answer) -> Told | None:
    """Tell what the hours are worth, each way beside the others."""
    words = ask.words
    every = next((r for r in answer.rows() if r["line"] == "total"), None)
    if every is None:
        return None
    columns_ = {c.name: c for c in answer.columns}
    ways = ("own_rate", "helper", "pay_given_up", "brought")
    several = [
        Bar(words.label("work-worth", columns_[name]), words.round_money(every[name]), every[name])
        for name in ways
        if every[name] is not None
    ]
    hours = words("winter.n_hours", n=words.number(every["hours"], 3))
    parts = {
        "hours": html.Span(figure(hours, every["why"], "hours"), className="own"),
        "money": html.Span(
            figure(words.round_money(every["brought"]), every["why"], "brought"), className="own"
        ),
    }
    key = "winter.work_says" if every["brought"] is not None else "winter.work_hours"
    under = say(ask, answer.totals["in_words"][-1])
    return bars(ask, told(ask, key, parts, under), several)


def prices(ask: Ask, answer: Answer) -> Told | None:
    """Tell how the household's own prices moved, and draw what moved them."""
    words, rows = ask.words, answer.rows()
    every = next((r for r in rows if r["fisher"] is not None), None)
    if every is None:
        return None
    moved = [r for r in rows if r["change"] is not None][:MOST]
    several = [
        Bar(
            r["item"],
            _signed(ask, r["change"] - 100),
            r["change"] - 100,
            looks=r["change"] > 100 + 1,
        )
        for r in sorted(moved, key=lambda r: -r["change"])
    ]
    much = every["fisher"] - 100
    said = html.Span(
        figure(_signed(ask, abs(much), sign=""), every["why"], "fisher"),
        className="look" if much > 0 else "own",
    )
    key = "winter.prices_up" if much >= 0 else "winter.prices_down"
    under = words("winter.prices_under", n=len(moved))
    return bars(ask, told(ask, key, {"much": said}, under), several)


def _signed(ask: Ask, value: float, sign: str = "+") -> str:
    text = ask.words.percent(abs(value) / 100)
    return f"{sign}{text}" if value >= 0 else f"−{text}"


def hens(ask: Ask, answer: Answer) -> Told | None:
    """Tell what the hens laid in the year, what a dozen costs, and the eggs of each month."""
    words, rows = ask.words, answer.rows()
    year = next((r for r in rows if r["period"] == "year"), None)
    if year is None or not year["eggs"]:
        return None
    several = [r for r in rows if r is not year]
    several.sort(key=lambda r: r["period"])
    at = [(words.month(int(r["period"][5:7])), float(r["eggs"] or 0)) for r in several]
    most = words("winter.n_eggs", n=words.whole(max(n for _, n in at))) if at else ""
    parts = {
        "hens": words.number(year["hens"], 3),
        "eggs": figured(ask, answer, year, "eggs"),
        "money": figured(ask, answer, year, "cost_per_dozen"),
    }
    key = "winter.hens_says" if year["cost_per_dozen"] is not None else "winter.hens_eggs"
    under = None
    if year["lay"] is not None and year["feed_per_dozen_lb"] is not None:
        feed = words.quantity(year["feed_per_dozen_lb"], "lb")
        under = words("winter.hens_under", lay=words.percent(year["lay"]), feed=feed)
    return columns(ask, told(ask, key, parts, under), at, most)


TOLD = {
    "glut": glut,
    "first_year": first_year,
    "when_to_sow": when_to_sow,
    "months": months,
    "whole_year": whole_year,
    "year_weeks": year_weeks,
    "limits": limits,
    "power": power,
    "work": work,
    "prices": prices,
    "hens": hens,
}
"""By the question's name in the address."""
