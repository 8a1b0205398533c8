"""Shelf: what is there, how old, what to eat first, how long it lasts, empties and lids."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pandas as pd
from dash import html

from dashboard.ask import Ask
from dashboard.figures.shelf import by_age, over_time
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    choice,
    choices,
    notes_of,
    nothing_yet,
    picture,
    plain_table,
    section,
    stat,
)
from dashboard.parts.danger import danger_card, marked
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_LOTS = ("item", "left.text", "on", "kept", "jars_left", "use_by", "days_left", "cost_left")
_ITEMS = (
    "item",
    "left.text",
    "used_text",
    "weeks_text",
    "next_supply_on",
    "reaches_next_supply",
    "held_text",
    "past_best_text",
)
_AGES = (182, 365)
"""Days that part young jars from those of a year, and those from older ones."""
_DRAWN_ITEMS = 14


def draw(ask: Ask) -> Any:
    """Return what is left, lot by lot and item by item, with one item's stock over time."""
    lots = ask.show("shelf")
    if lots.is_empty:
        return nothing_yet(ask, "shelf", "harvested")
    words, items = ask.words, ask.show("shelf", items=True)
    return [
        danger_card(ask, lots.records()),
        _stats(ask, lots),
        html.Div([_jars(ask, lots), _stock(ask, items)], className="columns"),
        section(
            words("shelf.eat_first"),
            answer_table(ask, lots, columns=_LOTS, cells={"item": lambda row: marked(ask, row)}),
        ),
        section(
            words("shelf.items"),
            html.P(words("shelf.items_says"), className="quiet"),
            answer_table(
                ask,
                items,
                columns=_ITEMS,
                cells={"item": lambda row: marked(ask, row)},
                options={"items": True},
            ),
        ),
        _empties(ask, lots),
        notes_of(ask, lots, items),
    ]


def _stats(ask: Ask, lots: Answer) -> Any:
    words, frame = ask.words, lots.frame
    days = frame["days_left"].dropna().astype(float)
    jars = frame["jars_left"].dropna().astype(float).sum()
    return html.Div(
        [
            stat(words("shelf.jars_full"), words.number(jars, 4)),
            stat(words("shelf.lots"), words.number(len(frame), 5)),
            stat(words("shelf.past"), words.number((days < 0).sum(), 5), words("shelf.past_says")),
            stat(words("shelf.cost_left"), words.money(lots.totals["cost_left"])),
        ],
        className="stats",
    )


def _jars(ask: Ask, lots: Answer) -> Any:
    """Return jars by item and age."""
    words = ask.words
    frame = lots.frame[lots.frame["jars_left"].notna()]
    if frame.empty:
        return None
    ages = [words("shelf.young"), words("shelf.year"), words("shelf.old")]
    data = pd.DataFrame({"item": frame["item"], "jars": frame["jars_left"].astype(float)})
    age = [(ask.day - dt.date.fromisoformat(day)).days for day in frame["on"]]
    data["age"] = [ages[sum(days > limit for limit in _AGES)] for days in age]
    largest = data.groupby("item")["jars"].sum().nlargest(_DRAWN_ITEMS).index
    data = data[data["item"].isin(largest)]
    drawing = by_age(data, ages, ask.scheme, unit=words("shelf.unit_jars"))
    old = data[data["age"] == ages[2]]["jars"].sum()
    says = words("shelf.age_says", n=words.number(data["jars"].sum(), 4), old=words.number(old, 4))
    table = data.groupby(["item", "age"])["jars"].sum().reset_index()
    rows = [[row.item, row.age, words.number(row.jars)] for row in table.itertuples()]
    heads = [words("shelf.item"), words("shelf.age"), words("shelf.unit_jars")]
    numbers = plain_table(heads, rows, numeric=[False, False, True], caption=words("shelf.by_age"))
    return section(
        words("shelf.by_age"), picture(ask, "jars-by-age", drawing, says, numbers, height=420)
    )


def _stock(ask: Ask, items: Answer) -> Any:
    """Return one item's stock over time, with its range ahead."""
    words, records = ask.words, items.records()
    if not records:
        return None
    names = [record["item"] for record in records]
    jarred = next((r["item"] for r in records if r["jars_left"]), names[0])
    chosen = ask.query.get("item") if ask.query.get("item") in names else jarred
    record = next(r for r in records if r["item"] == chosen)
    answer = ask.show("shelf", over_time=chosen)
    frame = answer.frame
    scale, unit = _unit(ask, str(answer.totals.get("unit") or ""))
    unit = words.word("answers", unit)
    data = pd.DataFrame({"day": frame["day"]})
    for name in ("left", "low", "likely", "high"):
        data[name] = pd.to_numeric(frame[name]) * scale
    labels = {name: words(f"shelf.{name}") for name in ("range", "likely", "next")}
    labels["past"] = words("shelf.was")
    drawing = over_time(data, labels, ask.scheme, unit=unit, next_on=record["next_supply_on"])
    table = answer_table(ask, answer, options={"over_time": chosen})
    return section(
        words("shelf.over_time"),
        choices(choice("item", words("shelf.item"), chosen, [(n, n) for n in sorted(names)])),
        picture(ask, "stock", drawing, _stock_says(ask, record), table, height=340),
    )


def _stock_says(ask: Ask, record: dict[str, Any]) -> str:
    words = ask.words
    says = words("shelf.stock_left", item=record["item"], left=words.said(record["left"]["text"]))
    if record["runs_out_on"]["likely"]:
        out = record["runs_out_on"]
        says += " " + words(
            "shelf.stock_out", early=words.day(out["early"]), late=words.day(out["late"])
        )
    if record["ranges_said"]:
        says += " " + words(
            "shelf.stock_held", held=record["ranges_held"], said=record["ranges_said"]
        )
    if record["next_supply_on"]:
        says += " " + words("shelf.stock_next", day=words.day(record["next_supply_on"]))
    if record["how_sure"]:
        sure = words.said(record["how_sure"])
        says += f" {sure[:1].upper()}{sure[1:]}."
    return says


def _unit(ask: Ask, unit: str) -> tuple[float, str]:
    """Return a scale and a name for an amount's unit in the household's measures."""
    is_metric = ask.words.measures == "metric"
    if unit == "ml":
        return (0.001, "l") if is_metric else (1 / 946.352946, "qt")
    if unit == "g":
        return (0.001, "kg") if is_metric else (1 / 453.59237, "lb")
    return 1.0, unit


def _empties(ask: Ask, lots: Answer) -> Any:
    """Return jars out and empty, and lids."""
    words, jars = ask.words, lots.totals.get("jars") or {}
    if not jars:
        return None
    counts = list(dict.fromkeys(name for row in jars.values() for name in row))
    heads = [
        words("shelf.jar"),
        *(words.word("answers", name.replace("_", " ")) for name in counts),
    ]
    rows = [
        [words.word("answers", jar), *(words.number(row.get(name), 6) for name in counts)]
        for jar, row in jars.items()
    ]
    numeric = [False, *(True for _ in counts)]
    return section(
        words("shelf.empties"),
        plain_table(heads, rows, numeric=numeric, caption=words("shelf.empties")),
    )


PAGE = Page("shelf", "/shelf", draw, has_pictures=True)
