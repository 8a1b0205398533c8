"""Thirteen nutrients of 940 foods, in 100 g of the edible part.

USDA National Nutrient Database for Standard Reference, Release 28 (2015), ids as in `foods`; 34
rows are unenriched grains and foods of the reserve lists. A blank cell is not known, never 0.
Flour, rice and pasta of the main table are the enriched kinds sold in the United States.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ledger.reference.winter import decimal, table

__all__ = [
    "AMOUNTS",
    "COLUMNS",
    "LABELS",
    "SALT_SODIUM_MG",
    "UNENRICHED",
    "UNITS",
    "Nutrients",
    "by_id",
    "check",
]

COLUMNS = (
    "energy_kcal", "protein_g", "fat_g", "carbohydrate_g", "fibre_g", "vitamin_a_rae_ug",
    "vitamin_c_mg", "folate_total_ug", "folate_dfe_ug", "calcium_mg", "iron_mg", "potassium_mg",
    "sodium_mg",
)  # fmt: skip
UNITS = {name: name.rsplit("_", 1)[1].replace("rae", "") for name in COLUMNS}
"""kcal, g, mg or ug (RAE of vitamin A, DFE of folate)."""
LABELS = {
    "energy_kcal": "energy", "protein_g": "protein", "fat_g": "fat",
    "carbohydrate_g": "carbohydrate", "fibre_g": "fibre", "vitamin_a_rae_ug": "vitamin A",
    "vitamin_c_mg": "vitamin C", "folate_total_ug": "folate in all", "folate_dfe_ug": "folate",
    "calcium_mg": "calcium", "iron_mg": "iron", "potassium_mg": "potassium",
    "sodium_mg": "sodium",
}  # fmt: skip
AMOUNTS = {name: f"{UNITS[name]} of {LABELS[name]}" for name in COLUMNS}
"""The unit with what it is of: ``mg of iron``."""
SALT_SODIUM_MG = 393.4
"""Milligrams of sodium in a gram of salt (atomic weights: 22.990 / 58.443; computed)."""

UNENRICHED = {
    "20081": "20481", "20581": "20481", "20083": "20129", "20022": "20422", "20044": "20444",
    "20045": "20445", "20345": "20545", "20046": "20446", "20050": "20450", "20052": "20452",
    "20109": "20409", "20110": "20410", "20120": "20420", "20121": "20421", "20321": "20521",
}  # fmt: skip
"""The unenriched row of a row that is enriched as sold in the United States."""


@dataclass(frozen=True)
class Nutrients:
    """A food's row.

    Attributes
    ----------
    id, description : str
    per_100g : dict of str to float or None
        By column; None is not known.
    estimated, assumed_zero : frozenset of str
        Columns that the table marks calculated or imputed, and those it takes as nought.
    source : str
    """

    id: str
    description: str
    per_100g: dict[str, float | None]
    estimated: frozenset[str]
    assumed_zero: frozenset[str]
    source: str


@cache
def _table() -> dict[str, Nutrients]:
    out = {}
    for name in ("nutrients", "nutrients_extra"):
        for row in table(name):
            out[row["ndb_id"]] = Nutrients(
                row["ndb_id"],
                row["description"],
                {column: decimal(row, column, name) for column in COLUMNS},
                _names(row["estimated"]),
                _names(row["assumed_zero"]),
                row["source_id"],
            )
    return out


def _names(text: str) -> frozenset[str]:
    found = frozenset(text.split())
    if not found <= set(COLUMNS):
        msg = f"winter table nutrients: {sorted(found - set(COLUMNS))} are no columns"
        raise ValueError(msg)
    return found


def by_id(food_id: str) -> Nutrients | None:
    """Return a food's row by its id (a five-digit number), or None."""
    return _table().get(food_id.zfill(5))


def check() -> None:
    """Read every row; a row that does not parse raises ValueError."""
    if not set(UNENRICHED.values()) <= set(_table()):
        msg = f"no row for {sorted(set(UNENRICHED.values()) - set(_table()))}"
        raise ValueError(msg)
