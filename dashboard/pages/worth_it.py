"""Worth it: a season's money in and out, net an hour, pay-back of what lasts, home against shop."""

from __future__ import annotations

from typing import Any

import pandas as pd
from dash import html

from dashboard.ask import Ask
from dashboard.figures import worth_it as drawn
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    choice,
    choices,
    figure,
    notes_of,
    nothing_yet,
    picture,
    section,
    sentences,
    stat,
)
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_NAME = "worth-it"
_COLUMNS = ("line", "money_in", "money_out", "worth", "cost", "net", "hours", "net_per_hour")
_LASTING = (
    "item", "paid", "earned", "yearly_cost", "back_text", "payback_years", "paid_back_on", "expected_on",
)  # fmt: skip
_PRICES = ("home_per_unit", "home_before_labour_per_unit", "shop_per_unit")
_DRAWN = 16
"""Lasting things in the picture: those that cost most."""


def draw(ask: Ask) -> Any:
    """Return the season chosen, what lasts, and the prices of one thing over the years."""
    now, prices = ask.show(_NAME), ask.show(_NAME, prices=True)
    lasting = ask.show(_NAME, durables=True)
    if now.is_empty and prices.is_empty and lasting.is_empty:
        return [nothing_yet(ask, "worth_it", "bought"), notes_of(ask, now)]
    season = _season(ask, now, prices)
    answer = ask.show(_NAME, season=season)
    return [
        _seasons(ask, season, now, prices),
        *_money(ask, answer, season),
        _durables(ask, lasting),
        _home_and_shop(ask, prices, season),
        notes_of(ask, answer, lasting, prices),
    ]


# -- a season ----------------------------------------------------------------------------


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


def _seasons(ask: Ask, season: str, now: Answer, prices: Answer) -> Any:
    options = [(one, one) for one in _written(now, prices)]
    return choices(choice("season", ask.words("worth_it.season"), season, options))


def _money(ask: Ask, answer: Answer, season: str) -> list[Any]:
    words, rows = ask.words, answer.records()
    if not rows:
        missing = sentences(ask, answer.totals["missing"])
        return [section(words("worth_it.money", season=season), missing)]
    total = rows[-1]
    return [
        _stats(ask, total),
        section(
            words("worth_it.money", season=season),
            _in_and_out(ask, rows[:-1], total, season),
            answer_table(ask, answer, columns=_COLUMNS, options={"season": season}),
        ),
    ]


def _stats(ask: Ask, total: dict[str, Any]) -> Any:
    words = ask.words

    def shown(name: str, text: str) -> Any:
        return figure(text, total["why"] if total[name] is not None else None, name)

    hours, running = total["hours"], words("worth_it.running") if total["provisional"] else None
    return html.Div(
        [
            stat(words("worth_it.net"), shown("net", words.money(total["net"])), running),
            stat(
                words("worth_it.per_hour"),
                shown("net_per_hour", words.money(total["net_per_hour"])),
                words("worth_it.no_hours" if hours is None else "worth_it.before_time"),
            ),
            stat(words("worth_it.hours"), shown("hours", words.number(hours))),
            stat(words("worth_it.in"), shown("money_in", words.money(total["money_in"])), words("worth_it.in_says")),
            stat(
                words("worth_it.out"),
                shown("money_out", words.money(total["money_out"])),
                words("worth_it.out_says"),
            ),
        ],
        className="stats",
    )  # fmt: skip


def _in_and_out(
    ask: Ask, rows: list[dict[str, Any]], total: dict[str, Any], season: str
) -> Any:  # fmt: skip
    words = ask.words
    if not rows:
        return None
    data = pd.DataFrame(
        [{name: row[name] for name in ("worth", "money_in", "cost", "net")} for row in rows]
    ).astype(float)
    data["label"] = [words.word("answers", row["line"]) for row in rows]
    labels = {name: words(f"worth_it.bar_{name}") for name in ("worth", "money_in", "cost")}
    drawing = drawn.in_and_out(
        data, labels, ask.scheme, net=words("worth_it.net"), unit=words.currency
    )
    best = max(rows, key=lambda row: row["net"])
    net = figure(words.money(best["net"]), best["why"], "net")
    says = [
        words("worth_it.most", season=season, line=words.word("answers", best["line"])), " ", net,
        f". {words('worth_it.taken_off')}",
    ]  # fmt: skip
    return picture(ask, "season", drawing, says, height=150 + 34 * len(data))


# -- what lasts --------------------------------------------------------------------------


