"""Our table: how many of a hundred bites were ours, through the year, and the food's way to the table."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.drawings.hundred import hundred
from dashboard.drawings.lines import Line, lines
from dashboard.drawings.marks import scale
from dashboard.elements import html
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    answered,
    figure,
    notes_of,
    nothing_yet,
    section,
    sentence,
    sentences,
)
from dashboard.parts.danger import said_of
from dashboard.parts.drawings import drawing, small
from dashboard.parts.folds import folds
from dashboard.parts.strips import strip
from ledger.projections import Answer

__all__ = ["PAGE", "draw", "says"]

_BASES = ("energy", "weight", "value")
FORTNIGHT = 14
"""Days with meals below which no share is shown, as in the answer's own words."""
_ALL = "all"
_KINDS = ("s-rule", "s-quiet thin", "s-leaf thick")
"""Lines of three years, the one looked at last."""
_TABLE = ("origin", "basis", "amount", "share_of_eaten", "share_of_need", "feed_adjusted_share")

Row = Mapping[str, Any]


def draw(ask: Ask) -> Any:
    """Return our share of the time chosen, its months, and where the food came from."""
    years = _years(ask)
    if not years:
        return nothing_yet(ask, "our_table", "eaten")
    words = ask.words
    year = _year(ask, years)
    whole, options = _whole(ask, year)
    basis = ask.query.get("basis", "")
    basis = basis if basis in _BASES else _BASES[0]
    chips = [("" if y == years[0] else y, y) for y in years] + [
        (_ALL, words("our_table.all_years"))
    ]
    return [
        strip(ask, "year", words("our_table.year"), "" if year == years[0] else year, chips),
        answered(_sentence(ask, whole)),
        html.Div([_bites(ask, whole), _months(ask, year, basis)], className="two"),
        _more(ask, whole, options, basis),
        notes_of(ask, whole),
    ]  # fmt: skip


def says(ask: Ask) -> Any:
    """Return the page's answer in a line."""
    years = _years(ask)
    return _sentence(ask, _whole(ask, years[0])[0]) if years else None


def _years(ask: Ask) -> list[str]:
    every = ask.show("our-table", by="year", basis="energy")
    return [] if every.is_empty else sorted(set(every.frame["period"]), reverse=True)


def _year(ask: Ask, years: list[str]) -> str:
    """Return the year chosen; by itself the newest."""
    said = ask.query.get("year", "")
    return said if said in (*years, _ALL) else years[0]


def _whole(ask: Ask, year: str) -> tuple[Answer, dict[str, Any]]:
    """Return the answer for a year, or for all of them, and what it was asked with."""
    if year == _ALL:
        return ask.show("our-table"), {}
    days = (f"{year}-01-01", f"{year}-12-31")
    return ask.show("our-table", from_=days[0], to=days[1]), {"from": days[0], "to": days[1]}


def _is_few(whole: Answer) -> bool:
    """Return whether too few days have meals for a share to tell anything."""
    return bool(whole.totals.get("days_eaten", FORTNIGHT) < FORTNIGHT)


def _own(answer: Answer, basis: str) -> Row | None:
    rows = answer.records()
    return next((r for r in rows if r["basis"] == basis and r["origin"] == "grown"), None)


def _hundredths(share: float) -> int:
    return min(100, max(0, round(100 * share)))


def _sentence(ask: Ask, whole: Answer) -> list[Any]:
    """Return how many of a hundred were ours: bites where energy is known, else pounds, else money."""
    words = ask.words
    if _is_few(whole):
        return [said_of(ask, str(whole.totals["in_words"][-1]))]  # the first is the period
    for basis in _BASES:
        share = whole.totals["eaten_based"].get(basis)
        if share is not None:
            own = _own(whole, basis)
            n = _said(ask, share)
            shown = figure(n, own["why"], "share_of_eaten") if own else n
            ours = html.Span(shown, className="own")
            return sentence(ask, f"our_table.answer_{_unit(ask, basis)}", {"n": ours})
    return [words("our_table.unknown")]


def _said(ask: Ask, share: float) -> str:
    """Return a share as a number of a hundred; less than one of them is said so."""
    n = _hundredths(share)
    return str(ask.words("our_table.below_one") if n == 0 < share else ask.words.number(n))


def _unit(ask: Ask, basis: str) -> str:
    return f"weight_{ask.words.measures}" if basis == "weight" else basis


# -- a hundred bites ----------------------------------------------------------------------


