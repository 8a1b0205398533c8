"""The glut of a book: what comes, only published ways, and what is lost if nothing is done."""

from __future__ import annotations

import pytest
from projections.winter_tools import check_figures

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
