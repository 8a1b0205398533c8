"""Published break-even, pay-back, depreciation and garden examples, written down and answered by `worth-it`.

D1 : OpenStax, Principles of Accounting vol. 1 (2019), 11.3. D2 : the same, vol. 2, 3.2 and 11.2.
D8 : New Mexico State University Extension, CANIT: Cost of Canning, slides, about 2011.
D9 : Colorado State University Extension, Cost of Preserving and Storing Food 8.704, 2008.
UCCE : The Home Money Tree, University of California Cooperative Extension, about 2010.
OSU : table of eight published gardens, Oregon State University Extension, 2012 (a reprint).
JOE : Journal of Extension 52(2) 2RIB5, 2014.
The numbers are facts; what stands for them in the book (a press, a jar, an apple) is ours.
"""

from __future__ import annotations

import calendar

import pytest


def near(value, abs=0.005):
    return pytest.approx(value, rel=1e-5, abs=abs)


def put_up(book, yes, on, makes, made, **more):
    body = {"makes": makes, "method": "cook", "made": [made], **more}
    book.write("put_up", body, on=on, answers=yes)


# -- break-even --------------------------------------------------------------------------------

# D2, 3.2: fixed, price, variable, units
BREAK_EVEN = [(18_000, 100, 20, 225), (3_000, 35, 20, 200)]


@pytest.mark.parametrize(("fixed", "price", "variable", "units"), BREAK_EVEN)
@pytest.mark.parametrize("made", [1, 175, 300])
def test_break_even_jars(book, yes, fixed_day, fixed, price, variable, units, made):
    """D2, 3.2: birdbaths and haircuts; the number does not hang on how many were made."""
    book.write(
        "bought",
        {"item": "mould", "amount": "1", "paid": str(fixed), "years": "10"},
        on="2026-01-01",
    )
    book.write(
        "bought",
        {"item": "clay", "amount": f"{made} lb", "paid": str(made * variable)},
        on="2026-01-02",
    )
    book.write(
        "price_seen", {"item": "bath", "amount": "1 qt", "price": str(price)}, on="2026-01-02"
    )
    put_up(
        book, yes, "2026-01-03", "bath", {"jars": made, "jar": "quart jar"},
        used=[{"item": "clay", "amount": f"{made} lb"}], equipment=["mould"],
    )  # fmt: skip
    record = book.show("worth-it", prices=True).to_dict()["records"][0]
    # lids and jars were never bought, so they count nothing here
    assert record["break_even_jars"] == near(units)
    assert record["break_even_jars"] * price == near(units * price, abs=1)


# D2, 3.2: profit at 175, 225 and 300 birdbaths
@pytest.mark.parametrize(("units", "profit"), [(175, -4_000), (225, 0), (300, 6_000)])
def test_profit_of_birdbaths(book, yes, fixed_day, units, profit):
    """D2, 3.2: the season's net is the printed profit when the mould lasts that one season."""
    book.write(
        "bought",
        {"item": "mould", "amount": "1", "paid": "18000", "uses": "1", "years": "1"},
        on="2026-01-01",
    )
    book.write(
        "bought",
        {"item": "clay", "amount": f"{units} lb", "paid": str(units * 20)},
        on="2026-01-02",
    )
    book.write("price_seen", {"item": "bath", "amount": "1 lb", "price": "100"}, on="2026-01-02")
    put_up(
        book, yes, "2026-01-03", "bath", {"amount": f"{units} lb"},
        used=[{"item": "clay", "amount": f"{units} lb"}], equipment=["mould"],
    )  # fmt: skip
    total = book.show("worth-it").to_dict()["records"][-1]
    assert total["net"] == near(profit, abs=1)


@pytest.fixture
def pickles(book, yes, fixed_day):
    """D8: seven pints for 14.20, canner 1.50 (30 over 20 years), jars 0.86, lids 1.75; 2.50 in the shop."""
    book.write(
        "bought", {"item": "kettle", "amount": "1", "paid": "30", "years": "20"}, on="2026-01-01"
    )
    book.write(
        "bought", {"item": "pint jar", "amount": "7", "paid": "8.60", "uses": "10"}, on="2026-01-01"
    )
    book.write("bought", {"item": "lid", "amount": "12", "paid": "3.00"}, on="2026-01-01")
    book.write("bought", {"item": "cucumber", "amount": "9 lb", "paid": "10.09"}, on="2026-07-01")
    book.write(
        "price_seen", {"item": "pickles", "amount": "1 pt", "price": "2.50"}, on="2026-07-01"
    )
    body = {
        "makes": "pickles", "method": "boiling water", "used": [{"item": "cucumber", "amount": "9 lb"}],
        "made": [{"jars": 7, "jar": "pint jar"}], "equipment": ["kettle"],
    }  # fmt: skip
    book.write("put_up", body, on="2026-07-02", answers=yes)
    return book


