"""The household's own frost days, year by year, at the risk that was chosen."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, Groups, method, said, unknown
from ledger.messages import sentence
from ledger.methods.frost import FrostDay, frost_day

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["SPRING", "Frosts", "frosts_of"]

SPRING, FALL = "last of spring", "first of fall"


@dataclass(frozen=True)
class Frosts:
    """Own frosts: by year the day of the year and its event, of spring and of fall.

    `odd` names years that cannot be right: a spring frost not before the fall's.
    """

    spring: dict[int, tuple[int, int]]
    fall: dict[int, tuple[int, int]]
    odd: tuple[int, ...]

    def at(self, risk: float, *, spring: bool) -> FrostDay | None:
        """Return the day of the year at a risk; None where no frost is written down."""
        years = self.spring if spring else self.fall
        return frost_day([float(day) for day, _ in years.values()], risk, spring=spring)

    def figure(self, risk: float, *, spring: bool) -> Figure:
        """Return the day of the year at a risk, one row, with the frosts seen beneath."""
        found, years = self.at(risk, spring=spring), self.spring if spring else self.fall
        label = "frost-spring" if spring else "frost-fall"
        if found is None:
            return unknown("day of the year", label, 1)
        days, ev = (
            np.array(column) for column in zip(*(years[y] for y in sorted(years)), strict=True)
        )
        seen, count = said(days, "day of the year", ev), days.size
        of, day = Groups(np.zeros(count, np.int64), 1), np.array([found.day])
        if found.how != "share of years":
            latest = of.among("highest" if spring else "lowest", seen)
            return latest.called("frost-latest" if spring else "frost-earliest")
        passed = method(
            lambda: day, "day of the year", "risk", lambda _: [(seen, at) for at in range(count)]
        )
        frost = sentence("why-frost-spring" if spring else "why-frost-fall")
        return passed.called("frost-passed", frost=frost, n=round(risk * 100))


def frosts_of(state: State) -> Frosts:
    """Return the frosts of a state; of two words on one year the newer holds."""
    return state.once(_frosts)


def _frosts(state: State) -> Frosts:
    found: dict[str, dict[int, tuple[int, int]]] = {SPRING: {}, FALL: {}}
    for ev, body in state.bodies("frost_seen"):
        seen = dt.date.fromisoformat(body["seen"])
        found[body["frost"]][seen.year] = seen.timetuple().tm_yday, ev
    spring, fall = found[SPRING], found[FALL]
    both = set(spring) & set(fall)
    # south of the equator spring comes late in the year: most years say which way round it is
    late = sum(spring[y][0] > fall[y][0] for y in both) * 2 > len(both)
    odd = sorted(y for y in both if (spring[y][0] > fall[y][0]) != late)
    return Frosts(
        {y: v for y, v in spring.items() if y not in odd},
        {y: v for y, v in fall.items() if y not in odd},
        tuple(odd),
    )
