"""What the winter's questions rest on: who eats, frosts, hens, seed, and the freezer's meter."""

from __future__ import annotations

import datetime as dt

from seed_demo.home import Home

__all__ = ["SETTINGS", "Winter"]

SETTINGS = {"helper_wage": "15.00", "freezer_room": "15 cu ft"}

_BORN = {
    "Oda": ("female", "1954-03-11", "light"),
    "Tam": ("male", "1952-10-02", "light"),
    "Ilse": ("female", "1984-06-19", "moderate"),
    "Marek": ("male", "1981-01-27", "hard"),
    "Juno": ("female", "2012-08-05", "moderate"),
    "Pip": ("male", "2016-12-14", "moderate"),
}
_SPRING = (18, 9, 21, 2, 12, 16, 7, 24, 11, 14)
"""Days of May of the last spring frosts in ten years, the oldest first."""
_FALL = (28, 35, 24, 38, 31, 27, 40, 30, 33, 26)
"""Days from 1 September of the first frosts of fall, in the same years."""
_HENS = 18
_TESTS = {"carrot": 13, "onion": 15, "tomato": 18, "green bean": 17, "cabbage": 16, "chard": 15}
"""How many of twenty sprouted in February."""
_PACKETS = {"tomato": 78, "green bean": 58, "cucumber": 55, "cabbage": 88, "carrot": 72}
"""Days to the harvest by the packets."""
_KWH = (26, 25, 27, 28, 30, 33, 36, 36, 33, 30, 27, 26)
"""What the chest freezer takes by month."""


class Winter:
    """Writes these things down as the household learns them.

    They come last, so that they change nothing of what chance decides elsewhere.
    """

    def __init__(self, home: Home) -> None:
        self.home = home
        self._meter = 118.0

    def told(self) -> None:
        """Write down all three years of it."""
        home = self.home
        self._first_day(home.start)
        day = home.start
        while day <= home.end:
            self._on(day)
            day += dt.timedelta(days=1)

    def _first_day(self, day: dt.date) -> None:
        """Write down who eats, the frosts of earlier years, and the hens."""
        pen = self.home.pen
        for person, (sex, born, activity) in _BORN.items():
            body = {"person": person, "sex": sex, "born": born, "activity": activity}
            pen.add("person_described", day, body, by="Ilse", hour=8)
        for back, (may, september) in enumerate(zip(_SPRING, _FALL, strict=True)):
            year = day.year - len(_SPRING) + back
            self._frost("last of spring", dt.date(year, 5, may), day)
            self._frost("first of fall", _fall(year, september), day)
        pen.add("flock_counted", day, {"hens": _HENS, "flock": "barn hens"}, by="Juno", hour=8)
        for name, value in SETTINGS.items():
            pen.add("setting_changed", day, {"name": name, "value": value}, by="Marek", hour=8)

    def _on(self, day: dt.date) -> None:
        """Write down what a day brings."""
        pen, number = self.home.pen, day.year % len(_SPRING)
        if day == dt.date(day.year, 5, _SPRING[number]):
            self._frost("last of spring", day, day)
        if day == _fall(day.year, _FALL[number]):
            self._frost("first of fall", day, day)
        if day.day == 1:
            self._meter += _KWH[day.month - 2] if day > self.home.start else 0.0
            body = {"meter": "freezer", "reads": f"{self._meter:g} kWh"}
            pen.add("meter_read", day, body, by="Marek")
        if (day.month, day.day) == (2, 20):
            for crop, sprouted in _TESTS.items():
                test = {"crop": crop, "year": day.year - 1, "sown": 20, "sprouted": sprouted}
                test |= {"days": _PACKETS[crop]} if crop in _PACKETS else {}
                pen.add("seed_checked", day, test, by="Oda")
        if (day.month, day.day) == (11, 8):
            for crop, seeds in (("carrot", 450), ("tomato", 60), ("green bean", 120)):
                left = {"crop": crop, "seeds": seeds, "year": day.year, "days": _PACKETS[crop]}
                pen.add("seed_checked", day, left, by="Oda")

    def _frost(self, frost: str, seen: dt.date, day: dt.date) -> None:
        body = {"frost": frost, "seen": seen.isoformat()}
        self.home.pen.add("frost_seen", day, body, by="Tam", hour=8)


def _fall(year: int, days: int) -> dt.date:
    return dt.date(year, 9, 1) + dt.timedelta(days=days - 1)
