"""The day-to-day state of the household, and the few ways in which it writes something down."""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Callable
from typing import Any

from seed_demo.household import ELDERS, PARENTS, PEOPLE
from seed_demo.items import place_of
from seed_demo.pantry import Pantry, say
from seed_demo.prices import price_of
from seed_demo.writer import Writer

__all__ = ["Home"]

Body = dict[str, Any]


class Home:
    """The household on one day after another.

    Parameters
    ----------
    seed : int
        Decides everything that chance decides.
    start, end : datetime.date
        First and last day, both written of.
    """

    def __init__(self, seed: int, start: dt.date, end: dt.date) -> None:
        self.pen = Writer(seed, start, end)
        self.rng: random.Random = self.pen.rng
        self.start, self.end, self.day = start, end, start
        self.pantry = Pantry()
        self.jars_free: dict[str, int] = {}
        self.lids = 0
        self.label = 0
        self.marked: dict[str, tuple[int, dt.date]] = {}  # the newest jar's label, and its day
        self.fresh: list[Body] = []  # rests of batches in the fridge, to be eaten first
        self.resting: set[str] = set()  # of what was put up today, nothing is eaten tonight
        self._diary: dict[dt.date, list[Callable[[], None]]] = {}
        self.bad_year = (start + (end - start) / 2 + dt.timedelta(days=45)).year

    def write(self, kind: str, body: Body, *, by: str | None = None, **more: Any) -> Body:
        """Write an event of this day down."""
        return self.pen.add(kind, self.day, body, by=by, **more)

    def late(self, chance: float = 0.1) -> int:
        """Return after how many days somebody gets round to writing: mostly on the same day."""
        roll = self.rng.random()
        if roll < chance * 0.08:
            return self.rng.randint(12, 30)
        return self.rng.randint(1, 5) if roll < chance else 0

    def someone(self, group: tuple[str, ...] = ELDERS + PARENTS) -> str:
        """Return one of a group, by chance."""
        return self.rng.choice(group)

    def work(self, minutes: int, people: tuple[str, ...]) -> list[Body]:
        """Return work shared among people, to five minutes."""
        each = max(5, round(minutes / len(people) / 5) * 5)
        return [{"person": one, "minutes": str(each)} for one in people]

    def pair(self) -> tuple[str, ...]:
        """Return an elder or a parent, and whoever helps."""
        first = self.someone()
        return (first, self.rng.choice([one for one in PEOPLE if one != first]))

    def line(self, item: str, amount: int) -> Body:
        """Return a line of an item in stock, taken out of it; the amount must be there."""
        words = self.pantry.take(item, amount)
        if not words:
            raise LookupError(f"{item}: {amount} wanted, {self.pantry.has(item)} there, {self.day}")
        return {"item": item, "amount": words}

    def paid(self, item: str, amount: float) -> str:
        """Return what an amount costs today."""
        return price_of(item, amount, self.day, self.rng)

    def buy(self, item: str, amount: int, words: str | None = None, **more: Any) -> Body:
        """Return a bought line, with the item brought in."""
        self.pantry.put(item, amount, self.day)
        return {
            "item": item,
            "amount": words or say(item, amount),
            "paid": self.paid(item, amount),
            "kept": place_of(item),
            **more,
        }

    def season(self, first: tuple[int, int], last: tuple[int, int]) -> bool:
        """Return whether today lies from one (month, day) to another of the same year."""
        return first <= (self.day.month, self.day.day) <= last

    def in_days(self, days: int, do: Callable[[], None]) -> None:
        """Do something some days from now, if the demo lasts that long."""
        self._diary.setdefault(self.day + dt.timedelta(days=days), []).append(do)

    def due(self) -> None:
        """Do what was put off until today."""
        for do in self._diary.pop(self.day, ()):
            do()
