"""The glut's programme: worked figures, conservation, and that more hours never lose more."""

from __future__ import annotations

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.methods.glut import Arrival, Crop, Limits, Way, plan_glut
from ledger.reference import winter

LB = 0.45359237


def test_tomatoes_of_the_tables():
    """METHODS 3: 53 lb at 21 lb a load of seven quarts: 2.52 loads, so three, 17.7 quarts."""
    crop = Crop("tomato", (Arrival(0, 3, 53 * LB),))
    way = Way("can tomato", "tomato", 3 * LB, 0.25, 40, 7, 2.0, "quart jar")
    limits = Limits((10.0,) * 3, 6.0, {"quart jar": 40}, 40)
    plan = plan_glut([crop], [way], limits)
    cans = [use for use in plan.uses if use.way == "can tomato"]
    assert sum(use.loads for use in cans) == 3
    assert sum(use.units for use in cans) == 17  # whole jars of 17.7
    assert plan.kg("lost") == pytest.approx(0, abs=1e-6)
    feet = 53 / winter.figure("glut", "freezer_room", "food in one cubic foot").middle
    assert feet == pytest.approx(1.51, abs=0.005)
    rate = winter.figure("glut", "freezer_rate", "new food in 24 hours")
    assert (15 * rate.low, 15 * rate.high) == (30, 45)
    assert math.ceil(53 / 30) == math.ceil(53 / 45) == 2


def test_freezer_takes_no_more_than_its_day():
    crop = Crop("pea", (Arrival(0, 4, 40 * LB),))
    way = Way("freeze pea", "pea", 1.0, 0.1, 100, frozen_lb=1 / LB)
    plan = plan_glut([crop], [way], Limits((10.0,) * 5, freezer_lb=25, freezer_lb_a_day=10))
    frozen = [use for use in plan.uses if use.way == "freeze pea"]
    assert all(use.kg / LB <= 10 + 1e-6 for use in frozen)
    assert sum(use.kg for use in frozen) / LB == pytest.approx(25)


def test_nothing_is_put_up_beyond_what_is_wanted():
    crop = Crop("plum", (Arrival(0, 1, 20.0),))
    way = Way("can plum", "plum", 1.0, 0.1, 3.6, 7, 1.0, "pint jar")
    plan = plan_glut([crop], [way], Limits((20.0,) * 2, 24.0, {"pint jar": 50}, 50))
    assert plan.kg("can plum") == 3
    assert plan.kg("give away") == pytest.approx(17)


def test_doing_nothing_loses_what_is_not_eaten():
    crop = Crop("plum", (Arrival(0, 1, 20.0), Arrival(1, 9, 5.0)), 0.5)
    plan = plan_glut([crop], [], Limits((4.0,) * 3), doing=False)
    assert plan.kg("eat fresh") == pytest.approx(1.5)
    assert plan.kg("lost") == pytest.approx(19)
    assert plan.kept["plum"] == pytest.approx(4.5)


def test_bad_input_is_refused():
    with pytest.raises(InputError):
        plan_glut([Crop("plum", ())], [Way("x", "pear", 1, 1, 1)], Limits((1.0,)))
    with pytest.raises(InputError):
        plan_glut([], [], Limits((-1.0,)))


arrivals = st.lists(
    st.tuples(st.integers(0, 3), st.integers(0, 4), st.floats(0.1, 30)), min_size=1, max_size=3
)


@st.composite
def kitchens(draw):
    crops, ways = [], []
    for name in ("plum", "bean")[: draw(st.integers(1, 2))]:
        came = tuple(Arrival(day, day + life, kg) for day, life, kg in draw(arrivals))
        crops.append(Crop(name, came, draw(st.floats(0, 1))))
        ways.append(
            Way(
                f"can {name}",
                name,
                draw(st.floats(0.3, 2)),
                draw(st.floats(0.05, 0.5)),
                draw(st.floats(0, 30)),
                7,
                1.5,
                "jar",
            )
        )
        ways.append(
            Way(f"dry {name}", name, 1.0, draw(st.floats(0.05, 0.5)), draw(st.floats(0, 10)))
        )
    return crops, ways, draw(st.floats(0, 6)), draw(st.integers(0, 30))


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(kitchens())
def test_amounts_conserve_and_limits_hold(kitchen):
    crops, ways, hours, jars = kitchen
    limits = Limits((hours,) * 4, 5.0, {"jar": jars}, jars)
    plan = plan_glut(crops, ways, limits)
    for crop in crops:
        came = math.fsum(a.kg for a in crop.arrivals)
        gone = math.fsum(use.kg for use in plan.uses if use.crop == crop.name)
        assert came == pytest.approx(gone + plan.kept[crop.name], abs=1e-4)
    for day in range(4):
        assert math.fsum(use.hours for use in plan.uses if use.day == day) <= hours + 1e-4
    assert sum(use.units for use in plan.uses if use.way.startswith("can")) <= jars + 1e-6
    assert all(use.units == round(use.units) for use in plan.uses if use.way.startswith("can"))


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(kitchens(), st.floats(0, 4))
def test_more_hours_never_lose_more(kitchen, more):
    crops, ways, hours, jars = kitchen
    lost = [
        plan_glut(crops, ways, Limits((h,) * 4, 5.0, {"jar": jars}, jars)).kg("lost")
        for h in (hours, hours + more)
    ]
    assert lost[1] <= lost[0] + 1e-4
