"""Jar cost: home against shop, by batch and over the years; a batch opens to its arithmetic."""

from __future__ import annotations

from typing import Any

import pandas as pd
from dash import html

from dashboard.ask import Ask
from dashboard.figures.jar_cost import per_quart
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
    stat,
)
from ledger.projections import Answer
from ledger.replay import COMPONENTS

__all__ = ["PAGE", "draw"]

_DRAWN = 18
"""Bars in one picture: the newest batches."""


def draw(ask: Ask) -> Any:
    """Return what was put up: a choice of item, the picture, and every batch."""
    every = ask.show("jar-cost")
    if every.is_empty:
        return nothing_yet(ask, "jar_cost", "put_up")
    items = sorted(set(every.frame["item"]))
    chosen = ask.query.get("item") or _most_made(every)
    answer = ask.show("jar-cost", item=chosen) if chosen != "*" else every
    options = {} if chosen == "*" else {"item": chosen}
    words = ask.words
    columns = (
        "item", "on", "jars", "cost.all_in", "cost_per_jar", "cost_per_quart",
        "shop_price_per_quart", "saved",
    )  # fmt: skip
    return [
        choices(
            choice("item", words("jar_cost.item"), chosen, [("*", words("jar_cost.every")), *((i, i) for i in items)])
        ),
        _stats(ask, answer),
        _picture(ask, answer, chosen),
        section(
            words("jar_cost.batches"),
            answer_table(ask, answer, columns=columns, options=options, newest_first=True),
        ),
        notes_of(ask, answer),
    ]  # fmt: skip


def _most_made(answer: Answer) -> str:
    """Return the item that was put up in jars most often: a picture of one thing says something."""
    in_jars = answer.frame[answer.frame["jars"].notna()]
    counts = (in_jars if len(in_jars) else answer.frame)["item"].value_counts()
    return str(counts.index[0])


def _stats(ask: Ask, answer: Answer) -> Any:
    words, totals = ask.words, answer.totals
    saved = answer.frame["saved"].notna().sum()
    below = words("jar_cost.saved_of", n=int(saved), all=len(answer.frame))
    return html.Div(
        [
            stat(words("jar_cost.jars"), words.number(totals["jars"]), words("jar_cost.all_years")),
            stat(words("jar_cost.all_in"), words.money(totals["cost"])),
            stat(words("jar_cost.pocket"), words.money(totals["out_of_pocket"])),
            stat(words("jar_cost.saved"), words.money(totals["saved"]), below),
        ],
        className="stats",
    )


def _picture(ask: Ask, answer: Answer, chosen: str) -> Any:
    words = ask.words
    frame = answer.frame[answer.frame["cost_per_quart"].notna()].tail(_DRAWN)
    if chosen == "*" or frame.empty:
        return None
    per_litre = words.measures == "metric"
    scale = 1 / 0.946352946 if per_litre else 1.0
    quarts = (frame["cost.all_in"].astype(float) / frame["cost_per_quart"].astype(float)).where(
        frame["cost_per_quart"].astype(float) > 0
    )
    data = pd.DataFrame({"label": _apart([words.day(day) for day in frame["on"]])})
    for name in COMPONENTS:
        data[name] = (frame[f"cost.{name}"].astype(float) / quarts * scale).to_numpy()
    data["shop_price_per_quart"] = (frame["shop_price_per_quart"].astype(float) * scale).to_numpy()
    labels = {name: words(f"components.{name}") for name in COMPONENTS}
    unit = words(
        "jar_cost.per_litre" if per_litre else "jar_cost.per_quart", currency=words.currency
    )
    drawing = per_quart(data, labels, ask.scheme, shop=words("jar_cost.shop"), unit=unit)
    says = _sentence(ask, frame, chosen)
    if not drawing.data:  # no price is known of anything that went in, nor a shop's
        return section(chosen, html.P(says))
    return section(chosen, picture(ask, "jar-cost", drawing, says, height=380))


def _apart(days: list[str]) -> list[str]:
    """Return days with those of a second batch of a day told apart: each batch has its own bar."""
    return [
        day if day not in days[:i] else f"{day} ({days[:i].count(day) + 1})"
        for i, day in enumerate(days)
    ]


def _sentence(ask: Ask, frame: pd.DataFrame, chosen: str) -> Any:
    words, last = ask.words, frame.iloc[-1]
    bound = "≥ " if last["at_least"] else ""
    home = figure(f"{bound}{words.money(last['cost_per_quart'])}", last["why"], "cost_per_quart")
    parts = [words("jar_cost.last", item=chosen, day=words.day(last["on"])), " ", home]
    if pd.notna(last["shop_price_per_quart"]):
        shop = figure(
            words.money(last["shop_price_per_quart"]), last["why"], "shop_price_per_quart"
        )
        parts += [" ", words("jar_cost.against"), " ", shop]
    return [*parts, "."]


PAGE = Page("jar_cost", "/jar-cost", draw, has_pictures=True)
