"""The day by which to use a lot, as the household says it keeps; an open jar lives its fridge life.

Raw meat, poultry and fish have the published days whatever the household says, or fewer.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import TYPE_CHECKING

import numpy as np

from ledger.messages import Day, sentence
from ledger.messages.units import amount
from ledger.questions.shared.put_up_as import own_word_holds, put_up_as
from ledger.replay import KEPT
from ledger.replay.columns import Array
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = [
    "Term",
    "days_of",
    "is_marked",
    "is_open",
    "loose_text",
    "opened_on",
    "span_of",
    "term_of",
    "use_by_of",
]

_OIL_DAYS = 4
"""The longest of 2 to 4 days (OKSTATE_OIL); another source's 10 days are set aside: the stricter holds."""
_OIL_SOURCE = "Oklahoma State University Extension, about 2020"

_NEVER = np.iinfo(np.int64).min
_PART = 0.001
"""So little of a jar is a rounding of amounts."""

_SPAN = re.compile(r"\s*(\d+(?:\.\d+)?)\s*(day|week|month|year)s?\s*", re.IGNORECASE)


@dataclass(frozen=True)
class Term:
    """How long a lot keeps.

    Attributes
    ----------
    day : int
        The last day, since 1970.
    told : str or callable
        Whose word that is, in words.
    start : int
        The day from which it is counted.
    opened : bool
        Whether that is the day on which something was last taken, not the day on which it came.
    span : str
        Like ``12 months``.
    source : str
        The document that says it; empty: the household.
    """

    day: int
    told: str | Callable[[], str]
    start: int
    opened: bool
    span: str
    source: str = ""

    @property
    def said(self) -> str:
        """Whose word that is, in words."""
        return self.told if isinstance(self.told, str) else self.told()


@lru_cache(1024)
def span_of(text: str) -> tuple[float, str] | None:
    """Return a span like ``12 months`` as a number and its unit, like ``months``."""
    match = _SPAN.fullmatch(text)
    return None if match is None else (float(match[1]), f"{match[2].lower()}s")


@lru_cache(8192)
def days_of(day: int, text: str) -> int | None:
    """Return the day that lies a span like ``12 months`` or ``4 days`` after a day.

    Months and years go by the calendar; the 31st becomes the last day of a shorter month.
    """
    match = _SPAN.fullmatch(text)
    if not match:
        return None
    number, unit = float(match[1]), match[2].lower()
    if unit in ("day", "week"):
        return day + round(number * (7 if unit == "week" else 1))
    months = round(number * (12 if unit == "year" else 1))
    start = np.datetime64(day, "D")
    month = start.astype("datetime64[M]")
    in_month = (start - month.astype("datetime64[D]")).astype(int)
    last = (
        (month + months + 1).astype("datetime64[D]") - (month + months).astype("datetime64[D]")
    ).astype(int)
    return int(((month + months).astype("datetime64[D]") + min(in_month, last - 1)).astype(int))


def use_by_of(state: State, lot: int) -> tuple[int | None, str | None]:
    """Return the day by which to use a lot, and the span that it comes from.

    A part jar is open: it lives its fridge life from the last time something was taken. A jar that did
    not seal has the published days in the fridge, raw meat too, and what stands graver than ``beyond it`` has no such
    day but that of moist food under oil.
    """
    term = term_of(state, lot)
    return (None, None) if term is None else (term.day, term.span)


def term_of(state: State, lot: int) -> Term | None:
    """Return the same with what it is counted from; None where there is no such day."""
    mine = state.once(_terms)
    if lot not in mine:
        mine[lot] = _kept_term(state, lot)
    return mine[lot]


def _terms(_state: State) -> dict[int, Term | None]:
    """Return where the terms of a moment are kept by their lots."""
    return {}


def _kept_term(state: State, lot: int) -> Term | None:
    """Return a lot's term by all that it follows from, as it was worked out at any moment before."""
    from ledger.questions.shared.standing import standing_of

    lots, standing = state.lots, standing_of(state, lot)
    said = ("item", "kept", "suffix", "day")
    key = (
        *(int(lots[name][lot]) for name in said),
        opened_on(state, lot),
        put_up_as(state, lot),
        None if standing is None else (standing.is_marked, standing.in_oil, standing.in_fridge),
    )
    known = state.lasting(term_of)
    if key not in known:
        known[key] = _term_of(state, lot)
    found: Term | None = known[key]
    return found


def _term_of(state: State, lot: int) -> Term | None:
    published, own = _fridge_days(state, lot), _said_by_household(state, lot)
    if published is not None:
        return own if own is not None and own.day < published.day else published
    return None if is_marked(state, lot) else own


