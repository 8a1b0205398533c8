"""Look closer: stock over the years, what any batch cost, a crop week by week; drawings to explore."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pandas as pd

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.figures import closer
from dashboard.pages._page import Page
from dashboard.parts import answer_table, choice, choices, nothing_yet, picture, section
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_LITRES_A_QUART = 0.946352946
_UNITS = {
    ("g", False): (453.59237, "lb"), ("g", True): (1000.0, "kg"),
    ("ml", False): (946.352946, "qt"), ("ml", True): (1000.0, "l"),
}  # fmt: skip
"""What a drawing is read in: grams or millilitres of one, and its sign (exact, NIST SP 811, Appendix B)."""
_SEASONS = 8
"""Seasons of a crop that are drawn over one another."""


def draw(ask: Ask) -> Any:
    """Return the three drawings, each with its choice and its table."""
    if ask.is_empty:
        return nothing_yet(ask, "closer", "harvested")
    return [
        html.P(ask.words("closer.how"), className="under"),
        _stock(ask),
        _batches(ask),
        _weeks(ask),
    ]


def _stock(ask: Ask) -> Any:
    words = ask.words
    items = sorted(
        {r["name"] for r in ask.show("mentions").rows() if r["sort"] == "item" and r["entries"]}
    )
    if not items:
        return section(words("closer.stock"), nothing_yet(ask, "closer", "harvested"))
    chosen = ask.query.get("item") or ""
    chosen = chosen if chosen in items else _first(ask, items)
    answer = ask.show("month-ends", item=chosen)
    pick = choices(choice("item", words("closer.item"), chosen, [(one, one) for one in items]))
    if answer.is_empty:
        return section(words("closer.stock"), pick, html.P(words("closer.never", item=chosen)))
    frame = answer.frame
    unit = frame["unit"].iloc[-1]
    scale, named = _UNITS.get((unit, words.measures == "metric"), (1.0, words.unit(unit)))
    frame = frame[frame["unit"] == unit]
    frame = frame.assign(
        **{name: frame[name].astype(float) / scale for name in ("left", "least", "most")}
    )
    figure = closer.stock(
        frame, ask.scheme, unit=named, least=words("closer.least"),
        most=words("closer.most"), there=words("closer.there"),
    )  # fmt: skip
    last = answer.rows()[-1]
    says = words(
        "closer.stock_says",
        item=chosen,
        amount=words.said(last["in_words"]),
        day=words.day(last["on"]),
    )
    if closer.is_cut(frame["on"]):
        says = f"{says} {words('closer.newest_years')}"
    table = answer_table(ask, answer, options={"item": chosen}, newest_first=True)
    return section(words("closer.stock"), pick, picture(ask, "stock", figure, says, table))


def _first(ask: Ask, items: list[str]) -> str:
    """Return what was put up most often, else what there is, else any item."""
    made = Counter(ask.show("jar-cost").cells["item"])
    there = [r["item"] for r in ask.show("shelf", items=True).rows()]
    return next(
        (one for one in (*(name for name, _ in made.most_common(1)), *there) if one in items),
        items[0],
    )


def _batches(ask: Ask) -> Any:
    words = ask.words
    every = ask.show("jar-cost")
    if every.is_empty:
        return None
    made = sorted(set(every.cells["item"]))
    chosen = ask.query.get("made", "")
    answer = ask.show("jar-cost", item=chosen) if chosen in made else every
    per_litre = words.measures == "metric"
    known = answer.frame[answer.frame["cost_per_quart"].notna()]
    pick = choices(
        choice(
            "made",
            words("closer.made"),
            chosen,
            [("", words("closer.every")), *((one, one) for one in made)],
        )
    )
    if known.empty:
        return section(words("closer.batches"), pick, html.P(words("closer.no_price")))
    scale = 1 / _LITRES_A_QUART if per_litre else 1.0
    frame = pd.DataFrame(
        {
            "on": known["on"], "item": known["item"],
            "cost": known["cost_per_quart"].astype(float) * scale,
            "shop": known["shop_price_per_quart"].astype(float) * scale,
        }
    )  # fmt: skip
    unit = words(
        "closer.per_litre" if per_litre else "closer.per_quart", currency=words.coin_sign()
    )
    figure = closer.batches(
        frame, ask.scheme, ours=words("closer.ours"), shop=words("closer.shop"), unit=unit,
        money=words.around_money(),
    )  # fmt: skip
    says = words(
        "closer.batches_says",
        n=len(frame),
        low=words.money(frame["cost"].min()),
        high=words.money(frame["cost"].max()),
    )
    options = {"item": chosen} if chosen in made else {}
    table = answer_table(ask, answer, options=options, newest_first=True)
    return section(words("closer.batches"), pick, picture(ask, "batches", figure, says, table))


def _weeks(ask: Ask) -> Any:
    words = ask.words
    newest = ask.show("season")
    seasons = [int(one) for one in newest.totals.get("seasons", ())]
    if not seasons:
        return None
    answers = {
        season: ask.show("season", season=str(season), weeks=True) for season in seasons[-_SEASONS:]
    }
    crops = sorted({crop for one in answers.values() for crop in one.cells["crop"]})
    if not crops:
        return None
    chosen = ask.query.get("crop", "")
    chosen = chosen if chosen in crops else _most_picked(answers, crops)
    by_season = {str(season): _points(ask, answer, chosen) for season, answer in answers.items()}
    drawn = {season: points for season, points in by_season.items() if points}
    if not drawn:
        return None
    figure = closer.weeks(
        drawn,
        ask.scheme,
        unit=words("closer.kg" if words.measures == "metric" else "closer.lb"),
        week=words("closer.week"),
    )
    pick = choices(choice("crop", words("closer.crop"), chosen, [(one, one) for one in crops]))
    says = words("closer.weeks_says", crop=chosen, first=min(drawn), last=max(drawn))
    last = max(int(season) for season in drawn)
    table = answer_table(
        ask,
        answers[last],
        keep=lambda row: row["crop"] == chosen,
        options={"season": str(last), "weeks": True},
    )
    return section(words("closer.weeks"), pick, picture(ask, "weeks", figure, says, table))


def _most_picked(answers: dict[int, Answer], crops: list[str]) -> str:
    newest = answers[max(answers)].rows()
    weight = {crop: sum(r["picked_g"] or 0 for r in newest if r["crop"] == crop) for crop in crops}
    return max(crops, key=lambda crop: weight[crop])


def _points(ask: Ask, answer: Answer, crop: str) -> list[tuple[int, float]]:
    """Return week of the season and weight picked, in the household's unit."""
    per = 1000.0 if ask.words.measures == "metric" else 453.59237
    return [
        (row["week"], row["picked_g"] / per)
        for row in answer.rows()
        if row["crop"] == crop and row["picked_g"] is not None
    ]


PAGE = Page("closer", "/look-closer", draw, has_pictures=True)
