"""Labels: a sheet for the printer, a label for each jar, its square leading a phone to that jar."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.pages._label_stock import STOCKS, Stock, stocks_for
from dashboard.pages._page import Page
from dashboard.parts import answered, icon, nothing_yet, section
from dashboard.parts.jars import Jar, code_of, house, is_here_only, jars_of
from dashboard.parts.keeping import named, spoken
from dashboard.parts.strips import strip
from ledger.published import MARKED

__all__ = ["PAGE", "draw"]

_NEWEST = "newest"
_MM_PER_INCH = 25.4
_MOST = 200
"""More labels at once are more paper than a household prints."""
_LOOKS = 3
"""Batches of which a phone shows a label; all are printed."""

Row = Mapping[str, Any]


def draw(ask: Ask) -> Any:
    """Return what to print, what gets no label, and the sheets."""
    rows = [dict(row) for row in ask.show("shelf").records() if row["jars_left"]]
    if not rows:
        return nothing_yet(ask, "labels", "put_up")
    rows.sort(key=lambda row: (row["on"], row["lot"]), reverse=True)
    which = ask.query.get("of", _NEWEST)
    chosen = [row for row in rows if row["lot"] == which]
    if not chosen:
        which, chosen = _NEWEST, _newest(rows)
    marked = [row for row in chosen if row["standing"] in MARKED]
    jars = [jar for row in chosen if row not in marked for jar in jars_of(row)][:_MOST]
    stock = STOCKS.get(ask.query.get("sheet", ""), _usual(ask))
    first = _first(ask, stock)
    words, sheets = ask.words, -(-(len(jars) + first - 1) // stock.places)
    return [
        answered(_count(ask, len(jars), sheets), under=words("labels.says") if jars else None),
        _not_labelled(ask, marked),
        strip(ask, "of", words("labels.of"), which, _offered(ask, rows)),
        strip(ask, "sheet", words("labels.sheet"), stock.name, _stocks(ask), leave=["first"]),
        html.Div([_print(ask), _places(ask, stock, first)], className="label-do") if jars else None,
        _here_only(ask) if jars else None,
        _looks(ask, jars, stock),
        *_sheets(ask, jars, first, stock),
    ]


def _count(ask: Ask, labels: int, sheets: int) -> str:
    words = ask.words
    if not labels:
        return words("labels.none")
    said = words("labels.one" if labels == 1 else "labels.several", n=labels)
    on = words("labels.one_sheet" if sheets == 1 else "labels.sheets", n=sheets)
    return words("labels.count", labels=said, sheets=on)


def _usual(ask: Ask) -> Stock:
    return stocks_for(_paper(ask))[0]


def _paper(ask: Ask) -> str:
    return "letter" if ask.data.setting("measures", "us") == "us" else "a4"


def _stocks(ask: Ask) -> list[tuple[str, str]]:
    words, paper = ask.words, _paper(ask)
    unit, mm = ("labels.inch", _MM_PER_INCH) if paper == "letter" else ("labels.mm", 1)
    return [
        (
            one.name,
            words(
                f"labels.{one.paper}", across=one.across, down=one.down,
                size=words(unit, wide=words.number(one.wide / mm, 4), high=words.number(one.high / mm, 4)),
            ),
        )
        for one in stocks_for(paper)
    ]  # fmt: skip


def _print(ask: Ask) -> Component:
    return html.Button(
        [icon("print", small=True), ask.words("labels.print")], type="button", className="button",
        disable_n_clicks=True, **{"data-print": "1"},
    )  # fmt: skip


def _here_only(ask: Ask) -> Component | None:
    if not is_here_only():
        return None
    pieces = ask.words("labels.here_only").split("`")
    inside = [html.Code(one) if at % 2 else one for at, one in enumerate(pieces)]
    return html.P(inside, className="caution small")


def _newest(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the jars of the newest month."""
    return [row for row in rows if row["on"][:7] == rows[0]["on"][:7]]


def _name(row: Row) -> str:
    return named(spoken(row["item"]))


def _offered(ask: Ask, rows: list[dict[str, Any]]) -> list[tuple[str, str]]:
    """Return the newest month and every batch, each with how many labels it would get."""
    words, newest = ask.words, _newest(rows)
    month = words.month_name(int(rows[0]["on"][5:7]))
    said = [(_NEWEST, month, newest)]
    said += [
        (row["lot"], f"{_name(row)}, {words.day(row['on'], short=True)}", [row]) for row in rows
    ]
    return [
        (
            value,
            words("labels.chip", of=of, n=n)
            if (n := _labels(some))
            else words("labels.chip_none", of=of),
        )
        for value, of, some in said
    ]


