"""What the programme of a year was given, a line each, which its own address opens."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, Groups, method
from ledger.messages import fixed, sentence
from ledger.questions.food.nutrients import UNITS, held
from ledger.questions.whole_year.figures import of_limit, of_need
from ledger.questions.whole_year.limits import limit_said
from ledger.questions.whole_year.tables import Weeks
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import LABELS

if TYPE_CHECKING:
    from ledger.questions.whole_year.gather import Year

__all__ = ["given", "things"]

_SAID = {
    "kg_per_m2": "year-square-metre-chance-chosen",
    "comes": "year-picked",
    "hours_per_kg": "year-kilogram-own-seasons",
    "kg": "year-fresh-one",
    "hours": "year-hours",
    "cost": "year-one-labour-left-out",
    "there": "year-there",
    "price": "year-newest-price-kilogram",
}
"""What each is called that is no nutrient."""

_Things = dict[str, tuple[list[str], dict[str, Figure]]]


def things(year: Year) -> _Things:
    """Return crops, recipes and foods: their names, and every figure that the programme has of them, a row each."""
    house, made = year.house, year.made_as
    inside = [
        {
            name: year.inside_of(kind, n).called("in-one-unit", unit=UNITS[n])
            for n, name in enumerate(NUTRIENTS)
        }
        for kind in range(3)
    ]
    comes = Groups(year.crop_of_pick, len(house.crops)).sum(year.comes[1], "kg")
    crops = {
        "kg_per_m2": year.a_metre,
        "comes": comes.called("picked"),
        "hours_per_kg": year.picking,
    }
    return {
        "crop": ([one.name for one in house.crops], {**crops, **inside[0]}),
        "recipe": (
            [one.name for one in house.recipes],
            {"kg": made.fresh, "hours": made.hours, "cost": year.cost, **inside[1]},
        ),
        "food": (
            [one.name for one in house.foods],
            {"there": _there(year).called("there"), "price": year.price, **inside[2]},
        ),
    }


def _there(year: Year) -> Figure:
    """Return what is there of each food when the plan begins, as what is there today is used till then."""
    foods, food = year.house.foods, year.state.once(held)
    place = {year.house.items[one.name]: row for row, one in enumerate(foods)}
    by = np.array([place.get(item, -1) for item in food.items.tolist()], np.int64)
    today = Groups(np.where(np.isnan(food.grams.values), -1, by), len(foods)).sum(food.grams, "g")
    kg = np.array([sum(many for _, many in one.there) for one in foods], np.float64)
    return method(lambda: kg, "kg", "left-when-it-begins", [today.called("grams-of-it")])


def given(year: Year) -> list[tuple[Figure, int]]:
    """Return all that the programme was given, a line each that its own address opens."""
    weeks = Weeks(year)
    mosts = [
        (of_need(weeks, n)["most"], f"need/{name}", fixed(LABELS[name]))
        for n, name in enumerate(NUTRIENTS)
    ]
    # hours are the same in each week: the first stands for them
    limits = {limit_said(one.name): one for one in reversed(year.plan.limits)}
    mosts += [
        (of_limit(year, weeks, one)["most"], f"limit/{one.name}", said)
        for said, one in reversed(limits.items())
    ]
    at = f"whole-year/{year.asked.text}"
    out = [
        (most.called("thing", text=what).folds(lambda _, key=key: (f"{at}/{key}", "most")), 0)  # type: ignore[misc]
        for most, key, what in mosts
    ]
    for kind, (names, figures) in things(year).items():
        for field, figure in figures.items():
            what = sentence(_SAID[field]) if field in _SAID else fixed(LABELS[field])
            named = figure.called("given", name=lambda row, n=names: n[row], what=what)
            line = named.folds(
                lambda row, n=names, k=kind, f=field: (f"{at}/{k}/{n[row]}", f)  # type: ignore[misc]
            )
            out += [(line, row) for row in range(len(names)) if figure.value(row) > 0]
    return out
