"""Keeping life of a book: what failed, what is only censored, and that a published life stands."""

from __future__ import annotations

import datetime as dt

import pytest
from projections.winter_tools import check_figures

from ledger.errors import NotFound

START = dt.date(2025, 10, 1)


def on(days):
    return (START + dt.timedelta(days=days)).isoformat()


@pytest.fixture
def squash(book, fixed_day):
    """Ten squash of the tables: six fail, four are eaten."""
    fate = [
        (30, 1),
        (45, 1),
        (60, 0),
        (75, 1),
        (90, 1),
        (90, 0),
        (120, 1),
        (120, 0),
        (150, 1),
        (150, 0),
    ]
    book.write(
        "item_described",
        {"item": "winter squash", "sort": "food", "measure": "count", "g_per": {"piece": "1500"}},
        on=on(0),
    )
    line = {"item": "winter squash", "amount": "10", "paid": "20", "kept": "cellar"}
    book.write("bought", {"lines": [line]}, on=on(0))
    for day, bad in fate:
        one = {"item": "winter squash", "amount": "1"}
        if bad:
            book.write("discarded", {"lines": [one], "why": "spoiled"}, on=on(day))
        else:
            book.write("eaten", {"ate": [one]}, on=on(day))
    return book


def test_squash_of_the_tables(squash, fixed_day):
    row = squash.show("keeping-life", as_of=on(200)).rows()[0]
    assert (row["item"], row["place"], row["subjects"], row["failures"]) == (
        "winter squash",
        "cellar",
        10,
        6,
    )
    assert row["survival"] == pytest.approx(0.2143, abs=0.00005)
    assert row["says"] == "6 failures: a first hint"
    assert row["half_days"] is None  # until ten failures the chart's life stands
    assert row["published_days"] == pytest.approx(
        6 * 365.25 / 12
    )  # root cellar chart: 3 to 6 months
    assert row["life_days"] == row["published_days"]
    assert row["at_least_days"] == 150


def test_ten_failures_shorten_and_never_lengthen(squash, fixed_day):
    line = {"item": "winter squash", "amount": "30", "paid": "60", "kept": "cellar"}
    squash.write("bought", {"lines": [line]}, on=on(0))
    squash.write(
        "discarded",
        {"lines": [{"item": "winter squash", "amount": "20"}], "why": "spoiled"},
        on=on(40),
    )
    for day in (160, 161, 162, 163):
        squash.write(
            "discarded",
            {"lines": [{"item": "winter squash", "amount": "1"}], "why": "spoiled"},
            on=on(day),
        )
    row = squash.show("keeping-life", as_of=on(200)).rows()[0]
    assert row["failures"] >= 10
    assert row["life_days"] == row["half_days"] < row["published_days"]
    garlic = {"item": "garlic", "sort": "food", "measure": "count", "g_per": {"piece": "45"}}
    squash.write("item_described", garlic, on=on(0))
    squash.write(
        "bought",
        {"lines": [{"item": "garlic", "amount": "12", "paid": "6", "kept": "cellar"}]},
        on=on(0),
    )
    for day in range(300, 312):
        squash.write(
            "discarded",
            {"lines": [{"item": "garlic", "amount": "1"}], "why": "spoiled"},
            on=on(day),
        )
    found = {r["item"]: r for r in squash.show("keeping-life", as_of=on(320)).rows()}["garlic"]
    assert found["half_days"] == 305
    assert found["life_days"] == found["published_days"] == pytest.approx(7 * 365.25 / 12)
    assert found["says"] == "kept longer here; the published life stands"


def test_few_failures_are_too_few_to_say(book, fixed_day):
    book.write(
        "bought",
        {"lines": [{"item": "apple", "amount": "10 lb", "paid": "5", "kept": "cellar"}]},
        on=on(0),
    )
    row = book.show("keeping-life", as_of=on(50)).rows()[0]
    assert (row["says"], row["failures"], row["at_least_days"], row["survival"]) == (
        "too few to say",
        0,
        50,
        1.0,
    )


def test_losses_by_cause(squash, fixed_day):
    answer = squash.show("keeping-life", as_of=on(200), loss=True)
    (row,) = answer.rows()
    assert (row["cause"], row["times"], row["kg"], row["money"]) == (
        "spoiled",
        6,
        9.0,
        pytest.approx(12.0),
    )
    assert row["hours"] is None
    assert check_figures(squash, answer, ("kg", "money"), as_of=on(200)) == 2


def test_every_figure_opens(squash, fixed_day):
    answer = squash.show("keeping-life", as_of=on(200))
    figures = ("survival", "failures", "subjects", "at_least_days", "published_days", "life_days")
    assert check_figures(squash, answer, figures, as_of=on(200)) == 6
    with pytest.raises(NotFound):
        squash.show("keeping-life", item="quince")
    for address in ("keeping-life/winter squash/attic", "keeping-life/loss/winter squash/pests"):
        with pytest.raises(NotFound):
            squash.why(address)
