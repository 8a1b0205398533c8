"""As published: what fell short, how a product is published, each batch beside its schedule, cautions."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import islice
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.low_acid import caution_cards
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    answered,
    choice,
    choices,
    icon,
    notes_of,
    nothing_yet,
    plain_table,
    say,
    section,
    sentences,
)
from dashboard.parts.alerts import alert
from dashboard.parts.alive import Box
from dashboard.parts.danger import grave_batches, left_of
from dashboard.parts.folds import all_link
from dashboard.parts.keeping import named, spoken
from dashboard.parts.strips import strip
from ledger.errors import InputError
from ledger.messages import joined
from ledger.projections import Answer
from ledger.published import CAUTIONS, GRAVE, SHORT, STANDINGS

__all__ = ["PAGE", "draw", "says"]

_CHOSEN = {
    "jar": ("half-pint jar", "pint jar", "quart jar", "half-gallon jar"),
    "pack": ("hot", "raw"),
    "method": ("boiling water", "pressure"),
    "gauge": ("dial", "weighted"),
}


_NAMED = 8
"""Things in danger named at once; the card on the shelf names all of them."""
_WORST = 6
"""Batches told by themselves, the gravest first."""
_TOLD = STANDINGS[: STANDINGS.index("to check yourself")]
"""Standings whose batches are told one by one."""
_SIGNS = {"not recorded": "write", "short of it": "warn"}

Row = Mapping[str, Any]


def draw(ask: Ask) -> Any:
    """Return the cautions, the answer, the question before a batch, and every batch, worst first."""
    answer, words = ask.show("as-published"), ask.words
    one = _one(ask, answer)
    return [
        caution_cards(ask, (one.text for said in (answer, *_told(ask)) for one in said.cautions)),
        html.P(say(ask, SHORT), className="under small"),
        answered(_sentence(ask, answer)) if not answer.is_empty else None,
        one,
        html.Div(
            [
                html.Div([_before(ask)]),
                html.Div(
                    [nothing_yet(ask, "as_published", "put_up") if answer.is_empty else _batches(ask, answer)]
                ),
            ],
            className="two",
        ),
        html.Div(
            [
                _power_cut(ask),
                html.Details(
                    [
                        html.Summary(words("as_published.cautions")),
                        *(
                            html.P([html.B(f"{words.said(head)}. "), say(ask, text)])
                            for head, text in CAUTIONS
                        ),
                    ]
                ),
            ],
            className="folds",
        ),
    ]  # fmt: skip


def says(ask: Ask) -> Any:
    """Return the page's answer in a line."""
    answer = ask.show("as-published")
    return None if answer.is_empty else _sentence(ask, answer)


def _counts(answer: Answer) -> dict[str, int]:
    """Return how many batches stand how, the gravest standing first."""
    counts = answer.frame["standing"].value_counts()
    return {one: int(counts[one]) for one in STANDINGS if one in counts}


def _sentence(ask: Ask, answer: Answer) -> list[Any]:
    """Return how many batches stand in danger, or else gravest, and all that is left of those in danger."""
    counts = _counts(answer)
    told = {one: n for one, n in counts.items() if one in GRAVE} or dict(islice(counts.items(), 1))
    said = " ".join(_stand(ask, one, n, len(answer.frame)) for one, n in told.items())
    if next(iter(told)) not in GRAVE:
        return [said]
    return [html.Span(said, className="look"), " ", *_still_there(ask)]


def _stand(ask: Ask, standing: str, n: int, every: int) -> str:
    key = f"as_published.answer_{standing.replace(' ', '_')}"
    return ask.words(f"{key}_one" if n == 1 else key, n=n, all=every)


