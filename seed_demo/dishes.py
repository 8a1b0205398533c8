"""What the household cooks: breakfasts, noons, suppers, and what stands on the table every day.

Amounts are for six, in the pantry's units. Helpings follow the portions of the food table: two to
three ounces of dry oats, pasta or rice a head and meal, three or four slices of bread, half a pound
of potatoes, a glass of milk; a day comes to about nine tenths of 2,100 kcal a head.
"""

from __future__ import annotations

from seed_demo.pantry import CUP, PINT, QUART

__all__ = [
    "AWAITED", "BAKED", "BREAKFASTS", "JARRED", "LEFT", "NOONS", "SIDES", "SUPPERS", "TABLE", "WITH", "Dish", "Line",
]  # fmt: skip

Line = tuple[str, int]
Dish = tuple[str, int, tuple[Line, ...]]
"""Its name, how gladly it is made, what six people eat of it."""

SUPPERS: list[Dish] = [
    ("pasta with house sauce", 7, (("dry pasta", 26), ("tomato sauce", QUART), ("cheddar cheese", 6))),
    ("egg fried rice", 4, (("rice", 26), ("egg", 9), ("onion", 10), ("olive oil", 4))),
    ("roast chicken", 5, (("chicken", 80), ("potato", 64), ("frozen green bean", 24))),
    ("roast chicken with beans", 4, (("chicken", 80), ("potato", 64), ("canned green bean", 2 * PINT))),
    ("bean stew", 4, (("dry bean", 26), ("tomato sauce", QUART), ("onion", 12), ("garlic", 2), ("bread", 16))),
    ("beans and rice", 5, (("dry bean", 20), ("rice", 18), ("onion", 10), ("garlic", 2), ("olive oil", 2))),
    ("soup and bread", 12, (("winter soup", 3 * QUART), ("bread", 30), ("butter", 3), ("cheddar cheese", 6))),
    ("potatoes and kraut", 6, (("potato", 80), ("sauerkraut", QUART), ("butter", 4), ("cheddar cheese", 6))),
    ("potato pan", 6, (("potato", 80), ("egg", 12), ("onion", 10), ("olive oil", 4))),
    ("omelette", 5, (("egg", 15), ("cheddar cheese", 8), ("bread", 24), ("butter", 2))),
    ("cabbage and beef", 4, (("ground beef", 36), ("cabbage", 44), ("rice", 20))),
    ("summer plate", 22, (("tomato", 44), ("cucumber", 24), ("bread", 32), ("cheddar cheese", 10), ("olive oil", 3))),
    ("beans and potatoes", 12, (("green bean", 40), ("potato", 80), ("butter", 4), ("egg", 8))),
    ("squash gratin", 14, (("summer squash", 56), ("potato", 64), ("cheddar cheese", 10), ("olive oil", 3))),
    ("chard and eggs", 14, (("chard", 32), ("egg", 12), ("garlic", 1), ("olive oil", 3), ("bread", 24))),
    ("tomatoes and eggs", 14, (("tomato", 40), ("egg", 12), ("bread", 28), ("olive oil", 3))),
    ("stuffed peppers", 10, (("pepper", 40), ("ground beef", 28), ("rice", 18))),
    ("pancakes and apple sauce", 6, (("flour", 26), ("egg", 7), ("milk", 32), ("apple sauce", QUART), ("butter", 3))),
    ("pancakes and plums", 6, (("flour", 26), ("egg", 7), ("milk", 32), ("canned plum", QUART), ("butter", 3))),
    ("bread and pickles", 5, (("bread", 30), ("cheddar cheese", 12), ("dill pickle", PINT), ("egg", 8))),
    ("beef patties", 5, (("ground beef", 36), ("potato", 72), ("dill pickle", PINT))),
    ("mushroom pasta", 30, (("dry pasta", 26), ("mushroom", 14), ("butter", 3))),
    ("carrot and potato mash", 6, (("carrot", 40), ("potato", 72), ("butter", 4), ("egg", 8))),
    ("shop sauce on pasta", 1, (("dry pasta", 26), ("store tomato sauce", 24), ("cheddar cheese", 6))),
    ("apple crumble supper", 7, (("apple", 56), ("oats", 16), ("butter", 6), ("sugar", 6), ("milk", 32))),
    ("rice and peppers", 8, (("rice", 26), ("frozen pepper", 32), ("egg", 8), ("olive oil", 3))),
    ("plum dumplings", 10, (("plum", 44), ("flour", 24), ("butter", 4), ("sugar", 4))),
]  # fmt: skip
BREAKFASTS: list[Dish] = [
    ("porridge", 9, (("oats", 18), ("milk", 56), ("honey", 3))),
    ("porridge with dried apple", 5, (("oats", 18), ("milk", 56), ("dried apple", 4))),
    ("porridge with plums", 6, (("oats", 18), ("milk", 48), ("canned plum", PINT))),
    ("bread and plum butter", 2, (("bread", 24), ("butter", 3), ("plum butter", CUP), ("milk", 32))),
    ("bread and jam", 2, (("bread", 24), ("butter", 3), ("strawberry jam", CUP), ("milk", 32))),
    ("eggs on bread", 8, (("egg", 12), ("bread", 22), ("butter", 3))),
    ("berries and oats", 12, (("strawberry", 32), ("oats", 16), ("milk", 48))),
    ("blackberry porridge", 8, (("frozen blackberry", 12), ("oats", 16), ("milk", 48))),
]  # fmt: skip
NOONS: list[Dish] = [
    ("bread and cheese", 9, (("bread", 26), ("cheddar cheese", 9), ("butter", 2))),
    ("egg sandwiches", 8, (("bread", 26), ("egg", 9), ("butter", 3))),
    ("bread and jam", 1, (("bread", 26), ("butter", 4), ("strawberry jam", CUP))),
    ("potato salad", 7, (("potato", 72), ("egg", 6), ("onion", 5), ("olive oil", 5))),
    ("rice and carrots", 4, (("rice", 22), ("carrot", 16), ("olive oil", 4))),
    ("noodles and cabbage", 4, (("dry pasta", 22), ("cabbage", 20), ("butter", 3))),
    ("beans on bread", 6, (("dry bean", 14), ("bread", 20), ("onion", 6), ("olive oil", 3))),
    ("baked potatoes", 6, (("potato", 80), ("butter", 4), ("cheddar cheese", 5))),
]  # fmt: skip
TABLE: tuple[Line, ...] = (("milk", 56), ("sugar", 3), ("butter", 1), ("olive oil", 3))
"""What is drunk, spread, stirred in and fried with, whatever the dish."""
BAKED: tuple[Line, ...] = (("flour", 20), ("sugar", 7), ("butter", 3), ("egg", 4), ("milk", 16))
"""A tray of something, every other day."""
SIDES: tuple[Line, ...] = (
    ("tomato", 28), ("cucumber", 20), ("green bean", 24), ("summer squash", 24), ("chard", 16), ("pepper", 16),
    ("strawberry", 28), ("plum", 32), ("apple", 32), ("carrot", 20), ("cabbage", 24), ("blackberry", 12),
)  # fmt: skip
"""What of the garden is put on the table beside the dish: what there are most helpings of, four at least."""

AWAITED = frozenset({"tomato", "plum", "cucumber", "green bean", "strawberry", "apple"})
"""What is often left alone in its season, to make up a batch."""

LEFT = {
    "bean stew": ("bean stew", QUART),
    "roast chicken": ("cold roast chicken", 20),
    "pasta with house sauce": ("sauced pasta", 24),
}
WITH = {
    "tomato sauce": ("dry pasta", 24, "pasta with new sauce"),
    "plum butter": ("bread", 24, "new plum butter on bread"),
    "winter soup": ("bread", 30, "new soup and bread"),
}
"""What the rest of a batch, in the fridge, is eaten with."""

JARRED = {
    "tomato sauce": "quart jar", "canned green bean": "pint jar", "dill pickle": "pint jar", "canned plum": "pint jar",
    "apple sauce": "pint jar", "plum butter": "half-pint jar", "strawberry jam": "half-pint jar",
}  # fmt: skip
