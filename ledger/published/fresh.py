"""Which food is fresh: neither put up, dried nor made to stand on a shelf, so that it wants eating."""

from __future__ import annotations

import re
from functools import lru_cache

from ledger.published.reading import read
from ledger.reference.foods import by_id

__all__ = ["is_fresh"]

_TABLE = frozenset(
    (
        "Dairy and Egg Products", "Fruits and Fruit Juices", "Vegetables and Vegetable Products",
        "Beef Products", "Pork Products", "Poultry Products", "Lamb, Veal, and Game Products",
        "Finfish and Shellfish Products", "Sausages and Luncheon Meats", "Baked Products",
    )
)  # fmt: skip
"""Groups of the food table that are fresh unless a row says that it was made to keep."""
_MADE_TO_KEEP = re.compile(
    r"\b(dried|dry|dehydrated|canned|bottled|powder|pickled?s?|relish|catsup|raisins|dates|"
    r"condensed|evaporated|crumbs|crackers|leavening)\b",
    re.IGNORECASE,
)
_PUT_BY = re.compile(
    r"\b(\w*sauces?|\w*so(ß|ss)en?|\w*juice|\w*saft|\w*cider|pastes?|jams?|jelly|spreads?|fillings?|"
    r"chips|leather|butters?|\w*mus|\w*mark|\w*konserven?|getrocknete\w*)$",
    re.IGNORECASE,
)
"""Last words of a name that say the same, where no row does (common practice, no source)."""
_FRESH = re.compile(r"\b(fresh|refrigerated|tofu|tempeh|hummus|home-prepared)\b", re.IGNORECASE)
"""Words of a row that is fresh in any other group."""
_KINDS = frozenset(
    ("vegetable", "mushroom", "herb", "meat", "offal", "poultry", "game", "fish", "shellfish",
     "egg", "dairy", "fruit")
)  # fmt: skip
"""Groups of `ledger.reference.kinds` whose food is fresh as it comes, beside bread."""


@lru_cache(4096)
def is_fresh(item: str, food: str | None = None) -> bool:
    """Return whether a food as it comes is one that spoils; what nothing is known of is not.

    Parameters
    ----------
    item : str
        The household's name for it, English or German.
    food : str, optional
        Its row of the food table, which goes before the name.

    References
    ----------
    USDA Food Safety and Inspection Service, Shelf-Stable Food Safety: dried, canned and bottled
    food, rice, pasta, flour, sugar, spices and oils stand on a shelf. Which groups of the food
    table are left then: common practice, no source.
    """
    row = None if food is None else by_id(food)
    if row is not None:
        if _MADE_TO_KEEP.search(row.description):
            return False
        return row.group in _TABLE or _FRESH.search(row.description) is not None
    found = read(item)
    if not found.foods or found.forms or _MADE_TO_KEEP.search(item):
        return False
    if _PUT_BY.search(item) and not any(one.group == "dairy" for one in found.foods):
        return False
    return all(one.group in _KINDS or one.name == "bread" for one in found.foods)
