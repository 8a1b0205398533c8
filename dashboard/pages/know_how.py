"""Know-how: what to practise before it rusts, what has rusted, what waits for its season; folded, the rest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.pages import _know_how_sheets as sheets
from dashboard.pages._know_how_sheets import skill_name
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    answered,
    csv_link,
    figure,
    notes_of,
    nothing_yet,
    say,
    section,
    sentence,
    sentences,
)
from dashboard.parts.folds import all_link, folds
from dashboard.parts.strips import strip
from ledger.projections import Answer

__all__ = ["PAGE", "draw", "says"]

_GONE = ("going rusty", "out of practice")
_MONTHS = tuple(f"m{n:02d}" for n in range(1, 13))
_ROWS = {"rusts": 6, "rusty": 3, "waiting": 4}
"""Rows of each list at once; the rest come when asked for."""
_YEAR = 300
"""Days after which a day is written with its year."""
_SOON_DAYS = 14
_FULL_DAYS = 120
"""Days that fill a bar."""

Row = Mapping[str, Any]
_NO_NOTES: Mapping[str, str] = {}


def draw(ask: Ask) -> Any:
    """Return the three lists of one person or of everyone, and folded: sheets, hands, learning."""
    answer = ask.show("know-how")
    if answer.is_empty:
        return nothing_yet(ask, "know_how", "practised")
    words, rows = ask.words, answer.records()
    people = sorted({row["person"] for row in rows if row["person"]})
    person = ask.query.get("person", "")
    person = person if person in people else ""
    mine = _of(rows, person, people)
    learning, curve = sheets.learning(ask, rows)
    year = ask.day.year
    everyone = [("", words("know_how.everyone")), *((one, one) for one in people)]
    months, beside = _Months(ask, year, people), answer.totals["in_danger"]
    return [
        strip(ask, "person", words("know_how.who"), person, everyone),
        answered(_sentence(ask, rows, mine, beside), under=_under(ask, rows, mine, beside)),
        html.Div(
            [
                _list(ask, "rusts", _to_rust(mine, beside), months, _days_left, beside, _told(ask, mine, beside)),
                html.Div(
                    [
                        _list(ask, "rusty", _rusty(mine), months, _since),
                        _list(ask, "waiting", _waiting(mine), months, _comes, beside),
                    ]
                ),
            ],
            className="two",
        ),
        html.P(words("know_how.square", year=year), className="under small"),
        folds(
            words("know_how.more"),
            sheets.year_sheet(ask, rows),
            sheets.who_can(ask, rows, beside),
            _one_hand(ask, answer),
            _wanted(ask, answer),
            learning,
            html.Details(
                [
                    html.Summary(words("know_how.in_words")),
                    sentences(ask, answer.totals.get("in_words", ())),
                    html.Div(csv_link(ask, "know-how", {}), className="tools"),
                ]
            ),
        ),
        notes_of(ask, answer, *([curve] if curve else [])),
    ]  # fmt: skip


def says(ask: Ask) -> Any:
    """Return the page's answer in a line."""
    answer = ask.show("know-how")
    if answer.is_empty:
        return None
    rows = answer.records()
    people = sorted({row["person"] for row in rows if row["person"]})
    return _sentence(ask, rows, _of(rows, "", people), answer.totals["in_danger"])


# -- the three lists ---------------------------------------------------------------------


def _of(rows: Sequence[Row], person: str, people: Sequence[str]) -> list[Row]:
    """Return the records of a person, of everyone by person, or of the household where none is named."""
    if person:
        return [row for row in rows if row["person"] == person]
    return [row for row in rows if bool(row["person"]) == bool(people)]


def _to_rust(rows: Sequence[Row], in_danger: Mapping[str, str]) -> list[Row]:
    """Return what rusts, soonest first; what only ever came out in danger is not to be practised again so."""
    rusts = [row for row in rows if row["rusts_on"] and row["skill"] not in in_danger]
    return sorted(rusts, key=lambda row: (row["rusts_on"], row["skill"]))


