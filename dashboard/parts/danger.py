"""Danger on a page: first, in words with the day, and what to do; never a colour alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.boards import TENS, boards_of, count_of, is_past, marks_of
from dashboard.parts.keeping import named, spoken
from dashboard.parts.marks import icon, jar_row
from dashboard.parts.saying import days_said
from ledger.published import GRAVE, MARKED

__all__ = [
    "bears_mark",
    "danger_card",
    "dayless",
    "grave_batches",
    "left_of",
    "mark_of",
    "marked",
    "said_of",
    "sign_of",
    "to_discard",
]

_DAY = re.compile(r"\d{4}-\d\d-\d\d")


def grave_batches(rows: Iterable[Mapping[str, Any]]) -> list[list[Mapping[str, Any]]]:
    """Return the shelf's records that stand in danger, those of one batch together, gravest first."""
    several: dict[str, list[Mapping[str, Any]]] = {}
    for row in rows:
        if row["standing"] in GRAVE:
            several.setdefault(row["standing_batch"], []).append(row)
    return sorted(several.values(), key=lambda lots: GRAVE.index(lots[0]["standing"]))


def danger_card(
    ask: Ask, rows: Iterable[Mapping[str, Any]], *, drawn: bool = False
) -> Component | None:
    """Return the card that stands before all else while jars in danger are there; else None.

    Batches of one thing that stand so for one reason are told together, each with its own way. Nothing of it folds.

    Parameters
    ----------
    drawn : bool
        Its jars are drawn in it, as they stand on no board below.
    """
    batches, words = grave_batches(rows), ask.words
    if not batches:
        return None
    groups = _groups(ask, batches)
    title = words("danger.title" if len(batches) > 1 else "danger.title_one", n=len(batches))
    return html.Div(
        [
            html.H2([icon("warn"), html.Span(title)]),
            html.Ul([html.Li(_alike(ask, one, drawn, alone=len(groups) == 1)) for one in groups]),
            html.P(words("danger.signs"), className="signs"),
        ],
        className="danger",
        role="alert",
    )


_Lots = list[Mapping[str, Any]]


def _groups(ask: Ask, batches: list[_Lots]) -> list[list[_Lots]]:
    """Return batches together whose things and reasons are the same but for the day, gravest first."""
    found: dict[tuple[Any, ...], list[_Lots]] = {}
    for lots in batches:
        said = {(row["item"], row["kept"], dayless(ask, row["standing_text"])) for row in lots}
        found.setdefault(tuple(sorted(said, key=str)), []).append(lots)
    return list(found.values())


def to_discard(ask: Ask, batch: str) -> dict[str, Any] | None:
    """Return the entry that throws out all that is left of a batch in danger and of those alike; else None."""
    groups = _groups(ask, grave_batches(ask.show("shelf").records()))
    lots = [row for one in groups for several in one for row in several
            if any(other[0]["standing_batch"] == batch for other in one)]  # fmt: skip
    if not lots:
        return None
    lines = [
        {"item": row["item"], "amount": _plain(row["left"]["text"]), "lot": row["lot"]}
        for row in lots
    ]
    return {"lines": lines, "why": "other", "note": _plain(dayless(ask, lots[0]["standing_text"]))}


def _plain(text: str) -> str:
    """Return a text as if it were typed: a slice of a `Sentence` no longer knows what it says, nor may an entry."""
    return text[:]


