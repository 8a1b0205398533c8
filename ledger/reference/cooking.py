"""What cooking leaves of vitamins and minerals, in per cent of the raw amount.

USDA Table of Nutrient Retention Factors, release 6 (2007). Of what was not read in it (fruit, beef,
poultry, fish, most of legumes and potatoes) there is no factor: the raw figure then stands as it is.
The ratios of preserved to fresh food in the same file are noisy and are not used as factors.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ledger.reference.winter import decimal, is_memory, table

__all__ = ["Kept", "check", "factor", "factors"]

_COLUMNS = {
    "vitamin_a_rae_ug": "vitamin_a", "vitamin_c_mg": "vitamin_c", "folate_dfe_ug": "folate",
    "folate_total_ug": "folate", "calcium_mg": "calcium", "iron_mg": "iron",
    "potassium_mg": "potassium", "sodium_mg": "sodium",
}  # fmt: skip


@dataclass(frozen=True)
class Kept:
    """Which part of each nutrient cooking keeps, 0 to 1; None is not known.

    Attributes
    ----------
    code, food, method : str
    share : dict of str to float or None
        By the nutrient's column.
    source : str
    from_memory : bool
    """

    code: str
    food: str
    method: str
    share: dict[str, float | None]
    source: str
    from_memory: bool


@cache
def factors() -> tuple[Kept, ...]:
    """Return every cooking factor, in the order of the table."""
    out = []
    for row in table("retention"):
        read = {name: decimal(row, column, "retention") for name, column in _COLUMNS.items()}
        if row["record_type"] != "cooking_factor":
            continue
        share = {name: None if value is None else value / 100 for name, value in read.items()}
        out.append(
            Kept(
                row["code_or_fresh_id"], row["food"], row["method"], share, row["source_id"],
                is_memory(row["checked"]),
            )
        )  # fmt: skip
    return tuple(out)


_GREENS = ("Spinach", "Kale", "Chard", "Collards", "Beet greens", "Turnip greens", "Mustard greens")
_ROOTS = (
    "Beets", "Carrots", "Celeriac", "Garlic", "Kohlrabi", "Leeks", "Onions", "Parsnips", "Radishes",
    "Rutabagas", "Shallots", "Turnips",
)  # fmt: skip
_BOILED = {"tomatoes": "3751", "greens": "3006", "roots": "3456", "vegetables": "3776"}


def factor(description: str, group: str) -> Kept | None:
    """Return what a vegetable keeps when it is cooked and its liquid used, as in a jar or a soup.

    Parameters
    ----------
    description, group : str
        Of the raw food's row in the food table; which foods are roots or greens is our own choice.

    Returns
    -------
    Kept or None
        None for what is no raw vegetable, and for potatoes and legumes, whose rows were not read.
    """
    head = description.partition(",")[0]
    if group != "Vegetables and Vegetable Products" or "raw" not in description:
        return None
    if head in ("Potatoes", "Sweet potato", "Beans", "Peas") and "snap" not in description:
        return None
    which = "tomatoes" if head.startswith("Tomatoes") else "vegetables"
    which = "greens" if description.startswith(_GREENS) else which
    which = "roots" if head in _ROOTS else which
    return next(one for one in factors() if one.code == _BOILED[which])


def check() -> None:
    """Read every row; a row that does not parse raises ValueError."""
    factors()