def _bites(ask: Ask, whole: Answer) -> Any:
    """Return a hundred bites, ours filled, with our share by weight and by worth beside them."""
    words, totals = ask.words, whole.totals
    share = next((s for b in _BASES if (s := totals["eaten_based"].get(b)) is not None), None)
    if share is None or _is_few(whole):
        return html.Div()
    said = words("our_table.bites_say", n=_hundredths(share))
    terms: list[Any] = []
    for basis in _BASES[1:]:
        value, own = totals["eaten_based"].get(basis), _own(whole, basis)
        if value is None:
            continue
        n = _said(ask, value)
        shown = figure(n, own["why"], "share_of_eaten") if own else n
        terms.append(_term(shown, words(f"our_table.of_{_unit(ask, basis)}")))
    fed = totals["feed_adjusted"].get(_BASES[0])
    own = _own(whole, _BASES[0])
    if fed is not None and own and own["feed_adjusted_share"] is not None:
        shown = figure(_said(ask, fed), own["why"], "feed_adjusted_share")
        terms.append(_term(shown, words("our_table.of_feed")))
    eaten = str(totals["in_words"][0]) if totals.get("in_words") else ""
    parts = [
        html.Div(
            [small(hundred(_hundredths(share), said, scheme=ask.scheme), said, "bites"), html.Dl(terms)],
            className="hund",
        ),
        html.P([words("our_table.a_bite"), " ", said_of(ask, eaten)], className="under small"),
    ]  # fmt: skip
    return html.Div(parts)


def _term(shown: Any, said: str) -> Any:
    return html.Div([html.Dt(shown), html.Dd(said)])


# -- through the year -----------------------------------------------------------------------


def _months(ask: Ask, year: str, basis: str) -> Any:
    """Return our share month by month: the year chosen over the two before it."""
    words = ask.words
    answer = ask.show("our-table", by="month", basis=basis)
    frame = answer.frame
    own = frame[(frame["origin"] == "grown") & frame["share_of_eaten"].notna()]
    shares = dict(zip(own["period"], own["share_of_eaten"].astype(float), strict=True))
    newest = max(frame["period"])[:4] if year == _ALL else year
    years = sorted(y for y in {p[:4] for p in shares} if y <= newest)[-3:]
    if not years:
        return section(words("our_table.months"), html.P(words("our_table.no_own")))
    made = [
        Line(y, [_percent(shares.get(f"{y}-{m:02d}")) for m in range(1, 13)], kind)
        for y, kind in zip(years, _KINDS[-len(years) :], strict=True)
    ]
    known = {p: s for p, s in shares.items() if p[:4] == years[-1]}
    most, least = max(known, key=known.__getitem__), min(known, key=known.__getitem__)
    high, low = words.percent(known[most]), words.percent(known[least])
    said = words(
        "our_table.most_and_least", most=_month(ask, most), least=_month(ask, least), high=high, low=low,
    )  # fmt: skip
    if len(known) == 1:
        said = words("our_table.one_month", month=_month(ask, most), share=high)
    top = max(v for one in made for v in one.values if v is not None)
    ticks = [(value, words.number(value)) for value in scale(top)]
    note = (int(most[5:]) - 1, 100 * known[most], words.number(_hundredths(known[most])))

    def make(width: float) -> str:
        tall = 168 if width < 400 else 214
        return lines(
            made, _month_names(ask), said, ticks=ticks, unit="%", note=note, width=width,
            scheme=ask.scheme, height=tall,
        )  # fmt: skip

    table = answer_table(
        ask, answer, columns=("period", "share_of_eaten"), options={"by": "month", "basis": basis},
        keep=lambda row: row["origin"] == "grown", newest_first=True, caption=words("our_table.months"),
    )  # fmt: skip
    return section(
        words("our_table.months"),
        drawing(ask, "our-table", make, said, table, under=said, desk=440),
        note=words(f"our_table.share_{basis}"),
    )


def _percent(share: float | None) -> float | None:
    return None if share is None else 100 * share


def _month(ask: Ask, period: str) -> str:
    return f"{ask.words.month(int(period[5:7]))} {period[:4]}"


def _month_names(ask: Ask) -> list[tuple[str, ...]]:
    """Return the months, long and as letters."""
    return [(ask.words.month(n), ask.words.month(n)[:1]) for n in range(1, 13)]


# -- where it came from -----------------------------------------------------------------------


def _more(ask: Ask, whole: Answer, options: Mapping[str, Any], basis: str) -> Any:
    """Return, folded: the shares in words, the whole table, and the food's ways."""
    words = ask.words
    span = {"from_": options["from"], "to": options["to"]} if options else {}
    ways = ask.show("our-table", paths=True, **span)
    bases = [("" if b == _BASES[0] else b, words.word("answers", b)) for b in _BASES]
    chosen = "" if basis == _BASES[0] else basis
    parts = [
        html.Details(
            [
                html.Summary(words("our_table.table")),
                answer_table(ask, whole, columns=_TABLE, options=options, caption=words("our_table.table")),
            ]
        ),
        html.Details(
            [html.Summary(words("our_table.flow")), answer_table(ask, ways, options={"paths": True, **options})]
        )
        if not ways.is_empty
        else None,
        html.Details(
            [
                html.Summary(words("our_table.reckoned")),
                sentences(ask, whole.totals.get("in_words", ())),
                html.P(words("our_table.basis"), className="under"),
                strip(ask, "basis", words("our_table.basis"), chosen, bases),
            ],
            open=bool(chosen),
        ),
    ]  # fmt: skip
    return folds(words("our_table.more"), *parts)


PAGE = Page("our_table", "/our-table", draw)
