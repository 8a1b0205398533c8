"""The whole winter: one question of it at a time, in words, as a table, and what it rests on."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from dash import html

from dashboard.ask import Ask
from dashboard.pages._page import Page
from dashboard.parts import answer_table, choice, choices, notes_of, nothing_yet, section
from dashboard.parts.saying import say, sentences
from dashboard.parts.sections import cautions
from ledger.projections import Answer

__all__ = ["ASKED", "ONE_PAGE", "PAGE", "draw"]


@dataclass(frozen=True)
class Asked:
    """One thing that can be asked here: its name in the address, the question and its options."""

    name: str
    question: str
    options: dict[str, Any] = field(default_factory=dict)


ASKED = (
    Asked("enough", "enough"),
    Asked("eaten", "enough", {"of": "eaten"}),
    Asked("next", "enough", {"of": "next season", "days": "365"}),
    Asked("who_eats", "who-eats"),
    Asked("no_shop", "how-long", {"without": "shop"}),
    Asked("no_power", "how-long", {"without": "power"}),
    Asked("no_water", "how-long", {"without": "water"}),
    Asked("to_add", "how-long", {"to_add": True}),
    Asked("glut", "glut"),
    Asked("first_year", "first-year"),
    Asked("when_to_sow", "when-to-sow"),
    Asked("months", "month-by-month"),
    Asked("whole_year", "whole-year"),
    Asked("year_weeks", "whole-year", {"weeks": True}),
    Asked("limits", "whole-year", {"limits": True}),
    Asked("keeping", "keeping-life"),
    Asked("losses", "keeping-life", {"loss": True}),
    Asked("power", "power-and-water"),
    Asked("freezer", "power-and-water", {"freezer": True}),
    Asked("work", "work-worth"),
    Asked("prices", "own-prices"),
    Asked("hens", "hens"),
)
"""Everything that can be asked, in the order in which it is offered."""

ONE_PAGE = "one_page"
_TOLD = (
    "enough", "next", "no_shop", "no_power", "to_add", "glut", "when_to_sow", "whole_year",
    "power", "work", "prices", "hens",
)  # fmt: skip
_LINES = 3
"""What one printed page tells: these answers in words, so many sentences of each; all else is a choice away."""


def draw(ask: Ask) -> Any:
    """Return the choice of a question, its answer in words and as a table, and its notes."""
    if ask.is_empty:
        return nothing_yet(ask, "winter", "bought")
    words = ask.words
    offered = [(one.name, words(f"winter.{one.name}")) for one in ASKED]
    offered.append((ONE_PAGE, words(f"winter.{ONE_PAGE}")))
    if ask.query.get("asks") == ONE_PAGE:
        return [choices(choice("asks", words("winter.asks"), ONE_PAGE, offered)), *_one_page(ask)]
    asked = next((one for one in ASKED if one.name == ask.query.get("asks")), ASKED[0])
    answer = ask.show(asked.question, **asked.options)
    told = [str(text) for text in answer.totals.get("in_words", ())]
    return [
        choices(choice("asks", words("winter.asks"), asked.name, offered)),
        *cautions(ask, *(one.text for one in answer.cautions)),
        section(
            words(f"winter.{asked.name}"),
            sentences(ask, told) if told else None,
            _table(ask, answer, asked) if len(answer.frame) else html.P(words("empty.nothing")),
        ),
        notes_of(ask, answer),
    ]


def _one_page(ask: Ask) -> list[Any]:
    """Return the headline of each answer, on one page, and what is said first of all of them."""
    items, first = [], []
    for asked in (one for one in ASKED if one.name in _TOLD):
        answer = ask.show(asked.question, **asked.options)
        first += [one.text for one in answer.cautions]
        told = [str(text) for text in answer.totals.get("in_words", ())][:_LINES]
        if told:
            title = ask.words(f"winter.{asked.name}")
            is_said = ask.words.said(told[0]).startswith(title)  # not twice
            said = [part for text in told for part in (say(ask, text), " ")]
            items.append(html.Li([None if is_said else html.B(f"{title}: "), *said]))
    doctor = [one.text for one in ask.show("who-eats").footnotes[:1]]
    return [
        *cautions(ask, *first),
        section(
            ask.words(f"winter.{ONE_PAGE}"),
            html.Ul(items),
            *(html.P(say(ask, one)) for one in doctor),
        ),
    ]


def _table(ask: Ask, answer: Answer, asked: Asked) -> Any:
    shown = [
        column.name
        for column in answer.columns
        if column.main and (not column.rare or answer.frame[column.name].notna().any())
    ]
    return answer_table(
        ask, answer, columns=shown, options=asked.options, caption=ask.words(f"winter.{asked.name}")
    )


PAGE = Page("winter", "/winter", draw)
