"""Stocking up: what to lay in, weeks of each staple in the house, and folded: a plan, a bad year."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    answered,
    choices,
    figure,
    notes_of,
    nothing_yet,
    plain_table,
    section,
    sentence,
)
from dashboard.parts.choices import written
from dashboard.parts.folds import all_link
from dashboard.parts.keeping import named, spoken
from ledger.errors import InputError
from ledger.projections import Answer

__all__ = ["PAGE", "draw", "says"]

_NAME = "stocking-up"
_ASKED = {"budget": "20", "trips": "4", "weeks": "4", "price_rise": "10", "shortage": "6"}
"""What can be asked, each with an example."""
_ROWS = 12
"""Staples, and things to lay in, at once: those that last shortest."""
_NEAR, _FULL = 0.5, 1.0
"""Shares of the weeks wanted below which a bar is marked."""

Row = Mapping[str, Any]


def draw(ask: Ask) -> Any:
    """Return what to lay in, the weeks of each staple, and folded: what if, and every staple."""
    if ask.show(_NAME).is_empty:
        return [nothing_yet(ask, "stocking_up", "bought"), notes_of(ask, ask.show(_NAME))]
    said = {name: ask.query[name].strip() for name in _ASKED if ask.query.get(name, "").strip()}
    answer, options, wrong = _answered(ask, said)
    words = ask.words
    staples = answer_table(
        ask, answer, columns=_columns(answer), options=options,
        cells={f"{name}.text": _amount(ask, name) for name in ("left", "per_week", "pack")},
    )  # fmt: skip
    return [
        answered(_sentence(ask, answer), under=_under(answer)),
        html.Div(
            [html.Div([_plan(ask, answer)]), html.Div([_weeks(ask, answer)])], className="two"
        ),
        html.Div(
            [
                html.Details(
                    [
                        html.Summary(words("stocking_up.asked")),
                        html.P(words("stocking_up.asked_says"), className="under"),
                        _boxes(ask, said, wrong),
                        _bad_year(ask, answer, options),
                    ],
                    open=bool(said),
                ),
                html.Details(
                    [html.Summary(words("stocking_up.staples")), staples],
                    open=ask.wants_all(_NAME),
                ),
            ],
            className="folds",
        ),
        notes_of(ask, answer),
    ]


def says(ask: Ask) -> Any:
    """Return the page's answer in a line."""
    answer = ask.show(_NAME)
    return None if answer.is_empty else _sentence(ask, answer)


def _wanted(answer: Answer) -> list[Row]:
    """Return the records of what is to be laid in, what costs most first."""
    rows = [row for row in answer.records() if (row["packs_wanted"] or 0) > 0]
    return sorted(rows, key=lambda row: -(row["cost"] or 0.0))


def _sentence(ask: Ask, answer: Answer) -> list[Any]:
    words, totals = ask.words, answer.totals
    money = html.Span(words.money(totals["cost"]), className="n")
    if "trips" in totals:
        return sentence(
            ask, "stocking_up.answer_plan", {"n": str(len(totals["trips"])), "money": money}
        )
    rows = _wanted(answer)
    if not rows:
        return [words("stocking_up.enough")]
    key = "stocking_up.answer" if len(rows) > 1 else "stocking_up.answer_one"
    return sentence(ask, key, {"n": words.number(len(rows)), "money": money})


def _under(answer: Answer) -> Any:
    del answer
    return None


def _answered(ask: Ask, said: dict[str, str]) -> tuple[Answer, dict[str, str], dict[str, str]]:
    """Return the answer to all that could be read, its options, and what could not, by its name."""
    options = {name: _plain(ask, text) for name, text in said.items()}
    wrong: dict[str, str] = {}
    while True:
        try:
            return ask.show(_NAME, **options), options, wrong
        except InputError as error:
            name = error.field.replace("-", "_")
            if name not in options:
                raise
            del options[name]
            wrong[name] = ask.words.refusal(error)


def _plain(ask: Ask, text: str) -> str:
    """Return a number with a point where the language writes a comma."""
    is_comma = ask.words.locale.number_symbols["latn"]["decimal"] == ","
    return text.replace(",", ".") if is_comma and text.count(",") == 1 else text


def _boxes(ask: Ask, said: dict[str, str], wrong: dict[str, str]) -> Any:
    return choices(
        *(
            written(
                name, ask.words(f"stocking_up.{name}"), said.get(name, ""), example,
                error=wrong.get(name), keypad=True,
            )
            for name, example in _ASKED.items()
        )
    )  # fmt: skip


def _weeks(ask: Ask, answer: Answer) -> Any:
    """Return how long each staple lasts, what runs out first at the top."""
    words = ask.words
    known = sorted(
        (r for r in answer.records() if r["weeks"] is not None), key=lambda r: r["weeks"]
    )
    if not known:
        return section(
            words("stocking_up.picture"), html.P(words("stocking_up.no_weeks"), className="under")
        )
    limit = None if ask.wants_all("weeks") else _ROWS
    full = max(row["target_weeks"] or 0.0 for row in known) or 1.0
    return section(
        words("stocking_up.picture"),
        html.Ul([_bar(ask, row, full) for row in known[:limit]], className="rows"),
        all_link(ask, "weeks", len(known), len(known[:limit])),
        note=words("stocking_up.full_bar", n=words.number(full, 2)),
    )  # fmt: skip