def test_pickles_a_jar_against_the_shop(pickles):
    """D8: 2.03 a jar against 2.50, so 3.30 saved."""
    record = pickles.show("worth-it", prices=True).to_dict()["records"][0]
    assert record["home_per_unit"] / 2 == near(2.03)  # a quart is two of these pints
    assert record["shop_per_unit"] / 2 == near(2.50)
    assert record["saved"] == near(3.30)


def test_the_canner_of_the_pickles_is_paid_after_44_jars(pickles):
    """D8 figures: 30 / (2.50 - 12.70 / 7) = 43.75 jars, 6.25 batches."""
    record = pickles.show("worth-it", prices=True).to_dict()["records"][0]
    assert record["equipment"] == 30
    assert record["break_even_jars"] == near(43.75)
    assert record["break_even_jars"] / 7 == near(6.25)


def test_the_season_of_the_pickles(pickles):
    """D8: 14.20 borne; the rest of canner, jars and lids is for other seasons."""
    total = pickles.show("worth-it").to_dict()["records"][-1]
    assert (total["cost"], total["net"]) == (near(14.20), near(3.30))
    assert total["for_other_seasons"] == near(30 - 1.50 + 8.60 - 0.86 + 3.00 - 1.75)


# -- pay-back ----------------------------------------------------------------------------------

# D2, 11.2: cost, what each year brought, years; asked after so many years
PAYBACK = [
    (150_000, [20_000], 7.5),
    (150_000, [20_000] * 3, 7.5),
    (150_000, [10_000, 20_000, 20_000, 15_000, 15_000, 20_000, 20_000, 20_000, 20_000], 8.5),
    (40_000, [10_000, 10_000, 5_000, 5_000, 7_500, 7_500], 5.33),
    (50_000, [15_000], 3.33),
    (50_000, [15_000] * 4, 3.33),
    (50_000, [10_000, 5_000, 7_000, 3_000, 10_000, 10_000, 10_000], 6.5),
]


@pytest.mark.parametrize(("cost", "flows", "years"), PAYBACK)
def test_payback_years(book, yes, fixed_day, cost, flows, years):
    """D2, 11.2, each year's money coming evenly month by month: so far, or at the rate so far."""
    first = 2001
    body = {"item": "press", "amount": "1", "paid": str(cost), "years": "20"}
    book.write("bought", body, on=f"{first}-01-01")
    book.write("harvested", {"item": "apple", "amount": "500 lb"}, on=f"{first}-01-01")
    for year, flow in enumerate(flows, start=first):
        seen = {"item": "juice", "amount": "12 qt", "price": str(flow)}
        book.write("price_seen", seen, on=f"{year}-01-01")
        for month in range(1, 13):
            last = calendar.monthrange(year, month)[1]
            put_up(
                book, yes, f"{year}-{month:02d}-{last}", "juice", {"amount": "1 qt"},
                used=[{"item": "apple", "amount": "2 lb"}], equipment=["press"],
            )  # fmt: skip
    as_of = f"{first + len(flows) - 1}-12-31"
    press = book.show("worth-it", durables=True, as_of=as_of).to_dict()["records"][0]
    assert press["earned"] == near(sum(flows), abs=1)
    assert press["payback_years"] == pytest.approx(years, abs=0.005)
    assert (press["paid_back_on"] is None) == (sum(flows) < cost)


# -- depreciation ------------------------------------------------------------------------------


def worn(book, on, as_of, paid="48000", **life):
    if not book.log.position():
        book.write("bought", {"item": "press", "amount": "1", "paid": paid, **life}, on=on)
    return book.show("worth-it", durables=True, as_of=as_of).to_dict()["records"][0]["worn_by_age"]


@pytest.mark.parametrize("year", [1, 2, 3, 4, 5, 6])
def test_straight_line(book, fixed_day, year):
    """D1, 11.3: a base of 48,000 over five years, 9,600 a year and no more after."""
    assert worn(book, "2010-01-15", f"{2009 + year}-12-31", years="5") == near(min(year, 5) * 9_600)


@pytest.mark.parametrize(
    ("year", "total"), [(1, 7_200), (2, 16_800), (3, 26_400), (4, 36_000), (5, 45_600), (6, 48_000)]
)
def test_owned_nine_months_of_the_first_year(book, fixed_day, year, total):
    """D1, 11.3: 7,200, then 9,600 four times, then 2,400."""
    assert worn(book, "2010-04-01", f"{2009 + year}-12-31", years="5") == near(total)