def _told(ask: Ask, rows: Sequence[Row], in_danger: Mapping[str, str]) -> Any:
    """Return what is said of those left out, with the way to what is published; None where none is."""
    left = {row["skill"] for row in rows if row["rusts_on"]}
    notes = sheets.in_danger(ask, in_danger, left)
    return html.Div([notes, _as_published(ask)], className="under") if notes else None


def _as_published(ask: Ask) -> Any:
    return dcc.Link(ask.words("nav.as_published"), href="/as-published")


def _rusty(rows: Sequence[Row]) -> list[Row]:
    """Return what has rusted, what is nearest to hand first."""
    gone = [row for row in rows if row["standing"] in _GONE]
    return sorted(gone, key=lambda r: (_GONE.index(r["standing"]), r["days_since"] or 0))


def _waiting(rows: Sequence[Row]) -> list[Row]:
    waits = [row for row in rows if row["season_on"] and row["standing"] == "in hand"]
    return sorted(waits, key=lambda r: (r["season_on"], r["skill"]))


def _list(
    ask: Ask,
    key: str,
    rows: list[Row],
    months: _Months,
    told: Any,
    beside: Mapping[str, str] = _NO_NOTES,
    told_of_others: Any = None,
) -> Any:
    """Return one list; its head says how many it holds, and all of them come when asked for."""
    words = ask.words
    if not rows:
        none = told_of_others or html.P(words(f"know_how.none_{key}"), className="under")
        return section(words(f"know_how.{key}"), none)
    limit = None if ask.wants_all(key) else _ROWS[key]
    items = [_row(ask, row, months, told, beside) for row in rows[:limit]]
    head = words(f"know_how.{key}")
    return section(
        f"{head} ({len(rows)})" if key == "rusty" else head,
        html.Ul(items, className="rows"),
        all_link(ask, key, len(rows), len(items)),
        told_of_others,
        note=_letters(ask),
    )  # fmt: skip


def _letters(ask: Ask) -> Any:
    letters = [html.Span(ask.words.month(n)[:1]) for n in range(1, 13)]
    return html.Span(letters, className="mon", **{"aria-hidden": "true"})


