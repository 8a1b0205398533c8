"""What is bought: the first big shop, what is topped up each Saturday, prices seen in passing."""

from __future__ import annotations

import datetime as dt
from typing import Any

from seed_demo.home import Home
from seed_demo.household import SHOPS
from seed_demo.items import ITEMS
from seed_demo.pantry import GALLON, QUART, say
from seed_demo.prices import INVENTED, PUBLISHED

__all__ = ["Shopping"]

LB = 16
STAPLES: list[tuple[str, int, int, str | None]] = [
    # item, bought until this is there (a week's eating and some), package in the pantry's units, as it is typed
    ("flour", 22 * LB, 25 * LB, None), ("sugar", 8 * LB, 10 * LB, None), ("salt", LB, 3 * LB, None),
    ("vinegar", 2 * QUART, GALLON, "1 gal"), ("rice", 9 * LB, 10 * LB, None),
    ("dry pasta", 7 * LB, 6 * LB, None), ("oats", 8 * LB, 5 * LB, None),
    ("dry bean", 3 * LB, 4 * LB, None), ("butter", 4 * LB, 2 * LB, None),
    ("cheddar cheese", 5 * LB, 2 * LB, None), ("milk", 3 * GALLON, GALLON, "1 gal"),
    ("chicken", 11 * LB, 5 * LB, None), ("ground beef", 5 * LB, 3 * LB, None),
    ("potato", 12 * LB, 10 * LB, None), ("onion", 3 * LB, 5 * LB, None), ("carrot", 4 * LB, 3 * LB, None),
    ("cabbage", 4 * LB, 4 * LB, None), ("olive oil", 84, 67, "1 l"), ("honey", LB, 2 * LB, None),
    ("bread", 9 * LB, 40, None), ("coffee", LB, 24, None), ("pectin", 2, 3, None),
]  # fmt: skip
_SEEN = [
    "store tomato sauce", "store plum spread", "store canned plums", "store pickles", "store apple sauce",
    "store strawberry jam", "store canned beans", "store stock", "store sauerkraut",
    "store dried apple", "store soup", "store bread", "egg", "tomato", "plum", "apple", "strawberry",
    "green bean", "cucumber", "cabbage", "pepper", "garlic", "summer squash", "chard",
    "blackberry", "mushroom",
]  # fmt: skip


class Shopping:
    """Buys what runs low."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self._next = 0
        self._noted = home.start + dt.timedelta(days=17)  # from when coffee is written down, too

    def first_day(self) -> None:
        """Buy the canner, the jars and the first stores; look at what the shop asks for the rest."""
        home = self.home
        kit = [
            ("pressure canner", "1", "138.00", {"years": "20"}), ("water-bath kettle", "1", "42.50", {"years": "20"}),
            ("drier", "1", "89.00", {"years": "10"}), ("quart jar", "60", "72.00", {"years": "10"}),
            ("pint jar", "84", "90.50", {"years": "10"}), ("half-pint jar", "60", "58.20", {"years": "10"}),
            ("lid", "144", "37.40", {}),
        ]  # fmt: skip
        lines = [
            {"item": item, "amount": amount, "paid": paid, **more}
            for item, amount, paid, more in kit
        ]
        home.write("bought", {"shop": SHOPS[0], "lines": lines}, by="Oda", at="10:00", hour=18)
        home.jars_free = {"quart jar": 60, "pint jar": 84, "half-pint jar": 60}
        home.lids = 144
        stores = self._staples()
        home.write("bought", {"shop": SHOPS[0], "lines": stores}, by="Ilse", at="10:30", hour=19)
        for item in _SEEN:
            self._look(item)

    def today(self) -> None:
        """Shop on Saturdays; look at a price or two on the way."""
        home = self.home
        if home.day.weekday() != 5:
            return
        lines = self._staples()
        if home.pantry.has("tomato sauce") < QUART and home.pantry.has("store tomato sauce") < 24:
            lines.append(home.buy("store tomato sauce", 48))
        if lines:
            shop = SHOPS[0] if home.rng.random() < 0.85 else SHOPS[1]
            home.write("bought", {"shop": shop, "lines": lines}, by=home.someone(("Ilse", "Marek", "Oda")),
                       late=home.late(0.15))  # fmt: skip
        if home.day.isocalendar().week % 2 == 0:
            self._look(_SEEN[self._next % len(_SEEN)])
            self._next += 1
        if home.day.isocalendar().week % 13 == 5:
            self._look("store tomato sauce")

    def _staples(self) -> list[dict[str, Any]]:
        """Return a line of as many packages of each staple as the coming week may need."""
        home, lines = self.home, []
        for item, wanted, package, words in STAPLES:
            short = wanted - home.pantry.has(item)
            if short > 0 and (item != "coffee" or home.day >= self._noted):
                packs = -(-short // package)
                spoken = words and f"{packs} {words.split()[1]}"
                lines.append(home.buy(item, packs * package, spoken))
        return lines

    def _look(self, item: str) -> None:
        home = self.home
        unit = PUBLISHED[item][1] if item in PUBLISHED else INVENTED[item][2]
        volume = ITEMS[item]["measure"] == "volume"
        amount = say(item, int(unit)) if volume or unit == int(unit) else f"{unit:g} oz"
        body = {"item": item, "amount": amount, "price": home.paid(item, unit), "shop": SHOPS[0]}
        home.write("price_seen", body, by="Oda")
