"""The yard: how many hens there are on each day, what they laid, and what was bought for them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.methods.flock import USUAL_LB
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LB_G", "Bought", "Yard"]

LB_G = 453.59237
"""Grams in a pound (NIST SP 811)."""


@dataclass(frozen=True)
class Bought:
    """One purchase of feed or bedding: day, event, pounds (0: bedding), money."""

    day: int
    ev: int
    lb: float
    money: float


class Yard:
    """Hens, eggs and feed of a state."""

    def __init__(self, state: State) -> None:
        self.state = state
        self.flocks: dict[str, list[tuple[int, float, int]]] = {}
        names = set()
        for ev, body in state.bodies("flock_counted"):
            flock = (body.get("flock") or "").casefold()
            self.flocks.setdefault(flock, []).append(
                (int(state.moment.on[ev]), float(body["hens"]), ev)
            )
            names.add(body.get("lays") or "egg")
        for several in self.flocks.values():
            several.sort(key=lambda one: one[0])
        self.items = {i for name in names or {"egg"} if (i := state.facts.find(name)) is not None}
        self.eggs = self._eggs()
        self.bought = self._bought()

    def _eggs(self) -> list[tuple[int, int, float]]:
        """Return (day, event, eggs) of what was collected."""
        lots = self.state.lots
        rows = np.flatnonzero(
            (lots["origin"] == ORIGINS.index("grown")) & np.isin(lots["item"], sorted(self.items))
        )
        counts = [
            i for i in rows.tolist() if self.state.facts.measure[int(lots["item"][i])] == "count"
        ]
        return [
            (int(lots["day"][i]), int(lots["ev"][i]), float(lots["whole"][i]) / 1000)
            for i in counts
        ]

    def _bought(self) -> list[Bought]:
        state, out = self.state, []
        eggs = {state.facts.keys[i] for i in self.items}
        for ev in state.events("bought").tolist():
            for line in state.body(ev)["lines"]:
                item = state.facts.find(line["item"])
                feeds = None if item is None else state.facts.facts[item].feeds
                if item is None or feeds is None or state.facts.canonical(_key(feeds)) not in eggs:
                    continue
                is_feed = state.facts.measure[item] == "mass"
                grams = (state.facts.grams_per_whole(item) or 0.0) * float(line.get("whole") or 0)
                lb = grams / LB_G if is_feed else 0.0
                out.append(Bought(int(state.moment.on[ev]), ev, lb, float(line["paid"])))
        return out

    def hens_on(self, day: int) -> float:
        """Return how many hens there are on a day."""
        return sum(
            next((n for on, n, _ in reversed(several) if on <= day), 0.0)
            for several in self.flocks.values()
        )

    def hen_days(self, start: int, end: int) -> float:
        """Return hens summed over the days, both included."""
        marks = sorted(
            {
                start,
                *(
                    on
                    for several in self.flocks.values()
                    for on, _, _ in several
                    if start < on <= end
                ),
            }
        )
        return sum(
            self.hens_on(day) * (until - day)
            for day, until in zip(marks, [*marks[1:], end + 1], strict=True)
        )

    @property
    def since(self) -> int | None:
        """The day since which there is a flock."""
        return min((several[0][0] for several in self.flocks.values()), default=None)

    @property
    def feed(self) -> list[Bought]:
        """Purchases of feed."""
        return [one for one in self.bought if one.lb > 0]

    def rate(self) -> tuple[float, bool]:
        """Return pounds a hen and day, and whether that is the usual figure from memory.

        Own: what was bought from the first to before the last purchase, by the hen-days between.
        """
        feed = self.feed
        if len(feed) >= 3 and self.since is not None:
            first, last = max(feed[0].day, self.since), feed[-1].day
            eaten = sum(one.lb for one in feed if first <= one.day < last)
            days = self.hen_days(first, last - 1) if last > first else 0.0
            if eaten > 0 and days > 0:
                return eaten / days, False
        return USUAL_LB, True

    def on_hand(self) -> float | None:
        """Return the pounds of the last purchase that should be left by the rate."""
        if not self.feed:
            return None
        last = self.feed[-1].day
        same = sum(one.lb for one in self.feed if one.day == last)
        eaten = self.hen_days(last, self.state.as_of_day - 1) * self.rate()[0]
        return max(same - eaten, 0.0)


def _key(name: str) -> str:
    from ledger.items import item_key

    return item_key(name)
