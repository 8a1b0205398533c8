"""The glut of a book: what comes, only published ways, and what is lost if nothing is done."""

from __future__ import annotations

import pytest
from projections.winter_tools import check_figures, check_sources

from ledger.errors import InputError, NotFound

ON = "2026-09-01"


@pytest.fixture
def orchard(book, fixed_day, yes):
    book.write("setting_changed", {"name": "freezer_room", "value": "10 cu ft"}, on="2026-01-01")
    book.write(
        "item_described",
        {
            "item": "plum",
            "sort": "food",
            "measure": "mass",
            "food": "09279",
            "keeps": {"fridge": "4 days"},
        },
        on="2025-01-01",
    )
    book.write("planted", {"crop": "plum", "plants": 2}, on="2025-03-01")
    for day, pounds in (("2025-09-04", 18), ("2025-08-30", 30), ("2026-08-31", 40)):
        book.write("harvested", {"lines": [{"item": "plum", "amount": f"{pounds} lb"}]}, on=day)
    for makes, method, made in (
        ("frozen plum", "freeze", [{"amount": "10 lb", "kept": "freezer"}]),
        ("plum jam", "boiling water", [{"jars": 6, "jar": "half-pint jar"}]),
    ):
        body = {"makes": makes, "method": method, "used": [{"item": "plum", "amount": "10 lb"}], "made": made,
                "work": [{"person": "Ada", "minutes": "100"}]}  # fmt: skip
        if method == "freeze":
            book.write(
                "item_described",
                {"item": makes, "sort": "food", "measure": "mass"},
                on="2025-09-04",
            )
        book.write("put_up", body, on="2025-09-05", answers=yes)
    book.write(
        "target_set", {"item": "frozen plum", "amount": "24 lb", "per": "year"}, on="2026-01-01"
    )
    return book


def test_plan_of_ten_days(orchard, fixed_day):
    answer = orchard.show("glut", as_of=ON)
    rows = answer.rows()
    came = (
        40 * 0.45359237 + 18 * 0.45359237
    )  # what is here, and the 18 lb of last year's 4 September
    assert sum(row["kg"] for row in rows) + sum(answer.totals["kept_kg"].values()) == pytest.approx(
        came, rel=1e-4
    )
    frozen = sum(row["kg"] for row in rows if row["do"] == "freeze")
    assert frozen == pytest.approx(14 * 0.45359237, rel=1e-3)  # 24 lb wanted, 10 are there
    assert answer.totals["lost_if_nothing_kg"] > answer.totals["lost_kg"]
    assert "plum jam" in " ".join(answer.totals["missing"])  # for it no process was matched
    assert not [row for row in rows if row["makes"] == "plum jam"]
    assert check_figures(orchard, answer, ("kg", "hours", "still_wanted"), as_of=ON) >= 4
    assert check_sources(orchard, answer, ("kg", "hours", "still_wanted"), as_of=ON) >= 8


def test_no_hours_put_nothing_up(orchard, fixed_day):
    answer = orchard.show("glut", as_of=ON, hours="0")
    assert {row["do"] for row in answer.rows()} <= {"eat fresh", "give away", "lost"}


def test_an_empty_book_has_no_glut(book, fixed_day):
    answer = book.show("glut", as_of=ON)
    assert answer.rows() == []
    assert "Nothing of the garden" in answer.totals["missing"][0]


@pytest.mark.parametrize(
    ("options", "field"), [({"hours": "-1"}, "hours"), ({"stove": "30"}, "stove")]
)
def test_bad_options_are_refused(orchard, fixed_day, options, field):
    with pytest.raises(InputError) as refused:
        orchard.show("glut", as_of=ON, **options)
    assert refused.value.field == field


def test_unknown_addresses_are_refused(orchard, fixed_day):
    with pytest.raises(NotFound):
        orchard.why("glut/4,6/2026-09-01/can plum/plum")


