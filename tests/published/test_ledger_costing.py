"""Published costing examples, written down as events and answered by the ledger itself.

D1: OpenStax, Principles of Accounting, volume 1 (2019), sections 10.3 and 11.3; D5: joint cost allocation, course
notes; D8: New Mexico State University Extension, home canning cost; the numbers and answers are facts, nothing else is taken over.
"""

from __future__ import annotations

import pytest


def bought(book, day, units, each, item="device"):
    book.write(
        "bought",
        item=item,
        amount=f"{units} piece",
        paid=f"{units * each}",
        on=f"2026-07-{day:02d}",
    )


def sold(book, day, units):
    book.write(
        "given_away", how="sold", item="device", amount=f"{units} piece", on=f"2026-07-{day:02d}"
    )


@pytest.fixture
def july(book, fixed_day):
    """D1: 150 at 21, 120 sold, 225 at 27, 180 sold, 210 at 33."""
    bought(book, 1, 150, 21)
    sold(book, 5, 120)
    bought(book, 10, 225, 27)
    sold(book, 15, 180)
    bought(book, 25, 210, 33)
    return book


@pytest.mark.parametrize(
    ("as_of", "closing"),
    [
        ("2026-07-01", 3150),
        ("2026-07-05", 630),
        ("2026-07-10", 6705),
        ("2026-07-15", 2025),
        ("2026-07-31", 8955),
    ],
)
def test_first_in_first_out_leaves_the_published_stock(july, as_of, closing):
    """D1: closing stock 8,955 after 30 x 21 + 150 x 27 went second; 75 at 27 and 210 at 33 stay."""
    assert july.show("shelf", as_of=as_of).frame["cost_left"].sum() == pytest.approx(closing)


def test_closing_layers_are_the_published_ones(july):
    """D1: 75 at 27 and 210 at 33."""
    frame = july.show("shelf", as_of="2026-07-31").frame
    assert sorted(
        (w // 1000, round(c)) for w, c in zip(frame["left.whole"], frame["cost_left"], strict=True)
    ) == [(75, 2025), (210, 6930)]


def test_specific_identification_names_its_lots(book, fixed_day):
    """D1: second sale 20 from the 21-dollar lot and 160 from the 27-dollar lot; closing stock 8,895."""
    bought(book, 1, 150, 21)
    bought(book, 10, 225, 27)
    bought(book, 25, 210, 33)
    lots = book.show("shelf", as_of="2026-07-31").frame.sort_values("on")["lot"].tolist()
    for day, units, lot in ((5, 120, lots[0]), (15, 20, lots[0]), (15, 160, lots[1])):
        book.write(
            "given_away",
            how="sold",
            lines=[{"item": "device", "amount": f"{units}", "lot": lot}],
            on=f"2026-07-{day:02d}",
        )
    assert book.show("shelf", as_of="2026-07-31").frame["cost_left"].sum() == pytest.approx(8895)


@pytest.mark.parametrize(
    ("joint", "first", "second", "shares"),
    [
        (2400, 700, 300, (1680, 720)),
        (36000, 25, 75, (9000, 27000)),
        (66000, 44, 66, (26400, 39600)),
        (40000, 42000, 4000, (36521.74, 3478.26)),
    ],
)
def test_joint_cost_is_shared_by_physical_measure(
    book, yes, fixed_day, joint, first, second, shares
):
    """D5 (2,400 over 700 lb and 300 lb) and OpenStax volume 2, section 10.5 exercises."""
    book.write("bought", item="mash", amount="1000 lb", paid=f"{joint}", on="2026-07-01")
    made = [
        {"amount": f"{first} lb", "kept": "cellar"},
        {"amount": f"{second} lb", "kept": "cellar"},
    ]
    body = {
        "makes": "product",
        "method": "cook",
        "used": [{"item": "mash", "amount": "1000 lb"}],
        "made": made,
    }
    book.write("put_up", body, on="2026-07-02", answers=yes)
    costs = [record["cost"]["all_in"] for record in book.show("jar-cost").records()]
    assert costs == pytest.approx(shares, rel=1e-5)


def test_units_of_production_wear_a_machine_out(book, yes, fixed_day):
    """D1 section 11.3: 48,000 over 960,000 pages; 180, 200, 210, 190, 180 thousand a year give these charges."""
    book.write(
        "bought", item="press", amount="1", paid="48000", uses="960000", years="5", on="2026-01-01"
    )
    book.write("bought", item="paper", amount="100 lb", paid="1", on="2026-01-01")
    for month, pages in enumerate((180_000, 200_000, 210_000, 190_000, 180_000, 50_000), 1):
        body = {
            "makes": "print",
            "method": "cook",
            "used": [{"item": "paper", "amount": "1 lb"}],
            "made": [{"amount": "1 lb"}],
            "equipment": ["press"],
            "loads": pages,
        }
        book.write("put_up", body, on=f"2026-{month:02d}-02", answers=yes)
    charges = [record["cost"]["equipment"] for record in book.show("jar-cost").records()]
    # The sixth charge is nothing: its price is used up.
    assert charges == pytest.approx([9000, 10000, 10500, 9500, 9000, 0])


def test_extension_example_of_seven_jars(book, yes, fixed_day):
    """D8: kettle 30 over 20 years is 1.50; jars 15.00 a dozen over 10 years, seven: 0.875 (0.86 printed); lids 1.75."""
    book.write("bought", item="kettle", amount="1", paid="30", years="20", on="2026-01-01")
    lines = [
        {"item": "pint jar", "amount": "12", "paid": "15.00", "years": "10"},
        {"item": "lid", "amount": "12", "paid": "3.00"},
    ]
    book.write("bought", lines=lines, on="2026-01-01")
    book.write("harvested", item="cucumber", amount="10 lb", on="2026-07-01")
    body = {
        "makes": "pickles",
        "method": "boiling water",
        "used": [{"item": "cucumber", "amount": "9 lb"}],
        "made": [{"jars": 7, "jar": "pint jar"}],
        "equipment": ["kettle"],
    }
    book.write("put_up", body, on="2026-07-02", answers=yes)
    cost = book.show("jar-cost").records()[0]["cost"]
    assert (cost["equipment"], cost["jar_wear"], cost["lids"]) == pytest.approx((1.50, 0.875, 1.75))
