"""Worth it: what a season left beyond buying it all, where that came from, and what lasts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.drawings.steps import steps
from dashboard.elements import html
from dashboard.pages._page import Page
from dashboard.pages._worth_prices import home_and_shop
from dashboard.parts import (
    answer_table,
    answered,
    figure,
    notes_of,
    nothing_yet,
    plain_table,
    section,
    sentence,
    sentences,
)
from dashboard.parts.drawings import drawing
from dashboard.parts.folds import folds
from dashboard.parts.strips import strip, switch
from ledger.projections import Answer

__all__ = ["PAGE", "draw", "says"]

_NAME = "worth-it"
_COLUMNS = ("line", "money_in", "money_out", "worth", "cost", "net", "hours", "net_per_hour")
_LASTING = (
    "item", "paid", "earned", "yearly_cost", "back_text", "payback_years", "paid_back_on", "expected_on",
)  # fmt: skip
_LAST = 5
"""Lasting things seen at once: those that cost most."""

_BOUND = {"": "", "≥": "_more", "≤": "_less", "≈": "_open"}
"""What a sentence's name ends in, by the bound of its figure."""

Row = Mapping[str, Any]


def draw(ask: Ask) -> Any:
    """Return the season chosen, what lasts, and the prices of one thing over the years."""
    now, prices = ask.show(_NAME), ask.show(_NAME, prices=True)
    lasting = ask.show(_NAME, durables=True)
    if now.is_empty and prices.is_empty and lasting.is_empty:
        return [nothing_yet(ask, "worth_it", "bought"), notes_of(ask, now)]
    season = _season(ask, now, prices)
    answer, words = ask.show(_NAME, season=season), ask.words
    options = [(one, one) for one in _written(now, prices)]
    return [
        strip(ask, "season", words("worth_it.season"), season, options),
        *_answer(ask, answer),
        html.Div([_where_from(ask, answer, season), _durables(ask, lasting)], className="two wide"),
        folds(
            words("worth_it.more"),
            _cash(ask, answer),
            _each_lasting(ask, lasting),
            home_and_shop(ask, prices, season),
        ),
        notes_of(ask, answer, lasting, prices),
    ]


def says(ask: Ask) -> Any:
    """Return the page's answer in a line."""
    rows = ask.show(_NAME).records()
    return _sentence(ask, rows[-1]) if rows else None


def _written(now: Answer, prices: Answer) -> list[str]:
    """Return the seasons that there is something of, the newest first."""
    return sorted({*prices.frame["season"], *now.totals["season"]}, key=int, reverse=True)


def _season(ask: Ask, now: Answer, prices: Answer) -> str:
    """Return the season chosen: by the address, else the running one, else the newest."""
    seasons, asked = _written(now, prices), ask.query.get("season", "")
    if asked in seasons:
        return asked
    if not now.is_empty or prices.is_empty:
        return str(next(iter(now.totals["season"])))
    return str(max(prices.frame["season"], key=int))


# -- a season ----------------------------------------------------------------------------


def _pays_time(ask: Ask) -> bool:
    return ask.query.get("time") == "yes"


def _net(ask: Ask, total: Row) -> tuple[str, float]:
    """Return the column of what was left, own time paid or not, and its value."""
    name = "after_labour" if _pays_time(ask) and total["after_labour"] is not None else "net"
    return name, float(total[name])


def _answer(ask: Ask, answer: Answer) -> list[Any]:
    rows = answer.records()
    if not rows:
        return [answered(ask.words("worth_it.nothing")), sentences(ask, answer.totals["missing"])]
    return [answered(_sentence(ask, rows[-1]), under=_under(ask, rows[-1]))]


def _sentence(ask: Ask, total: Row) -> list[Any]:
    name, net = _net(ask, total)
    shown = figure(ask.words.round_money(abs(net)), total["why"], name)
    mark = total["bounds"].get(name, "")
    key = ("worth_it.yes" if net >= 0 else "worth_it.no") + _BOUND[mark]
    is_open = mark in ("≈", "≤" if net >= 0 else "≥")
    kind = "" if is_open else "own" if net >= 0 else "look"
    said: dict[str, Any] = {"money": html.Span(shown, className=kind)}
    if mark:
        n = len(total["unpriced"])
        said["things"] = (
            ask.words("worth_it.things_have", n=n) if n > 1 else ask.words("worth_it.thing_has")
        )
    return sentence(ask, key, said)


def _marked(total: Row, name: str, text: str) -> str:
    """Return a figure with the bound that it is."""
    mark = total["bounds"].get(name, "")
    return f"{mark} {text}" if mark else text


def _under(ask: Ask, total: Row) -> list[Any]:
    words, hours = ask.words, total["hours"]
    if hours is None:
        out = [words("worth_it.no_hours_under")]
    else:
        hourly = _marked(total, "net_per_hour", words.money(total["net_per_hour"]))
        out = sentence(
            ask, "worth_it.hours_under",
            {
                "hours": figure(words.number(hours), total["why"], "hours"),
                "money": figure(hourly, total["why"], "net_per_hour"),
            },
        )  # fmt: skip
    return [*out, f" {words('worth_it.still_runs')}"] if total["provisional"] else out