def _row(ask: Ask, row: Row, months: _Months, told: Any, beside: Mapping[str, str]) -> Any:
    note = beside.get(row["skill"])
    who = row["person"] or ask.words("know_how.household")
    return html.Li(
        [
            html.Div([html.B(_capital(skill_name(ask, row["skill"]))), f", {who}"]),
            months.squares(row),
            *told(ask, row),
            html.Span(say(ask, note), className="quiet full") if note else None,
        ],
        className="sk",
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _days_left(ask: Ask, row: Row) -> list[Any]:
    """Return a bar of the days left, and them in words; the times ever open."""
    days = row["rusts_in_days"]
    kind = "soon" if days < _SOON_DAYS else ""
    width = f"{100 * min(1.0, max(0.0, days / _FULL_DAYS)):.0f}%"
    return [
        html.Span(html.Span(style={"width": width}), className=f"track {kind}".strip()),
        html.Span(
            figure(ask.words.days(days), row["why"], "rusts_in_days"), className=f"d {kind}".strip()
        ),
    ]


def _since(ask: Ask, row: Row) -> list[Any]:
    words = ask.words
    last = ""
    if row["last_on"]:
        is_near = (row["days_since"] or 0) < _YEAR
        last = words("know_how.last", day=words.day(row["last_on"], short=is_near))
    shown = figure(words.word("answers", row["standing"]), row["why"], "times")
    return [html.Span([shown, ", ", last], className="quiet full")]


def _comes(ask: Ask, row: Row) -> list[Any]:
    month = ask.words.month_name(int(row["season_on"][5:7]))
    return [html.Span(ask.words("know_how.comes", month=month), className="quiet full")]


class _Months:
    """How often each skill was practised in each month of a year, by person."""

    def __init__(self, ask: Ask, year: int, people: Sequence[str]) -> None:
        self.ask, self.year, self.people = ask, year, people
        self._kept: dict[str | None, dict[str, Row]] = {}

    def squares(self, row: Row) -> Any:
        """Return twelve squares, the deeper the oftener; this month is marked."""
        of = self._of(row["person"]).get(row["skill"])
        now = self.ask.day.month
        out, told = [], []
        for n, name in enumerate(_MONTHS, 1):
            times = int(of[name] or 0) if of else 0
            kinds = [f"t{min(times, 3)}" if times else "", "now" if n == now else ""]
            out.append(html.I(className=" ".join(filter(None, kinds)) or None))
            if times:
                told.append(f"{self.ask.words.month(n)} {times}")
        said = self.ask.words("know_how.months_say", year=self.year, months=", ".join(told) or "–")
        return html.Span(out, className="yr", role="img", **{"aria-label": said})

    def _of(self, person: str | None) -> dict[str, Row]:
        if person not in self._kept:
            options = {"year_sheet": str(self.year), **({"person": person} if person else {})}
            answer = self.ask.show("know-how", **options)
            self._kept[person] = {row["skill"]: row for row in answer.records()}
        return self._kept[person]


# -- the sentence ------------------------------------------------------------------------


def _sentence(
    ask: Ask, rows: Sequence[Row], mine: Sequence[Row], beside: Mapping[str, str]
) -> list[Any]:
    """Return who should practise what next; else what has rusted, was never tried or stands in danger."""
    words, coming = ask.words, _to_rust(mine, beside)
    if coming:
        first = coming[0]
        soon = [
            r for r in coming if r["skill"] == first["skill"] and r["rusts_on"] == first["rusts_on"]
        ]
        who = [r["person"] or words("know_how.household") for r in soon]
        skill = skill_name(ask, first["skill"])
        said = words("know_how.who_what", who=words.listed(who), skill=skill)
        return sentence(ask, "know_how.next_up", {"what": html.Span(said, className="look")})
    if beside:
        return [say(ask, next(iter(beside.values()))), " ", _as_published(ask)]
    gone = _rusty(mine)
    if gone:
        n = len(gone)
        return [words("know_how.gone", n=n) if n > 1 else words("know_how.gone_one")]
    never = [skill_name(ask, row["skill"]) for row in rows if row["standing"] == "never tried"]
    if never:
        return [words("know_how.never", skills=", ".join(never[:3]))]
    return [words("know_how.all_in_hand")]


def _under(
    ask: Ask, rows: Sequence[Row], mine: Sequence[Row], beside: Mapping[str, str]
) -> str | None:
    words, out, coming = ask.words, [], _to_rust(mine, beside)
    if coming:
        out.append(words("know_how.by_then", day=words.day(coming[0]["rusts_on"])))
        never = [skill_name(ask, row["skill"]) for row in rows if row["standing"] == "never tried"]
        if never:
            out.append(words("know_how.never", skills=", ".join(never[:3])))
    return " ".join(out) or None


# -- hands and wants ---------------------------------------------------------------------


def _one_hand(ask: Ask, answer: Answer) -> Any:
    words = ask.words

    def alone(row: Row) -> bool:
        return row["only_one_can"] is True and isinstance(row["person"], str)

    n = sum(alone(row) for row in answer.rows())
    summary = html.Summary(words("know_how.one_hand_n", n=n))
    if not n:
        return html.Details([summary, html.P(words("know_how.none_alone"))])
    table = answer_table(
        ask, answer, columns=("skill", "person", "times", "last_on", "standing"), keep=alone,
        cells={"skill": lambda row: skill_name(ask, row["skill"])}, caption=words("know_how.one_hand"),
    )  # fmt: skip
    mine = {row["skill"] for row in answer.rows() if alone(row)}
    notes = sheets.in_danger(ask, answer.totals["in_danger"], mine)
    return html.Details(
        [summary, html.P(words("know_how.alone_says"), className="under"), notes, table]
    )


def _wanted(ask: Ask, answer: Answer) -> Any:
    words = ask.words
    if not any(row["target_times"] is not None for row in answer.records()):
        return None
    table = answer_table(
        ask, answer, columns=("skill", "target_done", "target_times", "target_per", "target_met"),
        cells={"skill": lambda row: skill_name(ask, row["skill"])},
        keep=lambda row: row["target_met"] in (True, False), caption=words("know_how.wanted"),
    )  # fmt: skip
    return html.Details([html.Summary(words("know_how.wanted")), table])


PAGE = Page("know_how", "/know-how", draw)
