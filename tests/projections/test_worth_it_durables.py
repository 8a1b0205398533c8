"""Was it worth it: what lasts and what it earned, and the prices of home and shop."""

from __future__ import annotations

import pytest
from questions.recomputed import recompute
from worth_it_tools import near, small_season, write

from ledger.errors import InputError


@pytest.fixture
def season(book, yes, fixed_day):
    """One small season, every line of it."""
    return small_season(book, yes)


def test_durables_share_the_gain_by_wear(season):
    found = {r["item"]: r for r in season.show("worth-it", durables=True).to_dict()["records"]}
    # gain of the batch before wear: 25.00 - 26.50 + 3.00, shared 2 : 1
    assert found["kettle"]["earned"] == near(1.5 * 2 / 3)
    assert found["quart jar"]["earned"] == near(1.5 * 1 / 3)
    assert found["kettle"]["charged"] == near(2)
    assert found["quart jar"]["uses"] == 5
    assert found["kettle"]["paid_back_on"] is None
    # bought in January, ten of twelve months ago counting the first in full
    assert found["kettle"]["worn_by_age"] == near(40 / 20 * 11 / 12)


def test_a_durable_that_served_nothing_is_not_known(book, fixed_day):
    write(
        book,
        "item_described",
        "2026-01-01",
        item="chest freezer",
        sort="equipment",
        measure="count",
    )
    write(book, "bought", "2026-01-01", item="chest freezer", amount="1", paid="300")
    answer = book.show("worth-it", durables=True).to_dict()
    freezer = answer["records"][0]
    assert (freezer["earned"], freezer["payback_years"], freezer["expected_on"]) == (
        None,
        None,
        None,
    )
    assert freezer["life_years"] == 10
    assert "--equipment" in answer["totals"]["missing"][0]


def test_prices_by_item_and_change(season, yes):
    write(season, "price_seen", "2026-10-01", item="tomato", amount="1 lb", price="2.20")
    found = {r["item"]: r for r in season.show("worth-it", prices=True).to_dict()["records"]}
    assert found["tomato"]["home_per_unit"] == near(1.0)
    assert found["tomato"]["shop_per_unit"] == near(2.0)
    assert found["tomato"]["saved"] == near(30)
    assert found["egg"]["per"] == "dozen"
    assert found["egg"]["home_per_unit"] == near(9)
    sauce = found["tomato sauce"]
    assert sauce["home_per_unit"] == near((26.5 + 12) / 5)
    assert sauce["home_before_labour_per_unit"] == near(26.5 / 5)
    assert sauce["equipment"] == 40
    assert sauce["break_even_jars"] is None  # a jar costs 7.30 without the kettle, 5.00 at the shop
    assert sauce["break_even_jars_before_labour"] == near(40 / (5 - 24.5 / 5))
    assert sauce["home_change"] is None


def test_change_since_the_season_before(book, fixed_day):
    for year, price in ((2025, "2"), (2026, "3")):
        write(book, "price_seen", f"{year}-05-01", item="plum", amount="1 lb", price=price)
        write(book, "harvested", f"{year}-08-01", lines=[{"item": "plum", "amount": "10 lb"}])
    found = book.show("worth-it", prices=True).to_dict()["records"]
    assert [r["season"] for r in found] == ["2026", "2025"]
    assert found[0]["shop_change"] == near(0.5)
    assert found[0]["home_change"] is None  # it cost nothing in both
    only = book.show("worth-it", prices=True, season="2026").to_dict()["records"]
    assert [r["season"] for r in only] == ["2026"]
    assert only[0]["shop_change"] == near(0.5)


def test_a_book_of_forty_years(book, yes, fixed_day):
    write(book, "price_seen", "1986-01-01", item="plum butter", amount="1 qt", price="5")
    write(book, "bought", "1986-01-01", item="kettle", amount="1", paid="60", years="40")
    for year in range(1986, 2026):
        write(book, "harvested", f"{year}-08-01", lines=[{"item": "plum", "amount": "5 lb"}])
        body = {"makes": "plum butter", "method": "boiling water", "used": [{"item": "plum", "amount": "5 lb"}],
                "made": [{"amount": "1 qt"}], "equipment": ["kettle"]}  # fmt: skip
        book.write("put_up", body, on=f"{year}-08-02", answers=yes)
    kettle = book.show("worth-it", durables=True).to_dict()["records"][0]
    assert kettle["earned"] == pytest.approx(40 * 5)
    assert kettle["charged"] == pytest.approx(60)
    assert kettle["lasts_until"] == "2026-01-01"
    # 5.00 a year: in its twelfth August
    assert kettle["paid_back_on"] == "1997-08-02"
    assert kettle["payback_years"] == near(11 + 214 / 365)
    assert len(book.show("worth-it", prices=True).to_dict()["records"]) == 80


def test_what_lasts_costs_interest_and_is_paid_off_at_most(book, yes, fixed_day):
    write(book, "item_described", "2020-01-01", item="press", sort="equipment", measure="count")
    write(book, "bought", "2026-01-02", item="press", amount="1", paid="45000", years="5")
    press = book.show("worth-it", durables=True).to_dict()["records"][0]
    assert press["yearly_cost"] == near(9000)
    write(book, "setting_changed", "2026-01-01", name="interest_rate", value="10 % a year")
    press = book.show("worth-it", durables=True).to_dict()["records"][0]
    # (A/P, 10 %, 5) is 0.26380 in the tables of engineering economy
    assert press["yearly_cost"] == pytest.approx(45_000 * 0.26380, abs=0.2)
    node = book.why("worth-it/durable/press", "yearly_cost")
    assert recompute(node) == pytest.approx(press["yearly_cost"])
    assert (press["back_text"], press["gain_per_year"]) == (None, None)


@pytest.mark.parametrize("value", ["-1", "4 per month", "four", "101", ""])
def test_an_interest_rate_that_cannot_be_is_refused(book, value):
    with pytest.raises(InputError) as refused:
        write(book, "setting_changed", "2026-01-01", name="interest_rate", value=value)
    assert "interest_rate" in str(refused.value) or value == ""
