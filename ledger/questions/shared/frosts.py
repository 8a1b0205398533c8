"""The household's own frost days, year by year, at the risk that was chosen."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ledger.messages import measured, sentence
from ledger.methods.frost import FrostDay, frost_day
from ledger.projections.base import Node
from ledger.questions.shared.common import event_node

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

    def node(self, state: State, risk: float, *, spring: bool) -> Node:
        """Return the day of the year at a risk, with the frosts seen beneath."""
        found, years = self.at(risk, spring=spring), self.spring if spring else self.fall
        label = sentence("why-frost-spring" if spring else "why-frost-fall")
        if found is None:
            return Node(label, None, "day of the year")
        leaves = [
            event_node(state, ev, str(year), float(day), "day of the year")
            for year, (day, ev) in sorted(years.items())
        ]
        if found.how != "share of years":
            how = "highest" if spring else "lowest"
            seen = sentence("why-frost-latest" if spring else "why-frost-earliest")
            return Node(seen, found.day, "day of the year", how, leaves)
        count = Node(sentence("why-frost-years"), float(len(leaves)), "years")
        middle = Node(
            sentence("why-frost-mean"),
            found.mean,
            "day of the year",
            "quotient",
            [
                Node(
                    sentence("why-sum"),
                    sum(float(leaf.value or 0) for leaf in leaves),
                    "days",
                    "sum",
                    leaves,
                ),
                count,
            ],
        )
        more = Node(
            sentence(
                "why-frost-spread",
                share=measured(f"{1 - risk:g}"),
                days=measured(f"{found.spread or 0:.2f}"),
            ),
            abs(found.day - found.mean),
            "days",
        )
        how = "sum" if found.day >= found.mean else "difference"
        return Node(
            sentence("why-frost-passed", frost=label, n=round(risk * 100)),
            found.day,
            "day of the year",
            how,
            [middle, more],
        )


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
