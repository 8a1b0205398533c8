"""One plan for a year, week by week: beds, harvest, putting up and shopping that meet needs for least money.

    minimise    money for shop, beds and jars  +  M x what each week's needs lack, as parts of a week's need
    subject to  square metres planted  <=  each bed, none where the rotation closes it
                a week's stock  =  the week before's + what came - what was eaten, put up and given
                a week's stock  <=  what came within the time that it keeps
                hands' and stove hours of each week; jars and freezer room full at one time; lids
                energy and each nutrient of each week: garden + jars + pantry + shop + lacking  >=  need
                sodium  <=  its level + over

Food is there when it is eaten: fresh in its weeks and as long as it keeps, what was put up from then until
its own time is over, the pantry up to its dates, the shop's in the week. M outweighs all money, so needs
come first. Then jars and canner loads are made whole numbers, and at that money and those needs each food
is spread over its weeks as evenly as may be. Solved with HiGHS through scipy.optimize.
"""

from __future__ import annotations

from collections.abc import Sequence

from ledger.errors import InputError
from ledger.messages import Message
from ledger.methods._year_read import read_year
from ledger.methods._year_rows import Year
from ledger.methods._year_solve import solve_year
from ledger.methods.year_terms import WEEKS, Food, GardenCrop, Limit, Recipe, YearLimits, YearPlan

__all__ = ["WEEKS", "Food", "GardenCrop", "Limit", "Recipe", "YearLimits", "YearPlan", "plan_year"]


def plan_year(
    crops: Sequence[GardenCrop],
    recipes: Sequence[Recipe],
    foods: Sequence[Food],
    needs: Sequence[float],
    limits: YearLimits,
) -> YearPlan:
    """Return the plan of a year.

    Parameters
    ----------
    crops, recipes, foods : sequences
        Names are unique in each.
    needs : sequence of float
        Of a week, in the order of the nutrients; the last is the level of sodium.
    limits : YearLimits

    Returns
    -------
    YearPlan
        What comes of a crop is eaten, put up and given; what is put up is eaten or still there.

    Raises
    ------
    InputError
        When a recipe's crop is not there, or hours are not of 52 weeks.
    """
    names = {crop.name for crop in crops}
    for recipe in recipes:
        if recipe.crop not in names or not recipe.kg > 0:
            raise InputError(recipe.name, Message.of("refusal-takes-no-crop-planned"))
    if len(limits.hours) != WEEKS or min(limits.hours) < 0:
        raise InputError("hours", Message.of("refusal-hours-of-weeks"))
    year = Year(crops, recipes, foods, needs, limits)
    return read_year(year, solve_year(year))