def _durables(ask: Ask, lasting: Answer) -> Any:
    words, frame = ask.words, lasting.frame
    if frame.empty:
        return section(words("worth_it.lasting"), html.P(words("worth_it.none_lasting")))
    known = frame[frame["share_back"].notna()].head(_DRAWN)
    table = answer_table(ask, lasting, columns=_LASTING, options={"durables": True})
    if known.empty:
        return section(words("worth_it.lasting"), table)
    data = pd.DataFrame(
        {"item": known["item"].to_numpy(), "share": known["share_back"].astype(float).to_numpy()}
    )
    drawing = drawn.paid_back(
        data, ask.scheme, full=words("worth_it.full"), unit=words("worth_it.share")
    )
    back = frame["paid_back_on"].notna()
    says = words("worth_it.back", n=int(back.sum()), all=len(frame))
    due = frame[frame["expected_on"].notna()].sort_values("expected_on")
    if len(due):
        next_one = due.iloc[0]
        says += " " + words(
            "worth_it.due", item=next_one["item"], day=words.day(next_one["expected_on"])
        )
    return section(
        words("worth_it.lasting"),
        html.P(words("worth_it.lasting_says"), className="quiet"),
        picture(ask, "lasting", drawing, says, height=120 + 30 * len(data)),
        table,
    )


# -- home against shop -------------------------------------------------------------------


def _home_and_shop(ask: Ask, prices: Answer, season: str) -> Any:
    words, frame = ask.words, prices.frame
    if frame.empty:
        return section(words("worth_it.prices"), sentences(ask, prices.totals["missing"]))
    frame = frame.assign(key=frame["line"] + "/" + frame["item"])
    keys = sorted(set(frame["key"]), key=lambda key: (key.partition("/")[2], key))
    asked = ask.query.get("item", "")
    chosen = asked if asked in keys else _telling(frame)
    several = frame.groupby("item")["line"].nunique()
    options = [
        (key, item if several[item] == 1 else f"{item} ({words.word('answers', line)})")
        for key in keys
        for line, _, item in (key.partition("/"),)
    ]
    of_season = ask.show(_NAME, prices=True, season=season)
    every = answer_table(
        ask, of_season, options={"prices": True, "season": season},
        columns=("item", "line", "per", "home_per_unit", "shop_per_unit", "saved", "break_even_jars"),
    )  # fmt: skip
    return section(
        words("worth_it.prices"),
        choices(choice("item", words("worth_it.item"), chosen, options)),
        _one_item(ask, prices, frame[frame["key"] == chosen].sort_values("season"), chosen),
        html.Details([html.Summary(words("worth_it.every_item", season=season)), every]),
    )


def _telling(frame: pd.DataFrame) -> str:
    """Return the thing with both prices in most seasons, in jars first: its picture says most."""
    both = frame[frame["home_per_unit"].notna() & frame["shop_per_unit"].notna()]
    if both.empty:
        return str(frame["key"].iloc[0])
    several = both.groupby("key").agg(
        jars=("jars", lambda jars: bool(jars.notna().any())),
        seasons=("season", "nunique"),
        saved=("saved", lambda saved: float(saved.astype(float).sum())),
    )
    return str(several.sort_values(["jars", "seasons", "saved"]).index[-1])


def _one_item(ask: Ask, prices: Answer, rows: pd.DataFrame, chosen: str) -> Any:
    words, last = ask.words, rows.iloc[-1]
    if last["per"] is None or rows[list(_PRICES)].isna().all(axis=None):
        return html.P(words("worth_it.no_price", item=last["item"]))
    data = pd.DataFrame({"season": rows["season"].to_numpy()})
    for name in _PRICES:
        data[name] = rows[name].astype(float).to_numpy()
    if data[_PRICES[0]].equals(data[_PRICES[1]]):  # no own time is reckoned: one line, not two
        data[_PRICES[1]] = float("nan")
    labels = {name: words(f"worth_it.{name}") for name in _PRICES}
    per = words.word("answers", last["per"])
    drawing = drawn.home_and_shop(
        data, labels, ask.scheme, unit=words("worth_it.per", currency=words.currency, per=per)
    )
    home = figure(words.money(last["home_per_unit"]), last["why"], "home_per_unit")
    says = [
        words("worth_it.cost_home", per=per, item=last["item"], season=last["season"]), " ", home, " ",
    ]  # fmt: skip
    if pd.notna(last["shop_per_unit"]):
        shop = figure(words.money(last["shop_per_unit"]), last["why"], "shop_per_unit")
        says += [words("worth_it.shop_asked"), " ", shop]
    else:
        says.append(words("worth_it.at_home"))
    line, _, item = chosen.partition("/")
    table = answer_table(
        ask, prices, columns=("season", *_PRICES, "saved"), options={"prices": True},
        keep=lambda row: row["item"] == item and row["line"] == line,
    )  # fmt: skip
    return picture(ask, "prices", drawing, [*says, "."], table, height=340)


PAGE = Page("worth_it", "/worth-it", draw, has_pictures=True)