def _labels(rows: list[dict[str, Any]]) -> int:
    return sum(len(jars_of(row)) for row in rows if row["standing"] not in MARKED)


def _first(ask: Ask, stock: Stock) -> int:
    """Return the first free place on the first sheet: a sheet begun earlier is used up."""
    text = ask.query.get("first", "1")
    return min(max(int(text), 1), stock.places) if text.isdecimal() and len(text) < 4 else 1


def _places(ask: Ask, stock: Stock, first: int) -> Component:
    """Return the sheet's places as they lie on it, folded: a tap says which is the first free one."""
    words = ask.words
    places = [
        html.Li(
            html.A(
                str(n),
                href=ask.link(first=None if n == 1 else str(n)),
                className="used" if n < first else None,
                **{"data-goes": "1", **({"aria-current": "true"} if n == first else {})},
            )
        )
        for n in range(1, stock.places + 1)
    ]
    name = words("labels.first")
    return html.Details(
        [
            html.Summary(words("labels.from_place", n=first) if first > 1 else name),
            html.Ul(places, className="places-of", style=stock.style, role="list", **{"aria-label": name}),
        ]
    )  # fmt: skip


def _not_labelled(ask: Ask, marked: list[dict[str, Any]]) -> Component | None:
    if not marked:
        return None
    links = [
        dcc.Link(
            f"{_name(row)}, {ask.words.day(row['on'])}", href=f"/as-published?batch={row['standing_batch']}#batch"
        )
        for row in marked
    ]  # fmt: skip
    return section(
        ask.words("labels.marked"),
        html.P(ask.words("labels.marked_says")),
        html.Ul([html.Li(link) for link in links]),
    )


def _looks(ask: Ask, jars: list[Jar], stock: Stock) -> Component | None:
    """Return for a phone a label of each batch, with how many there are of it."""
    many: dict[str, list[Jar]] = {}
    for jar in jars:
        many.setdefault(jar.row["lot"], []).append(jar)
    base = house()
    looks = [
        html.Li(_label(ask, some[0], base, times=len(some)))
        for some in list(many.values())[:_LOOKS]
    ]
    rest = len(many) - len(looks)
    said = ask.words("labels.more_one" if rest == 1 else "labels.more", n=rest)
    more = html.Li(said, className="quiet") if rest else None
    return html.Ul([*looks, more], className="label-looks", style=stock.style) if looks else None


def _sheets(ask: Ask, jars: list[Jar], first: int, stock: Stock) -> list[Component]:
    if not jars:
        return []
    places: list[Jar | None] = [*([None] * (first - 1)), *jars]
    base, low = house(), " low" if stock.is_low else ""
    return [
        html.Div(
            [_label(ask, jar, base) for jar in places[at : at + stock.places]],
            className=f"label-sheet {stock.paper}{low}",
            style=stock.style,
        )
        for at in range(0, len(places), stock.places)
    ]


def _label(ask: Ask, jar: Jar | None, base: str, *, times: int = 1) -> Component:
    if jar is None:
        return html.Div(className="jar-label free")
    words, row = ask.words, jar.row
    day = (
        words.day(row["use_by"]).replace(" ", "\u00a0") if row["use_by"] else ""
    )  # a day stays in one line
    use_by = words("labels.use_by", day=day) if day else None
    foot = [use_by, html.Span(f"× {times}", className="times") if times > 1 else None]
    lines = [
        html.B(_name(row), className="label-name"),
        html.Span(words.day(row["on"])),
        html.Span(_size(ask, row), className="label-size"),
        html.Span(foot, className="label-foot") if any(foot) else None,
    ]
    code = html.Img(src=code_of(base, jar), alt=words("labels.code", label=jar.letters))
    return html.Div(
        [
            html.Div(lines, className="label-text"),
            html.Div([code, html.B(jar.letters)], className="label-code"),
        ],
        className="jar-label",
    )


def _size(ask: Ask, row: Row) -> str:
    return str(ask.words.word("answers", row["jar"])) if row["jar"] else ""


PAGE = Page("labels", "/labels", draw)
