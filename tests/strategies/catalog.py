"""The items that random books are about: small enough a list that they meet again and again."""

from __future__ import annotations

from fractions import Fraction


def _food(measure, kcal=None, **more):
    return {"sort": "food", "measure": measure, **({"kcal_per_100g": kcal} if kcal else {}), **more}


ITEMS = {
    # grown, gathered, or bought as they are
    "plum": _food("mass", "46"),
    "tomato": _food("mass", "18", g_per={"piece": "120"}),
    "bean": _food("mass", "31.5"),
    "garlic": _food("mass", "149", g_per={"clove": "5", "head": "45"}),
    "egg": _food("count", "143", g_per={"piece": "55"}),
    "melon": _food("count"),  # of unknown weight and energy
    "sugar": _food("mass", "387"),
    "milk": _food("volume", "61", g_per_ml="1.03"),
    "vinegar": _food("volume"),
    "bread": _food("mass", "265"),
    # put up, one from another, four deep
    "sauce": _food("volume", "35", g_per_ml="1.04", shop_equivalent="shop sauce"),
    "soup base": _food("volume", "44", g_per_ml="1.01"),
    "bean soup": _food("volume", "62", g_per_ml="1.02", shop_equivalent="shop soup"),
    "soup powder": _food("mass", "320"),
    "plum butter": _food("volume", "230", g_per_ml="1.25", shop_equivalent="shop plum spread"),
    "pickle": _food("volume", "20", shop_equivalent="shop plum spread"),  # weight not known
    "stew": _food("volume", "70", g_per_ml="1.05"),
    # what the shop sells instead
    "shop sauce": _food("volume", "33", g_per_ml="1.03"),
    "shop soup": _food("volume", "60"),
    "shop plum spread": _food("mass", "240"),
    # stocks
    "tomato seed": {"sort": "supply", "measure": "count"},
    "pectin": {"sort": "supply", "measure": "mass"},
    "lid": {"sort": "lid", "measure": "count"},
    "wide lid": {"sort": "lid", "measure": "count"},
    "propane": {"sort": "fuel", "measure": "mass"},
    "firewood": {"sort": "fuel", "measure": "energy"},
    # lent
    "pint jar": {"sort": "jar", "measure": "count", "holds": "1 pt"},
    "quart jar": {"sort": "jar", "measure": "count", "holds": "1 qt", "uses": "20"},
    "canner": {"sort": "equipment", "measure": "count"},
    "dryer": {"sort": "equipment", "measure": "count", "uses": "12"},
    # garden inputs
    "compost": {"sort": "garden input", "measure": "volume"},
    "twine": {"sort": "garden input", "measure": "count"},
    "hen feed": {"sort": "garden input", "measure": "mass", "feeds": "egg"},
    "trellis": {"sort": "garden input", "measure": "count", "years": "3"},
}

GROWN = ("plum", "tomato", "bean", "garlic", "egg", "melon")
RAW = (*GROWN, "sugar", "milk", "vinegar", "bread")
PUT_UP = ("sauce", "soup base", "bean soup", "soup powder", "plum butter", "pickle")
EATEN = (*RAW, *PUT_UP, "stew")
STOCK = ("tomato seed", "pectin", "lid", "wide lid", "propane", "firewood")
SHOP = ("shop sauce", "shop soup", "shop plum spread")
JARS = {"pint jar": 473_176, "quart jar": 946_353}
LIDS = ("lid", "wide lid")
EQUIPMENT = ("canner", "dryer")
INPUTS = ("compost", "twine", "hen feed", "trellis")
BOUGHT = (*RAW, *STOCK, *JARS, *EQUIPMENT, *INPUTS, *SHOP)
PRICED = (*RAW, *SHOP, *STOCK, "stew", "sauce")

INGREDIENTS = {
    "sauce": ("tomato", "garlic", "vinegar"),
    "soup base": ("sauce", "garlic", "milk"),
    "bean soup": ("soup base", "bean", "pectin"),
    "soup powder": ("bean soup", "stew", "egg"),
    "plum butter": ("plum", "sugar", "pectin"),
    "pickle": ("tomato", "vinegar", "melon"),
}
"""What each put-up thing is mostly made of: tomato > sauce > soup base > bean soup > powder."""

NICKNAMES = {"plum": "prune", "sugar": "cane sugar", "stew": "potage", "lid": "flat lid"}
"""Second names, described as items of their own until `also` merges them."""
for _item, _nickname in NICKNAMES.items():
    ITEMS[_nickname] = {k: v for k, v in ITEMS[_item].items() if k in ("sort", "measure")}

METHODS = (
    "boiling water",
    "pressure",
    "freeze",
    "dry",
    "ferment",
    "pickle cold",
    "jam uncooked",
    "cellar",
    "cook",
)
WHY = (
    "spoiled",
    "seal failed",
    "broken",
    "too old",
    "pests",
    "fed to animals",
    "composted",
    "lost",
    "other",
)
SETTINGS = {
    "labour_rate": ("6", "9.5", "12"),
    "interest_rate": ("4", "2.5 % a year"),
    "season_starts": ("1 January", "1 October", "15 March", "1 July"),
    "price_of_electricity": ("0.17 per kWh", "0.31 per kWh"),
    "price_of_gas": ("1.20 per therm", "0.09 per kWh"),
    "altitude": ("2600 ft",),
    "people": ("6",),
}
SAID_UNITS = {  # unit -> (measure, whole units in one); a counted unit is its own measure
    "g": ("mass", Fraction(1000)),
    "lb": ("mass", Fraction("453592.37")),
    "ml": ("volume", Fraction(1000)),
    "cup": ("volume", Fraction("236588.2365")),
    "qt": ("volume", Fraction("946352.946")),
    "bushel": ("volume", Fraction("35239070.16688")),
    "piece": ("count", Fraction(1000)),
    "dozen": ("count", Fraction(12000)),
    "head": ("head", Fraction(1000)),
    "bucket": ("bucket", Fraction(1000)),
    "crate": ("crate", Fraction(1000)),
    "kWh": ("energy", Fraction(3_600_000)),
}
"""NIST Handbook 44, appendix C."""
TEXT_UNIT = {
    "mass": ("mg", 1),
    "volume": ("ml", 1000),
    "count": ("piece", 1000),
    "energy": ("J", 1),
}
