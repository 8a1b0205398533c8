"""What to sow and set out, day by day, for the plan of next season."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.parts import csv_link, plain_table, section
from dashboard.parts.folds import all_link
from dashboard.parts.keeping import spoken
from ledger.errors import LedgerError
from ledger.projections import Answer

__all__ = ["first_out", "sowing"]

_NAME = "when-to-sow"
_ROWS = 11

Row = Mapping[str, Any]


def _days(ask: Ask) -> list[tuple[str, str, Row]]:
    """Return (day, what is done, row) of every sowing and setting out, in their order."""
    try:
        rows = ask.show(_NAME).records()
    except LedgerError:  # a book that cannot be asked this yet: no place, no frost day
        return []
    out = []
    for row in rows:
        if row["indoors_from"]:
            out.append((row["indoors_from"], "indoors", row))
        if row["out_from"]:
            out.append((row["out_from"], "out" if row["out_how"] == "set out" else "sow", row))
    return sorted(out, key=lambda one: (one[0], one[2]["crop"]))


def _said(ask: Ask, row: Row) -> str:
    crop = spoken(str(row["crop"]))
    if row["plants"]:
        return str(ask.words("next_season.patch", n=ask.words.number(row["plants"], 6), crop=crop))
    return crop[:1].upper() + crop[1:]


def first_out(ask: Ask) -> str | None:
    """Return what comes first, in a sentence; None where no day is known."""
    days = _days(ask)
    if not days:
        return None
    day, how, row = days[0]
    text = ask.words(
        f"next_season.first_{how}", what=_said(ask, row), day=ask.words.day(day, short=True)
    )
    return str(text)


def sowing(ask: Ask, answer: Answer) -> Any:
    """Return the days of sowing and setting out as a set table."""
    words, days = ask.words, _days(ask)
    if not days:
        return section(
            words("next_season.sow"), html.P(words("next_season.no_days"), className="under")
        )
    beds = {row["crop"]: row["bed"] for row in answer.records()}
    limit = None if ask.wants_all("sow") else _ROWS
    rows = [
        [
            words.day(day, short=True),
            html.Span([html.B(_said(ask, row)), " ", html.Span(words(f"next_season.do_{how}"), className="quiet")]),
            html.Span(beds.get(row["crop"]) or "", className="quiet"),
        ]
        for day, how, row in days[:limit]
    ]  # fmt: skip
    heads = [words(f"next_season.{name}") for name in ("day", "what", "bed")]
    print_it = html.Button(
        words("next_season.print"), type="button", className="button quiet-button", disable_n_clicks=True,
        **{"data-print": "1"},
    )  # fmt: skip
    return section(
        words("next_season.sow"),
        html.Div(
            plain_table(heads, rows, caption=words("next_season.sow"), keeps_columns=True),
            className="sow",
        ),
        all_link(ask, "sow", len(days), len(rows)),
        html.Div([print_it, csv_link(ask, _NAME, {})], className="tools"),
    )
