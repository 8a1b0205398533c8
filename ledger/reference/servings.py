"""Published plans of how much to put up for a year: servings by weeks by persons.

An old how-to book's table of servings, a jar maker's yearly guide and a worked example, as printed.
A plan is a plan and not the family that asks.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ledger.items import item_key
from ledger.reference.winter import decimal, table

__all__ = ["PER_QUART", "ServingsPlan", "check", "of_food", "plans"]

PER_QUART = {"quart": 1.0, "pint": 2.0, "half-pint": 4.0}
_CUPS = {"cup": 1.0, "tsp": 1 / 48, "tbsp": 1 / 16}
_PER_WEEKS = {"week": 1.0, "2 weeks": 2.0, "3 weeks": 3.0}


@dataclass(frozen=True)
class ServingsPlan:
    """One line of a plan.

    Attributes
    ----------
    kind : {'servings_plan', 'family_plan', 'worked_example'}
    food : str
    servings, per_weeks, weeks, serving_cups : float or None
        So many servings in so many weeks, over so many weeks, of so many cups.
    per_person : float or None
        As printed, in `unit`.
    unit : {'quart', 'pint', 'half-pint'}
    source, checked, note : str
    """

    kind: str
    food: str
    servings: float | None
    per_weeks: float | None
    weeks: float | None
    serving_cups: float | None
    per_person: float | None
    unit: str
    source: str
    checked: str
    note: str

    @property
    def quarts_by_servings(self) -> float | None:
        """Quarts a person from its own servings: servings x weeks x size / 4 cups."""
        if not (self.servings and self.per_weeks and self.weeks and self.serving_cups):
            return None
        return self.servings / self.per_weeks * self.weeks * self.serving_cups / 4

    @property
    def quarts(self) -> float | None:
        """Quarts a person: by its own servings, else as printed."""
        own = self.quarts_by_servings
        if own is None and self.per_person is not None:
            return self.per_person / PER_QUART[self.unit]
        return own


@cache
def plans() -> tuple[ServingsPlan, ...]:
    """Return every line, in the order of the table."""
    out = []
    for row in table("first_year"):
        serving = decimal(row, "serving", "first_year")
        each = decimal(row, "computed_per_person", "first_year")
        printed = decimal(row, "per_person", "first_year")
        family = decimal(row, "family_amount", "first_year")
        people = decimal(row, "family_of", "first_year")
        if printed is None:
            printed = each if each is not None else family / people if family and people else None
        out.append(
            ServingsPlan(
                row["record_type"], row["food"], decimal(row, "servings_low", "first_year"),
                _PER_WEEKS.get(row["per"]), decimal(row, "weeks", "first_year"),
                None if serving is None else serving * _CUPS[row["serving_unit"]], printed,
                row["per_person_unit"] or row["family_unit"], row["source_id"], row["checked"],
                row["note"],
            )
        )  # fmt: skip
    return tuple(out)


_ALSO = {
    "snap bean": "green beans", "bush bean": "green beans", "pole bean": "green beans",
    "plum butter": "preserves", "strawberry jam": "preserves", "jam": "preserves",
    "sweet corn": "corn", "apple sauce": "apples", "tomato sauce": "tomatoes",
    "spinach": "greens", "chard": "greens", "kale": "greens", "strawberry": "berries",
    "blackberry": "berries", "raspberry": "berries", "dill pickle": "pickles",
    "cabbage": "sauerkraut", "cucumber": "pickles",
}  # fmt: skip


@cache
def of_food(name: str) -> ServingsPlan | None:
    """Return the servings plan of a food by a household's name for it, or None."""
    key = item_key(name)
    for word in ("canned ", "frozen ", "dried "):
        key = key.removeprefix(word)
    wanted = item_key(_ALSO.get(key, key))
    own = [one for one in plans() if one.kind == "servings_plan"]
    return next((one for one in own if item_key(one.food) == wanted), None)


def check() -> None:
    """Read every row; a row that does not parse raises ValueError."""
    plans()