def _alike(ask: Ask, batches: list[_Lots], drawn: bool, *, alone: bool) -> list[Any]:
    """Return batches that are alike: what there is of them, how they stand, and the ways on, the remedy first."""
    words, out = ask.words, list[Any]()
    lots = [row for one in batches for row in one]
    for item, kept in dict.fromkeys((row["item"], row["kept"]) for row in lots):
        mine = [row for row in lots if (row["item"], row["kept"]) == (item, kept)]
        there, text = left_of(ask, mine), mine[0]["standing_text"]
        stands = said_of(ask, text)
        if len(batches) > 1:
            there, stands = words("danger.several", what=there, n=len(batches)), dayless(ask, text)
        place = f", {words.word('answers', kept)}" if kept else ""
        out += [html.B(named(spoken(item))), f", {there}{place}: ", stands, html.Br()]
    if drawn:
        out += [
            jar_row(marks_of(board, ask.day), "", on_board=True)
            for board in boards_of(lots)
            if board.is_grave and board.count <= TENS
        ]
    batch = lots[0]["standing_batch"]
    discard = _link(ask, "danger.discard", f"/write?kind=discarded&batch={batch}")
    if len(batches) == 1:
        ways = [
            _link(ask, "danger.why", _findings(batch)),
            _link(ask, "danger.touched", f"/touched?by=batch&of={batch}"),
        ]
        return [*out, html.Div([discard, *ways], className="tools" if alone else "tools each")]
    each = [
        dcc.Link(
            [html.Span(words.day(one[0]["on"])), html.Span(left_of(ask, one))],
            href=_findings(one[0]["standing_batch"]), className="button",
        )
        for one in sorted(batches, key=lambda one: str(one[0]["on"]))
    ]  # fmt: skip
    why = html.Span(words("danger.each"))
    return [
        *out,
        html.Div([discard, why], className="tools"),
        html.Div(each, className="each of-days"),
    ]


def _link(ask: Ask, text: str, href: str) -> Component:
    return dcc.Link(ask.words(text), href=href, className="button")


def _findings(batch: str) -> str:
    return f"/as-published?batch={batch}#batch"


def left_of(ask: Ask, lots: Iterable[Mapping[str, Any]]) -> str:
    """Return what is there of some lots: jars by their size, other things one by one."""
    words, jars, lots = ask.words, dict[str, int](), list(lots)
    for row in lots:
        if row["jar"]:
            jars[row["jar"]] = jars.get(row["jar"], 0) + count_of(row)
    said = [words.jars(n, jar) for jar, n in jars.items()]
    return words.listed([*said, *(words.said(r["left"]["text"]) for r in lots if not r["jar"])])


def dayless(ask: Ask, text: str) -> str:
    """Return the words of a standing without the batch's day; with it where it is not found among them."""
    day = _DAY.search(str(text))
    said = said_of(ask, text)
    if day is None:
        return said
    return re.sub(rf"(?:,\s|\s\w+\s){re.escape(ask.words.day(day[0]))}", "", said, count=1)


def said_of(ask: Ask, text: str) -> str:
    """Return the words of a standing in the language, their days as it writes them."""
    return days_said(ask, ask.words.said(text))


def mark_of(ask: Ask, row: Mapping[str, Any]) -> Component | None:
    """Return the mark of a row: a sign and the words with the day; None where it bears none."""
    if not row.get("standing_text"):
        return None
    sign, kind = sign_of(row)
    return html.Span(
        [
            html.Span(sign, className="sign", **{"aria-hidden": "true"}),
            html.Span(said_of(ask, row["standing_text"])),
        ],
        className=f"mark {kind}",
    )


def sign_of(row: Mapping[str, Any]) -> tuple[str, str]:
    """Return the sign of a row's mark, and the class that it is drawn by."""
    is_late = not row["standing"] and (row.get("days_left") or 0) < 0  # raw meat past its days
    if row["standing"] in GRAVE or is_past(row) or is_late:
        return "!", "mark-grave"
    return ("?", "mark-open") if row["standing"] in MARKED else ("·", "mark-plain")


def bears_mark(row: Mapping[str, Any]) -> bool:
    """Return whether something is to be looked up or thrown out first: no page says to eat it."""
    return row["standing"] in MARKED or is_past(row)


def marked(ask: Ask, row: Mapping[str, Any]) -> Any:
    """Return a row's item with its mark beneath."""
    mark = mark_of(ask, row)
    return str(row["item"]) if mark is None else html.Span([str(row["item"]), mark])