def test_second_machine_a_year(book, fixed_day):
    """D1, 11.3: 10,000 less 1,000 over five years is 1,800."""
    assert worn(book, "2010-01-01", "2010-12-31", paid="9000", years="5") == near(1_800)


@pytest.mark.parametrize(
    ("paid", "uses", "used", "charges"),
    [
        (48_000, 960_000, (180_000, 200_000, 210_000, 190_000, 180_000), (9_000, 10_000, 10_500, 9_500, 9_000)),
        (9_000, 100_000, (20_000, 30_000), (1_800, 2_700)),
    ],
)  # fmt: skip
def test_units_of_production(book, yes, fixed_day, paid, uses, used, charges):
    """D1, 11.3: the printing press and the second machine, by use."""
    book.write(
        "bought",
        {"item": "press", "amount": "1", "paid": str(paid), "uses": str(uses), "years": "5"},
        on="2026-01-01",
    )
    book.write("bought", {"item": "paper", "amount": "100 lb", "paid": "1"}, on="2026-01-01")
    for month, pages in enumerate(used, 1):
        put_up(
            book, yes, f"2026-{month:02d}-02", "print", {"amount": "1 lb"},
            used=[{"item": "paper", "amount": "1 lb"}], equipment=["press"], loads=pages,
        )  # fmt: skip
        record = book.show("worth-it", durables=True, as_of=f"2026-{month:02d}-28").to_dict()[
            "records"
        ][0]
        assert record["charged"] == near(sum(charges[:month]))


@pytest.mark.parametrize(("price", "a_year"), [("30", 1.50), ("100", 5.00)])
def test_canners_over_twenty_years(book, fixed_day, price, a_year):
    """D8: water-bath canner 30 and pressure canner 100 over 20 years."""
    assert worn(book, "2010-01-01", "2010-12-31", paid=price, years="20") == near(a_year, abs=1e-6)


def test_jars_last_ten_years_when_nobody_says(book, fixed_day):
    """D9: expected life of jars and screw bands 10 years."""
    book.write("bought", {"item": "pint jar", "amount": "12", "paid": "15.00"}, on="2010-01-01")
    answer = book.show("worth-it", durables=True, as_of="2010-12-31").to_dict()
    jars = answer["records"][0]
    assert (jars["life_years"], jars["worn_by_age"]) == (10, near(1.50))
    assert any(one["id"] == "life:pint jar" for one in answer["assumptions"])


# -- gardens -----------------------------------------------------------------------------------

# OSU: garden, cost, value, difference; UCCE: the Florida garden of 1980 is OSU's Jacksonville
GARDENS = [
    ("Tallahassee", 70.00, 384.00, 314.00),
    ("Jacksonville", 83.00, 416.00, 333.00),
    ("Homestead", 333.65, 495.70, 162.05),
    ("Scarborough", 282.00, 2431.00, 2149.00),
    ("Oregon", 318.43, 606.97, 288.54),
    ("Tucson 1", 45.00, 154.00, 109.00),
    ("Tucson 2", 56.00, 178.00, 122.00),
    ("Columbus", 46.00, 90.00, 44.00),
    ("JOE, average", 238.00, 915.00, 677.00),
]


def grow(book, yes, cost, value, work=None):
    book.write(
        "item_described",
        {"item": "compost", "sort": "garden input", "measure": "mass"},
        on="2026-01-01",
    )
    book.write(
        "bought",
        {"item": "compost", "amount": "10 lb", "paid": f"{cost}"},
        on="2026-03-01",
        answers=yes,
    )
    book.write(
        "price_seen", {"item": "tomato", "amount": "1 lb", "price": f"{value}"}, on="2026-06-01"
    )
    body = {"item": "tomato", "amount": "1 lb", **({"work": work} if work else {})}
    book.write("harvested", body, on="2026-07-01")
    return next(r for r in book.show("worth-it").to_dict()["records"] if r["line"] == "garden")


@pytest.mark.parametrize(("garden", "cost", "value", "gain"), GARDENS)
def test_published_gardens(book, yes, fixed_day, garden, cost, value, gain):
    record = grow(book, yes, cost, value)
    assert (record["worth"], record["cost"], record["net"]) == (near(value), near(cost), near(gain))


def test_florida_garden_with_its_hours(book, yes, fixed_day):
    """UCCE: 83 to set up, 68 hours at 3.10 (printed about 210), value 416, net 122."""
    book.write(
        "setting_changed", {"name": "labour_rate", "value": "3.10 per hour"}, on="2026-01-01"
    )
    record = grow(book, yes, 83, 416, [{"person": "Ada", "minutes": str(68 * 60)}])
    assert record["hours"] == 68
    assert record["labour"] == near(210, abs=1)
    assert record["after_labour"] == near(122, abs=0.5)
    assert record["net_per_hour"] == near(333 / 68)