def test_no_day_is_set_for_what_no_process_covers(orchard, fixed_day):
    orchard.write(
        "target_set",
        {"item": "plum jam", "amount": "12 half-pint jars", "per": "year"},
        on="2026-01-01",
    )
    answer = orchard.show("month-by-month", as_of=ON)
    said = [row["what"] for row in answer.rows() if row["kind"] == "putting up"]
    assert any("frozen plum" in what for what in said)
    assert not any("plum jam" in what for what in said)
    assert "plum jam" in answer.totals["missing"][0]


@pytest.fixture
def first_year(book, fixed_day):
    """A household without a batch of its own: crops, empty jars, lids and a kitchen."""
    for name, value in (("altitude", "1200 ft"), ("freezer_room", "10 cu ft")):
        book.write("setting_changed", {"name": name, "value": value}, on="2026-01-01")
    picked = []
    for crop, food, pounds in (
        ("tomato", "11529", 40),
        ("green bean", "11052", 12),
        ("summer squash", "11641", 9),
    ):
        described = {"item": crop, "sort": "food", "measure": "mass", "food": food}
        book.write("item_described", described, on="2026-01-01")
        book.write("planted", {"crop": crop, "plants": 10}, on="2026-05-15")
        picked.append({"item": crop, "amount": f"{pounds} lb"})
    book.write("item_described", {"item": "quart jar", "sort": "jar"}, on="2026-01-01")
    for line in ({"item": "quart jar", "amount": "24"}, {"item": "lid", "amount": "24"}):
        book.write("bought", {"lines": [{**line, "paid": "9"}]}, on="2026-08-01")
    book.write("harvested", {"lines": picked}, on="2026-08-31")
    return book


def test_first_year_is_planned_as_the_tables_print_it(first_year, fixed_day):
    """Whole tomatoes in water, hot or raw, quarts, 1,001 to 3,000 ft: 50 minutes and acid (USDA AIB 539, guide 3)."""
    answer = first_year.show("glut", as_of=ON, hours="10")
    cans = [row for row in answer.rows() if row["do"] == "can"]
    assert {row["crop"] for row in cans} == {"tomato"}  # no gauge is set: no bean is canned
    for words in (
        "50 minutes in boiling water",
        "acid in each jar: 2 tbsp bottled lemon juice",
        "539",
    ):
        assert all(words in row["process"] for row in cans)
    assert cans[0]["kg"] == pytest.approx(cans[0]["jars"] * 3 * 0.45359237)  # 21 lb for 7 quarts
    said = " ".join(answer.totals["missing"])
    assert "summer squash: no canning process is published for it" in said
    assert "the canner's gauge is not set" in said
    assert "without a source" in said
    frozen = {row["crop"] for row in answer.rows() if row["do"] == "freeze"}
    assert {"green bean", "summer squash"} <= frozen
    assert check_figures(first_year, answer, ("kg", "hours"), as_of=ON) >= 6
    assert check_sources(first_year, answer, ("kg", "jars", "loads", "hours"), as_of=ON) >= 20


def test_processes_are_of_todays_kitchen(first_year, fixed_day):
    for name, value in (("gauge", "dial"), ("altitude", "2600 ft")):
        first_year.write("setting_changed", {"name": name, "value": value}, on="2026-08-31")
    rows = first_year.show("glut", as_of=ON, hours="20").rows()
    beans = [row for row in rows if row["do"] == "can" and row["crop"] == "green bean"]
    assert beans
    assert all("25 minutes at 12 psi on a dial gauge" in row["process"] for row in beans)  # guide 4
    first_year.write("gauge_tested", {"gauge": "dial", "reads": "+2 psi"}, on="2026-09-01")
    answer = first_year.show("glut", as_of=ON, hours="20")
    assert not [r for r in answer.rows() if r["do"] == "can" and r["crop"] == "green bean"]
    assert "the dial gauge read high" in " ".join(answer.totals["missing"])


def test_a_higher_kitchen_takes_its_own_band(first_year, fixed_day):
    first_year.write("setting_changed", {"name": "altitude", "value": "9000 ft"}, on="2026-08-31")
    cans = [r for r in first_year.show("glut", as_of=ON, hours="20").rows() if r["do"] == "can"]
    assert cans
    assert all("above 6,000 ft" in row["process"] for row in cans)
