"""What is eaten: the main meal of most days, breakfasts of some, leftovers of a few.

Helpings follow the portions of the food table for six: about 4 oz of dry pasta, rice or meat a
head, a quart of sauce or a pound and a half of vegetables on the table.
"""

from __future__ import annotations

from typing import Any

from seed_demo.home import Home
from seed_demo.pantry import CUP, JARS, PINT, QUART, jars_of, say

__all__ = ["Meals"]

Line = tuple[str, int]
DISHES: list[tuple[str, int, tuple[Line, ...]]] = [
    # dish, how gladly it is made, what six people eat of it
    (
        "pasta with house sauce",
        9,
        (("dry pasta", 24), ("tomato sauce", QUART), ("cheddar cheese", 4)),
    ),
    ("egg fried rice", 4, (("rice", 24), ("egg", 9), ("onion", 8), ("olive oil", 3))),
    ("roast chicken", 5, (("chicken", 80), ("potato", 64), ("frozen green bean", 24))),
    (
        "roast chicken with beans",
        4,
        (("chicken", 80), ("potato", 64), ("canned green bean", 2 * PINT)),
    ),
    ("bean stew", 4, (("kidney bean", 24), ("tomato sauce", QUART), ("onion", 12), ("garlic", 2))),
    ("beans and rice", 3, (("kidney bean", 20), ("rice", 16), ("onion", 8), ("garlic", 2))),
    ("soup and bread", 9, (("winter soup", 3 * QUART), ("bread", 24), ("butter", 3))),
    ("potatoes and kraut", 6, (("potato", 72), ("sauerkraut", QUART), ("butter", 4))),
    ("potato pan", 3, (("potato", 72), ("egg", 6), ("onion", 8))),
    ("omelette", 4, (("egg", 12), ("cheddar cheese", 6), ("bread", 20))),
    ("cabbage and beef", 3, (("ground beef", 32), ("cabbage", 40), ("rice", 18))),
    ("summer plate", 25, (("tomato", 40), ("cucumber", 24), ("bread", 24), ("cheddar cheese", 8))),
    ("beans and potatoes", 12, (("green bean", 36), ("potato", 56), ("butter", 4))),
    ("squash gratin", 14, (("summer squash", 56), ("cheddar cheese", 8), ("olive oil", 2))),
    ("chard and eggs", 14, (("chard", 28), ("egg", 8), ("garlic", 1), ("olive oil", 2))),
    ("tomatoes and eggs", 14, (("tomato", 36), ("egg", 9), ("bread", 20))),
    ("cheese on bread", 6, (("bread", 28), ("cheddar cheese", 10), ("apple", 24))),
    ("egg bread", 7, (("bread", 26), ("egg", 10), ("milk", 32))),
    ("stuffed peppers", 9, (("pepper", 36), ("ground beef", 24), ("rice", 14))),
    (
        "pancakes and apple sauce",
        6,
        (("flour", 20), ("egg", 5), ("milk", 24), ("apple sauce", 2 * PINT)),
    ),
    (
        "bread and pickles",
        5,
        (("bread", 24), ("cheddar cheese", 10), ("dill pickle", PINT), ("egg", 6)),
    ),
    ("beef patties", 4, (("ground beef", 32), ("potato", 56), ("dill pickle", PINT))),
    ("mushroom pasta", 30, (("dry pasta", 22), ("mushroom", 14), ("butter", 4))),
    ("carrot and potato mash", 2, (("carrot", 36), ("potato", 48), ("butter", 4))),
    (
        "shop sauce on pasta",
        1,
        (("dry pasta", 24), ("store tomato sauce", 24), ("cheddar cheese", 4)),
    ),
    ("apple crumble supper", 6, (("apple", 48), ("oats", 12), ("butter", 6), ("milk", 32))),
    ("rice and peppers", 8, (("rice", 22), ("frozen pepper", 32), ("egg", 6))),
    ("plum dumplings", 10, (("plum", 40), ("flour", 18), ("butter", 4))),
]
BREAKFASTS: list[tuple[str, int, tuple[Line, ...]]] = [
    ("porridge", 6, (("oats", 14), ("milk", 48), ("honey", 3))),
    ("porridge with apple", 5, (("oats", 14), ("milk", 48), ("dried apple", 4))),
    ("bread and plum butter", 7, (("bread", 18), ("butter", 3), ("plum butter", CUP))),
    ("bread and jam", 5, (("bread", 18), ("butter", 3), ("strawberry jam", CUP))),
    ("eggs on bread", 6, (("egg", 9), ("bread", 16))),
    ("berries and oats", 12, (("strawberry", 32), ("oats", 12), ("milk", 32))),
    ("blackberry porridge", 8, (("frozen blackberry", 12), ("oats", 14), ("milk", 32))),
]
_AWAITED = frozenset({"tomato", "plum", "cucumber", "green bean", "strawberry", "apple"})
"""What is often left alone in its season, to make up a batch."""

