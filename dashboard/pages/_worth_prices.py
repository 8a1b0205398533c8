"""Home against shop over the seasons, one item at a time: folded on Worth it until it is asked for."""

from __future__ import annotations

from typing import Any

import pandas as pd

from dashboard.ask import Ask
from dashboard.drawings.lines import Line, lines
from dashboard.drawings.marks import scale
from dashboard.elements import html
from dashboard.parts import answer_table, choice, choices, figure, sentences
from dashboard.parts.drawings import drawing
from ledger.projections import Answer

__all__ = ["home_and_shop"]

_NAME = "worth-it"
_PRICES = ("home_per_unit", "home_before_labour_per_unit", "shop_per_unit")
_KINDS = {
    "home_per_unit": "s-leaf thick",
    "home_before_labour_per_unit": "s-quiet dash",
    "shop_per_unit": "s-straw",
}
_SEASONS = 40


def home_and_shop(ask: Ask, prices: Answer, season: str) -> Any:
    """Return the prices of the item chosen over the seasons, and of every item of one season."""
    words, frame = ask.words, prices.frame
    summary = html.Summary(words("worth_it.prices"))
    if frame.empty:
        return html.Details([summary, sentences(ask, prices.totals["missing"])])
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
    return html.Details(
        [
            summary,
            choices(choice("item", words("worth_it.item"), chosen, options)),
            _one_item(ask, prices, frame[frame["key"] == chosen].sort_values("season"), chosen),
            html.Details([html.Summary(words("worth_it.every_item", season=season)), every]),
        ],
        open=bool(asked),
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
    per = words.word("answers", last["per"])
    line, _, item = chosen.partition("/")
    table = answer_table(
        ask, prices, columns=("season", *_PRICES, "saved"), options={"prices": True},
        keep=lambda row: row["item"] == item and row["line"] == line,
    )  # fmt: skip
    made = _lines(ask, rows.tail(_SEASONS))
    said = words("worth_it.prices_say", item=item, per=per)
    top = _top(made)
    ticks = [(value, words.number(value)) for value in scale(top)]
    places = [(s, f"’{s[-2:]}") for s in rows.tail(_SEASONS)["season"]]
    unit = words("worth_it.per", currency=words.coin_sign(), per=per)

    def make(width: float) -> str:
        return lines(made, places, said, ticks=ticks, unit=unit, width=width, scheme=ask.scheme)

    return html.Div([html.P(_sentence(ask, last, per)), drawing(ask, "prices", make, said, table)])


def _lines(ask: Ask, rows: pd.DataFrame) -> list[Line]:
    """Return the price lines, ours last; without own time reckoned two of them are one."""
    values = {name: [_number(v) for v in rows[name]] for name in _PRICES}
    if values[_PRICES[0]] == values[_PRICES[1]]:
        del values[_PRICES[1]]
    order = [name for name in (_PRICES[1], _PRICES[2], _PRICES[0]) if name in values]
    return [
        Line(ask.words(f"worth_it.{name}"), values[name], _KINDS[name])
        for name in order
        if any(v is not None for v in values[name])
    ]


def _top(made: list[Line]) -> float:
    return max(v for one in made for v in one.values if v is not None)  # noqa: PD011


def _number(value: Any) -> float | None:
    return None if pd.isna(value) else float(value)


def _sentence(ask: Ask, last: pd.Series, per: str) -> list[Any]:
    words = ask.words
    home = figure(words.money(last["home_per_unit"]), last["why"], "home_per_unit")
    said = [
        words("worth_it.cost_home", per=per, item=last["item"], season=last["season"]), " ", home, " ",
    ]  # fmt: skip
    if pd.notna(last["shop_per_unit"]):
        shop = figure(words.money(last["shop_per_unit"]), last["why"], "shop_per_unit")
        return [*said, words("worth_it.shop_asked"), " ", shop, "."]
    return [*said, words("worth_it.at_home"), "."]
