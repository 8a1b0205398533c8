"""Power and water, work, own prices and hens, answered by a book."""

from __future__ import annotations

import pytest
from projections.winter_tools import check_figures

from ledger import Answers
from ledger.errors import InputError, NotFound

ON = "2026-10-01"


@pytest.fixture
def canned(book, fixed_day, yes):
    """Two batches of plums: one of a full load, metered; one of three jars, not measured."""
    book.write(
        "setting_changed",
        {"name": "price_of_electricity", "value": "0.20 per kWh"},
        on="2026-01-01",
    )
    book.write("setting_changed", {"name": "labour_rate", "value": "10"}, on="2026-01-01")
    book.write(
        "bought", {"lines": [{"item": "plum", "amount": "40 lb", "paid": "40"}]}, on="2026-09-01"
    )
    batches = []
    for day, jars, fuel in (
        ("2026-09-02", 7, [{"metered": "electricity", "amount": "2.1 kWh"}]),
        ("2026-09-09", 3, None),
    ):
        body = {"makes": "canned plum", "method": "boiling water", "used": [{"item": "plum", "amount": f"{2 * jars} lb"}],
                "made": [{"jars": jars, "jar": "quart jar"}], "loads": 1, "work": [{"person": "Ada", "minutes": "60"}]}  # fmt: skip
        if fuel:
            body["fuel"] = fuel
        batches.append(book.write("put_up", body, on=day, answers=yes).event.id)
    return book, batches


def test_heat_of_a_jar(canned, fixed_day):
    book, (full, few) = canned
    rows = {row["batch"]: row for row in book.show("power-and-water", as_of=ON).rows()}
    assert (rows[full]["kwh"], rows[full]["kwh_from"]) == (pytest.approx(2.1), "metered")
    assert rows[full]["kwh_per_good_jar"] == pytest.approx(0.3)
    assert rows[full]["full_load_saves"] == 0
    assert rows[few]["kwh_from"] == "estimate"
    assert rows[few]["kwh"] == 1.93  # the tables' estimate of seven quarts, hot pack
    assert rows[few]["full_load_saves"] == pytest.approx(1.93 / 3 - 1.93 / 7)
    assert (rows[few]["water_l"], rows[few]["water_l_low"], rows[few]["water_l_high"]) == (
        None,
        15,
        20,
    )


def test_meter_comes_before_estimate(canned, fixed_day):
    book, (_, few) = canned
    book.write(
        "meter_read",
        {"meter": "stove", "reads": "103.2 kWh", "before": "101.1 kWh", "batch": few},
        on="2026-09-09",
    )
    book.write(
        "meter_read",
        {"meter": "water", "reads": "1203 L", "before": "1179 L", "batch": few},
        on="2026-09-09",
    )
    answer = book.show("power-and-water", as_of=ON)
    row = {r["batch"]: r for r in answer.rows()}[few]
    assert (row["kwh"], row["kwh_from"], row["water_l"]) == (
        pytest.approx(2.1),
        "meter",
        pytest.approx(24),
    )
    assert row["water_per_good_jar"] == pytest.approx(8)
    figures = (
        "kwh",
        "kwh_per_good_jar",
        "good_jars",
        "jars",
        "full_load_saves",
        "water_l",
        "water_per_good_jar",
    )
    assert check_figures(book, answer, figures, as_of=ON) == 12


def test_freezer_share_by_lot_and_month(book, fixed_day):
    """METHODS 7: 350 kWh a year and 20 lb for six months among 250 lb kept on average: 14 kWh."""
    book.write("setting_changed", {"name": "freezer_room", "value": "14 cu ft"}, on="2025-10-01")
    for pounds, day in (("240", "2025-10-01"), ("20", "2026-04-01")):
        line = {"item": "pea", "amount": f"{pounds} lb", "paid": "1", "kept": "freezer"}
        book.write("bought", {"lines": [line]}, on=day)
    answer = book.show("power-and-water", as_of="2026-10-01", freezer=True)
    few, many = sorted(answer.rows(), key=lambda row: row["lb_months"])
    assert few["lb_months"] == pytest.approx(20 * 183 / (365.2425 / 12))
    assert few["kwh"] + many["kwh"] == pytest.approx(350)  # conserved
    assert few["kwh"] == pytest.approx(14, abs=0.1)
    assert few["money"] is None
    book.write(
        "setting_changed",
        {"name": "price_of_electricity", "value": "0.20 per kWh"},
        on="2026-01-01",
    )
    priced = book.show("power-and-water", as_of="2026-10-01", freezer=True)
    assert check_figures(book, priced, ("lb_months", "kwh", "money"), as_of="2026-10-01") == 6