_LEFT = {
    "bean stew": ("bean stew", QUART),
    "roast chicken": ("cold roast chicken", 20),
    "pasta with house sauce": ("sauced pasta", 24),
}
_WITH = {
    "tomato sauce": ("dry pasta", 24, "pasta with new sauce"),
    "plum butter": ("bread", 24, "new plum butter on bread"),
}
"""What the rest of a batch, in the fridge, is eaten with."""

_JARRED = {
    "tomato sauce": "quart jar", "canned green bean": "pint jar", "dill pickle": "pint jar",
    "apple sauce": "pint jar", "plum butter": "half-pint jar", "strawberry jam": "half-pint jar",
}  # fmt: skip


class Meals:
    """Cooks from what is there."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self._last: list[str] = []

    def today(self) -> None:
        """Write down today's meals."""
        home = self.home
        if home.rng.random() < 0.3:
            self._cook(BREAKFASTS, "07:30", guests=0)
        if home.day == home.end or (self._leftovers() and home.rng.random() < 0.4):
            return  # the last day's supper is not written down yet
        if home.fresh and home.rng.random() < 0.6:
            self._fresh(home.fresh.pop())
        elif home.rng.random() < 0.87:
            visitors = home.rng.choice((1, 2, 2, 3, 4)) if home.rng.random() < 0.09 else 0
            self._cook(DISHES, "18:30", visitors)

    def _ready(self, lines: tuple[Line, ...], heads: int) -> bool:
        home = self.home
        for item, amount in lines:
            spare = home.pantry.has(item) - round(amount * heads / 6)
            if spare < 0:
                return False
            if item in _AWAITED and home.season((6, 1), (10, 15)) and home.rng.random() < 0.25:
                return False
        return True

    def _cook(self, dishes: list[tuple[str, int, tuple[Line, ...]]], at: str, guests: int) -> None:
        home = self.home
        away = home.rng.choice((0, 0, 0, 0, 1, 2)) if not guests else 0
        heads = 6 - away + guests
        ready = [d for d in dishes if d[0] not in self._last and self._ready(d[2], heads)]
        if not ready:
            return
        dish, _, lines = home.rng.choices(ready, [weight for _, weight, _ in ready])[0]
        self._last = [*self._last, dish][-4:]
        body: dict[str, Any] = {
            "ate": [self._serve(*line, heads) for line in lines],
            "dish": dish,
            "people": heads,
        }
        if guests:
            body["guests"] = guests
        if dish in _LEFT and home.rng.random() < 0.35:
            item, amount = _LEFT[dish]
            body["left"] = [
                {"item": item, "amount": say(item, amount), "kept": "fridge", "share": "0.25"}
            ]
            home.pantry.put(item, amount, home.day)
        if home.rng.random() < 0.2:
            body["liked"] = home.rng.choice((2, 3, 4, 4, 5, 5))
        home.write("eaten", body, by=home.someone(), at=at, late=home.late(0.13))

    def _serve(self, item: str, amount: int, heads: int) -> dict[str, Any]:
        home, jar = self.home, _JARRED.get(item)
        if jar is None:
            return home.line(item, max(1, round(amount * heads / 6)))
        count = amount // JARS[jar]
        home.jars_free[jar] = home.jars_free.get(jar, 0) + count
        line = home.line(item, amount) | {"amount": jars_of(jar, count)}
        label, filled = home.marked.get(item, (0, home.day))
        if heads > 6 and filled < home.day and item == "tomato sauce":
            del home.marked[item]  # for guests the newest jar is opened, and its label noted
            line["lot"] = str(label)
        return line

    def _fresh(self, rest: dict[str, Any]) -> None:
        home = self.home
        other, amount, dish = _WITH[rest["item"]]
        if home.pantry.has(other) < amount or home.pantry.has(rest["item"]) < rest["amount"]:
            return
        line = home.line(rest["item"], rest["amount"]) | {"lot": rest["lot"]}
        body = {"ate": [home.line(other, amount), line], "dish": dish, "people": 6}
        home.write("eaten", body, by=home.someone(), at="18:30")

    def _leftovers(self) -> bool:
        home = self.home
        for item in ("bean stew", "cold roast chicken", "sauced pasta"):
            there = home.pantry.has(item)
            if there and home.pantry.older(item, home.day) and home.rng.random() < 0.75:
                body = {"ate": [home.line(item, there)], "dish": f"rest of the {item}", "people": 3}
                home.write("eaten", body, by=home.someone(), at="12:30", late=home.late())
                return True
        return False
