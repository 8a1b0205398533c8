"""The household at Hollow End: who they are, what is set, what they aim at, what they cook by.

Everything here is invented: no person, place, shop or product of these names is meant.
"""

from __future__ import annotations

from typing import Any

__all__ = [
    "CHILDREN", "ELDERS", "NEIGHBOURS", "NOTES", "PARENTS", "PEOPLE", "PLAIN_SAUCE", "PRACTISED", "RECIPES",
    "SETTINGS", "SHOPS", "TARGETS",
]  # fmt: skip

ELDERS, PARENTS, CHILDREN = ("Oda", "Tam"), ("Ilse", "Marek"), ("Juno", "Pip")
PEOPLE = ELDERS + PARENTS + CHILDREN
SHOPS = ("mill lane store", "saturday market", "feed barn")
NEIGHBOURS = ("the neighbours up the lane", "the beekeeper", "Marek's sister", "the school fair")

SETTINGS = {
    "altitude": "2600 ft",
    "gauge": "dial",
    "currency": "USD",
    "measures": "us",
    "time_zone": "America/Denver",
    "people": "6",
    "kcal_per_person_day": "2100",
    "season_starts": "1 January",
    "price_of_electricity": "0.164 per kWh",  # national average of July 2022 (APU000072610)
    "price_of_gas": "1.395 per therm",  # national average of July 2023 (APU000072620)
    "jars_per_load": "quart jar: 7, pint jar: 9, half-pint jar: 12",
    "labour_rate": "3.50 per hour",  # what this household reckons an evening at the stove is worth
}

RECIPES: list[dict[str, Any]] = [
    {"recipe": "house tomato sauce", "makes": "tomato sauce", "method": "pressure", "yields": "8 qt",
     "uses": [{"item": "tomato puree", "amount": "9 qt"}, {"item": "pepper", "amount": "2 lb 8 oz"},
              {"item": "onion", "amount": "2 lb"}, {"item": "salt", "amount": "2 oz"}],
     "from": "Oda's notebook", "schedule": "spaghetti_sauce_without_meat-hot-quart-dial-1",
     "steps": ["soften peppers and onions", "simmer until a quarter is gone", "fill, leaving an inch"]},
    {"recipe": "plum butter", "makes": "plum butter", "method": "boiling water", "yields": "11 half-pint jars",
     "uses": [{"item": "plum", "amount": "16 lb"}, {"item": "sugar", "amount": "3 lb"}], "from": "Tam's mother"},
    # 9 lb a load of nine pints: yields.csv, MSU_PFS_01600415
    {"recipe": "plums in light syrup", "makes": "canned plum", "method": "boiling water", "yields": "9 pint jars",
     "uses": [{"item": "plum", "amount": "9 lb"}, {"item": "sugar", "amount": "1 lb"}],
     "schedule": "plums-hot-pint-bw-1"},
    {"recipe": "strawberry jam", "makes": "strawberry jam", "method": "boiling water", "yields": "9 half-pint jars",
     "uses": [{"item": "strawberry", "amount": "2 lb"}, {"item": "sugar", "amount": "3 lb 9 oz"},
              {"item": "pectin", "amount": "1"}], "from": "Oda's notebook",
     "schedule": "jam_strawberry_powdered_pectin-hot-half_pint-bw-1"},
    {"recipe": "quick dill pickles", "makes": "dill pickle", "method": "boiling water", "yields": "8 pint jars",
     "uses": [{"item": "cucumber", "amount": "8 lb"}, {"item": "vinegar", "amount": "6 cup"},
              {"item": "salt", "amount": "8 oz"}], "schedule": "pickles_dill_quick-raw-pint-bw-1"},
    {"recipe": "apple sauce", "makes": "apple sauce", "method": "boiling water", "yields": "9 pint jars",
     "uses": [{"item": "apple", "amount": "13 lb 8 oz"}], "schedule": "applesauce-hot-pint-bw-1"},
    {"recipe": "winter soup", "makes": "winter soup", "method": "cook", "yields": "6 qt",
     "uses": [{"item": "chicken stock", "amount": "2 qt"}, {"item": "potato", "amount": "2 lb"},
              {"item": "carrot", "amount": "2 lb"}, {"item": "onion", "amount": "1 lb"},
              {"item": "cabbage", "amount": "3 lb"}], "from": "Ilse"},
    {"recipe": "sauerkraut", "makes": "sauerkraut", "method": "ferment", "yields": "9 qt",
     "uses": [{"item": "cabbage", "amount": "25 lb"}, {"item": "salt", "amount": "12 tbsp"}], "from": "Tam's mother"},
    {"recipe": "lane bread", "makes": "bread", "method": "cook", "yields": "9 lb",
     "uses": [{"item": "flour", "amount": "6 lb"}, {"item": "milk", "amount": "1 qt"},
              {"item": "sourdough starter", "amount": "9 oz"}, {"item": "salt", "amount": "2 oz"}], "from": "Marek"},
]  # fmt: skip