def is_marked(state: State, lot: int) -> bool:
    """Return whether a lot stands graver than ``beyond it``."""
    from ledger.questions.shared.standing import standing_of

    standing = standing_of(state, lot)
    return standing is not None and standing.is_marked


def _fridge_days(state: State, lot: int) -> Term | None:
    """Return the published last day in the fridge of a jar that no canner closed, or of food in oil."""
    from ledger.questions.shared.standing import standing_of

    start = int(state.lots["day"][lot])
    if KEPT[int(state.lots["kept"][lot])] == "fridge":
        standing = standing_of(state, lot)
        if standing is not None and standing.in_oil:
            return _printed("keeps-under-oil", start, _OIL_DAYS, _OIL_SOURCE)
        if standing is not None and standing.in_fridge and standing.is_own:
            return _not_canned(start)
    if int(state.lots["suffix"][lot]) != 1:
        return _raw(state, lot, start)
    from ledger.published.remedy import figure
    from ledger.published.words import cite

    cold = figure("fridge_period")
    span = f"{float(cold.high):g} {cold.unit.rstrip('s')}"
    days = days_of(start, span)
    if days is None:
        return None
    source = cite(cold.source)
    return Term(days, partial(_said, "keeps-at-most", span, source), start, False, span, source)


def _raw(state: State, lot: int, start: int) -> Term | None:
    """Return the published last day of raw meat, poultry or fish that no freezer and no putting up keeps."""
    from ledger.published.words import cite
    from ledger.reference.storage import raw_life

    item, place = int(state.lots["item"][lot]), KEPT[int(state.lots["kept"][lot])]
    life = raw_life(state.facts.facts[item].food)
    if life is None or place == "freezer" or state.lots["jars"][lot] or put_up_as(state, lot):
        return None
    return _printed("keeps-raw", start, int(life.high), cite(life.source))


def _not_canned(start: int) -> Term:
    """Return the days of jars that an oven or wax closed: as printed for opened home-canned food, the stricter."""
    from ledger.published.words import cite
    from ledger.reference.storage import figures

    row = figures("shelf_life", "home_canned_food", "fridge_after_opening")[0]
    return _printed("keeps-no-canner", start, int(row.high), cite(row.source))


def _printed(id_: str, start: int, days: int, source: str) -> Term:
    """Return a printed number of days from a day on, told by a message of this id."""
    span = f"{days} days"
    return Term(start + days, partial(_said, id_, span, source), start, False, span, source)


def _said(id_: str, span: str, source: str) -> str:
    return sentence(id_, span=amount(span), source=source)


def _said_by_household(state: State, lot: int) -> Term | None:
    keeps = state.facts.facts[int(state.lots["item"][lot])].keeps or {}
    start, place = int(state.lots["day"][lot]), KEPT[int(state.lots["kept"][lot])]
    opened = opened_on(state, lot)
    if opened is not None:
        start, place = opened, "fridge"
    span = keeps.get(place or "shelf") if own_word_holds(state, lot, place) else None
    day = None if span is None else days_of(start, span)
    return (
        None
        if span is None or day is None
        else Term(day, partial(amount, span), start, opened is not None, span)
    )


def loose_text(state: State, lot: int) -> str | None:
    """Return what is said of a jar that did not seal, and of raw meat past its days; None of any other."""
    if int(state.lots["suffix"][lot]) != 1:
        raw = _raw(state, lot, int(state.lots["day"][lot]))
        if raw is None or raw.day >= state.as_of_day:
            return None
        return sentence("standing-raw-past", day=Day(day_text(raw.day)))
    day, _ = use_by_of(state, lot)
    if day is None:
        return None
    if day < state.as_of_day:
        return sentence("standing-unsealed-past", day=Day(day_text(day)))
    return sentence("standing-unsealed", day=Day(day_text(day)))


def opened_on(state: State, lot: int) -> int | None:
    """Return the day on which something was last taken from a jar that is open, else None."""
    day = int(state.once(_opened)[lot])
    return None if day == _NEVER else day


def is_open(state: State) -> Array:
    """Return which lots have a jar of which a part is left, shape (lots,); ask with ``state.once``."""
    jars, whole = state.lots["jars"], state.lots["whole"]
    part = jars * state.left / np.where(jars > 0, np.maximum(whole, 1), 1)
    return np.asarray((jars > 0) & (np.abs(part - np.round(part)) > _PART))


def _opened(state: State) -> Array:
    """Return the last day on which something was taken from each open jar, shape (lots,)."""
    opened = state.once(is_open)
    draw, lot, _ = state.allocations
    rows = np.flatnonzero(opened[lot])
    out = np.full(opened.size, _NEVER, np.int64)
    np.maximum.at(out, lot[rows], state.draws["day"][draw[rows]])
    return out
