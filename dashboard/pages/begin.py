"""A new book: four questions that may wait, the first thing that happened, and its first answer."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.happened import happened
from dashboard.forms.household import TOLD, household_form, is_told
from dashboard.pages import jar_cost, know_how, our_table
from dashboard.pages._page import Page
from dashboard.parts import answered, figure, icon, section, sentence
from dashboard.parts.keeping import named, soonest, spoken
from ledger.errors import LedgerError
from ledger.kinds.setting_changed import setting_names, value_says
from ledger.messages import speaker

__all__ = ["PAGE", "begin", "draw", "first_answer", "is_new", "sample_offer"]

_FEW = 300
"""Events beyond which a book is no longer looked at for being new: a long list of what was there makes some."""
_YOUNG = 3
"""Happenings up to which the first answer is shown."""
_DESCRIBES = (
    "item_described",
    "setting_changed",
    "person_described",
    "recipe_written",
    "target_set",
)
"""Kinds that say how things are: nothing happened yet."""
_STEPS = ("house", "pantry", "first")

_SAYS: dict[str, Callable[[Ask], Any]] = {
    "put_up": jar_cost.says, "eaten": our_table.says, "practised": know_how.says,
}  # fmt: skip
"""Whose answer a kind of entry gives first; of any other it is what is there now."""
_LEADS = {"put_up": "jar_cost", "eaten": "our_table", "practised": "know_how"}


_MONEY = ("labour_rate", "helper_wage", "pay_given_up", "price_of_electricity", "price_of_gas")
"""Settings whose value is money: of an hour, where it says no other unit."""
_NUMBER = re.compile(r"[\d.,]+")


def _happened(ask: Ask) -> list[str] | None:
    """Return kinds of what happened so far, newest first; None of a book that is not young any more."""
    if ask.data.position() > _FEW:
        return None
    rows = [row for row in ask.data.history() if row.state == "holds" and row.kind != "struck"]
    return [row.kind for row in rows if row.kind not in _DESCRIBES]


def is_new(ask: Ask) -> bool:
    """Return whether nothing happened yet but what was counted as being there."""
    kinds = _happened(ask)
    return kinds is not None and set(kinds) <= {"counted"}


def begin(ask: Ask) -> list[Any]:
    """Return the step at which a new book is: the household, what is in the house, what happened first."""
    words, said = ask.words, ask.query.get("step", "")
    step = said if said in _STEPS else _next(ask)
    n = _STEPS.index(step) + 1
    head = answered(words(f"begin.answer_{step}"), under=words(f"begin.under_{step}"))
    parts: dict[str, Callable[[], Component]] = {
        "house": lambda: household_form(ask),
        "pantry": lambda: pantry(ask),
        "first": lambda: happened(ask, lines=2, labelled=False),
    }
    note = words("begin.step", n=n, of=len(_STEPS))
    return [
        head,
        html.Div(
            [section(words(f"begin.head_{step}"), parts[step](), _ways(ask, step), note=note), sample_offer(ask)],
            className="two",
        ),
    ]  # fmt: skip


def _next(ask: Ask) -> str:
    if _happened(ask):
        return "first"
    return "pantry" if is_told(ask) else "house"


def _ways(ask: Ask, step: str) -> Component:
    """Return the ways past a step, and back to the one before."""
    words, at = ask.words, _STEPS.index(step)
    ways = []
    if at + 1 < len(_STEPS):
        href = ask.link(step=_STEPS[at + 1])
        ways.append(dcc.Link(words("begin.skip"), href=href, className="button plain"))
    if at:
        href = ask.link(step=_STEPS[at - 1])
        ways.append(dcc.Link(words("begin.back"), href=href, className="button plain"))
    later = html.P(words("begin.later"), className="quiet small")
    return html.Div([html.Div(ways, className="tools"), later])


def pantry(ask: Ask) -> Component:
    """Return the box that takes a list of what is in the house, as counts."""
    return happened(ask, lines=5, labelled=False, kind="counted")


def sample_offer(ask: Ask) -> Component:
    """Return the way to the invented household, named as such."""
    words = ask.words
    way: Any = html.P(words("begin.sample_command"), className="quiet")
    if ask.data.has_sample:
        way = html.A(
            [icon("next", small=True), words("begin.sample_open")], href="/sample",
            className="button quiet-button",
        )  # fmt: skip
    return section(words("begin.sample"), html.P(words("begin.sample_says")), way)


def first_answer(ask: Ask) -> Component | None:
    """Return what a young book's newest happening comes to, a figure that opens in it; None in any other."""
    kinds = _happened(ask)
    if not kinds or len([one for one in kinds if one != "counted"]) > _YOUNG:
        return None
    words = ask.words
    kind = next((one for one in kinds if one != "counted"), "counted")
    says = _said(ask, kind) or _there(ask)
    if not says:
        return None
    lead = _LEADS.get(kind, "shelf")
    more = dcc.Link(
        [words("begin.more", page=words(f"nav.{lead}")), icon("next", small=True)],
        href=f"/{lead.replace('_', '-')}", className="tap",
    )  # fmt: skip
    return section(
        words("begin.first_answer"), answered(says, under=words("begin.opens")), more
    )  # fmt: skip