PLAIN_SAUCE: dict[str, Any] = {
    # 35 lb a load of seven quarts, a third cooked away; 2 tbsp lemon juice a quart: NCHFP_TOMSAUCE, UF_FCS8186
    "recipe": "plain tomato sauce", "makes": "tomato sauce", "method": "pressure", "yields": "7 qt",
    "uses": [{"item": "tomato puree", "amount": "10.5 qt"}, {"item": "bottled lemon juice", "amount": "14 tbsp"}],
    "from": "the extension office's bulletin: the old one has more onion and pepper than was tested",
    "schedule": "tomato_sauce-hot-quart-dial-2",
    "steps": ["simmer until a third is gone", "lemon juice into each jar", "fill to a quarter inch"],
}  # fmt: skip

TARGETS: list[dict[str, Any]] = [
    {"item": "tomato sauce", "amount": "45 quart jars", "per": "year"},
    {"item": "plum butter", "amount": "12 half-pint jars", "per": "year"},
    {"item": "canned green bean", "amount": "40 pint jars", "per": "year"},
    {"item": "apple sauce", "amount": "27 pint jars", "per": "year"},
    {"item": "dill pickle", "amount": "20 pint jars", "per": "year"},
    {"item": "potato", "amount": "600 lb", "per": "year"},
    {"item": "egg", "amount": "3 dozen", "per": "week"},
    {"skill": "grafting", "times": 2, "per": "year"},
    {"skill": "seed saving", "times": 3, "per": "year"},
    {"skill": "scythe mowing", "times": 4, "per": "year"},
    {"skill": "cheese making", "times": 1, "per": "year"},  # wanted, and never tried
]

PRACTISED: list[tuple[str, tuple[str, ...], tuple[int, ...], int, float]] = [
    # skill, people, months, minutes, chance a week in those months
    ("grafting", ("Tam", "Juno"), (3, 4), 60, 0.25),
    ("seed saving", ("Oda", "Pip"), (8, 9, 10), 45, 0.3),
    ("scythe mowing", ("Marek", "Tam"), (5, 6, 7, 8), 50, 0.3),
    ("knife sharpening", ("Tam", "Marek"), tuple(range(1, 13)), 30, 0.07),
    ("knitting", ("Oda", "Ilse", "Juno"), (11, 12, 1, 2), 90, 0.5),
    ("pruning fruit trees", ("Tam", "Ilse"), (2, 3), 120, 0.4),
    ("mending clothes", ("Ilse", "Oda"), tuple(range(1, 13)), 45, 0.12),
    ("identifying mushrooms", ("Marek", "Pip"), (9, 10), 90, 0.35),
]

NOTES = {  # what was noted of a skill when it went so: 1 badly, 5 well
    ("grafting", 2): "the scions had dried out; cut them later next year",
    ("grafting", 5): "five of six took",
    ("seed saving", 2): "the beans were not dry, some moulded",
    ("scythe mowing", 5): "Marek peened the blade the evening before, and it went by itself",
    ("knitting", 2): "Juno unravelled the heel twice",
    ("pruning fruit trees", 3): "Tam says too many water shoots were left on the russet",
    (
        "identifying mushrooms",
        4,
    ): "Pip tells the two yellow ones apart; nothing was eaten that Oda did not see",
    ("mending clothes", 3): "the knees hold, the seam is crooked",
}
