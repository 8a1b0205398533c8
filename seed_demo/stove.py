"""The stove: how one batch is written down, and what every batch takes from store and shop."""

from __future__ import annotations

from typing import Any

from seed_demo.home import Home
from seed_demo.household import SHOPS
from seed_demo.pantry import JARS, say

__all__ = ["LB", "Stove"]

Body = dict[str, Any]
LB = 16
_FIRST = frozenset({"tomato puree", "chicken stock"})
"""What goes into another batch of the same day."""

_MOST = {
    "tomato sauce": 8, "plum butter": 1, "canned plum": 4, "dill pickle": 3, "strawberry jam": 3,
    "canned green bean": 5, "frozen green bean": 1, "apple sauce": 3, "dried apple": 1, "sauerkraut": 1,
    "frozen pepper": 1,
}  # fmt: skip
"""Batches a year after which the rest is eaten fresh or given away."""

_FETCHED = {
    "sugar": 160, "vinegar": 256, "salt": 48, "pectin": 3, "flour": 400, "bottled lemon juice": 64, "freezer bag": 60,
}  # fmt: skip
_BOTTLE_BTU = 430_000
"""A 20 lb bottle of propane (common practice, no source)."""


class Stove:
    """Writes batches down; what goes into them is for `Kitchen` to say."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self.made: dict[str, int] = {}
        self._this_year: dict[tuple[str, int], int] = {}
        self._bottled_btu = 0

    def put_up(
        self, makes: str, method: str, used: list[Body], made: list[Body], effort: int, **more: Any
    ) -> Body:
        """Write a batch down, with whoever stood at the stove; `effort` is minutes of work."""
        home = self.home
        self.made[makes] = self.made.get(makes, 0) + 1
        people = home.pair()
        body = {"makes": makes, "method": method, "used": used, "made": made}
        body |= {"work": home.work(round(effort * home.rng.uniform(0.85, 1.2)), people)}
        body |= {name: value for name, value in more.items() if value is not None}
        if home.rng.random() < 0.6 and "went" not in body:
            body["went"] = home.rng.choice((3, 4, 4, 5, 5))
        year = (makes, home.day.year)
        self._this_year[year] = self._this_year.get(year, 0) + 1
        at, hour = ("10:00", 11) if makes in _FIRST else ("16:00", 21)
        return home.write("put_up", body, by=people[0], at=at, hour=hour)

    def enough(self, makes: str) -> bool:
        """Return whether as much has been put up this year as anybody wants."""
        return self._this_year.get((makes, self.home.day.year), 0) >= _MOST[makes]

    def eat_soon(self, item: str, amount: int, batch: Body) -> None:
        """Let the rest of a batch, its second made entry, be eaten in the next days."""
        rest = {"item": item, "amount": amount, "lot": f"{batch['id']}:2"}
        self.home.resting.add(item)
        self.home.in_days(1, lambda: self._opened(rest))

    def _opened(self, rest: Body) -> None:
        self.home.resting.discard(rest["item"])
        self.home.fresh.append(rest)

    def jars(self, makes: str, jar: str, count: int, *, labelled: bool = True, **more: Any) -> Body:
        """Return a made entry of jars; dozens of jars and boxes of lids are bought as needed."""
        home = self.home
        lines = []
        if (short := count - home.jars_free.get(jar, 0)) > 0:
            new = -(-short // 12) * 12
            lines.append({"item": jar, "amount": str(new), "paid": home.paid(jar, new)})
            home.jars_free[jar] = home.jars_free.get(jar, 0) + new
        if home.lids < count:
            lines.append({"item": "lid", "amount": "36", "paid": home.paid("lid", 36)})
            home.lids += 36
        if lines:
            home.write("bought", {"shop": SHOPS[0], "lines": lines}, by="Oda", at="09:30")
        home.jars_free[jar] -= count
        home.lids -= count
        home.pantry.put(makes, count * JARS[jar], home.day)
        made: Body = {"jars": count, "jar": jar, "kept": "shelf", **more}
        if labelled:
            made["labels"] = {"from": home.label + 1, "to": home.label + count}
            home.label += count
            home.marked[makes] = (home.label, home.day)
        return made

    def fetched(self, item: str, amount: int) -> Body:
        """Return a line of a bought thing; somebody runs to the store where it is short."""
        home = self.home
        if home.pantry.has(item) < amount:
            body = {"shop": SHOPS[0], "lines": [home.buy(item, _FETCHED[item])]}
            home.write("bought", body, by=home.someone(), at="09:40")
        return home.line(item, amount)

    def rest(self, makes: str, amount: int, kept: str = "fridge") -> Body:
        """Return a made entry that is not in jars."""
        self.home.pantry.put(makes, amount, self.home.day)
        return {"amount": say(makes, amount), "kept": kept}

    def bottled(self, btu: int) -> Body:
        """Return a fuel line from the gas bottle; an empty one is changed at the feed barn."""
        home = self.home
        if self._bottled_btu < btu:
            self._bottled_btu += _BOTTLE_BTU
            paid = home.paid("bottled gas", 1)
            line = {"item": "bottled gas", "amount": f"{_BOTTLE_BTU} BTU", "paid": paid}
            home.write("bought", {"shop": SHOPS[2], "lines": [line]}, by="Tam", at="09:00")
        self._bottled_btu -= btu
        return {"item": "bottled gas", "amount": f"{btu} BTU"}

    @staticmethod
    def pressure(gas: str, psi: str | None = "12", headspace: str = "1 in") -> Body:
        """Return what a load in the pressure canner has besides minutes; None: nobody noted it."""
        more: Body = {"psi": psi, "gauge": "dial"} if psi else {}
        fuel = [{"metered": "gas", "amount": gas}]
        return more | {
            "headspace": headspace,
            "fuel": fuel,
            "equipment": ["pressure canner"],
            "loads": 1,
        }

    @staticmethod
    def kettle(fuel: Body, headspace: str, loads: int = 1) -> Body:
        """Return what a batch in the boiling-water kettle has besides minutes."""
        return {
            "headspace": headspace,
            "fuel": [fuel],
            "equipment": ["water-bath kettle"],
            "loads": loads,
        }

    @staticmethod
    def gas(amount: str) -> Body:
        """Return a fuel line from the gas meter."""
        return {"metered": "gas", "amount": amount}
