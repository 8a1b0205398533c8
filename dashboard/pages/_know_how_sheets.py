"""Know-how's sheets, folded: the year month by month, who can do what, and how practice pays."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pandas as pd

from dashboard.ask import Ask
from dashboard.drawings.practice import practice
from dashboard.elements import dcc, html
from dashboard.parts import answer_table, choice, choices, csv_link, figure, sentences, sheet
from dashboard.parts.drawings import drawing, text_of
from dashboard.parts.sheets import Cell, Group
from ledger.kinds import METHODS
from ledger.projections import Answer

__all__ = ["in_danger", "learning", "skill_name", "who_can", "year_sheet"]

_SORTS = ("noted", "method", "making", "growing")
_MONTHS = tuple(f"m{n:02d}" for n in range(1, 13))
_ROWS = 6
"""Skills of a sort in a sheet, the most practised; all of them, by name, come when asked for."""
_POINTS = 120
"""Batches drawn of one skill."""


def year_sheet(ask: Ask, rows: list[dict[str, Any]]) -> Any:
    """Return, folded, how often each skill was practised in each month of a year."""
    words, query = ask.words, ask.query
    sorts = {row["skill"]: row["sort"] for row in rows}
    firsts = [row["first_on"][:4] for row in rows if row["first_on"]]
    lasts = [row["last_on"][:4] for row in rows if row["last_on"]]
    if not firsts:
        return None
    years = [str(year) for year in range(int(max(lasts)), int(min(firsts)) - 1, -1)]
    year = query.get("year") if query.get("year") in years else years[0]
    people = sorted({row["person"] for row in rows if row["person"]})
    person = query.get("person") if query.get("person") in people else None
    options = {"year_sheet": year, **({"person": person} if person else {})}
    answer = ask.show("know-how", **options)
    chosen = [choice("year", words("know_how.year"), str(year), [(y, y) for y in years])]
    records = answer.records()
    months = [words.month(n) for n in range(1, 13)]
    groups = _grouped(ask, records, sorts, lambda row: _months(ask, row, months))
    name = words("know_how.sheet_of", year=year, who=person or words("know_how.household"))
    parts = [
        html.Summary(words("know_how.sheet")),
        choices(*chosen),
        html.P(words("know_how.legend"), className="quiet"),
        sheet(words("know_how.skill"), [*months, words("know_how.in_year")], groups, name=name)
        if records
        else html.P(words("empty.nothing")),
        _beside(ask, len(records), groups, options),
        sentences(ask, answer.totals["in_words"]) if not person else None,
    ]
    return html.Details(parts, open=bool(query.get("year")) or ask.wants_all("year-sheet"))


def _grouped(ask: Ask, rows: list[Any], sorts: Mapping[str, str], cells: Any) -> list[Group]:
    """Return rows by the sort of their skill, no more of each than are asked for."""
    several: dict[str, list[Any]] = {sort: [] for sort in _SORTS}
    for row in rows:
        several[sorts.get(row["skill"], "noted")].append(row)
    if not ask.wants_all("year-sheet"):
        for sort, of in several.items():
            several[sort] = sorted(of, key=lambda row: -row["times"])[:_ROWS]
    return [
        Group(
            ask.words(f"know_how.sort_{sort}"),
            [(skill_name(ask, row["skill"]), cells(row)) for row in of],
        )
        for sort, of in several.items()
    ]


def skill_name(ask: Ask, name: str) -> str:
    """Return a skill's name: that of a method in the language, of what was put up as it was written."""
    if name in METHODS:
        return ask.words.word("answers", name, "skill")
    crop = name.removeprefix("growing ")
    return name if crop == name else ask.words("know_how.growing", crop=crop)


def _months(ask: Ask, row: Mapping[str, Any], months: list[str]) -> list[Cell]:
    out = []
    for name, month in zip(_MONTHS, months, strict=True):
        count = row[name]
        if count is None:
            out.append(Cell("", "to-come"))
        elif count == 0:
            out.append(Cell("0", "quiet"))
        else:
            depth = 1 if count == 1 else 2 if count < 4 else 3
            shown = figure(ask.words.number(count), row["why"], name, what=month)
            out.append(Cell(shown, f"times-{depth}"))
    total = figure(ask.words.number(row["times"]), row["why"], "times")
    return [*out, Cell(html.B(total))]


def _beside(ask: Ask, many: int, groups: list[Group], options: Mapping[str, Any]) -> Any:
    """Return the ways to all skills of a sheet and to its CSV."""
    more, shown = None, sum(len(group.rows) for group in groups)
    if many > shown:
        more = dcc.Link(
            ask.words("table.all", n=many), href=ask.link_all("year-sheet"), className="button quiet-button"
        )  # fmt: skip
    return html.Div([more, csv_link(ask, "know-how", options)], className="tools")


