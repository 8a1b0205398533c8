"""Published reserve lists: food and water for days without a shop, and a power cut's hours.

Germany's lists of 14 days (Federal Ministry of Food, read in reprints) and 10 days (Federal Office
of Civil Protection, as newspapers report it), the water advice of the United States and Estonia.
Bleach doses are left out on purpose: the copies disagree and it is a matter of safety.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ledger.reference.winter import decimal, is_memory, table

__all__ = ["GROUPS", "GroupTarget", "Listed", "Rule", "check", "foods", "groups", "rules"]

GROUPS = (
    "cereals, bread, potatoes", "vegetables, pulses", "fruit, nuts", "milk products",
    "fish, meat, eggs", "fats, oils",
)  # fmt: skip
_NAMED = {
    "cereals, bread, potatoes, pasta, rice": "cereals, bread, potatoes",
    "milk, milk products": "milk products",
}


@dataclass(frozen=True)
class GroupTarget:
    """So many kilograms of a group for one person and so many days."""

    group: str
    kg: float
    days: float
    source: str
    checked: str


@dataclass(frozen=True)
class Listed:
    """One line of the 14-day list: grams for one person, and kcal by the nearest food row."""

    group: str
    item: str
    grams: float | None
    ml: float | None
    days: float
    kcal: float
    food: str
    source: str


@dataclass(frozen=True)
class Rule:
    """A figure of water or of a power cut."""

    topic: str
    group: str
    item: str
    amount: float | None
    unit: str
    days: float | None
    source: str
    checked: str
    note: str

    @property
    def from_memory(self) -> bool:
        """Whether it was recalled and not seen."""
        return is_memory(self.checked)


@cache
def groups(days: int = 14) -> tuple[GroupTarget, ...]:
    """Return the published amounts by group: of 14 days, or of 10."""
    out = []
    for row in table("reserve"):
        if row["record_type"] == "food_group" and decimal(row, "days", "reserve") == days:
            kg = decimal(row, "amount", "reserve")
            assert kg is not None
            name = _NAMED.get(row["group"], row["group"])
            out.append(GroupTarget(name, kg, float(days), row["source_id"], row["checked"]))
    return tuple(out)


@cache
def foods() -> tuple[Listed, ...]:
    """Return the 14-day list, line by line."""
    out = []
    for row in table("reserve"):
        if row["record_type"] == "food_list":
            amount, kcal = decimal(row, "amount", "reserve"), decimal(row, "kcal", "reserve")
            assert amount is not None
            assert kcal is not None
            grams, ml = (amount, None) if row["unit"] == "g" else (None, amount)
            out.append(
                Listed(row["group"], row["item"], grams, ml, 14.0, kcal, row["ndb_id"], row["source_id"])
            )  # fmt: skip
    return tuple(out)


@cache
def rules(topic: str) -> tuple[Rule, ...]:
    """Return the figures of ``water`` or ``power``."""
    return tuple(
        Rule(
            row["record_type"], row["group"], row["item"], _amount(row), row["unit"],
            decimal(row, "days", "reserve"), row["source_id"], row["checked"], row["note"],
        )
        for row in table("reserve")
        if row["record_type"] == topic
    )  # fmt: skip


def _amount(row: dict[str, str]) -> float | None:
    if row["record_type"] == "longer" or row["unit"] == "":
        return None
    return decimal(row, "amount", "reserve")


def rule(topic: str, group: str, item: str) -> Rule:
    """Return one figure by its group and item.

    Raises
    ------
    KeyError
        When there is none.
    """
    for one in rules(topic):
        if (one.group, one.item) == (group, item):
            return one
    raise KeyError(f"{topic}: {group}, {item}")


def check() -> None:
    """Read every row; a row that does not parse raises ValueError."""
    groups(14), groups(10), foods()
    for topic in ("water", "power", "energy", "food_total", "longer"):
        rules(topic)
