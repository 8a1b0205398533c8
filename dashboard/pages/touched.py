"""Touched: from a purchase, an item, a lot, a gauge or a batch to the jars there and whoever had of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    answered,
    cautions,
    choice,
    choices,
    icon,
    notes_of,
    nothing_yet,
    say,
    section,
)
from dashboard.parts.alerts import alert
from dashboard.parts.choices import written
from dashboard.parts.danger import marked
from dashboard.parts.strips import strip
from ledger.errors import InputError
from ledger.projections import Answer
from ledger.published import GRAVE, MARKED

__all__ = ["PAGE", "draw"]

_BY = ("item", "lot", "batch", "purchase", "gauge", "schedule", "meal")
_MOST = {"there": 5}
"""Rows of a group drawn at once; of another group there are three."""
_FORWARD = (
    ("given", ("who", "item", "text", "jars", "on", "how")),
    ("there", ("item", "text", "jars", "kept", "on")),
    ("eaten", ("on", "item", "text", "who")),
    ("batch", ("item", "on", "text", "jars")),
    ("discarded", ("item", "on", "text", "how")),
    ("lost", ("item", "on", "text")),
)
"""Which rows stand together, in the order of a phone call, and what is shown of them."""
_BACK = (
    ("bought", ("item", "who", "on", "text")),
    ("harvested", ("item", "on", "text")),
    ("received", ("item", "who", "on", "text", "how")),
    ("batch", ("item", "on", "text", "jars")),
    ("found", ("item", "on", "text")),
    ("unrecorded", ("item", "on", "text")),
)


def draw(ask: Ask) -> Any:
    """Return the question and its answer, each group of rows by itself."""
    if ask.is_empty:
        return nothing_yet(ask, "touched", "put_up")
    by = ask.query.get("by", "item")
    by = by if by in _BY else "item"
    of, back = ask.query.get("of", "").strip(), bool(ask.query.get("back"))
    if not of:
        return [html.P(ask.words("touched.says")), _asked(ask, by, of, back, None)]
    options: dict[str, Any] = {by: of, **({"back": True} if back else {})}
    try:
        answer = ask.show("touched", **options)
    except InputError as error:
        wrong = ask.words.refusal(error, named=False)
        return [html.P(ask.words("touched.says")), _asked(ask, by, of, back, wrong)]
    return [_asked(ask, by, of, back, None), *_answer(ask, answer, options, back=back)]


def _asked(ask: Ask, by: str, of: str, back: bool, error: str | None) -> Any:
    words = ask.words
    ways = [("", words("touched.forward")), ("1", words("touched.backward"))]
    return [
        choices(
            choice(
                "by", words("touched.by"), by, [(one, words(f"touched.by_{one}")) for one in _BY]
            ),
            written("of", words("touched.of"), of, words(f"touched.like_{by}"), error=error),
        ),
        strip(ask, "back", words("touched.way"), "1" if back else "", ways),
    ]


def _answer(ask: Ask, answer: Answer, options: Mapping[str, Any], *, back: bool) -> list[Any]:
    words, what = ask.words, answer.frame["what"]
    says, *more = answer.totals["in_words"]
    out: list[Any] = [
        cautions(ask, *(one.text for one in answer.cautions)),
        html.P(words("danger.signs"), className="caution small", role="note")
        if answer.frame["standing"].isin(GRAVE).any()
        else None,
        answered(say(ask, says)),
        *(html.P(say(ask, text), className="under") for text in more),
        html.Div(
            html.Button(
                [icon("print", small=True), words("touched.print")], type="button",
                className="button quiet-button", disable_n_clicks=True, **{"data-print": "1"},
            ),
            className="tools",
        ),
    ]  # fmt: skip
    for name, columns in _BACK if back else _FORWARD:
        if not (what == name).any():
            continue
        shown = [
            one
            for one in columns
            if one in ("item", "text", "on") or answer.frame[what == name][one].notna().any()
        ]
        table = answer_table(
            ask, answer, columns=shown, options={**options, "group": name}, asked=options,
            keep=lambda row, name=name: row["what"] == name, newest_first=True,
            most=_MOST.get(name, 3), stays=_gravity, is_lined=True,
            cells={"item": lambda row: marked(ask, row)}, caption=words(f"touched.{name}"),
        )  # fmt: skip
        many = words.number(int((what == name).sum()), 9)
        out.append(section(words(f"touched.{name}"), table, note=many))
    if answer.is_empty:
        out.append(alert(words("touched.nothing"), heard="status"))
    return [*out, notes_of(ask, answer)]


def _gravity(row: Mapping[str, Any]) -> int:
    """Return 1 for what is gravest of what bears a mark, more for what is less; 0 for what bears none."""
    standing = row["standing"]
    if standing in GRAVE:
        return 1 + GRAVE.index(standing)
    return 1 + len(GRAVE) if standing in MARKED else 0


PAGE = Page("touched", "/touched", draw)