def test_freezer_by_its_meter(book, fixed_day):
    book.write(
        "bought",
        {"lines": [{"item": "pea", "amount": "10 lb", "paid": "1", "kept": "freezer"}]},
        on="2026-04-01",
    )
    assert "not known" in book.show("power-and-water", as_of=ON, freezer=True).totals["missing"][0]
    for day, reads in (("2026-04-01", "100 kWh"), ("2026-07-10", "200 kWh")):
        book.write("meter_read", {"meter": "freezer", "reads": reads}, on=day)
    answer = book.show("power-and-water", as_of=ON, freezer=True)
    assert answer.totals["kwh"] == pytest.approx(365)
    assert check_figures(book, answer, ("lb_months", "kwh"), as_of=ON) == 2


def test_work_side_by_side(canned, fixed_day):
    book, _ = canned
    book.write(
        "price_seen", {"item": "canned plum", "amount": "1 qt", "price": "5.00"}, on="2026-09-01"
    )
    before = book.show("work-worth", as_of=ON)
    assert {row["helper"] for row in before.rows()} == {None}
    assert "helper_wage" in " ".join(before.totals["missing"])
    book.write("setting_changed", {"name": "helper_wage", "value": "15.00"}, on="2026-01-01")
    book.write("setting_changed", {"name": "pay_given_up", "value": "22 per hour"}, on="2026-01-01")
    answer = book.show("work-worth", as_of=ON)
    row = {r["line"]: r for r in answer.rows()}["preserving"]
    assert (row["hours"], row["own_rate"], row["helper"], row["pay_given_up"]) == (2, 20, 30, 44)
    worth = {r["line"]: r for r in book.show("worth-it", as_of=ON).rows()}["preserving"]
    assert row["brought"] == worth["net"]
    figures = ("hours", "own_rate", "helper", "pay_given_up", "brought", "brought_per_hour")
    assert check_figures(book, answer, figures, as_of=ON) == 12


def test_work_of_the_tables(book, fixed_day, yes):
    """METHODS 8: 12 h, 50 quarts at shop 3.50, inputs 40, wear 5; 15 and 22 an hour."""
    for name, value in (("helper_wage", "15"), ("pay_given_up", "22")):
        book.write("setting_changed", {"name": name, "value": value}, on="2026-01-01")
    plums = {"item": "plum", "amount": "100 lb", "paid": "40"}
    kettle = {"item": "kettle", "amount": "1", "paid": "5", "uses": "1"}
    book.write(
        "item_described",
        {"item": "kettle", "sort": "equipment", "measure": "count"},
        on="2026-01-01",
    )
    book.write("bought", {"lines": [plums, kettle]}, on="2026-09-01")
    had = [{"item": item, "amount": "50", "paid": "0"} for item in ("quart jar", "lid")]
    book.write("bought", {"lines": had}, on="2026-09-01")
    body = {
        "makes": "canned plum", "method": "boiling water", "loads": 1, "equipment": ["kettle"],
        "used": [{"item": "plum", "amount": "100 lb"}], "made": [{"jars": 50, "jar": "quart jar"}],
        "work": [{"person": "Ada", "minutes": "720"}],
    }  # fmt: skip
    book.write("put_up", body, on="2026-09-02", answers=yes)
    unpriced = book.show("work-worth", as_of=ON)
    assert unpriced.rows()[-1]["bounds"]["brought"] == "≥"
    assert "at the least" in " ".join(unpriced.totals["in_words"])
    seen = {"item": "canned plum", "amount": "1 qt", "price": "3.50"}
    book.write("price_seen", seen, on="2026-09-01")
    row = book.show("work-worth", as_of=ON).rows()[-1]
    assert (row["line"], row["hours"], row["bounds"]) == ("total", 12, {})
    assert (row["helper"], row["pay_given_up"]) == (pytest.approx(180), pytest.approx(264))
    assert row["brought"] == pytest.approx(130)
    assert row["brought_per_hour"] == pytest.approx(10.83, abs=0.005)


def test_work_without_a_price_says_which_way_it_is_off(canned, fixed_day):
    """No jar, lid or shop price is known: what it brought may be more or less, as in worth-it."""
    book, _ = canned
    answer = book.show("work-worth", as_of=ON)
    row = {r["line"]: r for r in answer.rows()}["preserving"]
    worth = {r["line"]: r for r in book.show("worth-it", as_of=ON).rows()}["preserving"]
    assert row["bounds"]["brought"] == worth["bounds"]["net"] == "≈"
    assert "no known price" in " ".join(answer.totals["in_words"])


