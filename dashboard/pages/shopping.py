"""Shopping: a list that ticks, kept for the household, and the way from the basket to the bill."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.errands import Errands
from dashboard.pages._page import Page
from dashboard.parts import answered, figure, icon, notes_of, nothing_yet, section
from dashboard.parts.keeping import named, spoken
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_NAME = "stocking-up"
_BARS, _FULL_WEEKS = 8, 4
"""Staples whose weeks are drawn, those that last shortest; weeks at which a bar is full."""
_SOON, _NEAR, _DAYS = 1.5, 2.5, 14
"""Weeks below which a bar is damson, and straw; days below which they are said as such."""


def draw(ask: Ask) -> Any:
    """Return what to buy by shop, each to tick, and how long what is there lasts."""
    answer = ask.show(_NAME)
    if answer.is_empty:
        return [nothing_yet(ask, "shopping", "bought"), notes_of(ask, answer)]
    words = ask.words
    rows = [row for row in answer.records() if row["packs_wanted"]]
    ticked = [one for one in Errands.of(ask.data).ticked() if one in {r["item"] for r in rows}]
    return [
        _answer(ask, answer, rows),
        html.Div(
            [
                html.Button(
                    [icon("share", small=True), words("shopping.send")], type="button",
                    className="button quiet-button", disable_n_clicks=True,
                    **{"data-send": _as_text(ask, rows), "data-sent": words("shopping.copied")},
                ),
                html.Button(
                    [icon("print", small=True), words("shopping.print")], type="button",
                    className="button quiet-button", disable_n_clicks=True, **{"data-print": "1"},
                ),
            ],
            className="tools",
        )
        if rows
        else None,
        html.Div([_list(ask, rows, ticked), _in_house(ask, answer)], className="two"),
        notes_of(ask, answer),
    ]  # fmt: skip


def _answer(ask: Ask, answer: Answer, rows: list[dict[str, Any]]) -> Component:
    words = ask.words
    if not rows:
        return answered(words("shopping.enough"))
    key = "shopping.one" if len(rows) == 1 else "shopping.many"
    cost = html.Span(words.money(answer.totals["cost"]), className="shop")
    return answered(words(key, n=len(rows)), " ", cost)


def _as_text(ask: Ask, rows: list[dict[str, Any]]) -> str:
    lines = []
    for shop, several in _by_shop(rows).items():
        lines.append(shop or ask.words("shopping.anywhere"))
        lines += [f"- {spoken(row['item'])}, {_packs(ask, row)}" for row in several]
    return "\n".join(lines)


def _by_shop(rows: list[dict[str, Any]]) -> dict[str, list[dict[str, Any]]]:
    shops: dict[str, list[dict[str, Any]]] = {}
    for row in sorted(rows, key=lambda one: -(one["cost"] or 0)):
        shops.setdefault(row["shop"] or "", []).append(row)
    return shops


def _packs(ask: Ask, row: Mapping[str, Any]) -> str:
    n, pack = int(row["packs_wanted"]), ask.words.said(str(row["pack"]["text"]))
    return pack if n == 1 else f"{n} × {pack}"


def _list(ask: Ask, rows: list[dict[str, Any]], ticked: list[str]) -> Component | None:
    if not rows:
        return None
    words = ask.words
    shops = [
        section(
            shop or words("shopping.anywhere"),
            html.Ul([_want(ask, row, is_in=row["item"] in ticked) for row in several], className="rows wants"),
            note=words.money(sum(row["cost"] or 0 for row in several)),
        )
        for shop, several in _by_shop(rows).items()
    ]  # fmt: skip
    basket = [row for row in rows if row["item"] in ticked]
    return html.Div([*shops, _to_bill(ask, basket) if basket else None], className="list")


def _want(ask: Ask, row: dict[str, Any], *, is_in: bool) -> Component:
    """Return one thing to buy; all of its line ticks."""
    words = ask.words
    button = html.Button(
        [
            html.Span(icon("check") if is_in else None, className="tick on" if is_in else "tick"),
            html.Span(named(spoken(row["item"])), className="what"),
            html.Span(_packs(ask, row), className="quiet"),
        ],
        id={"tick": row["item"]}, type="button", role="checkbox", n_clicks=0,
        className="want got" if is_in else "want", **{"aria-checked": "true" if is_in else "false"},
    )  # fmt: skip
    cost = figure(words.money(row["cost"]), row["why"], "cost", what=row["item"])
    return html.Li([button, html.Span(cost, className="n")])


def _to_bill(ask: Ask, basket: list[dict[str, Any]]) -> Component:
    """Return the way to the bill, filled with what is in the basket."""
    words = ask.words
    money = words.money(sum(row["cost"] or 0 for row in basket))
    key = "shopping.write_one" if len(basket) == 1 else "shopping.write_many"
    link = dcc.Link(
        [icon("check", small=True), words(key, n=len(basket), money=money)],
        href="/write?kind=bought&basket=1", className="button wide",
    )  # fmt: skip
    return html.Div(link, className="stick")


def _in_house(ask: Ask, answer: Answer) -> Component | None:
    """Return how many weeks of each staple are there, those that last shortest first."""
    words = ask.words
    rows = sorted(
        (row for row in answer.records() if row["weeks"] is not None), key=lambda row: row["weeks"]
    )[:_BARS]
    if not rows:
        return None
    lines = []
    for row in rows:
        kind = "soon" if row["weeks"] < _SOON else "near" if row["weeks"] < _NEAR else ""
        width = max(4, min(100, round(100 * row["weeks"] / _FULL_WEEKS)))
        bar = html.Span(html.I(style={"width": f"{width}%"}), className=f"track {kind}".strip())
        said = figure(_time(ask, row["weeks"]), row["why"], "weeks")
        name = html.Span(named(spoken(row["item"])), className="name")
        lines.append(html.Li([name, bar, html.Span(said, className="left")], className="days"))
    more = dcc.Link(
        [words("shopping.what_if"), icon("next", small=True)], href="/stocking-up", className="tap"
    )
    return section(
        words("shopping.in_house"), html.Ul(lines, className="rows"), more,
        note=words("shopping.full_bar", n=_FULL_WEEKS),
    )  # fmt: skip


def _time(ask: Ask, weeks: float) -> str:
    days = round(weeks * 7)
    if days < _DAYS:
        return ask.words("today.n_day" if days == 1 else "today.n_days", n=days)
    return ask.words("today.n_weeks", n=round(weeks))


PAGE = Page("shopping", "/shopping", draw)
