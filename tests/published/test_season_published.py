"""The season's answer beside published yields, through a book: rows, ground, people and needs.

Figures of University of Kentucky ID-128 and of the Midwest Vegetable Production Guide 2022 are those
typed by hand in test_planting.
"""

from __future__ import annotations

import pytest
from test_planting import KENTUCKY, MIDWEST

LB, FT = 453.59237, 0.3048
"""The international avoirdupois pound and foot, exact (NIST Handbook 44, appendix C)."""


def season(book, yes, crop, amount, **planted):
    book.write("planted", {"crop": crop, **planted}, on="2026-05-01", answers=yes)
    book.write("harvested", item=crop, amount=amount, on="2026-08-01", answers=yes)
    (record,) = book.show("season", as_of="2026-12-31").to_dict()["records"]
    return record


@pytest.mark.parametrize(("crop", "pounds", "fresh", "keep", "unit"), KENTUCKY)
def test_hundred_feet_of_row(book, yes, crop, pounds, fresh, keep, unit):
    """Picking what the Kentucky table prints for 100 feet of row stands within its range."""
    found = season(book, yes, crop, f"{pounds} lb", row="100 ft")
    assert found["picked_g"] == pytest.approx(pounds * LB, rel=1e-6)
    assert found["per_row_m_g"] == pytest.approx(pounds * LB / (100 * FT), rel=1e-6)
    assert found["published_low_g"] <= pounds * LB * (1 + 1e-9)
    assert found["published_high_g"] >= pounds * LB * (1 - 1e-9)
    assert "University of Kentucky" in found["published_from"]


@pytest.mark.parametrize(
    ("crop", "feet", "pounds"),
    [
        ("broccoli", 25, 25), ("cabbage", 40, 60), ("carrot", 10, 10),
        ("eggplant", 12, 12), ("garlic", 15, 6), ("okra", 30, 30), ("parsnip", 75, 75),
        ("snow pea", 50, 10), ("kale", 20, 20), ("sweet potato", 60, 60), ("kohlrabi", 40, 30),
    ],
)  # fmt: skip
def test_part_of_a_hundred_feet(book, yes, crop, feet, pounds):
    """University of Kentucky ID-128, planting table: pounds in proportion to the row."""
    found = season(book, yes, crop, "1 lb", row=f"{feet} ft")
    for end in ("published_low_g", "published_high_g"):
        assert found[end] == pytest.approx(pounds * LB, rel=1e-6)


@pytest.mark.parametrize(("crop", "average", "excellent"), MIDWEST)
def test_an_acre_of_a_field(book, yes, crop, average, excellent):
    """Midwest Vegetable Production Guide 2022, page 30; an acre is 43,560 square feet."""
    found = season(book, yes, crop, f"{average * 2000} lb", area="43560 sq ft")
    low, high = found["published_low_g"], found["published_high_g"]
    assert low == pytest.approx(average * 2000 * LB, rel=1e-6)
    assert high == pytest.approx(excellent * 2000 * LB, rel=1e-6)
    assert found["per_m2_g"] == pytest.approx(low / (43_560 * FT**2), rel=1e-6)
    assert "of fields" in found["published_from"]


def test_row_for_a_family_of_four(book, yes):
    """USDA Community Garden Guide, worked steps: 20 lb x 4 people / 2.5 lb per foot = 32 ft."""
    book.write("setting_changed", name="people", value="4", on="2026-01-01", answers=yes)
    book.write(
        "target_set", item="tomato", amount="20 lb", per="person year", on="2026-01-01", answers=yes
    )
    found = season(book, yes, "tomato", "80 lb", row="32 ft")
    assert found["target_g"] == pytest.approx(20 * 4 * LB, rel=1e-6)
    assert found["published_high_g"] == pytest.approx(found["target_g"], rel=1e-6)
    assert found["short_of_target_g"] == pytest.approx(0, abs=0.01)
    assert found["per_row_m_g"] == pytest.approx(2.5 * LB / FT, rel=1e-6)


def test_row_of_beans_for_a_family_of_five(book, yes):
    """University of Georgia: 8 to 15 lb from 12 feet a person; a family of five needs 60 feet."""
    found = season(book, yes, "snap bean", "75 lb", row="60 ft")
    assert found["published_low_g"] == pytest.approx(5 * 8 * LB, rel=1e-6)
    assert found["published_high_g"] >= 5 * 15 * LB
    assert "Georgia" in found["published_from"]


def test_fifty_feet_of_asparagus(book, yes):
    """Kentucky's table has 30 lb from 100 feet, the USDA guide 0.6 lb from a foot."""
    found = season(book, yes, "asparagus", "20 lb", row="50 ft")
    assert found["published_low_g"] == pytest.approx(15 * LB, rel=1e-6)
    assert found["published_high_g"] == pytest.approx(30 * LB, rel=1e-6)


def test_ten_feet_of_beets(book, yes):
    """Michigan State beet facts: 10 lb from 10 feet; Kentucky's table has 150 lb from 100."""
    found = season(book, yes, "beet", "10 lb", row="10 ft")
    assert found["published_low_g"] == pytest.approx(10 * LB, rel=1e-6)
    assert found["published_high_g"] == pytest.approx(15 * LB, rel=1e-6)