def _where_from(ask: Ask, answer: Answer, season: str) -> Any:
    words, rows = ask.words, answer.records()
    if not rows:
        return html.Div()
    total, lines = rows[-1], rows[:-1]
    name, net = _net(ask, total)
    table = answer_table(ask, answer, columns=_COLUMNS, options={"season": season})
    drawn = [(_line(ask, r["line"]), r["net"], words.whole(r["net"])) for r in lines if r["net"]]
    if name == "after_labour":
        drawn.append((words("worth_it.own_time"), -total["labour"], words.whole(-total["labour"])))
    if not drawn:
        return section(words("worth_it.where"), table)
    said = words(
        "worth_it.steps_say", season=season, parts=", ".join(f"{n} {text}" for n, _, text in drawn),
        sum=_marked(total, name, words.round_money(net)),
    )  # fmt: skip
    last = (words("worth_it.better_off"), net, _marked(total, name, words.round_money(net)))

    def make(width: float) -> str:
        return steps(
            drawn, last, said, width=width, scheme=ask.scheme, tall=33 if width < 400 else 36
        )

    return section(
        words("worth_it.where"),
        drawing(ask, "season", make, said, table),
        _time(ask, total),
        note=words("worth_it.in_money", currency=words.coin_sign()),
    )  # fmt: skip


def _time(ask: Ask, total: Row) -> Any:
    """Return the switch that takes own time off; None where no rate is set."""
    if total["labour"] is None:
        return None
    note = ask.words("worth_it.time_note", money=ask.words.round_money(total["labour"]))
    return switch(ask, "time", "yes", ask.words("worth_it.count_time"), note, is_on=False)


def _line(ask: Ask, line: str) -> str:
    text = str(ask.words.word("answers", line))
    return text[:1].upper() + text[1:]


# -- what lasts --------------------------------------------------------------------------


def _durables(ask: Ask, lasting: Answer) -> Any:
    words, frame = ask.words, lasting.frame
    if frame.empty:
        return section(
            words("worth_it.lasting"), html.P(words("worth_it.none_lasting"), className="under")
        )
    records = lasting.records()
    rows = [
        [
            html.Span([_name(r["item"]), html.Br(), html.Span(_back(ask, r), className="quiet")]),
            figure(words.money(r["paid"]), r["why"], "paid", what=words("worth_it.paid")),
            _share(ask, r),
        ]
        for r in records[:_LAST]
    ]
    heads = [words("worth_it.thing"), words("worth_it.paid"), words("worth_it.earned")]
    return section(
        words("worth_it.lasting"),
        html.Div(
            plain_table(
                heads, rows, numeric=(False, True, False), caption=words("worth_it.lasting"), keeps_columns=True
            ),
            className="pay",
        ),
        note=words("worth_it.lasting_note"),
    )  # fmt: skip


def _each_lasting(ask: Ask, lasting: Answer) -> Any:
    """Return, folded, how each lasting thing earns its price."""
    if lasting.is_empty:
        return None
    words = ask.words
    return html.Details(
        [
            html.Summary(words("worth_it.lasting_more")),
            html.P(words("worth_it.lasting_says"), className="under"),
            answer_table(ask, lasting, columns=_LASTING, options={"durables": True}),
        ]
    )


def _cash(ask: Ask, answer: Answer) -> Any:
    """Return, folded, what came in and was paid in the season."""
    rows = answer.records()
    if not rows:
        return None
    total, words = rows[-1], ask.words
    paid = {
        "in": figure(words.money(total["money_in"]), total["why"], "money_in"),
        "out": figure(
            _marked(total, "money_out", words.money(total["money_out"])), total["why"], "money_out"
        ),
        "other": figure(
            _marked(total, "for_other_seasons", words.money(total["for_other_seasons"])),
            total["why"],
            "for_other_seasons",
        ),
    }
    said = sentence(ask, "worth_it.cash_under", paid)
    reckoned = html.P(words("worth_it.reckoned"))
    return html.Details([html.Summary(words("worth_it.cash")), reckoned, html.P(said)])


def _name(item: str) -> str:
    return item[:1].upper() + item[1:]


def _back(ask: Ask, row: Row) -> str:
    """Return when a thing has earned its price, or is to have."""
    words = ask.words
    if row["paid_back_on"]:
        return str(words("worth_it.paid_off", month=_month(ask, row["paid_back_on"])))
    if row["expected_on"]:
        return str(words("worth_it.about", year=row["expected_on"][:4]))
    return str(words("worth_it.not_yet"))


def _month(ask: Ask, day: str) -> str:
    return f"{ask.words.month(int(day[5:7]))} {day[:4]}"


def _share(ask: Ask, row: Row) -> Any:
    """Return a bar of what was earned back of a price, its share read out."""
    share = row["share_back"]
    if share is None:
        return "–"
    text = ask.words.percent(min(1.0, max(0.0, share)))
    width = f"{100 * min(1.0, max(0.0, share)):.0f}%"
    kind = "track" if share >= 1 else "track near"
    bar = html.Span(html.Span(style={"width": width}), className=kind)
    return html.Span([bar, html.Span(text, className="heard")])


PAGE = Page("worth_it", "/worth-it", draw)
