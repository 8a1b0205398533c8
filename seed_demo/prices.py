"""What the invented shops ask: published averages as a base, with each shop's ups and downs.

`PUBLISHED` holds US city averages of July (the month of the table that every year has), US dollars,
2022 to 2026, of the Bureau of Labor Statistics' average price data, by series id. Between them the
price runs straight; beyond them it goes on by three per cent a year. Prices of jars, lids, garden
supplies and of ready-made jars are the demo's own invention.
"""

from __future__ import annotations

import datetime as dt
import random

__all__ = ["INVENTED", "PUBLISHED", "price_of"]

_FIRST, _BEYOND = 2022, 0.03

PUBLISHED = {
    # item: (series, what it is for in the pantry's units, July of 2022 to 2026)
    "flour": ("APU0000701111", 16, (0.533, 0.564, 0.574, 0.557, 0.543)),
    "sugar": ("APU0000715211", 16, (0.791, 0.932, 1.004, 1.046, 1.024)),
    "rice": ("APU0000701312", 16, (0.929, 1.006, 1.039, 1.068, 1.100)),
    "dry pasta": ("APU0000701322", 16, (1.349, 1.420, 1.432, 1.306, 1.381)),
    "butter": ("APU0000FS1101", 16, (4.552, 4.465, 4.897, 4.797, 3.922)),
    "cheddar cheese": ("APU0000710212", 16, (5.855, 5.911, 5.599, 6.041, 5.741)),
    "milk": ("APU0000709112", 256, (4.156, 3.971, 3.983, 4.162, 4.313)),
    "chicken": ("APU0000706111", 16, (1.880, 1.891, 1.988, 2.078, 2.005)),
    "ground beef": ("APU0000703112", 16, (4.893, 5.102, 5.497, 6.254, 6.885)),
    "potato": ("APU0000712112", 16, (0.945, 1.051, 1.017, 0.978, 0.942)),
    "egg": ("APU0000708111", 12, (2.936, 2.094, 3.080, 3.599, 2.189)),
    "tomato": ("APU0000712311", 16, (1.842, 1.896, 1.945, 1.793, 2.003)),
    "strawberry": ("APU0000711415", 12, (2.208, 2.421, 2.166, 2.221, 2.404)),
    "dry bean": ("APU0000714233", 16, (1.673, 1.721, 1.713, 1.649, 1.689)),
    "coffee": ("APU0000717311", 16, (6.112, 6.141, 6.307, 8.414, 9.317)),
    "bread": ("APU0000702111", 16, (1.715, 1.980, 1.975, 1.851, 1.820)),
    "store bread": ("APU0000702111", 16, (1.715, 1.980, 1.975, 1.851, 1.820)),
}

INVENTED = {
    # item: (price in July 2023, rise a year, what it is for in the pantry's units)
    "store tomato sauce": (2.79, 0.05, 24), "store plum spread": (4.60, 0.04, 18),
    "store canned plums": (2.30, 0.04, 15), "store pickles": (3.60, 0.05, 24), "store apple sauce": (3.20, 0.04, 46),
    "store strawberry jam": (3.50, 0.05, 18), "store canned beans": (1.09, 0.06, 14.5),
    "store stock": (2.30, 0.04, 32), "store sauerkraut": (3.10, 0.03, 24),
    "blackberry": (4.40, 0.03, 6), "mushroom": (2.60, 0.03, 8), "bottled lemon juice": (3.90, 0.04, 64),
    "freezer bag": (0.15, 0.03, 1), "bottled gas": (21.50, 0.02, 1),
    "store dried apple": (6.80, 0.03, 16), "store soup": (3.60, 0.05, 64),
    "plum": (2.30, 0.03, 16), "apple": (1.70, 0.04, 16), "green bean": (2.20, 0.03, 16),
    "cucumber": (1.60, 0.03, 16), "cabbage": (0.80, 0.03, 16), "pepper": (2.10, 0.03, 16),
    "onion": (1.10, 0.04, 16), "garlic": (3.80, 0.03, 16), "carrot": (0.95, 0.03, 16),
    "summer squash": (1.60, 0.03, 16), "chard": (2.60, 0.03, 16), "oats": (1.45, 0.04, 16),
    "olive oil": (9.80, 0.07, 68), "salt": (0.70, 0.02, 16), "vinegar": (3.40, 0.03, 256),
    "honey": (7.00, 0.03, 16), "pectin": (2.40, 0.06, 1), "cinnamon": (1.60, 0.02, 1),
    "quart jar": (1.30, 0.04, 1), "pint jar": (1.15, 0.04, 1), "half-pint jar": (1.05, 0.04, 1),
    "lid": (0.27, 0.06, 1), "layer feed": (17.50, 0.04, 800), "straw bale": (6.50, 0.04, 1),
    "compost": (6.00, 0.03, 640), "tomato food": (9.50, 0.05, 80), "garden seed": (3.20, 0.04, 1),
    "seed potato": (1.40, 0.05, 16), "tomato stakes": (1.10, 0.02, 1), "bean netting": (14.00, 0.02, 1),
}  # fmt: skip


def price_of(item: str, amount: float, day: dt.date, rng: random.Random) -> str:
    """Return what `amount` of an item costs on a day, to the cent.

    Parameters
    ----------
    amount : float
        In the pantry's units: ounces, tablespoons or pieces.
    rng : random.Random
        The shop's own ups and downs, a few per cent.
    """
    if item in PUBLISHED:
        _, unit, years = PUBLISHED[item]
        at = day.year + (day.timetuple().tm_yday - 196) / 365.25 - _FIRST
        if at <= 0 or at >= len(years) - 1:
            edge = 0 if at <= 0 else len(years) - 1
            price = years[edge] * (1 + _BEYOND) ** (at - edge)
        else:
            low = int(at)
            price = years[low] + (years[low + 1] - years[low]) * (at - low)
    else:
        first, rise, unit = INVENTED[item]
        price = first * (1 + rise) ** ((day - dt.date(2023, 7, 15)).days / 365.25)
    return f"{price / unit * amount * rng.uniform(0.96, 1.05):.2f}"