def who_can(ask: Ask, rows: list[dict[str, Any]], beside: Mapping[str, str]) -> Any:
    """Return, folded, who practised what, and how it stands with each; `beside`: what is in danger, by skill."""
    words = ask.words
    people = sorted({row["person"] for row in rows if row["person"]})
    if not people:
        return html.Details(
            [html.Summary(words("know_how.who_can")), html.P(words("know_how.nobody"))]
        )
    held = {(row["skill"], row["person"]): row for row in rows if row["person"]}
    skills = sorted(
        (row for row in rows if row["person"] is None), key=lambda row: row["skill"].casefold()
    )
    sorts = {row["skill"]: row["sort"] for row in skills}

    def cells(row: Mapping[str, Any]) -> list[Cell]:
        danger = row["skill"] in beside
        return [_held(ask, held.get((row["skill"], one)), one, danger=danger) for one in people]

    groups = _grouped(ask, skills, sorts, cells)
    parts = [
        html.Summary(words("know_how.who_can")),
        html.P(words("know_how.who_says"), className="quiet"),
        sheet(words("know_how.skill"), people, groups, name=words("know_how.who_can")),
        in_danger(ask, beside, {skill for skill, _ in held}),
        _beside(ask, len(skills), groups, {}),
    ]
    return html.Details(parts, open=ask.wants_all("year-sheet"))


def in_danger(ask: Ask, beside: Mapping[str, str], skills: set[str]) -> Any:
    """Return what is said of those skills all batches of which stand in danger; None where none do."""
    notes = [text for skill, text in beside.items() if skill in skills]
    return sentences(ask, notes) if notes else None


def _held(ask: Ask, row: Mapping[str, Any] | None, person: str, *, danger: bool) -> Cell:
    if row is None:
        return Cell("–", "quiet")
    text = ask.words(
        "know_how.held_danger" if danger else "know_how.held",
        standing=ask.words.word("answers", row["standing"]), n=ask.words.number(row["times"]),
    )  # fmt: skip
    shown = figure(text, row["why"], "times", what=person)
    return Cell(shown, "look" if danger else f"stands-{row['standing'].replace(' ', '-')}")


def learning(ask: Ask, rows: list[dict[str, Any]]) -> tuple[Any, Answer | None]:
    """Return, folded, how the minutes for one fell with practice, and the answer it rests on."""
    words = ask.words
    summary = html.Summary(words("know_how.learning"))
    timed = {row["skill"]: row for row in rows if row["person"] is None and row["unit"]}
    if not timed:
        return html.Details([summary, html.P(words("know_how.no_learning"))]), None
    skills = sorted(timed, key=str.casefold)
    wanted = ask.query.get("skill")
    skill = wanted if wanted in timed else _clearest(timed)
    answer = ask.show("know-how", curve=skill)
    table = answer_table(
        ask, answer, options={"curve": skill}, newest_first=True, caption=words("know_how.learning"),
        cells={"repetition": lambda row: words.number(row["repetition"])},
    )  # fmt: skip
    chosen = choice(
        "skill", words("know_how.skill"), skill, [(one, skill_name(ask, one)) for one in skills]
    )
    sentence = _sentence(ask, answer, timed[skill])
    drawn = drawing(ask, "learning", _drawn(ask, answer), text_of(sentence), table)
    parts = [summary, choices(chosen), html.P(sentence), drawn]
    return html.Details(parts, open=bool(wanted)), answer


def _clearest(timed: Mapping[str, Mapping[str, Any]]) -> str:
    """Return the skill whose range lies lowest: the one that practice pays for most surely."""
    highest = {skill: row["learning_rate_high"] for skill, row in timed.items()}
    known = {skill: high for skill, high in highest.items() if high is not None}
    return min(known, key=known.__getitem__) if known else min(timed, key=str.casefold)


def _drawn(ask: Ask, answer: Answer) -> Callable[[float], str]:
    """Return how each batch is drawn with the fitted curve and its range."""
    words, frame = ask.words, answer.frame
    frame = frame.iloc[:: max(1, -(-len(frame) // _POINTS))]
    minutes = [_or_none(value) for value in frame["minutes_per_unit"]]
    ranges = zip(frame["fitted_low"], frame["fitted_likely"], frame["fitted_high"], strict=True)
    curve = [None if _or_none(c[1]) is None else tuple(map(float, c)) for c in ranges]
    known = [value for value in minutes if value is not None]
    last = words.number(known[-1], 2) if known else ""
    axes = (words("know_how.batch_n"), words("know_how.minutes_for", unit=_unit(ask, answer)))
    said = words("know_how.learning")

    def make(width: float) -> str:
        return practice(minutes, curve, said, axes=axes, last=last, width=width, scheme=ask.scheme)

    return make


def _or_none(value: Any) -> float | None:
    return None if value is None or pd.isna(value) else float(value)


def _unit(ask: Ask, answer: Answer) -> str:
    unit = answer.totals["unit"]
    return ask.words.word("answers", unit) if unit else ask.words("know_how.one")


def _sentence(ask: Ask, answer: Answer, row: Mapping[str, Any]) -> Any:
    words, totals = ask.words, answer.totals
    if "next_likely" not in totals:
        return words("know_how.no_curve", skill=skill_name(ask, row["skill"]))

    def rate(name: str) -> Any:
        return figure(words.percent(row[name]), row["why"], name)

    coming = {
        name: words.number(totals[f"next_{name}"], 2 if totals[f"next_{name}"] < 10 else 3)
        for name in ("low", "likely", "high")
    }
    return [
        words("know_how.doubling", skill=skill_name(ask, row["skill"]), unit=_unit(ask, answer)), " ",
        rate("learning_rate"), f" ({words('know_how.between')} ", rate("learning_rate_low"),
        f" {words('know_how.and')} ", rate("learning_rate_high"), "). ",
        words("know_how.next", **coming),
    ]  # fmt: skip