def test_no_hours_no_value(book, fixed_day):
    answer = book.show("work-worth", as_of=ON)
    assert answer.rows() == []
    assert "No hours" in answer.totals["missing"][0]


BASKET = {
    "rice": (39, 1, 40, 1.5),
    "milk": (40, 12, 44, 10),
    "bread": (45, 2, 50, 1.5),
    "banana": (30, 2, 36, 1.5),
}


@pytest.fixture
def basket(book, fixed_day):
    """The food basket of the tables (X1): bought and eaten in two years."""
    for item, (p0, q0, p1, q1) in BASKET.items():
        for day, price, amount in (("2025-03-01", p0, q0), ("2026-03-01", p1, q1)):
            line = {"item": item, "amount": f"{amount * 1000:g} g", "paid": f"{price * amount:.2f}"}
            book.write("bought", {"lines": [line]}, on=day)
            book.write("eaten", {"ate": [{"item": item, "amount": f"{amount * 1000:g} g"}]}, on=day)
    return book


def test_indices_of_the_tables(basket, fixed_day):
    answer = basket.show("own-prices", as_of=ON, year="2026", base="2025")
    row = answer.rows()[0]
    assert (row["item"], row["share"]) == ("all", pytest.approx(1))
    assert row["laspeyres"] == pytest.approx(110.6129, abs=0.00005)
    assert row["paasche"] == pytest.approx(110.1576, abs=0.00005)
    assert row["fisher"] == pytest.approx(110.385, abs=0.0005)
    assert answer.totals["value_index"] == pytest.approx(94.0209, abs=0.00005)
    figures = (
        "price_0",
        "price_1",
        "quantity_0",
        "quantity_1",
        "change",
        "laspeyres",
        "paasche",
        "fisher",
    )
    assert check_figures(basket, answer, figures, as_of=ON) == 23
    assert basket.show("own-prices", as_of="2026-03-02").rows()[0]["fisher"] == pytest.approx(
        110.385, abs=0.0005
    )


def test_below_seventy_per_cent_of_spending_there_is_no_headline(basket, fixed_day):
    basket.write(
        "bought", {"lines": [{"item": "saffron", "amount": "10 g", "paid": "400"}]}, on="2026-04-01"
    )
    basket.write("eaten", {"ate": [{"item": "saffron", "amount": "10 g"}]}, on="2026-04-02")
    answer = basket.show("own-prices", as_of=ON, year="2026", base="2025")
    row = answer.rows()[0]
    assert row["share"] == pytest.approx(629 / 1029)
    assert row["fisher"] is None
    assert answer.totals["in_words"][0].startswith("Not enough to say")


@pytest.mark.parametrize("options", [{"year": "2025", "base": "2026"}, {"year": "last"}])
def test_bad_years_are_refused(basket, fixed_day, options):
    with pytest.raises(InputError):
        basket.show("own-prices", as_of=ON, **options)


@pytest.fixture
def yard(book, fixed_day):
    """Six hens that lay 4.5 eggs and eat 0.249 lb each a day (METHODS 10)."""
    book.write(
        "item_described", {"item": "egg", "sort": "food", "measure": "count"}, on="2026-01-01"
    )
    book.write(
        "item_described",
        {"item": "layer feed", "sort": "garden input", "measure": "mass", "feeds": "egg"},
        on="2026-01-01",
    )
    book.write("flock_counted", {"hens": 6}, on="2026-01-01")
    for day in ("2026-01-01", "2026-02-10", "2026-03-22"):  # 40 days apart
        pounds = "59.76" if day < "2026-03" else "50"
        book.write(
            "bought",
            {"lines": [{"item": "layer feed", "amount": f"{pounds} lb", "paid": "20"}]},
            on=day,
        )
    for day in range(1, 29):
        book.write(
            "harvested", {"lines": [{"item": "egg", "amount": "4.5"}]}, on=f"2026-02-{day:02}"
        )
    return book


