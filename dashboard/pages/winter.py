"""The whole winter: one question of it at a time, in a sentence, a drawing, its numbers, and what it rests on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.pages import _winter_food, _winter_year
from dashboard.pages._page import Page
from dashboard.pages._winter_leaf import leaf
from dashboard.parts import (
    answer_table,
    answered,
    choice,
    choices,
    figure,
    notes_of,
    nothing_yet,
    section,
)
from dashboard.parts.drawings import drawing, text_of
from dashboard.parts.saying import sentences
from dashboard.parts.sections import cautions
from dashboard.parts.tables import Cell
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
_DESK = 720.0
_TOLD = {**_winter_food.TOLD, **_winter_year.TOLD}


def draw(ask: Ask) -> Any:
    """Return the choice of a question, the sentence that answers it, its drawing, and its notes."""
    if ask.is_empty:
        return nothing_yet(ask, "winter", "bought")
    words = ask.words
    offered = [(one.name, words(f"winter.{one.name}")) for one in ASKED]
    offered.append((ONE_PAGE, words(f"winter.{ONE_PAGE}")))
    if ask.query.get("asks") == ONE_PAGE:
        return leaf(ask, choice("asks", words("winter.asks"), ONE_PAGE, offered))
    asked = next((one for one in ASKED if one.name == ask.query.get("asks")), ASKED[0])
    answer = ask.show(asked.question, **asked.options)
    return [
        choices(choice("asks", words("winter.asks"), asked.name, offered)),
        *cautions(ask, *(one.text for one in answer.cautions)),
        *_told(ask, asked, answer),
        notes_of(ask, answer),
    ]


def _told(ask: Ask, asked: Asked, answer: Answer) -> list[Any]:
    """Return the sentence, the drawing with its numbers folded, and the ledger's own words folded."""
    words, told = ask.words, _TOLD[asked.name](ask, answer)
    in_words = list(answer.totals.get("in_words", ()))
    table = _table(ask, answer, asked) if len(answer.frame) else None
    if told is None:
        said = sentences(ask, in_words) if in_words else None
        return [
            section(words(f"winter.{asked.name}"), said, table or html.P(words("empty.nothing")))
        ]
    out: list[Any] = [answered(told.says, under=told.under)]
    if told.make is not None:
        says = text_of(told.says)
        drawn = drawing(ask, f"winter-{asked.name}", told.make, says, table, desk=_DESK)
        out.append(section(words(f"winter.{asked.name}"), drawn))
    elif table is not None:
        out.append(section(words(f"winter.{asked.name}"), table))
    if in_words:
        out.append(html.Details([html.Summary(words("winter.in_words")), sentences(ask, in_words)]))
    return out


def _table(ask: Ask, answer: Answer, asked: Asked) -> Any:
    shown = [
        column.name
        for column in answer.columns
        if column.is_shown(ask.words.measures)
        and (not column.rare or answer.frame[column.name].notna().any())
    ]
    cells = {"amount": _of_unit(ask), "a_week": _of_unit(ask, "a_week")} if "unit" in shown else {}
    if cells:
        shown.remove("unit")
    return answer_table(
        ask,
        answer,
        columns=shown,
        cells=cells,
        options=asked.options,
        caption=ask.words(f"winter.{asked.name}"),
    )


def _of_unit(ask: Ask, name: str = "amount") -> Cell:
    """Return what draws a figure whose unit stands beside it in its row."""

    def cell(row: Mapping[str, Any]) -> Any:
        value = row.get(name)
        text = "–" if value is None else ask.words.figure(value, row["unit"])
        return figure(text, row.get("why"), name) if value is not None else text

    return cell


PAGE = Page("winter", "/winter", draw)