def _bar(ask: Ask, row: Row, full: float) -> Any:
    share = row["weeks"] / (row["target_weeks"] or full)
    kind = "soon" if share < _NEAR else "near" if share < _FULL else ""
    width = f"{100 * min(1.0, max(0.0, row['weeks'] / full)):.0f}%"
    lasts = figure(ask.words.weeks(row["weeks"]), row["why"], "weeks")
    return html.Li(
        [
            html.B(_name(row["item"])),
            html.Span(html.Span(style={"width": width}), className=f"track {kind}".strip()),
            html.Span(lasts, className="quiet"),
        ],
        className="left2",
    )


def _name(item: str) -> str:
    return named(spoken(item))


def _plan(ask: Ask, answer: Answer) -> Any:
    """Return the trips one by one, what is still wanted after them, and what would spoil."""
    words, trips = ask.words, answer.totals.get("trips")
    short = answer.totals.get("packs_short") or {}
    spoils = answer.frame[answer.frame["packs_kept_out"].astype(float) > 0]
    kept_out = dict(zip(spoils["item"], spoils["packs_kept_out"].astype(int), strict=True))
    told = [
        html.P(words(f"stocking_up.{name}", items=_packs(ask, packs)))
        for name, packs in (("still_wanted", short), ("would_spoil", kept_out))
        if packs
    ]
    if trips is None:
        return section(words("stocking_up.to_lay_in"), *_lay_in(ask, answer), *told)
    heads = [words(f"stocking_up.{name}") for name in ("trip", "packs", "money")]
    rows = [
        [words("stocking_up.trip_n", n=i), _packs(ask, trip["packs"]), words.money(trip["cost"])]
        for i, trip in enumerate(trips, 1)
    ]
    table = plain_table(
        heads, rows, numeric=(False, False, True), caption=words("stocking_up.plan")
    )
    says = html.P(words("stocking_up.plan_says"), className="quiet")
    return section(words("stocking_up.plan"), says, table, *told)


def _lay_in(ask: Ask, answer: Answer) -> list[Any]:
    """Return the packs to every target by shop, where there is no plan of trips."""
    words, rows = ask.words, _wanted(answer)
    if not rows:
        return [html.P(words("stocking_up.enough"), className="under")]
    limit = None if ask.wants_all("lay-in") else _ROWS
    items = [
        html.Li(
            [
                html.B(_name(row["item"])),
                html.Span(
                    _times(int(row["packs_wanted"]), words.said(row["pack"]["text"])),
                    className="quiet",
                ),
                html.Span(
                    figure(words.money(row["cost"]), row["why"], "cost", what=row["item"]),
                    className="p",
                ),
            ],
            className="buy",
        )
        for row in rows[:limit]
    ]
    shopping = html.P(words("stocking_up.try_budget"), className="under small")
    return [
        html.Ul(items, className="rows"),
        all_link(ask, "lay-in", len(rows), len(items)),
        shopping,
    ]


def _packs(ask: Ask, packs: Mapping[str, int]) -> str:
    several = ", ".join(_times(n, spoken(item)) for item, n in sorted(packs.items()))
    return several or ask.words("word.none")


def _times(n: int, what: str) -> str:
    return what if n == 1 else f"{n} × {what}"


def _columns(answer: Answer) -> tuple[str, ...]:
    """Return the columns of the staples, with those of a plan where there is one."""
    plan = ("packs_planned", "packs_short") if "trips" in answer.totals else ()
    return (
        "item", "left.text", "per_week.text", "weeks", "target_weeks", "pack.text", "price",
        "packs_wanted", *plan, "cost",
    )  # fmt: skip


def _amount(ask: Ask, name: str) -> Callable[[Mapping[str, Any]], Any]:
    """Return how an amount in words is drawn: it opens the arithmetic of its whole units."""

    def cell(row: Mapping[str, Any]) -> Any:
        text = row[f"{name}.text"]
        if not isinstance(text, str):
            return "–"
        return figure(ask.words.said(text), row["why"], f"{name}.whole")

    return cell


def _bad_year(ask: Ask, answer: Answer, options: Mapping[str, str]) -> Any:
    """Return what a price rise costs and a shortage leaves bare, by staple, where it was asked."""
    has_plan = "trips" in answer.totals
    words, totals = ask.words, answer.totals
    told = []
    if "rise_cost" in totals:
        after = totals.get("rise_cost_after_plan")
        note = words("stocking_up.a_year")
        if after is not None:
            note = words("stocking_up.after", money=words.money(after))
        told.append(f"{words('stocking_up.rise')} {words.money(totals['rise_cost'])}, {note}.")
    if "uncovered" in totals:
        bare = ", ".join(totals["uncovered"]) or words("stocking_up.nothing_bare")
        told.append(f"{words('stocking_up.bare')}: {bare}.")
    asked = [
        column
        for name, total in (("rise_cost", "rise_cost"), ("uncovered_weeks", "uncovered"))
        if total in answer.totals
        for column in (name, *((f"{name}_after_plan",) if has_plan else ()))
    ]
    if not asked:
        return None
    table = answer_table(
        ask, answer, columns=("item", "weeks", *asked), options=options,
        keep=lambda row: any(row[name] and row[name] > 0 for name in asked),
    )  # fmt: skip
    return html.Div(
        [html.H3(words("stocking_up.bad_year")), html.Ul([html.Li(one) for one in told]), table]
    )


PAGE = Page("stocking_up", "/stocking-up", draw)
