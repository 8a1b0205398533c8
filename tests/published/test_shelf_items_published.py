"""The shelf ahead against published examples, each written down in a book and asked for there.

Amounts become pieces or grams of an item, periods become weeks.
"""

from __future__ import annotations

import datetime as dt
import uuid

import pytest
from books import state_of

from ledger.projections import PROJECTIONS

START = dt.date(2024, 1, 1)
BUILD = PROJECTIONS["shelf"].build


def day(week, extra=0):
    return (START + dt.timedelta(days=7 * week + extra)).isoformat()


def stored(rows):
    return [
        {"seq": n, "id": str(uuid.UUID(int=n)), "kind": kind, "on": on, "body": body,
         "recorded_at": "2026-01-01T00:00:00Z"}
        for n, (kind, on, body) in enumerate(rows, 1)
    ]  # fmt: skip


def line(item, whole, **more):
    return {"item": item, "amount": "1", "n": 1, "whole": whole, "basis": "exact", **more}


def used(weekly, stock, measure="count"):
    """Return a book in which so many thousand whole units were used week by week."""
    told = {"item": "thing", "sort": "food", "measure": measure}
    whole = [round(amount * 1000) for amount in weekly]
    bought = line("thing", round(stock * 1000) + sum(whole), paid="1")
    rows = [("item_described", day(0), told), ("bought", day(0), {"lines": [bought]})]
    rows += [
        ("eaten", day(week, 3), {"ate": [line("thing", amount)]})
        for week, amount in enumerate(whole)
        if amount
    ]
    return stored(rows)


def shown(events, weeks):
    (record,) = BUILD(state_of(events, day(weeks, -1)), items=True).records()
    return record


# How long a stock lasts at a steady use: stock, used, in so many days, days it lasts
LASTS = [
    # OpenStax, Principles of Accounting vol. 1 (2019), 10.5: days' sales in inventory
    (6052.50, 7200, 365, 306.83),
    (9403.00, 7920, 365, 433.35),
    # Krajewski and others, Operations Management, weeks of supply, from memory: 10.4 weeks
    (2000, 10_000, 364, 72.8),
    # a monthly view of turnover (computed): two a day, 120 there
    (120, 60, 30, 60.0),
]


@pytest.mark.parametrize(("stock", "amount", "days", "lasts"), LASTS)
def test_how_long_a_stock_lasts(stock, amount, days, lasts):
    """The published figure is the likely one of a year's even use, and lies within the range."""
    weeks = 54
    record = shown(used([amount / days * 7] * weeks, stock, "mass"), weeks)
    low, likely, high = (7 * record["weeks_left"][name] for name in ("low", "likely", "high"))
    assert low < lasts < high
    assert likely == pytest.approx(lasts, rel=0.03)


# A reorder point without scatter is use x wait (bike shop, wizedu.com 8099: 70 a day, 4 days, 280;
# Managing Inventory, solved problem, fdocuments.net: 60 a week, 6 weeks, 360): so much lasts the wait
@pytest.mark.parametrize(("a_day", "wait", "point"), [(70, 4, 280), (60 / 7, 42, 360)])
def test_a_reorder_point_lasts_the_wait(a_day, wait, point):
    weeks = 54
    rows = used([a_day * 7 / 2] * weeks, point)
    again = [
        {**event, "seq": len(rows) + n, "id": str(uuid.UUID(int=len(rows) + n)), "on": day(week, 6)}
        for n, (week, event) in enumerate(enumerate(e for e in rows if e["kind"] == "eaten"), 1)
    ]
    rows[1]["body"]["lines"][0]["whole"] += sum(e["body"]["ate"][0]["whole"] for e in again)
    record = shown(rows + again, weeks)
    assert record["weeks_left"]["likely"] * 7 == pytest.approx(wait, rel=0.1)
    assert record["weeks_left"]["low"] * 7 < wait < record["weeks_left"]["high"] * 7


# Periods of quality, as printed: how it was put up, where it is kept, and the early end of it.
#   home-canned food within a year: NCHFP, storing home-canned jams (question 1)
#   soups and stews 2 to 3 months frozen: FDA refrigerator and freezer storage chart
#   home-canned food 3 to 4 days in the refrigerator once open: USDA FSIS, shelf-stable food safety
BEST = [
    ("apple sauce", "boiling water", "shelf", 0, "2025-01-01"),
    ("lentil soup", "freeze", "freezer", 0, "2024-03-01"),
    ("apple sauce", "boiling water", "shelf", 100_000, "2024-01-13"),
]


@pytest.mark.parametrize(("item", "method", "kept", "taken", "until"), BEST)
def test_published_period_of_quality(item, method, kept, taken, until):
    told = {"item": item, "sort": "food", "measure": "volume"}
    made = {"n": 1, "whole": 8 * 236_588, "basis": "exact", "kept": kept}
    made |= {"jars": 8, "jar": "half-pint jar"} if kept == "shelf" else {"amount": "8 cups"}
    used = [line("apple", 5_000_000)] if item == "apple sauce" else []
    body = {"makes": item, "method": method, "made": [made], "used": used}
    if method == "boiling water":  # as published: what is not has no period of quality
        body |= {"minutes": "15", "pack": "hot", "headspace": "1/2 in", "altitude": "800 ft"}
    rows = [("item_described", day(0), told), ("put_up", day(0), body)]
    if taken:
        rows.append(("eaten", day(1, 2), {"ate": [line(item, taken)]}))
    state = state_of(stored(rows), day(2))
    (record,) = (r for r in BUILD(state, items=True).records() if r["item"] == item)
    assert record["best_until"] == until
    assert "best-as-published" in record["assumptions"]
    assert all(lot["use_by"] is None for lot in BUILD(state).records())