def test_feed_and_lay(yard, fixed_day):
    answer = yard.show("hens", as_of="2026-03-22")
    rows = {row["period"]: row for row in answer.rows()}
    assert rows["2026-02"]["lay"] == pytest.approx(4.5 / 6)
    assert rows["year"]["hens"] == pytest.approx(6 * 81 / 365)
    assert rows["year"]["feed_days"] == pytest.approx(50 / (6 * 0.249), rel=1e-6)  # 33.5 days
    assert rows["year"]["feed_per_dozen_lb"] == pytest.approx(
        (59.76 * 2 + 50) / (126 / 12), rel=1e-6
    )
    asked = yard.show("hens", as_of="2026-03-22", feed="25 lb").rows()[0]
    assert asked["feed_days"] == pytest.approx(25 / (6 * 0.249), rel=1e-6)
    figures = (
        "lay",
        "hens",
        "hen_days",
        "eggs",
        "feed_lb",
        "feed_per_dozen_lb",
        "cost_per_dozen",
        "feed_days",
    )
    assert check_figures(yard, answer, figures, as_of="2026-03-22") > 18
    with pytest.raises(InputError):
        yard.show("hens", feed="a sack")


def test_hens_of_the_tables(book, fixed_day):
    """METHODS 10, E2: 315 hens lay 4,236.5 eggs in December 2010 and eat 2,435 lb."""
    for item in (
        {"item": "egg", "sort": "food", "measure": "count"},
        {"item": "layer feed", "sort": "garden input", "measure": "mass", "feeds": "egg"},
    ):
        book.write("item_described", item, on="2010-12-01")
    book.write("flock_counted", {"hens": 315}, on="2010-12-01")
    feed = {"item": "layer feed", "amount": "2435 lb", "paid": "600"}
    book.write("bought", {"lines": [feed]}, on="2010-12-01")
    eggs = {"item": "egg", "amount": "4236.5"}
    book.write("harvested", {"lines": [eggs]}, on="2010-12-15")
    year, month = book.show("hens", as_of="2010-12-31").rows()
    assert month["lay"] == pytest.approx(0.434, abs=0.0005)
    assert year["feed_per_dozen_lb"] == pytest.approx(6.90, abs=0.005)
    assert year["cost_per_dozen"] == pytest.approx(600 / 4236.5 * 12)


def test_feed_is_weighed_by_what_was_said(yard, fixed_day):
    """A sack has no weight, and feed without a price none: what rests on them is that much or more."""
    before = yard.show("hens", as_of="2026-03-22").rows()[0]
    kilos = {"item": "layer feed", "amount": "10 kg", "paid": "9"}
    sack = {"item": "layer feed", "amount": "2 sacks", "paid": "30"}
    yard.write("bought", {"lines": [kilos, sack]}, on="2026-03-01")
    year = yard.show("hens", as_of="2026-03-22").rows()[0]
    assert year["feed_lb"] == pytest.approx(before["feed_lb"] + 10 / 0.45359237)
    assert year["bounds"]["feed_lb"] == year["bounds"]["feed_per_dozen_lb"] == "≥"
    assert year["cost_per_dozen"] == pytest.approx(before["cost_per_dozen"] + 39 / (126 / 12))
    assert "cost_per_dozen" not in year["bounds"]
    told = {"lines": [{"item": "layer feed", "amount": "5 lb"}]}
    yard.write("bought", told, on="2026-03-02", answers=Answers(yes=True, spoken=True))
    spoken = yard.show("hens", as_of="2026-03-22").rows()[0]
    assert spoken["cost_per_dozen"] == year["cost_per_dozen"]
    assert spoken["bounds"]["cost_per_dozen"] == "≥"


@pytest.mark.parametrize(
    "address", ["hens/year=x", "hens/year=nan", "hens/2026-02=5", "hens/year="]
)
def test_feed_that_is_no_weight_is_no_address(yard, fixed_day, address):
    with pytest.raises(NotFound):
        yard.why(address, as_of="2026-03-22")


def test_without_a_feed_record_the_usual_figure_is_from_memory(book, fixed_day):
    book.write("flock_counted", {"hens": 6}, on="2026-01-01")
    answer = book.show("hens", as_of=ON, feed="50 lb")
    assert answer.rows()[0]["feed_days"] == pytest.approx(50 / 1.5)
    assert "from memory" in next(a.text for a in answer.assumptions if a.id == "rate")
    assert "No feed is written down" in answer.totals["missing"][0]


@pytest.mark.parametrize(
    "address",
    [
        "power-and-water/x",
        "power-and-water/freezer/x",
        "own-prices/x/y",
        "own-prices/2025-2026/x",
        "hens/x",
        "work-worth/2026/x",
    ],
)
def test_unknown_addresses_are_refused(yard, fixed_day, address):
    with pytest.raises(NotFound):
        yard.why(address)
