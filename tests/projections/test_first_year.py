"""First year: the plans' worked examples, and how own record takes over."""

from __future__ import annotations

import pytest
from projections.winter_tools import check_figures, people

from ledger.reference import servings

FIGURES = ("quarts", "plan_quarts", "own_quarts", "months", "lb", "row_ft")


def test_green_beans_of_the_tables():
    """METHODS 4: 2 a week x 36 weeks x 0.5 cup, 9 quarts a person; 36 quarts for four, 72 lb below."""
    plan = servings.of_food("green bean")
    assert (plan.servings, plan.weeks, plan.serving_cups, plan.quarts) == (2, 36, 0.5, 9)


def mixed(plan, own, months):
    """Six months of the plan against the months of own record: 29.6 of 36 and 20 after four."""
    return (plan * 6 + own * months) / (6 + months)


def test_a_book_without_record(book, fixed_day):
    people(book)
    answer = book.show("first-year", as_of="2026-10-02")
    rows = {row["food"]: row for row in answer.rows()}
    beans = rows["green beans"]
    assert (beans["plan_quarts"], beans["quarts"], beans["own_quarts"]) == (36, 36, None)
    assert beans["lb"] == pytest.approx(72)
    # the lowest published row yield is 8 lb from 12 ft; the bulletin's 120 lb from 100 ft gives 60 ft
    assert beans["row_ft"] == pytest.approx(72 / (8 / 12))
    assert "not this family" in answer.totals["in_words"][0]
    assert check_figures(book, answer, FIGURES, as_of="2026-10-02") > 60


def test_own_record_is_mixed_in(book, fixed_day, yes):
    people(book)
    item = {"item": "canned green bean", "sort": "food", "measure": "volume"}
    book.write("item_described", item, on="2026-06-01")
    book.write(
        "bought",
        {"lines": [{"item": "green bean", "amount": "14 lb", "paid": "9"}]},
        on="2026-06-01",
    )
    body = {"makes": "canned green bean", "method": "pressure", "used": [{"item": "green bean", "amount": "14 lb"}],
            "made": [{"jars": 7, "jar": "quart jar"}]}  # fmt: skip
    book.write("put_up", body, on="2026-06-02", answers=yes)
    from ledger import Answers

    eaten = {"ate": [{"item": "canned green bean", "amount": "2 qt"}]}
    book.write("eaten", eaten, on="2026-08-01", answers=Answers(yes=True, knowingly=True))
    answer = book.show("first-year", as_of="2026-10-01")
    beans = {row["food"]: row for row in answer.rows()}["green beans"]
    days = 122  # from 2 June to 1 October
    assert beans["months"] == pytest.approx(days / (365 / 12))
    assert beans["own_quarts"] == pytest.approx(2 * 365 / days, rel=1e-6)
    assert beans["quarts"] == pytest.approx(mixed(36, beans["own_quarts"], beans["months"]))
    assert beans["items"] == ["canned green bean"]
    assert check_figures(book, answer, FIGURES, as_of="2026-10-01") > 60