def _still_there(ask: Ask) -> list[Any]:
    """Return what is left of the batches in danger, the gravest first; a tap shows what is not named."""
    words, left = ask.words, dict[str, list[Row]]()
    for lots in grave_batches(ask.show("shelf").records()):
        for row in lots:
            left.setdefault(row["item"], []).append(row)
    if not left:
        return [words("as_published.none_left")]
    there = [f"{left_of(ask, lots)} {spoken(item)}" for item, lots in left.items()]
    said: list[Any] = [words("as_published.is_left", what=", ".join(there[:_NAMED]))]
    if rest := there[_NAMED:]:
        said += [" ", dcc.Link(words("as_published.more_left", n=len(rest)), href="/shelf")]
    return said


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
    """Return the worst batches one by one, and folded: all of them, by how they stand."""
    words, counts = ask.words, _counts(answer)
    chosen = ask.query.get("standing", "")
    rows = answer.records()
    told = [row for one in _TOLD for row in reversed(rows) if row["standing"] == one]
    limit = None if ask.wants_all("worst") else _WORST
    groups = _alike(ask, told)
    options = [("", words("as_published.every", n=len(rows)))]
    options += [(one, f"{words.word('answers', one)} ({n})") for one, n in counts.items()]
    table = answer_table(
        ask, answer,
        columns=("item", "on", "standing", "product", "done.minutes", "published.minutes"),
        cells={"item": lambda row: _open(ask, row), "standing": lambda row: _standing(ask, row)},
        keep=lambda row: not chosen or row["standing"] == chosen, newest_first=True,
    )  # fmt: skip
    left = _left(ask)
    every = html.Details(
        [
            html.Summary(words("as_published.all_batches")),
            strip(ask, "standing", words("as_published.standing"), chosen, options),
            table,
        ],
        open=bool(chosen) or ask.wants_all("as-published"),
    )
    return section(
        words("as_published.worst"),
        html.Ul([_worst(ask, rows_, left) for rows_ in groups[:limit]], className="rows"),
        all_link(ask, "worst", len(groups), len(groups[:limit])),
        html.P(_others(ask, counts), className="under"),
        every,
        note=words("as_published.n_batches", n=len(rows)),
    )


def _others(ask: Ask, counts: Mapping[str, int]) -> str:
    """Return how many batches stand otherwise, in words: never a share, and never a sign."""
    out = [f"{n} {ask.words.word('answers', one)}" for one, n in counts.items() if one not in _TOLD]
    return ask.words("as_published.others", counts=", ".join(out)) if out else ""


def _left(ask: Ask) -> dict[str, list[str]]:
    """Return what is left of each batch on the shelf, in words."""
    out: dict[str, list[str]] = {}
    for row in ask.show("shelf").records():
        if row["standing_batch"]:
            out.setdefault(row["standing_batch"], []).append(ask.words.said(row["left"]["text"]))
    return out


def _alike(ask: Ask, told: list[Row]) -> list[list[Row]]:
    """Return batches of one item with one finding together, in the order of the first of each."""
    out: dict[tuple[str, str, str], list[Row]] = {}
    for row in told:
        out.setdefault((row["item"], row["standing"], _found(ask, row)), []).append(row)
    return list(out.values())


def _worst(ask: Ask, rows: list[Row], left: Mapping[str, list[str]]) -> Any:
    """Return batches that are alike: what they are, what was found, how much of them is left."""
    words, row = ask.words, rows[0]
    there = [text for one in rows for text in left.get(one["batch"], ())]
    kind = "gap" if row["standing"] == "not recorded" else "none"
    name = named(spoken(str(row["item"])))
    if len(rows) > 1:
        name = words("as_published.several", item=name, n=len(rows))
    is_left = next((one for one in rows if left.get(one["batch"])), row)
    link = dcc.Link(name, href=f"{ask.link(batch=is_left['batch'])}#batch")
    return html.Li(
        [
            icon(_SIGNS.get(row["standing"], "ask")),
            html.B(link),
            html.Span(words.day(row["on"]), className="d"),
            html.Span([_standing(ask, row), ": ", _found(ask, row)], className="what"),
            html.Span(", ".join(there) or words("as_published.nothing_left"), className="where"),
        ],
        className=f"asp {kind}",
    )


