"""Fitting crops into beds: against trying every plan, and the rules a plan keeps."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.methods.beds import Bed, Crop, fit_beds

TOMATO = Crop("tomato", 30_000, 3_000, 0.5, value=0.004, energy=0.18, family="Solanaceae")
POTATO = Crop("potato", 40_000, 800, 0.25, value=0.0015, energy=0.77, family="Solanaceae")
CARROT = Crop("carrot", 10_000, 1_500, 0.3, False, 0.002, 0.41, "Apiaceae")
BEDS = [Bed("south", 4.0), Bed("north", 3.0)]


def best_by_trial(crops, beds, weights, shut=()):
    """Try every number of whole plants in every bed."""
    rooms = [
        range(1 if (c, b) in shut else int(bed.area_m2 / crop.space_m2 + 1e-9) + 1)
        for c, crop in enumerate(crops)
        for b, bed in enumerate(beds)
    ]
    best = 0.0
    for units in product(*rooms):
        rows = [units[c * len(beds) : (c + 1) * len(beds)] for c in range(len(crops))]
        fits = all(
            sum(rows[c][b] * crop.space_m2 for c, crop in enumerate(crops)) <= bed.area_m2 + 1e-9
            for b, bed in enumerate(beds)
        )
        if fits:
            useful = (
                w * min(crop.wanted, sum(row) * crop.per_unit)
                for w, crop, row in zip(weights, crops, rows, strict=True)
            )
            best = max(best, sum(useful))
    return best


small = st.builds(
    lambda wanted, per, space, value, energy: (wanted, per, space, value, energy),
    st.integers(1, 30),
    st.integers(1, 6),
    st.sampled_from([0.5, 0.75, 1.0, 1.5]),
    st.integers(0, 9),
    st.integers(0, 9),
)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(small, min_size=1, max_size=2),
    st.lists(st.sampled_from([0.0, 1.0, 2.5, 3.0]), min_size=1, max_size=2),
    st.sampled_from(["targets", "shop value", "energy"]),
    st.booleans(),
)
def test_no_plan_is_better(rows, areas, aim, rotation):
    crops = [
        Crop(f"crop {i}", w, per, space, True, value, energy, f"family {i}")
        for i, (w, per, space, value, energy) in enumerate(rows)
    ]
    beds = [
        Bed(f"bed {i}", a, frozenset({"family 0"} if i == 0 else ())) for i, a in enumerate(areas)
    ]
    weights = {
        "targets": [1 / c.wanted for c in crops],
        "shop value": [c.value for c in crops],
        "energy": [c.energy for c in crops],
    }[aim]
    plan = fit_beds(crops, beds, aim=aim, rotation=rotation)
    best = best_by_trial(crops, beds, weights, {(0, 0)} if rotation else ())
    assert plan.proven
    assert plan.reached == pytest.approx(best, rel=1.1e-3, abs=1e-6)


def test_beds_hold_what_is_planted():
    plan = fit_beds([TOMATO, POTATO, CARROT], BEDS)
    for bed in BEDS:
        used = sum(p.area_m2 for p in plan.plantings if p.bed == bed.name)
        assert used <= bed.area_m2 + 1e-6
        assert plan.free_m2[bed.name] == pytest.approx(bed.area_m2 - used, abs=1e-6)
    for planting in plan.plantings:
        if planting.crop != "carrot":
            assert planting.units == int(planting.units)
    for crop in (TOMATO, POTATO, CARROT):
        short = plan.shortfalls[crop.name]
        assert short == pytest.approx(max(0.0, crop.wanted - plan.brings[crop.name]), abs=1e-3)


def test_room_enough_meets_every_target():
    plan = fit_beds([TOMATO, POTATO, CARROT], [Bed("field", 100.0)])
    assert plan.shortfalls == {"tomato": 0.0, "potato": 0.0, "carrot": 0.0}
    assert plan.reached == pytest.approx(3)
    # and plants no more than that takes: 10 tomatoes, 50 potatoes, 6.67 m of carrots
    units = {p.crop: p.units for p in plan.plantings}
    assert units == {"tomato": 10, "potato": 50, "carrot": pytest.approx(20 / 3)}


def test_aims_differ():
    # a square metre of tomatoes is worth 24 and gives 1,080 kcal, of potatoes 4.80 and 2,464
    bed = [Bed("small", 2.0)]
    assert {p.crop for p in fit_beds([TOMATO, POTATO], bed, aim="shop value").plantings} == {
        "tomato"
    }
    assert {p.crop for p in fit_beds([TOMATO, POTATO], bed, aim="energy").plantings} == {"potato"}


def test_rotation_keeps_kin_out():
    beds = [Bed("south", 4.0, frozenset({"Solanaceae"})), Bed("north", 3.0)]
    plan = fit_beds([TOMATO, CARROT], beds, rotation=True)
    assert {p.bed for p in plan.plantings if p.crop == "tomato"} == {"north"}
    assert plan.kept_out == {"tomato": ["south"]}
    assert plan.family_unknown == []
    free = fit_beds([TOMATO, CARROT], beds)
    assert free.kept_out == {}


def test_unknown_family_is_told():
    stranger = Crop("oca", 100, 10, 1.0)
    assert fit_beds([stranger], BEDS, rotation=True).family_unknown == ["oca"]


def test_crop_without_end_fills_the_bed():
    crop = Crop("garlic", None, 50, 0.02, value=0.01)
    plan = fit_beds([crop], [Bed("one", 1.0)], aim="shop value")
    assert plan.plantings[0].units == 50
    assert plan.shortfalls == {"garlic": 0.0}


def test_no_beds_leave_everything_short():
    plan = fit_beds([TOMATO], [])
    assert (plan.plantings, plan.shortfalls, plan.reached) == ([], {"tomato": 30_000}, 0)
    assert fit_beds([], BEDS).plantings == []
    assert fit_beds([Crop("x", 0, 1, 1)], BEDS).shortfalls == {"x": 0.0}


def test_many_crops_in_many_beds_end_in_time():
    crops = [
        Crop(
            f"crop {i}",
            5_000 + 700 * i,
            400 + 90 * i,
            0.1 + 0.05 * (i % 7),
            i % 3 > 0,
            family=f"f{i % 6}",
        )
        for i in range(25)
    ]
    beds = [Bed(f"bed {i}", 3.0 + i, frozenset({f"f{i % 6}"})) for i in range(12)]
    plan = fit_beds(crops, beds, rotation=True)
    assert plan.plantings
    assert plan.reached > 10


@pytest.mark.parametrize(
    ("crops", "beds", "more"),
    [
        ([TOMATO, TOMATO], BEDS, {}),
        ([TOMATO], [BEDS[0], BEDS[0]], {}),
        ([Crop("x", 1, 0, 1)], BEDS, {}),
        ([Crop("x", None, 1, 1)], BEDS, {}),
        ([TOMATO], [Bed("b", -1.0)], {}),
        ([TOMATO], BEDS, {"aim": "beauty"}),
    ],
)
def test_bad_input_is_refused(crops, beds, more):
    with pytest.raises(InputError):
        fit_beds(crops, beds, **more)


def test_solver_writes_nothing_on_standard_output(capfd):
    # two of these plans made HiGHS print a line while its presolve was on
    rng = np.random.default_rng(14)
    for _ in range(40):
        crops = [
            Crop(
                f"c{j}",
                float(rng.uniform(1, 50)),
                float(rng.uniform(0.5, 5)),
                float(rng.uniform(0.1, 2)),
                bool(rng.random() < 0.6),
                family=f"f{j % 4}",
            )
            for j in range(rng.integers(1, 12))
        ]
        beds = [
            Bed(f"b{j}", float(rng.uniform(0, 12)), frozenset({f"f{j % 4}"}))
            for j in range(rng.integers(1, 6))
        ]
        fit_beds(crops, beds, rotation=True)
    assert capfd.readouterr().out == ""
