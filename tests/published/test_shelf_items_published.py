"""The shelf ahead against published examples, each written down in a book and asked for there.

Amounts become pieces or grams of an item, periods become weeks.
"""

from __future__ import annotations

import datetime as dt
import uuid

import numpy as np
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


# Hyndman and Athanasopoulos, Forecasting: Principles and Practice, 2nd ed., 12.2: lubricant
# sales of 36 months, series and method read in a public copy. Published: 2.750 / 2.793 = 0.985 a
# month (from memory); the course of the method (size, gap after each use) is computed from it.
LUBRICANT = [
    *(0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0),
    *(6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0),
    *(0, 0, 0, 3, 1, 0, 0, 1, 0, 1, 0, 0),
]
STEPS = [
    (1.9000, 2.0000), (2.8100, 2.0000), (2.7290, 2.3000), (3.0561, 2.2700), (3.0505, 2.1430),
    (3.4454, 2.5287), (3.4009, 3.0758), (3.1608, 2.8682), (2.9447, 2.8814), (2.7503, 2.7933),
]  # fmt: skip

# The book's history begins with a use, as the first pause is counted from one; the published
# series counts its first pause from its start.
SERIES = [5, *LUBRICANT]


@pytest.mark.parametrize("step", range(len(STEPS)))
def test_level_of_use_now_and_then_step_by_step(step):
    weeks = int(np.flatnonzero(LUBRICANT)[step + 1]) + 2
    record = shown(used(SERIES[:weeks], 90), weeks)
    size, gap = STEPS[step]
    assert record["sparse"]
    assert record["used_per_week"]["likely"] == pytest.approx(size / gap * 0.95, abs=5e-5)


def test_level_of_use_now_and_then_with_its_correction():
    # Syntetos and Boylan (2005), factor 1 - alpha / 2, from memory: 0.95 x 0.98460 = 0.93537
    record = shown(used(SERIES, 90), len(SERIES))
    assert round(record["used_per_week"]["likely"], 5) == 0.93537


def test_tree_of_that_level_names_size_and_gap():
    state = state_of(used(SERIES, 90), day(len(SERIES), -1))
    tree = PROJECTIONS["shelf"].why(state, "items/thing", "used_per_week.likely")
    (level, _) = tree.parts[1].parts
    size, gap = level.parts[0].parts
    assert (round(size.value, 3), round(gap.value, 3)) == (2.750, 2.793)


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
    record = shown(used([amount / days * 7] * 20, stock, "mass"), 20)
    for name in ("low", "likely", "high"):
        assert record["weeks_left"][name] * 7 == pytest.approx(lasts, abs=0.006)
    end = dt.date.fromisoformat(day(20, -1)) + dt.timedelta(days=int(lasts))
    assert record["runs_out_on"]["likely"] == end.isoformat()


# A reorder point without scatter: use x wait must be there (bike shop, wizedu.com 8099: 70 a day,
# 4 days, 280; Managing Inventory, solved problem, fdocuments.net: 60 a week, 6 weeks, 360)
@pytest.mark.parametrize(
    ("a_week", "wait", "point", "weeks"), [(490, 4, 280, 12), (60, 42, 360, 13)]
)
@pytest.mark.parametrize(("more", "chance"), [(0, 1.0), (-1, 0.0)])
def test_chance_to_last_while_waiting(a_week, wait, point, weeks, more, chance):
    rows = used([a_week] * weeks, point + more - 2)
    pause = (7 * weeks - 1 + wait) // 3  # three times it came, and the next is `wait` days away
    again = [
        ("bought", day(0, days), {"lines": [line("thing", 1000, paid="1")]})
        for days in (pause, 2 * pause)
    ]
    first = len(rows)
    rows += [
        event | {"seq": first + event["seq"], "id": str(uuid.UUID(int=first + event["seq"]))}
        for event in stored(again)
    ]
    (record,) = BUILD(state_of(rows, day(weeks, -1)), items=True).records()
    assert record["next_supply_on"] == day(weeks, wait - 1)
    assert record["left"]["whole"] == (point + more) * 1000
    assert record["reaches_next_supply"] == chance


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