def _found(ask: Ask, row: Row) -> str:
    """Return what was found in few words: what was done beside what is printed."""
    words = ask.words
    found = next((f for f in row["findings"] if f["kind"] == row["standing"]), None)
    if found is None:
        return words.said(row["text"]).partition(". ")[0]
    field = words.word("answers", found["field"], "field")
    done, published = _said(ask, found["done"]), _said(ask, found["published"])
    if done == "–" and published != "–":
        return words("as_published.not_written", field=field, published=published)
    if published == "–":
        return words.said(found["text"]).partition(". ")[0]
    return words("as_published.done_published", field=field, done=done, published=published)


def _open(ask: Ask, row: Mapping[str, Any]) -> Any:
    return dcc.Link(named(spoken(str(row["item"]))), href=f"{ask.link(batch=row['batch'])}#batch")


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
    touched = f"/touched?by=batch&of={row['batch']}"
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
    item = spoken(str(row["item"]))
    return section(
        words("as_published.one", item=named(item), day=words.day(row["on"])),
        html.P(_standing(ask, row)),
        plain_table(heads, cells, caption=item),
        sentences(ask, row["advice"]) if row["advice"] else None,
        html.P(words("as_published.source", source=row["source"]), className="quiet") if row["source"] else None,
        html.Div(
            [
                dcc.Link(words("as_published.correct"), href=correct, className="button"),
                dcc.Link(words("danger.touched"), href=touched, className="button quiet-button"),
                dcc.Link(words("as_published.close"), href=ask.link(batch=None), className="button quiet-button"),
            ],
            className="tools",
        ),
        id="batch",
    )  # fmt: skip


def _said(ask: Ask, value: Any) -> str:
    if value is None:
        return "–"
    return ask.words.number(value) if isinstance(value, (int, float)) else ask.words.said(value)


def _before(ask: Ask) -> Any:
    """Return the question how something is published, and its answer."""
    words, query = ask.words, ask.query
    example = words("as_published.product_example")
    product = _text("product", words("as_published.product"), query.get("product", ""), example)
    boxes = []
    for name, values in _CHOSEN.items():
        options = [
            ("", words("as_published.any")),
            *((one, words.word("answers", one, name)) for one in values),
        ]
        boxes.append(choice(name, words(f"as_published.{name}"), query.get(name, ""), options))
    boxes.append(
        _text("altitude", words("as_published.altitude"), query.get("altitude", ""), "2600 ft")
    )
    said = _asked(ask)
    told = _answer(ask, said) if said.get("product") else None
    closer = html.Details(
        [html.Summary(words("as_published.closer")), choices(*boxes)], open=len(said) > 1
    )
    return section(words("as_published.before"), choices(product), closer, told)


def _text(name: str, label: str, value: str, example: str) -> Any:
    return Box(
        id={"choice": name}, label=label, value=value, debounce=True, placeholder=example, autoComplete="off",
    )  # fmt: skip


def _answer(ask: Ask, said: dict[str, str]) -> Any:
    try:
        answer = ask.show("as-published", **said)
    except InputError as error:
        return alert(ask.words.refusal(error))
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
            items = [
                text if name != "needs" else joined(": ", (key, text)) for key, text in told.items()
            ]
            lines.append(html.H3(ask.words(f"as_published.total_{name}")))
            lines.append(kind([html.Li(say(ask, text)) for text in items]))
    return html.Div([*lines, notes_of(ask, answer)])


def _power_cut(ask: Ask) -> Any:
    words, hours = ask.words, ask.query.get("off", "")
    box = choices(_text("off", words("as_published.off"), hours, "30 h"))
    summary = html.Summary(words("as_published.power"))
    if not hours:
        return html.Details([summary, box])
    try:
        answer = ask.show("as-published", freezer_off=hours)
    except InputError as error:
        wrong = alert(ask.words.refusal(error))
        return html.Details([summary, box, wrong], open=True)
    rows = [
        [named(spoken(r["item"])), words.day(r["on"]), say(ask, r["text"]), r["source"] or "–"]
        for r in answer.records()
    ]
    heads = [words(f"as_published.{name}") for name in ("item", "day", "chart", "document")]
    table = plain_table(heads, rows, caption=words("as_published.power"))
    shown = table if rows else html.P(words("as_published.no_freezer"))
    return html.Details([summary, box, shown], open=True)


PAGE = Page("as_published", "/as-published", draw)
