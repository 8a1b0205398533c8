"""What people need in a day, by age, sex, and what changes it: Dietary Reference Intakes.

Needs are the recommended dietary allowance (RDA) where there is one, else the adequate intake (AI);
energy is the calorie table of the Dietary Guidelines for Americans 2015-2020 or, where weight and
height are known, the 2005 equation. Its rows for adults are from memory, and are marked so.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from ledger.reference.winter import decimal, is_memory, table

__all__ = [
    "ACTIVITIES",
    "CONDITIONS",
    "NUTRIENTS",
    "Equation",
    "Need",
    "check",
    "energy",
    "energy_added",
    "energy_by_size",
    "requirement",
]

NUTRIENTS = (
    "energy_kcal", "protein_g", "fibre_g", "vitamin_a_rae_ug", "vitamin_c_mg", "folate_dfe_ug",
    "calcium_mg", "iron_mg", "potassium_mg", "sodium_mg",
)  # fmt: skip
"""Energy, the eight that are reckoned in days of cover, and sodium the other way round."""

CONDITIONS = {"pregnant": "pregnant", "nursing": "breastfeeding"}
"""What the household says, and the table's word."""

ACTIVITIES = {"light": "sedentary", "moderate": "moderately active", "hard": "active"}
_PA = {"light": "sedentary", "moderate": "low active", "hard": "active"}
"""The equation's bands: the calorie table's moderately active is its low active (N6, N5)."""


@dataclass(frozen=True)
class Need:
    """A need of one person and day.

    Attributes
    ----------
    value : float
        In the nutrient's unit.
    kind : {'RDA', 'AI', 'EER', 'estimate'}
    ear, ul, cdrr : float or None
        Estimated average requirement, tolerable upper level, chronic disease risk reduction level.
    group : str
        The table's group: ``males 31-50``.
    source : str
        Id of the document.
    from_memory : bool
        Whether the value was recalled and not seen.
    """

    value: float
    kind: str
    ear: float | None
    ul: float | None
    cdrr: float | None
    group: str
    source: str
    from_memory: bool
    low: float
    high: float
    sex: str
    condition: str

    def fits(self, sex: str, age: float) -> bool:
        """Return whether it is of that sex (or of any) and age in years."""
        return self.sex in ("any", sex) and self.low <= age < self.high


@dataclass(frozen=True)
class Equation:
    """Energy in kcal a day: base + age x A + PA x (weight x W + height x H) + more."""

    base: float
    age: float
    weight: float
    height: float
    more: float
    group: str
    from_memory: bool

    def kcal(self, age: float, pa: float, weight_kg: float, height_m: float) -> float:
        """Return kcal a day of one of that age, weight in kg and height in metres."""
        moving = pa * (self.weight * weight_kg + self.height * height_m)
        return self.base + self.age * age + moving + self.more


_NUMBER = r"-?\d+(?:\.\d+)?"
_ADULT = re.compile(
    rf"({_NUMBER})(-\d+(?:\.\d+)?)\*A\+PA\*\(({_NUMBER})\*W\+({_NUMBER})\*H\)(?:\+({_NUMBER}))?"
)
_INFANT = re.compile(rf"\(({_NUMBER})\*W({_NUMBER})\)\+({_NUMBER})")


@cache
def _rows(record: str, item: str) -> tuple[Need, ...]:
    """Return the rows of a record type and item, as needs."""
    out = []
    for row in table("dri"):
        if row["record_type"] != record or row["item"] != item:
            continue
        value = decimal(row, "value", "dri")
        if value is None:
            continue
        low, high = decimal(row, "age_from_y", "dri"), decimal(row, "age_to_y", "dri")
        ear, ul, cdrr = (decimal(row, name, "dri") for name in ("ear", "ul", "cdrr"))
        of = (row["group"], row["source_id"], is_memory(row["checked"]))
        ages = (0.0 if low is None else low, 200.0 if high is None else high)
        out.append(
            Need(value, row["kind"], ear, ul, cdrr, *of, *ages, row["sex"], row["condition"])
        )
    return tuple(out)


