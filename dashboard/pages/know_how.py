"""Know-how: skills month by month, who can do what, what goes rusty, and how practice pays."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pandas as pd
from dash import dcc, html

from dashboard.ask import Ask
from dashboard.figures.know_how import learning_curve
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    choice,
    choices,
    csv_link,
    figure,
    notes_of,
    nothing_yet,
    picture,
    section,
    sentences,
    sheet,
    stat,
)
from dashboard.parts.sheets import Cell, Group
from ledger.events import METHODS
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_SORTS = ("noted", "method", "making", "growing")
_LAPSED = ("never tried", "out of practice", "going rusty")
_STANDINGS = ("in hand", *_LAPSED[::-1])
_MONTHS = tuple(f"m{n:02d}" for n in range(1, 13))
_ROWS = 6
"""Skills of a sort in a sheet, the most practised; all of them, by name, come when asked for."""
_POINTS = 400
"""Batches drawn of one skill."""


def draw(ask: Ask) -> Any:
    """Return what stands how, the year sheet, who can do what, and a learning curve."""
    answer = ask.show("know-how")
    if answer.is_empty:
        return nothing_yet(ask, "know_how", "practised")
    words, rows = ask.words, answer.records()
    sorts = {row["skill"]: row["sort"] for row in rows}
    learning, curve = _learning(ask, rows)
    return [
        _stats(ask, answer, rows),
        html.Div([_rusty(ask, answer), _one_hand(ask, answer)], className="columns"),
        _year_sheet(ask, rows, sorts),
        _who_can(ask, rows),
        _wanted(ask, answer),
        learning,
        section(
            words("know_how.in_words"),
            sentences(ask, answer.totals.get("in_words", ())),
        ),
        notes_of(ask, answer, *([curve] if curve else [])),
    ]


def _stats(ask: Ask, answer: Answer, rows: list[dict[str, Any]]) -> Any:
    words, totals = ask.words, answer.totals
    alone = sum(bool(row["only_one_can"]) for row in rows if row["person"] is None)
    out = [
        stat(_title(words.word("answers", word)), words.number(totals[word.replace(" ", "_")]))
        for word in _STANDINGS
    ]
    return html.Div(
        [*out, stat(words("know_how.one_hand"), words.number(alone))], className="stats"
    )


def _title(word: str) -> str:
    return word[:1].upper() + word[1:]


# -- the year sheet ---------------------------------------------------------------------


def _year_sheet(ask: Ask, rows: list[dict[str, Any]], sorts: Mapping[str, str]) -> Any:
    words, query = ask.words, ask.query
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
    if people:
        every = ("", words("know_how.household"))
        chosen.append(
            choice("person", words("know_how.who"), person or "", [every, *((p, p) for p in people)])
        )  # fmt: skip
    records = answer.records()
    months = [words.month(n) for n in range(1, 13)]
    groups = _grouped(ask, records, sorts, lambda row: _months(ask, row, months))
    name = words("know_how.sheet_of", year=year, who=person or words("know_how.household"))
    return section(
        words("know_how.sheet"),
        choices(*chosen),
        html.P(words("know_how.legend"), className="quiet"),
        sheet(words("know_how.skill"), [*months, words("know_how.in_year")], groups, name=name)
        if records
        else html.P(words("empty.nothing")),
        _beside(ask, len(records), groups, options),
        sentences(ask, answer.totals["in_words"]) if not person else None,
    )


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
            [(_skill(ask, row["skill"]), cells(row)) for row in of],
        )
        for sort, of in several.items()
    ]


def _skill(ask: Ask, name: str) -> str:
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


# -- who, and what lapses ---------------------------------------------------------------


def _who_can(ask: Ask, rows: list[dict[str, Any]]) -> Any:
    words = ask.words
    people = sorted({row["person"] for row in rows if row["person"]})
    if not people:
        return section(words("know_how.who_can"), html.P(words("know_how.nobody")))
    held = {(row["skill"], row["person"]): row for row in rows if row["person"]}
    skills = sorted(
        (row for row in rows if row["person"] is None), key=lambda row: row["skill"].casefold()
    )
    sorts = {row["skill"]: row["sort"] for row in skills}

    def cells(row: Mapping[str, Any]) -> list[Cell]:
        return [_held(ask, held.get((row["skill"], person)), person) for person in people]

    groups = _grouped(ask, skills, sorts, cells)
    return section(
        words("know_how.who_can"),
        html.P(words("know_how.who_says"), className="quiet"),
        sheet(words("know_how.skill"), people, groups, name=words("know_how.who_can")),
        _beside(ask, len(skills), groups, {}),
    )


def _held(ask: Ask, row: Mapping[str, Any] | None, person: str) -> Cell:
    if row is None:
        return Cell("–", "quiet")
    text = ask.words(
        "know_how.held",
        standing=ask.words.word("answers", row["standing"]), n=ask.words.number(row["times"]),
    )  # fmt: skip
    shown = figure(text, row["why"], "times", what=person)
    return Cell(shown, f"stands-{row['standing'].replace(' ', '-')}")


def _rusty(ask: Ask, answer: Answer) -> Any:
    words = ask.words
    rows = [r for r in answer.records() if r["person"] is None and r["standing"] in _LAPSED]
    if not rows:
        return section(words("know_how.rusty"), html.P(words("know_how.none_rusty")))
    table = answer_table(
        ask, answer, columns=("skill", "standing", "last_on", "days_since"),
        cells={
            "skill": lambda row: _skill(ask, row["skill"]),
            "standing": lambda row: _because(ask, row),
        },
        keep=lambda row: not isinstance(row["person"], str) and row["standing"] in _LAPSED,
        caption=words("know_how.rusty"),
    )  # fmt: skip
    return section(words("know_how.rusty"), table)


def _because(ask: Ask, row: Mapping[str, Any]) -> Any:
    word = ask.words.word("answers", row["standing"])
    because = row["because"] if isinstance(row["because"], str) else None
    return html.Div(
        [word, html.Div(ask.words.said(because), className="quiet") if because else None]
    )


def _one_hand(ask: Ask, answer: Answer) -> Any:
    words = ask.words

    def alone(row: Mapping[str, Any]) -> bool:
        return row["only_one_can"] is True and isinstance(row["person"], str)

    if not any(alone(row) for row in answer.rows()):
        return section(words("know_how.one_hand"), html.P(words("know_how.none_alone")))
    table = answer_table(
        ask, answer, columns=("skill", "person", "times", "last_on", "standing"), keep=alone,
        cells={"skill": lambda row: _skill(ask, row["skill"])}, caption=words("know_how.one_hand"),
    )  # fmt: skip
    return section(
        words("know_how.one_hand"), html.P(words("know_how.alone_says"), className="quiet"), table
    )


def _wanted(ask: Ask, answer: Answer) -> Any:
    words = ask.words
    if not any(row["target_times"] is not None for row in answer.records()):
        return None
    table = answer_table(
        ask, answer, columns=("skill", "target_done", "target_times", "target_per", "target_met"),
        cells={"skill": lambda row: _skill(ask, row["skill"])},
        keep=lambda row: row["target_met"] in (True, False), caption=words("know_how.wanted"),
    )  # fmt: skip
    return section(words("know_how.wanted"), table)


# -- how practice pays ------------------------------------------------------------------


def _learning(ask: Ask, rows: list[dict[str, Any]]) -> tuple[Any, Answer | None]:
    words = ask.words
    timed = {row["skill"]: row for row in rows if row["person"] is None and row["unit"]}
    if not timed:
        return section(words("know_how.learning"), html.P(words("know_how.no_learning"))), None
    skills = sorted(timed, key=str.casefold)
    wanted = ask.query.get("skill")
    skill = wanted if wanted in timed else _clearest(timed)
    answer = ask.show("know-how", curve=skill)
    table = answer_table(
        ask, answer, options={"curve": skill}, newest_first=True, caption=words("know_how.learning"),
        cells={"repetition": lambda row: words.number(row["repetition"])},
    )  # fmt: skip
    chosen = choice(
        "skill", words("know_how.skill"), skill, [(one, _skill(ask, one)) for one in skills]
    )
    sentence = _sentence(ask, answer, timed[skill])
    drawn = picture(ask, "learning", _drawn(ask, answer), sentence, table)
    return section(words("know_how.learning"), choices(chosen), drawn), answer


def _clearest(timed: Mapping[str, Mapping[str, Any]]) -> str:
    """Return the skill whose range lies lowest: the one that practice pays for most surely."""
    highest = {skill: row["learning_rate_high"] for skill, row in timed.items()}
    known = {skill: high for skill, high in highest.items() if high is not None}
    return min(known, key=known.__getitem__) if known else min(timed, key=str.casefold)


def _drawn(ask: Ask, answer: Answer) -> Any:
    words, frame = ask.words, answer.frame
    frame = frame.iloc[:: max(1, -(-len(frame) // _POINTS))]
    data = pd.DataFrame(
        {
            "repetition": frame["repetition"].astype(int).to_numpy(),
            "day": [words.day(day) for day in frame["on"]],
            "minutes": frame["minutes_per_unit"].astype(float).to_numpy(),
            "low": frame["fitted_low"].astype(float).to_numpy(),
            "likely": frame["fitted_likely"].astype(float).to_numpy(),
            "high": frame["fitted_high"].astype(float).to_numpy(),
        }
    )
    labels = {name: words(f"know_how.{name}") for name in ("batch", "range", "curve")}
    unit = words("know_how.minutes_for", unit=_unit(ask, answer))
    return learning_curve(data, labels, ask.scheme, across=words("know_how.batches"), unit=unit)


def _unit(ask: Ask, answer: Answer) -> str:
    unit = answer.totals["unit"]
    return ask.words.word("answers", unit) if unit else ask.words("know_how.one")


def _sentence(ask: Ask, answer: Answer, row: Mapping[str, Any]) -> Any:
    words, totals = ask.words, answer.totals
    if "next_likely" not in totals:
        return words("know_how.no_curve", skill=_skill(ask, row["skill"]))

    def rate(name: str) -> Any:
        return figure(words.percent(row[name]), row["why"], name)

    coming = {
        name: words.number(totals[f"next_{name}"], 2 if totals[f"next_{name}"] < 10 else 3)
        for name in ("low", "likely", "high")
    }
    return [
        words("know_how.doubling", skill=_skill(ask, row["skill"]), unit=_unit(ask, answer)), " ",
        rate("learning_rate"), f" ({words('know_how.between')} ", rate("learning_rate_low"),
        f" {words('know_how.and')} ", rate("learning_rate_high"), "). ",
        words("know_how.next", **coming),
    ]  # fmt: skip


PAGE = Page("know_how", "/know-how", draw, has_pictures=True)
