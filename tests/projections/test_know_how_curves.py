"""The curve of a skill: minutes for one, batch after batch, and the unit that they are told by."""

from __future__ import annotations

import pytest
from know_how_tools import asker, jam, one, writer


@pytest.fixture
def write(book, yes):
    return writer(book, yes)


@pytest.fixture
def show(book):
    return asker(book)


def test_curve_takes_five_batches(write, show):
    for n, minutes in enumerate(("60", "48", "42.1", "38.4"), start=1):
        jam(write, f"2026-06-0{n}", minutes)
    assert one(show(), "jam")["learning_rate"] is None
    assert "4 of at least 5" in show(curve="jam")["totals"]["missing"][0]
    jam(write, "2026-06-05", "35.7")
    found = one(show(), "jam")
    assert found["learning_rate"] == pytest.approx(0.8, abs=0.001)  # 60 x n^log2(0.8)
    assert found["learning_rate_low"] <= found["learning_rate"] <= found["learning_rate_high"]
    assert (found["unit"], found["learning_repetitions"]) == ("jar", 5)
    assert found["minutes_per_unit_lately"] == pytest.approx((42.1 + 38.4 + 35.7) / 18)


def test_batch_without_work_is_a_repetition_and_no_point(write, show):
    for n in range(1, 8):
        jam(write, f"2026-06-0{n}", None if n == 3 else str(round(60 * n**-0.25, 3)))
    found = one(show(), "jam")
    assert found["learning_repetitions"] == 6
    assert found["learning_rate"] == pytest.approx(2**-0.25, abs=1e-3)
    points = show(curve="jam")["records"]
    assert [p["repetition"] for p in points] == list(range(1, 8))
    assert points[2]["minutes_per_unit"] is None
    assert points[2]["fitted_low"] <= points[2]["fitted_likely"] <= points[2]["fitted_high"]


def test_jars_of_several_sizes_are_not_set_side_by_side(write, show):
    jam(write, "2026-06-01", jar="pint jar")
    jam(write, "2026-06-02")
    assert one(show(), "jam")["unit"] in ("quart", "lb")


def test_frozen_by_the_pound_or_kilogram(write, show):
    used = [{"item": "pea", "amount": "10 lb"}]
    work = [{"person": "Ada", "minutes": "30"}]
    body = {"makes": "frozen pea", "method": "freeze", "used": used, "work": work}
    write("put_up", "2026-07-01", made=[{"amount": "5 lb", "kept": "freezer"}], **body)
    found = one(show(), "frozen pea")
    assert (found["unit"], found["minutes_per_unit_lately"]) == ("lb", pytest.approx(6.0))
    write("setting_changed", "2026-01-01", name="measures", value="metric")
    assert one(show(), "frozen pea")["unit"] == "kg"


def test_method_of_several_things_has_no_curve(write, show):
    for n in range(1, 6):
        jam(write, f"2026-06-0{n}")
        jam(write, f"2026-07-0{n}", makes="jelly")
    assert one(show(), "jam")["learning_rate"] == pytest.approx(1)
    assert one(show(), "boiling water")["learning_rate"] is None
    assert "ask for one of them" in show(skill="boiling water")["totals"]["missing"][0]


def test_one_skill_says_who_fades_and_how_fast_it_goes(write, show):
    for n in range(1, 7):
        jam(write, f"2026-10-0{n}", str(60 + n % 2))
    write("practised", "2024-10-01", skill="jam", people=["Ben"])
    words = show(skill="jam")["totals"]["in_words"]
    assert "Out of practice in it: Ben." in words
    assert any(text.startswith("Neither quicker nor slower") for text in words)
    assert show(skill="jam")["totals"]["missing"] == []
