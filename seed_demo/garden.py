"""The garden and the hens: what is set out, what is spent on it, what is picked each week.

Yields are those of the published table in pounds for 100 feet of row (University of Kentucky
ID-128, planting table), with the luck of each season; the trees' and the strawberries' are common
practice, no source. Potatoes: the same table's upper row, 100 ft a person; dry beans: its row of
soybeans stands for them. A hen lays five or six eggs a week in summer and eats a quarter of a pound
of feed a day (common practice, no source).
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass

from seed_demo.home import Home
from seed_demo.household import CHILDREN, ELDERS, PARENTS, SHOPS
from seed_demo.items import place_of
from seed_demo.pantry import say

__all__ = ["CROPS", "Crop", "Garden"]


@dataclass(frozen=True)
class Crop:
    """A crop: its rows, the published yield of them, and when it is set out and picked."""

    item: str
    variety: str
    row_ft: int
    lb_per_100_ft: float
    plants: int
    width_ft: float
    how: str
    put_out: tuple[int, int]
    first: tuple[int, int]
    weeks: int
    minutes: int = 60

    @property
    def pounds(self) -> float:
        """What the rows give in a middling year."""
        return self.row_ft * self.lb_per_100_ft / 100


CROPS = (
    Crop("tomato", "Ember Plum", 190, 100, 95, 3, "set out", (5, 24), (7, 28), 10, 150),
    Crop("green bean", "Long Meadow", 80, 120, 240, 2, "sown", (5, 22), (7, 14), 8),
    Crop("cucumber", "Crisp Lane", 40, 120, 40, 3, "sown", (5, 28), (7, 18), 7),
    Crop("cabbage", "Winter Drum", 50, 150, 33, 2, "set out", (5, 2), (9, 20), 3),
    Crop("pepper", "Lantern", 45, 60, 30, 2, "set out", (6, 2), (8, 4), 9),
    Crop("onion", "Brown Keeper", 70, 100, 210, 1, "set out", (4, 12), (8, 10), 2),
    Crop("potato", "Blue Hill", 600, 100, 600, 2, "sown", (4, 20), (8, 26), 4, 240),
    Crop("garlic", "Hollow Red", 15, 40, 45, 1, "sown", (10, 12), (7, 8), 1),
    Crop("carrot", "Short Sweet", 60, 100, 700, 1, "sown", (4, 24), (8, 20), 6),
    Crop("summer squash", "Yellow Bell", 20, 150, 7, 4, "sown", (5, 26), (7, 10), 8),
    Crop("chard", "Red Rib", 20, 75, 20, 1.5, "sown", (4, 18), (6, 8), 9),
    Crop("dry bean", "Barn Red", 300, 20, 900, 1.5, "sown", (5, 28), (9, 14), 3),
)
_TREES = (
    # item, variety, bed, pounds, first day, weeks
    ("strawberry", "June Gift", "strawberry bed", 26, (6, 8), 4),
    ("plum", "Opal Lane", "orchard", 72, (8, 18), 4),
    ("apple", "Keeping Russet", "orchard", 130, (9, 8), 6),
)
_BEDS = ("south bed", "long bed", "fence bed", "well bed")
_HENS = 18
_PECK_OZ = 160
"""A peck of apples, a quarter of a bushel of 40 lb (Georgia's marketing weight, B6)."""
_TRIM = {"cabbage": 0.08, "carrot": 0.1, "tomato": 0.03, "apple": 0.04}


class Garden:
    """What grows, season by season."""

    def __init__(self, home: Home) -> None:
        self.home = home
        self._luck: dict[tuple[str, int], float] = {}
        self._is_fenced = False

    def luck(self, item: str, year: int) -> float:
        """Return a season's yield against a middling one; one crop has one bad season."""
        if (item, year) not in self._luck:
            luck = self.home.rng.uniform(0.86, 1.16)
            bad = item == "tomato" and year == self.home.bad_year
            self._luck[item, year] = 0.42 if bad else luck
        return self._luck[item, year]

    def bed(self, number: int, year: int) -> str:
        """Return where a crop stands: it moves on by one bed a year."""
        return _BEDS[(number + year) % len(_BEDS)]

    def today(self) -> None:
        """Do what the day asks for."""
        home = self.home
        for number, crop in enumerate(CROPS):
            if (home.day.month, home.day.day) == crop.put_out:
                self._plant(number, crop)
            self._pick(crop.item, crop.variety, crop.pounds, crop.first, crop.weeks, number)
        for item, variety, bed, pounds, first, weeks in _TREES:
            self._pick(item, variety, pounds, first, weeks, bed)
        starts_late = home.day == home.start and home.season((4, 7), (9, 30))
        if (home.day.month, home.day.day) == (4, 6) or starts_late:
            self._spring_shopping()  # a book begun in summer takes in what that garden cost
        if home.day.weekday() == 6:
            self._eggs()

    def _plant(self, number: int, crop: Crop) -> None:
        home = self.home
        body = {
            "crop": crop.item,
            "variety": crop.variety,
            "bed": self.bed(number, home.day.year + (crop.put_out > crop.first)),
            "plants": crop.plants + home.rng.randint(-2, 2),
            "area": f"{crop.row_ft * crop.width_ft:g} sq ft",
            "row": f"{crop.row_ft} ft",
            "how": crop.how,
            "work": home.work(
                crop.minutes, (home.someone(PARENTS), home.someone(ELDERS + CHILDREN))
            ),
        }
        if crop.item == "garlic" and home.pantry.has("garlic") >= 24:
            body["seed"] = home.line("garlic", 8)
        home.write("planted", body, by=home.someone(PARENTS), late=home.late())

    def _pick(
        self,
        item: str,
        variety: str,
        pounds: float,
        first: tuple[int, int],
        weeks: int,
        where: int | str,
    ) -> None:
        home = self.home
        opens = dt.date(home.day.year, *first)
        week, rest = divmod((home.day - opens).days, 7)
        if rest or not 0 <= week < weeks:
            return
        shape = [math.sin(math.pi * (n + 0.7) / (weeks + 0.4)) for n in range(weeks)]
        part = pounds * shape[week] / sum(shape) * self.luck(item, home.day.year)
        if item == "tomato" and home.day.year == home.bad_year and week >= 5:
            part *= 0.5  # the blight takes the late ones
        amount = max(8, round(part * home.rng.uniform(0.9, 1.1) * 16))
        pecks = round(amount / _PECK_OZ) if item == "apple" and amount > 1.5 * _PECK_OZ else 0
        amount = pecks * _PECK_OZ or amount
        bed = where if isinstance(where, str) else self.bed(where, home.day.year)
        line = {
            "item": item,
            "amount": f"{pecks} peck" if pecks else say(item, amount),
            "variety": variety,
            "bed": bed,
            "kept": place_of(item),
        }
        trimmed = round(amount * _TRIM.get(item, 0) * home.rng.uniform(0.3, 1.4))
        if trimmed >= 4:
            line["trimmed"] = say(item, trimmed)
            amount -= trimmed
        else:
            trimmed = 0
        home.pantry.put(item, amount, home.day, trimmed)
        who = (home.someone(), home.someone(ELDERS + CHILDREN))
        body = {"lines": [line], "work": home.work(20 + round(part), tuple(dict.fromkeys(who)))}
        home.write("harvested", body, by=home.someone(), late=home.late(0.06))

    def _eggs(self) -> None:
        home = self.home
        light = 0.62 - 0.3 * math.cos(2 * math.pi * (home.day.timetuple().tm_yday + 10) / 365)
        eggs = sum(home.rng.random() < light for _ in range(_HENS * 7))
        if eggs:
            home.pantry.put("egg", eggs, home.day)
            home.write(
                "harvested",
                {
                    "lines": [
                        {"item": "egg", "amount": str(eggs), "bed": "hen house", "kept": "fridge"}
                    ]
                },
                by=home.someone(CHILDREN),
                late=home.late(0.12),
            )
        if home.day.isocalendar().week % 2 == 0:
            lines = [
                {"item": "layer feed", "amount": "50 lb", "paid": home.paid("layer feed", 800)}
            ]
            if home.rng.random() < 0.3:
                lines.append(
                    {"item": "straw bale", "amount": "2", "paid": home.paid("straw bale", 2)}
                )
            home.write("bought", {"shop": SHOPS[2], "lines": lines}, by="Tam", late=home.late())

    def _spring_shopping(self) -> None:
        home = self.home
        lines = [
            {
                "item": "tomato food",
                "amount": "10 lb",
                "paid": home.paid("tomato food", 160),
                "for_crop": "tomato",
            },
            {"item": "compost", "amount": "320 lb", "paid": home.paid("compost", 5120)},
            {
                "item": "seed potato",
                "amount": "60 lb",
                "paid": home.paid("seed potato", 960),
                "for_crop": "potato",
            },
        ]
        seeds = [crop.item for crop in CROPS if crop.item not in ("potato", "garlic")]
        lines += [
            {
                "item": "garden seed",
                "amount": "1",
                "paid": home.paid("garden seed", 1),
                "for_crop": crop,
            }
            for crop in seeds
        ]
        if not self._is_fenced:
            self._is_fenced = True
            lines += [
                {"item": "tomato stakes", "amount": "40", "paid": home.paid("tomato stakes", 40),
                 "for_crop": "tomato", "years": "5"},
                {"item": "bean netting", "amount": "1", "paid": home.paid("bean netting", 1), "for_crop": "green bean"},
            ]  # fmt: skip
        home.write("bought", {"shop": SHOPS[2], "lines": lines}, by="Ilse")
