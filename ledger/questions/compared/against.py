"""Asking one question at two dates: which two answers are meant."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

import numpy as np

from ledger.errors import InputError
from ledger.messages import Code, Day, Message, Names, Typed, sentence
from ledger.projections.base import Answer, Compared, Projection
from ledger.questions.compared.compare import compare
from ledger.questions.compared.gather import Things
from ledger.replay.seasons import Season
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Against"]


@dataclass
class Against:
    """One question asked at two dates.

    Parameters
    ----------
    projection : Projection
    state_of : callable
        ``state_of(day)`` gives the book at a day (ISO text).
    as_of : str
        The day of the answer now.
    against : str
        A day (ISO text); for a question that has seasons also the year of one.
    options : dict
        The question's options.

    Raises
    ------
    InputError
        When the question cannot be compared, or `against` is neither.
    """

    projection: Projection
    state_of: Callable[[str], State]
    as_of: str
    against: str
    options: dict[str, Any]

    def __post_init__(self) -> None:
        self.against = str(self.against).strip()
        self.how = self._how()
        self.has_seasons = any(one.name == "season" for one in self.projection.options)
        self.is_season = bool(re.fullmatch(r"\d{4}", self.against)) and self.has_seasons
        if self.is_season and 1 < int(self.against) < 9998:
            return
        try:
            day_number(self.against)
        except ValueError:
            wanted = "2025-10-31, or a season: 2025" if self.has_seasons else "2025-10-31"
            raise InputError(
                "against",
                Message.of("refusal-not-a-day", text=Typed(self.against[:40])),
                Message.of("refusal-like", example=Code(wanted)),
            ) from None

    def _how(self) -> Compared:
        from ledger.projections import PROJECTIONS

        how, name = self.projection.compared, self.projection.name
        if how is None:
            known = [one for one, projection in PROJECTIONS.items() if projection.compared]
            raise InputError(
                "against",
                Message.of("refusal-not-against", name=Code(name), names=Names(tuple(known))),
            )
        other = [flag for flag in self.projection.variants if self.options.get(flag)]
        if other:
            raise InputError(
                "against", Message.of("refusal-option-not-against", option=Code(other[0]))
            )
        return how

    def answers(self) -> tuple[Answer, Answer, tuple[str, str]]:
        """Return the answers now and then, and what then and now are called."""
        state = self.state_of(self.as_of)
        now = self.projection.build(state, **self.options)
        day, options, names = self._then(state)
        return now, self.projection.build(self.state_of(day), **options), names

    def _then(self, state: State) -> tuple[str, dict[str, Any], tuple[str, str]]:
        if self.is_season:
            return self._season_then(state)
        if self.options.get("from"):
            return self._period_then()
        return self.against, self.options, (_on(self.against), _on(self.as_of))

    def _season_then(self, state: State) -> tuple[str, dict[str, Any], tuple[str, str]]:
        """Return the other season; while this one runs, to the same day of it."""
        calendar = Season(state.settings.newest("season_starts"))
        asked = self.options.get("season")
        season = int(calendar.of(np.array([state.as_of_day]))[0]) if asked is None else int(asked)
        then, day = int(self.against), state.as_of_day
        into = day - calendar.first_day(season)
        if into >= 0 and day <= calendar.last_day(season):
            day = min(calendar.first_day(then) + into, calendar.last_day(then))
            names = (_until(day_text(day)), _until(self.as_of))
        else:
            names = (str(then), str(season))
        return day_text(day), {**self.options, "season": str(then)}, names

    def _period_then(self) -> tuple[str, dict[str, Any], tuple[str, str]]:
        """Return a period as long as this one that ends on the day given."""
        first, last = str(self.options["from"]), str(self.options.get("to") or self.as_of)
        moved = dt.timedelta(days=day_number(self.against) - day_number(last))
        begins = (dt.date.fromisoformat(first) + moved).isoformat()
        options = {**self.options, "from": begins, "to": self.against}
        return self.as_of, options, (_span(begins, self.against), _span(first, last))

    def answer(self) -> Answer:
        """Return the comparison."""
        measures = self.state_of(self.as_of).settings.newest("measures", "us") or "us"
        return compare(self.things(), measures)

    def things(self) -> Things:
        """Return what is compared."""
        now, then, names = self.answers()
        return Things(now, then, self.how, names, self._address)

    def _address(self, what: str) -> str:
        given = {"against": self.against, **{k: v for k, v in self.options.items() if v}}
        said = ",".join(f"{name}:{quote(str(value), safe='')}" for name, value in given.items())
        return f"{self.projection.name}/{said}/{quote(what, safe='')}"


def _on(day: str) -> str:
    return sentence("compare-on", day=Day(day))


def _span(first: str, last: str) -> str:
    return sentence("why-stretch", first=Day(first), last=Day(last))


def _until(day: str) -> str:
    return sentence("compare-to", day=Day(day))