def _said(ask: Ask, kind: str) -> Any:
    try:
        return _SAYS[kind](ask) if kind in _SAYS else None
    except LedgerError:
        return None


def _there(ask: Ask) -> Any:
    """Return what is there of what was written down last, or else of the thing whose day comes first."""
    rows, last = ask.show("shelf").records(), _last(ask)
    mine = [row for row in rows if row["lot"].startswith(f"{last}:")]
    row = next(iter(mine or soonest(rows) or rows), None)
    if row is None:
        return None
    left = figure(ask.words.said(row["left"]["text"]), row["why"], "left")
    if row["days_left"] is None:
        return sentence(ask, "begin.there", {"item": named(spoken(row["item"])), "left": left})
    day = ask.words.day(row["use_by"], short=True)
    keeps = figure(ask.words("begin.until", day=day), row["why"], "days_left")
    return sentence(
        ask, "begin.there_until", {"item": named(spoken(row["item"])), "left": left, "until": keeps}
    )


def _last(ask: Ask) -> str:
    """Return the id of the newest entry of what happened."""
    rows = ask.data.history()
    return next((r.id for r in rows if r.state == "holds" and r.kind not in _DESCRIBES), "")


def draw(ask: Ask) -> Any:
    """Return the household's settings, the way to its list of what is there, and what else was set."""
    words = ask.words
    if ask.query.get("step") == "pantry":
        return [
            answered(words("begin.head_pantry"), under=words("begin.under_pantry")),
            pantry(ask),
        ]
    catalogue = ask.data.book.catalogue()
    held = {name: catalogue.setting(name) for name in setting_names()}
    rows = [
        html.Li(
            [
                html.Span(named(words.word("answers", name, "name"))),
                html.Span(_value(ask, name, str(value)), className="n"),
            ],
            className="setting",
        )
        for name, value in held.items()
        if value and name not in (*TOLD, "bed_plan")  # that has a page of its own
    ]
    change = dcc.Link(
        [words("begin.change"), icon("next", small=True)], href="/write?kind=setting_changed",
        className="tap",
    )  # fmt: skip
    count = dcc.Link(
        [words("begin.by_list"), icon("next", small=True)], href=ask.link(step="pantry"),
        className="tap",
    )  # fmt: skip
    return [
        section(words("begin.head_house"), household_form(ask)),
        section(words("begin.head_pantry"), html.P(words("begin.under_pantry"), className="under"), count),
        section(words("begin.others"), html.Ul(rows, className="rows") if rows else None, change),
    ]  # fmt: skip


def _value(ask: Ask, name: str, value: str) -> str:
    """Return a setting's value in the language; in English as it was written."""
    words, language = ask.words, ask.words.language
    said = value if language == "en" else speaker(language).value(value_says(name, value))
    if name not in _MONEY:
        return said
    before, behind = words.around_money()
    number = _NUMBER.match(said)
    end = 0 if number is None else number.end()
    each = said[end:] or f" {words('begin.an_hour')}"
    return f"{before}{said[:end]}{behind}{each}"


PAGE = Page("settings", "/settings", draw, keeps_typing=True)
