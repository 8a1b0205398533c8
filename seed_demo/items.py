"""What the household calls things: sort, measure, energy and how long each keeps.

Food-table rows and energies are those of USDA SR28; keeping times in the fridge and freezer follow
the table of storage times where it has the food, else common practice, no source.
"""

from __future__ import annotations

__all__ = ["ITEMS", "measure_of", "place_of"]


def _food(measure: str, food: str | None, kcal: str, **more: object) -> dict[str, object]:
    body = {"sort": "food", "measure": measure, "kcal_per_100g": kcal, **more}
    return body | ({"food": food} if food else {})


_JAR = {"shelf": "12 months", "fridge": "7 days"}
ITEMS: dict[str, dict[str, object]] = {
    "tomato": _food("mass", "11529", "18", also=["love apple"], keeps={"shelf": "8 days"}),
    "plum": _food("mass", "09279", "46", keeps={"fridge": "10 days"}),
    "green bean": _food("mass", "11052", "31", also=["snap bean"], keeps={"fridge": "7 days"}),
    "cucumber": _food("mass", "11205", "15", keeps={"fridge": "7 days"}),
    "apple": _food("mass", "09003", "52", keeps={"cellar": "4 months"}),
    "strawberry": _food("mass", "09316", "32", keeps={"fridge": "3 days"}),
    "cabbage": _food("mass", "11109", "25", keeps={"cellar": "3 months"}),
    "pepper": _food("mass", "11821", "31", keeps={"fridge": "10 days"}),
    "onion": _food("mass", "11282", "40", keeps={"cellar": "6 months"}),
    "potato": _food("mass", "11352", "77", keeps={"cellar": "7 months"}),
    "garlic": _food("mass", "11215", "149", g_per={"clove": "5", "head": "45"}, keeps={"shelf": "8 months"}),
    "egg": _food("count", "01123", "143", g_per={"piece": "50"}, keeps={"fridge": "5 weeks"}),
    "flour": _food("mass", "20081", "364", keeps={"shelf": "12 months"}, g_per={"cup": "125"}),
    "sugar": _food("mass", "19335", "387", keeps={"shelf": "24 months"}),
    "salt": _food("mass", "02047", "0"),
    "vinegar": _food("volume", "02053", "18", g_per_ml="1.01"),
    "bottled lemon juice": _food("volume", "09153", "17", g_per_ml="1.03", keeps={"fridge": "12 months"}),
    "rice": _food("mass", "20044", "365", keeps={"shelf": "24 months"}),
    "oats": _food("mass", "20038", "389", keeps={"shelf": "12 months"}),
    "dry pasta": _food("mass", "20120", "371", keeps={"shelf": "24 months"}),
    "dry bean": _food("mass", "16027", "333", keeps={"shelf": "24 months"}),
    "butter": _food("mass", "01001", "717", keeps={"fridge": "2 months"}),
    "cheddar cheese": _food("mass", "01009", "404", keeps={"fridge": "6 weeks"}),
    "milk": _food("volume", "01077", "61", g_per_ml="1.03", keeps={"fridge": "10 days"}),
    "chicken": _food("mass", "05006", "215", keeps={"freezer": "12 months", "fridge": "2 days"}),
    "olive oil": _food("volume", "04053", "884", g_per_ml="0.92", keeps={"shelf": "18 months"}),
    "honey": _food("mass", "19296", "304", keeps={"shelf": "24 months"}),
    "elderberry": _food("mass", "09088", "73", keeps={"fridge": "2 days"}),
    "tomato puree": _food("volume", None, "25", g_per_ml="1.03", keeps={"fridge": "3 days"}),
    "tomato sauce": _food("volume", None, "32", g_per_ml="1.04", shop_equivalent="store tomato sauce", keeps=_JAR),
    "plum butter": _food("volume", None, "190", g_per_ml="1.2", shop_equivalent="store plum spread", keeps=_JAR),
    "dill pickle": _food("volume", None, "12", g_per_ml="1.02", shop_equivalent="store pickles", keeps=_JAR),
    "canned plum": _food("volume", None, "75", g_per_ml="1.04", shop_equivalent="store canned plums", keeps=_JAR),
    "apple sauce": _food("volume", None, "50", g_per_ml="1.03", shop_equivalent="store apple sauce", keeps=_JAR),
    "strawberry jam": _food("volume", None, "250", g_per_ml="1.3", shop_equivalent="store strawberry jam", keeps=_JAR),
    "canned green bean": _food("volume", None, "21", g_per_ml="1.0", shop_equivalent="store canned beans", keeps=_JAR),
    "chicken stock": _food("volume", None, "16", g_per_ml="1.0", shop_equivalent="store stock", keeps=_JAR),
    "winter soup": _food("volume", None, "45", g_per_ml="1.02",
                         shop_equivalent="store soup", keeps={"freezer": "4 months", "fridge": "4 days"}),
    "sauerkraut": _food("volume", None, "19", g_per_ml="1.0",
                        shop_equivalent="store sauerkraut", keeps={"fridge": "3 months"}),
    "dried apple": _food("mass", None, "243", shop_equivalent="store dried apple", keeps={"shelf": "6 months"}),
    "frozen green bean": _food("mass", None, "33", shop_equivalent="green bean", keeps={"freezer": "8 months"}),
    "frozen pepper": _food("mass", None, "29", shop_equivalent="pepper", keeps={"freezer": "8 months"}),
    "sourdough starter": _food("mass", None, "180", keeps={"fridge": "6 weeks"}),
    "bread": _food("mass", None, "250", shop_equivalent="store bread", keeps={"shelf": "5 days"}),
    "carrot": _food("mass", "11124", "41", keeps={"cellar": "4 months", "fridge": "1 month"}),
    "summer squash": _food("mass", "11467", "19", keeps={"fridge": "5 days"}),
    "chard": _food("mass", "11147", "19", keeps={"fridge": "5 days"}),
    "ground beef": _food("mass", "23572", "254", keeps={"freezer": "4 months", "fridge": "2 days"}),
    "coffee": _food("mass", None, "0", keeps={"shelf": "5 months"}),
    "cinnamon": _food("mass", "02010", "247"),
    "pectin": _food("count", None, "325", g_per={"piece": "50"}),
    "blackberry": _food("mass", "09042", "43", keeps={"fridge": "2 days", "freezer": "12 months"}),
    "frozen blackberry": _food("mass", "09048", "64", shop_equivalent="blackberry", keeps={"freezer": "12 months"}),
    "mushroom": _food("mass", "11260", "22", keeps={"fridge": "4 days"}),
    "bean stew": _food("volume", None, "95", g_per_ml="1.03", keeps={"fridge": "4 days"}),
    "cold roast chicken": _food("mass", "05009", "239", keeps={"fridge": "4 days"}),
    "sauced pasta": _food("mass", None, "130", keeps={"fridge": "4 days"}),
    "store tomato sauce": _food("mass", None, "33"),
    "store plum spread": _food("mass", None, "240"),
    "store canned plums": _food("mass", None, "75"),
    "store pickles": _food("mass", None, "12"),
    "store apple sauce": _food("mass", None, "50"),
    "store strawberry jam": _food("mass", None, "260"),
    "store canned beans": _food("mass", None, "22"),
    "store stock": _food("mass", None, "15"),
    "store sauerkraut": _food("mass", None, "19"),
    "store dried apple": _food("mass", None, "243"),
    "store bread": _food("mass", None, "260"),
    "store soup": _food("volume", None, "45", g_per_ml="1.02"),
    "quart jar": {"sort": "jar", "measure": "count", "holds": "1 qt", "years": "10"},
    "pint jar": {"sort": "jar", "measure": "count", "holds": "1 pt", "years": "10"},
    "half-pint jar": {"sort": "jar", "measure": "count", "holds": "1/2 pt", "years": "10"},
    "lid": {"sort": "lid", "measure": "count"},
    "pressure canner": {"sort": "equipment", "measure": "count", "years": "20"},
    "water-bath kettle": {"sort": "equipment", "measure": "count", "years": "20"},
    "drier": {"sort": "equipment", "measure": "count", "years": "10"},
    "bottled gas": {"sort": "fuel", "measure": "energy"},
    "freezer bag": {"sort": "supply", "measure": "count", "g_per": {"piece": "8"}, "kcal_per_100g": "0"},
    "layer feed": {"sort": "garden input", "measure": "mass", "feeds": "egg"},
    "straw bale": {"sort": "garden input", "measure": "count", "feeds": "egg"},
    "compost": {"sort": "garden input", "measure": "mass"},
    "tomato food": {"sort": "garden input", "measure": "mass"},
    "bean netting": {"sort": "garden input", "measure": "count", "years": "5"},
    "garden seed": {"sort": "garden input", "measure": "count"},
    "seed potato": {"sort": "garden input", "measure": "mass"},
    "tomato stakes": {"sort": "garden input", "measure": "count", "years": "5"},
}  # fmt: skip


def measure_of(item: str) -> str:
    """Return what an item is kept by: mass, volume or count."""
    return str(ITEMS[item]["measure"])


_PLACES = {
    "freezer": ("chicken", "ground beef"),
    "fridge": (
        "butter", "cheddar cheese", "milk", "bottled lemon juice", "egg", "strawberry", "plum", "green bean",
        "cucumber", "pepper", "summer squash", "chard", "blackberry", "mushroom",
    ),
    "cellar": ("potato", "onion", "carrot", "cabbage", "apple"),
}  # fmt: skip


def place_of(item: str) -> str:
    """Return where the household puts an item that it brings in."""
    return next((place for place, items in _PLACES.items() if item in items), "shelf")
