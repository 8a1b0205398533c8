"""Our table: how much of what was eaten was our own, by month, and the food's way to the table."""

from __future__ import annotations

from typing import Any

import pandas as pd
from dash import html

from dashboard.ask import Ask
from dashboard.figures.our_table import by_month, flow
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

_BASES = ("energy", "weight", "value")
_ORIGINS = ("grown", "foraged", "given", "found", "unrecorded", "bought")
FORTNIGHT = 14
"""Days with meals below which no share is shown, as in the answer's own words."""
_MOST, _LEAST = 7, 0.025
"""Bands drawn by name in the flow picture: so many, of so much; smaller ones are drawn together."""


def draw(ask: Ask) -> Any:
    """Return the shares of the time chosen, month by month, and the ways of the food."""
    every = ask.show("our-table", by="year", basis="energy")
    if every.is_empty:
        return nothing_yet(ask, "our_table", "eaten")
    words = ask.words
    years = sorted(set(every.frame["period"]), reverse=True)
    year, basis = ask.query.get("year", ""), ask.query.get("basis", "energy")
    basis = basis if basis in _BASES else "energy"
    span = {"from_": f"{year}-01-01", "to": f"{year}-12-31"} if year in years else {}
    whole = ask.show("our-table", **span)
    blank = ("", words("our_table.all_years"))
    options = {"from": span["from_"], "to": span["to"]} if span else {}
    return [
        choices(
            choice("year", words("our_table.year"), year, [blank, *((y, y) for y in years)]),
            choice("basis", words("our_table.basis"), basis, [(b, words.word("answers", b)) for b in _BASES]),
        ),
        _stats(ask, whole, year if year in years else words("our_table.all_years")),
        _ratios(ask, whole),
        _months(ask, ask.show("our-table", by="month", basis=basis, **span), basis),
        _flow(ask, ask.show("our-table", paths=True, **span), basis),
        section(
            words("our_table.table"),
            answer_table(
                ask, whole,
                columns=("origin", "basis", "amount", "share_of_eaten", "share_of_need", "feed_adjusted_share"),
                cells={"amount": lambda row: _amount(ask, row)}, options=options,
            ),
        ),
        notes_of(ask, whole),
    ]  # fmt: skip


def _amount(ask: Ask, row: Any) -> Any:
    words, value = ask.words, row["amount"]
    if value is None:
        return "–"
    text = {
        "energy": lambda: words("our_table.kcal", n=words.number(value)),
        "weight": lambda: words.grams(value),
        "value": lambda: words.money(value),
    }[row["basis"]]()
    return figure(text, row["why"], "amount")


def _stats(ask: Ask, whole: Answer, period: str) -> Any:
    if whole.totals.get("days_eaten", FORTNIGHT) < FORTNIGHT:
        return None  # the sentences below say so
    words, rows = ask.words, whole.records()
    out = []
    for basis in _BASES:
        own = next((r for r in rows if r["basis"] == basis and r["origin"] == "grown"), None)
        share = own["share_of_eaten"] if own else whole.totals["eaten_based"].get(basis)
        shown = figure(words.percent(share), own["why"] if own else None, "share_of_eaten")
        label = words("our_table.grown_by", basis=words.word("answers", basis))
        below = period
        if own and own["feed_adjusted_share"] is not None:
            fed = words("our_table.adjusted", share=words.percent(own["feed_adjusted_share"]))
            below = f"{period}; {fed}"
        out.append(stat(label, shown, below))
    return html.Div(out, className="stats")


def _ratios(ask: Ask, whole: Answer) -> Any:
    return section(
        ask.words("our_table.in_words"),
        sentences(ask, whole.totals.get("in_words", ())),
    )


def _months(ask: Ask, answer: Answer, basis: str) -> Any:
    words, frame = ask.words, answer.frame
    frame = frame[frame["share_of_eaten"].notna()]
    if frame.empty:
        return None
    data = pd.DataFrame(
        {
            "label": [_month(ask, period) for period in frame["period"]],
            "origin": frame["origin"].to_numpy(),
            "share": frame["share_of_eaten"].astype(float).to_numpy(),
        }
    )
    labels = {one: words.word("answers", one) for one in _ORIGINS}
    drawing = by_month(
        data,
        labels,
        ask.scheme,
        unit=words("our_table.share_of", basis=words.word("answers", basis)),
    )
    own = frame[frame["origin"] == "grown"]
    best = own.loc[own["share_of_eaten"].astype(float).idxmax()] if len(own) else None
    says = (
        words("our_table.no_own")
        if best is None
        else words(
            "our_table.best",
            month=_month(ask, best["period"]),
            share=words.percent(best["share_of_eaten"]),
        )
    )
    table = answer_table(ask, answer, columns=("period", "origin", "share_of_eaten"))
    return section(
        words("our_table.months"), picture(ask, "our-table", drawing, says, table, height=380)
    )


def _month(ask: Ask, period: str) -> str:
    return f"{ask.words.month(int(period[5:7]))} {period[:4]}"


def _flow(ask: Ask, answer: Answer, basis: str) -> Any:
    words, column = ask.words, {"energy": "kcal", "weight": "grams", "value": "value"}[basis]
    frame = answer.frame
    if frame.empty or frame[column].isna().all():
        return None
    data = frame[["source", "through", "to"]].astype(str).copy()
    data["amount"] = frame[column].astype(float).fillna(0.0).to_numpy()
    if basis == "weight":
        data["amount"] /= 1000
    data = data[data["amount"] > 0]
    for stage in ("source", "through", "to"):
        largest = data.groupby(stage)["amount"].sum().nlargest(_MOST)
        named = largest[largest >= _LEAST * data["amount"].sum()].index
        data[stage] = data[stage].where(data[stage].isin(named), words("our_table.others"))
    for stage in ("source", "through", "to"):
        data[stage] = [words.word("answers", one, stage) for one in data[stage]]
    unit = {"energy": "kcal", "weight": "kg", "value": words.currency}[basis]
    drawing = flow(data, ask.scheme, unit=unit)
    top = data.groupby("source")["amount"].sum()
    says = words(
        "our_table.flow_says",
        source=top.idxmax(),
        share=words.percent(float(top.max() / top.sum())),
    )
    table = answer_table(ask, answer, options={"paths": True})
    return section(words("our_table.flow"), picture(ask, "ways", drawing, says, table, height=560))


PAGE = Page("our_table", "/our-table", draw, has_pictures=True)
