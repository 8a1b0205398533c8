"""Labels: a sheet for the printer, a label for each jar, its square leading a phone to that jar."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from dash import dcc, html
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.pages._page import Page
from dashboard.parts import answered, choice, choices, nothing_yet, section
from dashboard.parts.jars import Jar, code_of, house, is_here_only, jars_of
from ledger.published import MARKED

__all__ = ["PAGE", "STOCKS", "Stock", "draw"]

_NEWEST = "newest"
_MOST = 200
"""More labels at once are more paper than a household prints."""


@dataclass(frozen=True)
class Stock:
    """A sheet of labels as it is sold: so many beside and below each other, sizes in mm.

    Sizes of common label sheets: common practice, no source.
    """

    name: str
    across: int
    down: int
    size: str

    @property
    def places(self) -> int:
        """Labels on a sheet."""
        return self.across * self.down


STOCKS = {
    "a4": Stock("a4", 3, 7, "63.5 × 38.1 mm"),
    "letter": Stock("letter", 2, 5, "101.6 × 50.8 mm"),
}
"""By their name in the address; their measures on paper stand in croft.css."""


def draw(ask: Ask) -> Any:
    """Return what to print, the sheets, and what gets no label."""
    rows = [row for row in ask.show("shelf").records() if row["jars_left"]]
    if not rows:
        return nothing_yet(ask, "labels", "put_up")
    words = ask.words
    rows.sort(key=lambda row: (row["on"], row["lot"]), reverse=True)
    which = ask.query.get("of", _NEWEST)
    chosen = [row for row in rows if row["lot"] == which]
    if not chosen:
        which, chosen = _NEWEST, _newest(rows)
    marked = [row for row in chosen if row["standing"] in MARKED]
    jars = [jar for row in chosen if row not in marked for jar in jars_of(row)][:_MOST]
    stock = STOCKS.get(ask.query.get("sheet", ""), _usual(ask))
    first = _first(ask, stock)
    return [
        answered(
            words("labels.count", n=len(jars), sheets=_sheets_needed(len(jars), first, stock)),
            under=words("labels.says"),
        ),
        choices(
            choice("of", words("labels.of"), which, _offered(ask, rows)),
            choice("sheet", words("labels.sheet"), stock.name, _stocks(ask)),
            choice("first", words("labels.first"), str(first), _places(stock)),
        ),
        _print(ask),
        _here_only(ask),
        _not_labelled(ask, marked),
        *_sheets(ask, jars, first, stock),
    ]


def _usual(ask: Ask) -> Stock:
    return STOCKS["letter" if ask.data.setting("measures", "us") == "us" else "a4"]


def _stocks(ask: Ask) -> list[tuple[str, str]]:
    return [(one.name, ask.words(f"labels.{one.name}", size=one.size)) for one in STOCKS.values()]


def _places(stock: Stock) -> list[tuple[str, str]]:
    return [(str(n), str(n)) for n in range(1, stock.places + 1)]


def _print(ask: Ask) -> Component:
    button = html.Button(
        ask.words("labels.print"), type="button", className="button", disable_n_clicks=True,
        **{"data-print": "1"},
    )  # fmt: skip
    return html.Div(button, className="tools")


def _here_only(ask: Ask) -> Component | None:
    if not is_here_only():
        return None
    pieces = ask.words("labels.here_only").split("`")
    inside = [html.Code(one) if at % 2 else one for at, one in enumerate(pieces)]
    return html.P(inside, className="caution small")


def _newest(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the jars of the newest month."""
    return [row for row in rows if row["on"][:7] == rows[0]["on"][:7]]


def _offered(ask: Ask, rows: list[dict[str, Any]]) -> list[tuple[str, str]]:
    words = ask.words
    return [
        (_NEWEST, words("labels.newest")),
        *(
            (
                row["lot"],
                f"{row['item']}, {words.day(row['on'])}: {words('labels.labels', n=len(jars_of(row)))}",
            )
            for row in rows
        ),
    ]


def _first(ask: Ask, stock: Stock) -> int:
    """Return the first free place on the first sheet: a sheet begun earlier is used up."""
    text = ask.query.get("first", "1")
    return min(max(int(text), 1), stock.places) if text.isdecimal() and len(text) < 4 else 1


def _sheets_needed(labels: int, first: int, stock: Stock) -> int:
    return -(-(labels + first - 1) // stock.places)


def _not_labelled(ask: Ask, marked: list[dict[str, Any]]) -> Component | None:
    if not marked:
        return None
    links = [
        dcc.Link(
            f"{row['item']}, {ask.words.day(row['on'])}", href=f"/as-published?batch={row['standing_batch']}#batch"
        )
        for row in marked
    ]  # fmt: skip
    return section(
        ask.words("labels.marked"),
        html.P(ask.words("labels.marked_says")),
        html.Ul([html.Li(link) for link in links]),
    )


def _sheets(ask: Ask, jars: list[Jar], first: int, stock: Stock) -> list[Component]:
    places: list[Jar | None] = [*([None] * (first - 1)), *jars]
    base = house()
    return [
        html.Div(
            [_label(ask, jar, base) for jar in places[at : at + stock.places]],
            className=f"label-sheet {stock.name}",
        )
        for at in range(0, len(places), stock.places)
    ]


def _label(ask: Ask, jar: Jar | None, base: str) -> Component:
    if jar is None:
        return html.Div(className="jar-label free")
    words, row = ask.words, jar.row
    lines = [
        html.B(row["item"], className="label-name"),
        html.Span(words.day(row["on"])),
        html.Span(_size(ask, row)),
    ]
    if row["use_by"]:
        lines.append(html.Span(words("labels.use_by", day=words.day(row["use_by"]))))
    return html.Div(
        [
            html.Div(lines, className="label-text"),
            html.Div(
                [
                    html.Img(src=code_of(base, jar), alt=words("labels.code", label=jar.letters)),
                    html.B(jar.letters),
                ],
                className="label-code",
            ),
        ],
        className="jar-label",
    )


def _size(ask: Ask, row: Mapping[str, Any]) -> str:
    return str(ask.words.said(row["jar"])) if row["jar"] else ""


PAGE = Page("labels", "/labels", draw)
