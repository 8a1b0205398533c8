"""Three calendar years of the household, day by day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Any

from seed_demo.garden import Garden
from seed_demo.home import Home
from seed_demo.household import RECIPES, SETTINGS
from seed_demo.items import ITEMS
from seed_demo.kitchen import Kitchen
from seed_demo.meals import Meals
from seed_demo.mess import Mess
from seed_demo.shopping import Shopping
from seed_demo.winter import Winter

__all__ = ["YEARS", "live", "window"]

YEARS = 3


def window(until: dt.date) -> tuple[dt.date, dt.date]:
    """Return the first and the last day of the three years that end the day before `until`."""
    try:
        start = until.replace(year=until.year - YEARS)
    except ValueError:  # 29 February
        start = until.replace(year=until.year - YEARS, day=28)
    return start, until - dt.timedelta(days=1)


def live(until: dt.date, seed: int) -> Iterator[dict[str, Any]]:
    """Yield the events of the three years in the order in which they were written down."""
    start, end = window(until)
    home = Home(seed, start, end)
    _begin(home)
    garden, kitchen, meals = Garden(home), Kitchen(home), Meals(home)
    shopping, mess = Shopping(home), Mess(home)
    mess.opening()
    mess.targets()
    shopping.first_day()
    home.in_days(430, kitchen.broken)
    while home.day <= end:
        home.due()
        garden.today()
        shopping.today()
        kitchen.today()
        meals.today()
        mess.today()
        home.day += dt.timedelta(days=1)
    mess.slips()
    mess.gauges()
    mess.looked_up()
    Winter(home).told()
    yield from home.pen.events()


def _begin(home: Home) -> None:
    """Write down what is set, what things are, and what is cooked by."""
    for name, value in SETTINGS.items():
        home.write("setting_changed", {"name": name, "value": value}, by="Marek", hour=5)
    for item, body in ITEMS.items():
        home.write("item_described", {"item": item, **body}, by="Marek", hour=6)
    for recipe in RECIPES:
        home.write("recipe_written", recipe, by="Oda", hour=7)
