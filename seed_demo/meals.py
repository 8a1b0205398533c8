"""What is eaten: one entry a day for all its meals; suppers with guests or a rest on their own."""

from __future__ import annotations

from typing import Any

from seed_demo import dishes as book
from seed_demo.dishes import AWAITED, JARRED, LEFT, Dish, Line
from seed_demo.home import Home
from seed_demo.pantry import JARS, jars_of, say

__all__ = ["Meals"]

Body = dict[str, Any]


class Meals:
    """Cooks from what is there."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self._last: list[str] = []

    def today(self) -> None:
        """Write down what was eaten today, in one entry where nothing set a meal apart."""
        home = self.home
        if home.day == home.end or home.rng.random() < 0.03:
            return  # the last day is not written down yet, and now and then one is forgotten
        away = home.rng.choice((0, 0, 0, 0, 0, 1, 2))
        guests = home.rng.choice((1, 2, 2, 3, 4)) if home.rng.random() < 0.07 else 0
        supper = (
            None if home.fresh else self._choose(book.SUPPERS, 6 + guests if guests else 6 - away)
        )
        if supper and (guests or (supper[0] in LEFT and home.rng.random() < 0.5)):
            self._supper(supper, 6 + guests if guests else 6 - away, guests)
            supper = None
        self._day(6 - away, supper)

    def _day(self, heads: int, supper: Dish | None) -> None:
        """Write the day's meals down as one sum."""
        home, names, sums = self.home, [], dict[str, int]()
        rests = self._leftovers()
        dishes = [
            self._choose(book.BREAKFASTS, heads),
            None if rests else self._choose(book.NOONS, heads),
        ]
        for dish in (*dishes, supper):
            if dish:
                names.append(dish[0])
                self._add(sums, dish[2], heads)
        extra = (
            book.TABLE + (book.BAKED if home.day.toordinal() % 2 else ()) + tuple(self._sides(sums))
        )
        self._add(sums, extra, heads)
        lines = rests + [self._serve(item, amount, 0) for item, amount in sums.items()]
        names += [f"rest of the {line['item']}" for line in rests]
        if home.fresh and supper is None:
            lines += self._fresh(names)
        if home.day.weekday() == 0 and home.pantry.has("coffee") >= 10:
            lines.append(home.line("coffee", 10))  # the week's
        body: Body = {"ate": lines, "people": heads}
        if names:
            body["dish"] = ", ".join(names)
        self._write(body, "19:30")

    def _supper(self, dish: Dish, heads: int, guests: int) -> None:
        """Write a supper down on its own: guests eat their part of it, or some of it is kept."""
        home, sums = self.home, dict[str, int]()
        self._add(sums, dish[2], heads)
        ate = [self._serve(item, amount, guests) for item, amount in sums.items()]
        body: Body = {"ate": ate, "dish": dish[0], "people": heads}
        if guests:
            body["guests"] = guests
        if dish[0] in LEFT and home.rng.random() < (0.35 if guests else 1):
            item, amount = LEFT[dish[0]]
            rest = {"item": item, "amount": say(item, amount), "kept": "fridge", "share": "0.25"}
            body["left"] = [rest]
            home.pantry.put(item, amount, home.day)
        self._write(body, "18:30")

    def _write(self, body: Body, at: str) -> None:
        home = self.home
        if home.rng.random() < 0.2:
            body["liked"] = home.rng.choice((2, 3, 4, 4, 5, 5))
        home.write("eaten", body, by=home.someone(), at=at, late=home.late(0.13))

    def _choose(self, dishes: list[Dish], heads: int) -> Dish | None:
        """Return a dish that there is everything for, and that was not had these days."""
        ready = [d for d in dishes if d[0] not in self._last and self._ready(d[2], heads)]
        if not ready:
            return None
        dish = self.home.rng.choices(ready, [weight for _, weight, _ in ready])[0]
        self._last = [*self._last, dish[0]][-7:]
        return dish

    def _ready(self, lines: tuple[Line, ...], heads: int) -> bool:
        home = self.home
        kept = {"tomato": 0.95 if home.day.year == home.bad_year else 0.7}
        for item, amount in lines:
            if home.pantry.has(item) < round(amount * heads / 6) or item in home.resting:
                return False
            awaited = item in AWAITED and home.season((6, 1), (10, 15))
            if awaited and home.rng.random() < kept.get(item, 0.25):
                return False
        return True

    def _add(self, sums: dict[str, int], lines: tuple[Line, ...], heads: int) -> None:
        """Add what there is of each line to the day's sums; jars are opened whole."""
        for item, amount in lines:
            wanted = amount if item in JARRED else max(1, round(amount * heads / 6))
            there = self.home.pantry.has(item) - sums.get(item, 0)
            wanted = wanted if item not in JARRED or wanted <= there else 0
            if min(wanted, there) > 0:
                sums[item] = sums.get(item, 0) + min(wanted, there)

    def _sides(self, sums: dict[str, int]) -> list[Line]:
        """Return what stands beside the dishes: of the garden's things, those there is most of."""
        home = self.home
        waiting = home.season((6, 1), (10, 15))
        plenty = []
        for item, amount in book.SIDES:
            helpings = (home.pantry.has(item) - sums.get(item, 0)) / amount
            awaited = item in AWAITED and waiting and (helpings < 8 or item == "tomato")
            spared = awaited and home.rng.random() < 0.85
            if helpings >= 4 and not spared:
                plenty.append((helpings, item, amount))
        return [(item, amount) for _, item, amount in sorted(plenty, reverse=True)[:2]]

    def _serve(self, item: str, amount: int, guests: int) -> Body:
        home, jar = self.home, JARRED.get(item)
        if jar is None:
            return home.line(item, amount)
        count = amount // JARS[jar]
        home.jars_free[jar] = home.jars_free.get(jar, 0) + count
        line = home.line(item, amount) | {"amount": jars_of(jar, count)}
        label, filled = home.marked.get(item, (0, home.day))
        if guests and filled < home.day and item == "tomato sauce":
            del home.marked[item]  # for guests the newest jar is opened, and its label noted
            line["lot"] = str(label)
        return line

    def _fresh(self, names: list[str]) -> list[Body]:
        """Return the lines of a supper from the rest of a batch that stands in the fridge."""
        home = self.home
        rest = home.fresh[-1]
        other, amount, dish = book.WITH[rest["item"]]
        if home.pantry.has(rest["item"]) < rest["amount"]:
            home.fresh.pop()  # gone already
            return []
        if home.pantry.has(other) < amount:
            return []  # tomorrow, then
        home.fresh.pop()
        names.append(dish)
        line = home.line(rest["item"], rest["amount"]) | {"lot": rest["lot"]}
        return [home.line(other, amount), line]

    def _leftovers(self) -> list[Body]:
        """Return the rests of earlier suppers that are eaten up today, a line each."""
        home = self.home
        return [
            home.line(item, home.pantry.has(item))
            for item, _ in LEFT.values()
            if home.pantry.older(item, home.day) and home.rng.random() < 0.75
        ]
