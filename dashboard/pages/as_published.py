"""As published: each batch beside its schedule; how a product is published; cautions."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import dash_mantine_components as dmc
from dash import dcc, html

from dashboard.ask import Ask
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    cautions,
    choice,
    choices,
    notes_of,
    nothing_yet,
    plain_table,
    say,
    section,
    sentences,
)
from ledger.errors import InputError
from ledger.projections import Answer
from ledger.projections._standing import GRAVE
from ledger.published import CAUTIONS, SHORT, STANDINGS

__all__ = ["PAGE", "draw"]

_CHOSEN = {
    "jar": ("half-pint jar", "pint jar", "quart jar", "half-gallon jar"),
    "pack": ("hot", "raw"),
    "method": ("boiling water", "pressure"),
    "gauge": ("dial", "weighted"),
}


def draw(ask: Ask) -> Any:
    """Return the caution, the question before a batch, and every batch with what was found."""
    answer = ask.show("as-published")
    return [
        cautions(ask, *(one.text for said in (answer, *_told(ask)) for one in said.cautions)),
        html.P(say(ask, SHORT), className="caution"),
        _before(ask),
        _one(ask, answer),
        nothing_yet(ask, "as_published", "put_up") if answer.is_empty else _batches(ask, answer),
        _power_cut(ask),
        section(
            ask.words("as_published.cautions"),
            *(
                html.P([html.B(f"{ask.words.said(head)}. "), say(ask, text)])
                for head, text in CAUTIONS
            ),
        ),
    ]


def _asked(ask: Ask) -> dict[str, str]:
    """Return what the page's address asks before a batch."""
    return {
        name: ask.query[name] for name in ("product", *_CHOSEN, "altitude") if ask.query.get(name)
    }


def _told(ask: Ask) -> list[Answer]:
    """Return the answer to the question before a batch, where one is asked that can be read."""
    said = _asked(ask)
    try:
        return [ask.show("as-published", **said)] if said.get("product") else []
    except InputError:
        return []  # said beside the question


def _batches(ask: Ask, answer: Answer) -> Any:
    words, chosen = ask.words, ask.query.get("standing", "")
    there = [one for one in STANDINGS if (answer.frame["standing"] == one).any()]
    options = [("", words("as_published.every", n=len(answer.frame)))]
    for one in there:
        count = int((answer.frame["standing"] == one).sum())
        options.append((one, f"{words.word('answers', one)} ({count})"))
    return section(
        words("as_published.batches"),
        choices(choice("standing", words("as_published.standing"), chosen, options)),
        answer_table(
            ask,
            answer,
            columns=("item", "on", "standing", "product", "done.minutes", "published.minutes"),
            cells={
                "item": lambda row: _open(ask, row),
                "standing": lambda row: _standing(ask, row),
            },
            keep=lambda row: not chosen or row["standing"] == chosen,
            newest_first=True,
        ),
    )


def _open(ask: Ask, row: Mapping[str, Any]) -> Any:
    return dcc.Link(str(row["item"]), href=f"{ask.link(batch=row['batch'])}#batch")


def _standing(ask: Ask, row: Mapping[str, Any]) -> Any:
    kind = "grave" if row["standing"] in GRAVE else "plain"
    return html.Span(ask.words.word("answers", row["standing"]), className=f"standing-{kind}")


def _one(ask: Ask, answer: Answer) -> Any:
    """Return one batch, field by field: published, done, and what was found."""
    wanted = ask.query.get("batch")
    rows = [row for row in answer.records() if row["batch"] == wanted]
    if not rows:
        return None
    row, words = rows[0], ask.words
    correct = f"/write?kind=put_up&replaces={row['batch']}"
    heads = [words(f"as_published.{name}") for name in ("field", "published", "done", "found")]
    cells = [
        [
            words.word("answers", one["field"], "field"),
            _said(ask, one["published"]),
            _said(ask, one["done"]),
            say(ask, one["text"]),
        ]
        for one in row["findings"]
    ]
    return section(
        words("as_published.one", item=row["item"], day=words.day(row["on"])),
        html.P(_standing(ask, row)),
        plain_table(heads, cells, caption=row["item"]),
        sentences(ask, row["advice"]) if row["advice"] else None,
        html.P(words("as_published.source", source=row["source"]), className="quiet") if row["source"] else None,
        html.Div(
            [
                dcc.Link(words("as_published.correct"), href=correct, className="button"),
                dcc.Link(words("as_published.close"), href=ask.link(batch=None), className="button quiet-button"),
            ],
            className="tools",
        ),
        id="batch",
    )  # fmt: skip


def _said(ask: Ask, value: Any) -> str:
    if value is None:
        return "–"
    return (
        ask.words.number(value) if isinstance(value, (int, float)) else ask.words.said(str(value))
    )


def _before(ask: Ask) -> Any:
    """Return the question how something is published, and its answer."""
    words, query = ask.words, ask.query
    example = words("as_published.product_example")
    boxes = [_text("product", words("as_published.product"), query.get("product", ""), example)]
    for name, values in _CHOSEN.items():
        options = [
            ("", words("as_published.any")),
            *((one, words.word("answers", one, name)) for one in values),
        ]
        boxes.append(choice(name, words(f"as_published.{name}"), query.get(name, ""), options))
    boxes.append(
        _text("altitude", words("as_published.altitude"), query.get("altitude", ""), "2600 ft")
    )
    asked = choices(*boxes)
    said = _asked(ask)
    told = _answer(ask, said) if said.get("product") else None
    return section(words("as_published.before"), asked, told)


def _text(name: str, label: str, value: str, example: str) -> Any:
    return dmc.TextInput(
        id={"choice": name}, label=label, value=value, debounce=True, placeholder=example, autoComplete="off",
    )  # fmt: skip


def _answer(ask: Ask, said: dict[str, str]) -> Any:
    try:
        answer = ask.show("as-published", **said)
    except InputError as error:
        return dmc.Alert(ask.words.refusal(error), color="plum", variant="light")
    lines: list[Any] = []
    for record in answer.records():
        lines.append(html.P(say(ask, record["text"])))
        if record["source"]:
            lines.append(
                html.P(ask.words("as_published.source", source=record["source"]), className="quiet")
            )
    for name in ("questions", "needs", "steps"):
        told = answer.totals.get(name) or {}
        if told:
            kind = html.Ol if name == "steps" else html.Ul
            items = [text if name != "needs" else f"{key}: {text}" for key, text in told.items()]
            lines.append(html.H3(ask.words(f"as_published.total_{name}")))
            lines.append(kind([html.Li(say(ask, text)) for text in items]))
    return html.Div([*lines, notes_of(ask, answer)])


def _power_cut(ask: Ask) -> Any:
    words, hours = ask.words, ask.query.get("off", "")
    box = choices(_text("off", words("as_published.off"), hours, "30 h"))
    if not hours:
        return section(words("as_published.power"), box)
    try:
        answer = ask.show("as-published", freezer_off=hours)
    except InputError as error:
        return section(
            words("as_published.power"),
            box,
            dmc.Alert(ask.words.refusal(error), color="plum", variant="light"),
        )
    rows = [
        [r["item"], words.day(r["on"]), say(ask, r["text"]), r["source"] or "–"]
        for r in answer.records()
    ]
    heads = [words(f"as_published.{name}") for name in ("item", "day", "chart", "document")]
    table = plain_table(heads, rows, caption=words("as_published.power"))
    return section(
        words("as_published.power"),
        box,
        table if rows else html.P(words("as_published.no_freezer")),
    )


PAGE = Page("as_published", "/as-published", draw)
