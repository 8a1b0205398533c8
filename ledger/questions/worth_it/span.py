"""Which days a season has, up to the answer's day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import InputError
from ledger.messages import Choice, Day, Message, Typed, sentence
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Span", "season_now", "span_of"]


@dataclass(frozen=True)
class Span:
    """A season: its number (the year in which it starts) and its days up to the answer's day."""

    season: int
    first: int
    last: int
    running: bool

    @property
    def text(self) -> str:
        """Say which days it has."""
        return sentence(
            "worth-span",
            day=Day(day_text(self.first)),
            day2=Day(day_text(self.last)),
            state=Choice("running" if self.running else "over"),
        )


def season_now(state: State) -> int:
    """Return the season that holds the answer's day."""
    return int(state.costs.garden.season.of(np.array([state.as_of_day]))[0])


def span_of(state: State, season: str | int | None) -> Span:
    """Return a season by its year; default: the one that holds the answer's day.

    Raises
    ------
    InputError
        When it is not a year from 1 to 9998.
    """
    if season is None:
        number = season_now(state)
    else:
        text = str(season).strip()
        if not text.isdecimal() or not 1 <= int(text) <= 9998:
            raise InputError(
                "season",
                Message.of("refusal-not-a-year", text=Typed(str(season)[:40])),
                Message.of("refusal-year-it-starts"),
            )
        number = int(text)
    days = state.costs.garden.season
    first, end = days.first_day(number), days.last_day(number)
    return Span(number, first, min(end, max(state.as_of_day, first)), state.as_of_day <= end)
