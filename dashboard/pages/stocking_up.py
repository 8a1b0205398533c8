"""Stocking up: weeks of each staple in the house, a plan of extra packs, and what a bad year would mean."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pandas as pd
from dash import html

from dashboard.ask import Ask
from dashboard.figures.stocking_up import weeks as weeks_drawn
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    choices,
    figure,
    notes_of,
    nothing_yet,
    picture,
    plain_table,
    section,
    stat,
)
from dashboard.parts.choices import written
from ledger.errors import InputError
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_NAME = "stocking-up"
_ASKED = {"budget": "20", "trips": "4", "weeks": "4", "price_rise": "10", "shortage": "6"}
"""What can be asked, each with an example."""
_DRAWN = 16
"""Staples in the picture: those that last shortest."""


def draw(ask: Ask) -> Any:
    """Return what can be asked, the weeks of each staple, the plan, and every staple."""
    if ask.show(_NAME).is_empty:
        return [nothing_yet(ask, "stocking_up", "bought"), notes_of(ask, ask.show(_NAME))]
    said = {name: ask.query[name].strip() for name in _ASKED if ask.query.get(name, "").strip()}
    answer, options, wrong = _answered(ask, said)
    words = ask.words
    return [
        section(
            words("stocking_up.asked"),
            html.P(words("stocking_up.asked_says"), className="quiet"),
            _boxes(ask, said, wrong),
        ),
        _stats(ask, answer),
        _weeks(ask, answer),
        _plan(ask, answer),
        section(
            words("stocking_up.staples"),
            answer_table(
                ask,
                answer,
                columns=_columns(answer),
                options=options,
                cells={f"{name}.text": _amount(ask, name) for name in ("left", "per_week", "pack")},
            ),
        ),
        _bad_year(ask, answer, options),
        notes_of(ask, answer),
    ]


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


def _stats(ask: Ask, answer: Answer) -> Any:
    words, totals, frame = ask.words, answer.totals, answer.frame
    known = frame["weeks"].notna() & frame["target_weeks"].notna()
    below = frame[known & (frame["weeks"].astype(float) < frame["target_weeks"].astype(float))]
    has_plan = "trips" in totals
    out = [
        stat(words("stocking_up.count"), words.number(len(frame))),
        stat(words("stocking_up.below"), words.number(len(below)), words("stocking_up.of", n=int(known.sum()))),
        stat(
            words("stocking_up.cost_plan" if has_plan else "stocking_up.cost"),
            words.money(totals["cost"]),
            words("stocking_up.over", n=len(totals["trips"])) if has_plan else None,
        ),
    ]  # fmt: skip
    if "rise_cost" in totals:
        after = totals.get("rise_cost_after_plan")
        note = words("stocking_up.a_year")
        if after is not None:
            note = words("stocking_up.after", money=words.money(after))
        out.append(stat(words("stocking_up.rise"), words.money(totals["rise_cost"]), note))
    if "uncovered" in totals:
        bare = totals["uncovered"]
        note = ", ".join(bare) or words("stocking_up.nothing_bare")
        out.append(stat(words("stocking_up.bare"), words.number(len(bare)), note))
    return html.Div(out, className="stats")


def _weeks(ask: Ask, answer: Answer) -> Any:
    words, frame = ask.words, answer.frame
    known = frame[frame["weeks"].notna()].copy()
    if known.empty:
        return None
    known["weeks"] = known["weeks"].astype(float)
    known = known.sort_values("weeks", kind="stable").head(_DRAWN)
    data = pd.DataFrame(
        {
            "item": known["item"].to_numpy(),
            "weeks": known["weeks"].to_numpy(),
            "added": _added(known),
            "target": known["target_weeks"].astype(float).to_numpy(),
        }
    )
    names = {n: words(f"stocking_up.{n}") for n in ("here", "planned", "wanted")}
    drawing = weeks_drawn(data, ask.scheme, unit=words("stocking_up.axis"), **names)
    first = known.iloc[0]
    lasts = figure(words.weeks(first["weeks"]), first["why"], "weeks")
    says = [words("stocking_up.first", item=first["item"]), " ", lasts, "."]
    rest = len(frame[frame["weeks"].notna()]) - len(known)
    if rest > 0:
        says += [" ", words("stocking_up.rest", n=rest)]
    shown = set(known["item"])
    table = answer_table(
        ask, answer, columns=("item", "weeks", "target_weeks"), keep=lambda row: row["item"] in shown,
    )  # fmt: skip
    return section(
        words("stocking_up.picture"),
        picture(ask, "weeks", drawing, says, table, height=130 + 26 * len(data)),
    )


def _added(frame: pd.DataFrame) -> Any:
    """Return the weeks that the packs planned last at the use of each row."""
    planned = frame["packs_planned"].astype(float).fillna(0.0)
    per_week = frame["per_week.whole"].astype(float)
    added = planned * frame["pack.whole"].astype(float).fillna(0.0) / per_week
    return added.where(per_week > 0, 0.0).to_numpy()


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
    """Return the packs to every target, where there is no plan of trips."""
    rows = answer.frame[answer.frame["packs_wanted"].astype(float) > 0]
    if rows.empty:
        return [html.P(ask.words("stocking_up.enough"))]
    wanted = zip(
        rows["item"], rows["packs_wanted"], rows["pack.text"], rows["cost"], rows["why"], strict=True
    )  # fmt: skip
    lines = [
        html.Li(
            [
                f"{int(n)} × {item}, {ask.words.said(pack)}: ",
                figure(ask.words.money(cost), why, "cost"),
            ]
        )
        for item, n, pack, cost, why in wanted
    ]
    return [html.Ul(lines), html.P(ask.words("stocking_up.try_budget"), className="quiet")]


def _packs(ask: Ask, packs: Mapping[str, int]) -> str:
    return ", ".join(f"{n} × {item}" for item, n in sorted(packs.items())) or ask.words("word.none")


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
    after = "trips" in answer.totals
    asked = [
        column
        for name, total in (("rise_cost", "rise_cost"), ("uncovered_weeks", "uncovered"))
        if total in answer.totals
        for column in (name, *((f"{name}_after_plan",) if after else ()))
    ]
    if not asked:
        return None
    table = answer_table(
        ask, answer, columns=("item", "weeks", *asked), options=options,
        keep=lambda row: any(row[name] and row[name] > 0 for name in asked),
    )  # fmt: skip
    return section(ask.words("stocking_up.bad_year"), table)


PAGE = Page("stocking_up", "/stocking-up", draw, has_pictures=True)