def requirement(nutrient: str, sex: str, age: float, condition: str = "") -> Need | None:
    """Return the need of a nutrient in a day; None where the table has none.

    Parameters
    ----------
    nutrient : str
        A name of `NUTRIENTS` but energy.
    sex : {'female', 'male'}
    age : float
        In years.
    condition : {'', 'pregnant', 'nursing'}
        Beyond the ages of its rows (14 to 50) it changes nothing.

    References
    ----------
    Institute of Medicine and National Academies, Dietary Reference Intakes, 1997-2011 and 2019.
    """
    rows = _rows("requirement", nutrient)
    for wanted in dict.fromkeys((CONDITIONS.get(condition, ""), "")):
        for row in rows:
            if row.condition == wanted and row.fits(sex, age):
                return row
    return None


def energy(sex: str, age: float, activity: str = "moderate") -> Need | None:
    """Return the energy need in kcal a day by the calorie table; None below two years.

    Parameters
    ----------
    activity : {'light', 'moderate', 'hard'}
        Sedentary, moderately active, active.
    """
    wanted = ACTIVITIES[activity]
    found = (r for r in _rows("calorie_table", "energy_kcal") if r.condition == wanted)
    return next((row for row in found if row.fits(sex, age)), None)


@cache
def _equations() -> tuple[tuple[float, float, str, Equation], ...]:
    out = []
    for row in table("dri"):
        if row["record_type"] != "eer_2005_equation":
            continue
        text = row["value"].replace(" ", "")
        low = decimal(row, "age_from_y", "dri") or 0.0
        high = decimal(row, "age_to_y", "dri") or 200.0
        memory = is_memory(row["checked"])
        if found := _ADULT.fullmatch(text):
            base, age, weight, height = (float(found[n]) for n in range(1, 5))
            more = float(found[5] or 0)
            equation = Equation(base, age, weight, height, more, row["group"], memory)
        elif found := _INFANT.fullmatch(text):
            equation = Equation(
                float(found[2]) + float(found[3]), 0.0, float(found[1]), 0.0, 0.0, row["group"], memory
            )  # fmt: skip
        else:
            msg = f"winter table dri: {row['value']!r} is no equation"
            raise ValueError(msg)
        out.append((low, high, row["sex"], equation))
    return tuple(out)


def energy_by_size(
    sex: str, age: float, activity: str, weight_kg: float, height_m: float
) -> tuple[float, Equation] | None:
    """Return kcal a day by the 2005 equation, and the equation; None below one year.

    Parameters
    ----------
    activity : {'light', 'moderate', 'hard'}
        Sedentary, low active, active.

    References
    ----------
    Institute of Medicine, Dietary Reference Intakes for Energy and others, 2002/2005.
    """
    if age < 1:
        return None
    for low, high, of, equation in _equations():
        if low <= age < high and of in ("any", sex):
            if equation.height == 0:
                return equation.kcal(age, 1.0, weight_kg, height_m), equation
            rows = _rows("eer_2005_pa", "pa_coefficient")
            pa = next(r for r in rows if r.condition == _PA[activity] and r.fits(sex, age))
            return equation.kcal(age, pa.value, weight_kg, height_m), equation
    return None


def energy_added(condition: str, days: int | None = None) -> Need | None:
    """Return what pregnancy or nursing adds to the energy need, in kcal a day; None for neither.

    Parameters
    ----------
    condition : {'', 'pregnant', 'nursing'}
    days : int, optional
        Since it began; without it the second trimester, or the first half year.
    """
    if condition == "pregnant":
        days = 100 if days is None else days
        trimester = "first" if days < 91 else "second" if days < 189 else "third"
        wanted = f"pregnant {trimester} trimester"
    elif condition == "nursing":
        wanted = "breastfeeding 0-6 mo" if (days or 0) < 183 else "breastfeeding 7-12 mo"
    else:
        return None
    return next(r for r in _rows("eer_2005_addition", "energy_kcal") if r.condition == wanted)


def check() -> None:
    """Read every row; a row that does not parse raises ValueError."""
    kinds = {(row["record_type"], row["item"]) for row in table("dri")}
    for record, item in sorted(kinds):
        if record != "eer_2005_equation":
            _rows(record, item)
    _equations()
