"""One plan: conserved, least money, and never dearer for more hours."""

from __future__ import annotations

import math
import random
import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.methods.year_plan import WEEKS, Food, GardenCrop, Recipe, YearLimits, plan_year

IN_JULY = tuple(0.25 if 28 <= week < 32 else 0.0 for week in range(WEEKS))


def hours(many):
    return (float(many),) * WEEKS


def test_a_bed_comes_before_the_shop():
    """1 kg a m2, 1,000 kcal a kg: 20 m2 give 20,000 of 50,000 kcal; the rest is bought at 2 a kg of 3,000."""
    crop = GardenCrop("potato", 1.0, IN_JULY, 30, (1000.0, 0.0), 100)
    shop = Food("flour", (3000.0, 0.0), price=2.0, most_kg=100)
    plan = plan_year([crop], [], [shop], [50_000, 1e9], YearLimits({"bed": 20}, hours(10)))
    assert plan.planted["potato", "bed"] == pytest.approx(20)
    assert plan.bought["flour"] == pytest.approx(10)
    assert plan.cost == pytest.approx(20)
    assert plan.short == {}
    assert next(limit for limit in plan.limits if limit.name == "ground of bed").binds


def test_the_pantry_comes_before_the_shop_and_what_lacks_is_said():
    there = Food("rice", (3600.0, 0.0), there_kg=5)
    plan = plan_year([], [], [there], [36_000, 1e9], YearLimits({}, hours(1)))
    assert plan.pantry["rice"] == pytest.approx(5)
    assert plan.short[0] == pytest.approx(18_000)


def test_canner_loads_are_whole_and_hours_hold():
    crop = GardenCrop("bean", 2.0, IN_JULY, 1, (300.0, 0.0), 100)
    can = Recipe(
        "canned bean", "bean", 1.0, 0.5, (280.0, 0.0), 40, per_load=7, jar="quart jar", cost=0.2
    )
    shop = Food("flour", (3000.0, 0.0), price=5.0, most_kg=100)
    limits = YearLimits({"bed": 50}, hours(2), {"quart jar": 12}, 12)
    plan = plan_year([crop], [can], [shop], [30_000, 1e9], limits)
    for units, loads in plan.put_up.values():
        assert units <= 7 * loads + 1e-6
    for limit in plan.limits:
        assert limit.used <= limit.most + 1e-4


def test_sodium_is_the_other_way_round():
    salty = Food("salted", (1000.0, 500.0), price=1.0, most_kg=100)
    plain = Food("plain", (1000.0, 0.0), price=2.0, most_kg=100)
    plan = plan_year([], [], [salty, plain], [10_000, 1000], YearLimits({}, hours(1)))
    assert plan.bought["salted"] == pytest.approx(2)
    assert plan.bought["plain"] == pytest.approx(8)


def test_bad_input_is_refused():
    with pytest.raises(InputError):
        plan_year([], [Recipe("x", "y", 1, 1, (0.0,), 1)], [], [1], YearLimits({}, hours(1)))
    with pytest.raises(InputError):
        plan_year([], [], [], [1], YearLimits({}, (1.0,)))


def household(rng, crops=2, recipes=2, foods=2, needs=4):
    """Return a random household's garden, recipes, foods and needs."""

    def nutrients():
        return tuple(rng.uniform(0, 10) for _ in range(needs))

    made = []
    for n in range(crops):
        start, long = rng.randrange(22, 40), rng.randrange(1, 8)
        harvest = tuple(1 / long if start <= week < start + long else 0.0 for week in range(WEEKS))
        made.append(
            GardenCrop(
                f"crop {n}",
                rng.uniform(0.5, 5),
                harvest,
                rng.choice((1, 2, 20)),
                nutrients(),
                rng.uniform(20, 300),
                rng.uniform(0, 0.2),
                rng.uniform(0, 0.5),
            )
        )
    ways = []
    for n in range(recipes):
        load = rng.choice((0, 7, 9))
        ways.append(
            Recipe(
                f"recipe {n}",
                f"crop {n % crops}",
                rng.uniform(0.3, 2),
                rng.uniform(0.05, 0.5),
                nutrients(),
                rng.uniform(5, 60),
                load,
                "jar" if load else "",
                0.0 if load else 2.0,
                rng.uniform(0, 0.3),
            )
        )
    shop = [
        Food(
            f"food {n}", nutrients(), rng.uniform(0, 10), rng.uniform(0.5, 6), rng.uniform(10, 200)
        )
        for n in range(foods)
    ]
    wanted = [rng.uniform(200, 3000) for _ in range(needs - 1)] + [1e6]
    beds = {f"bed {n}": rng.uniform(5, 40) for n in range(2)}
    return made, ways, shop, wanted, beds


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(seed=st.integers(0, 10_000), many=st.floats(0, 8), more=st.floats(0, 8))
def test_amounts_conserve_and_more_hours_are_never_dearer(seed, many, more):
    crops, recipes, foods, needs, beds = household(random.Random(seed))
    plans = [
        plan_year(crops, recipes, foods, needs, YearLimits(beds, hours(h), {"jar": 60}, 60, 100))
        for h in (many, many + more)
    ]
    for plan in plans:
        for crop in crops:
            grown = (
                sum(m2 for (name, _), m2 in plan.planted.items() if name == crop.name)
                * crop.kg_per_m2
                * sum(crop.harvest)
            )
            used = sum(
                kg for (name, _), kg in plan.fresh.items() if name == crop.name
            ) + plan.given.get(crop.name, 0.0)
            used += sum(
                units * r.kg
                for r in recipes
                if r.crop == crop.name
                for (name, _), (units, _) in plan.put_up.items()
                if name == r.name
            )
            assert grown == pytest.approx(used, abs=0.01)
    lacking = [sum(plan.short.get(n, 0) / need for n, need in enumerate(needs)) for plan in plans]
    assert lacking[1] <= lacking[0] + 1e-3
    if math.isclose(lacking[0], lacking[1], abs_tol=1e-6):
        assert plans[1].cost <= plans[0].cost * (1 + 1e-3) + 0.05


@pytest.mark.benchmark
def test_thirty_crops_and_forty_recipes_within_a_minute():
    crops, recipes, foods, needs, beds = household(random.Random(3), 30, 40, 25, 10)
    begun = time.perf_counter()
    plan = plan_year(
        crops, recipes, foods, needs, YearLimits(beds, hours(12), {"jar": 300}, 300, 400)
    )
    print(f"30 crops, 40 recipes: {time.perf_counter() - begun:.1f} s, proven {plan.proven}")
