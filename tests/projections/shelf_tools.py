"""What tests of the shelf ahead share: weeks, books of even use, answers by item, and figures opened."""

from __future__ import annotations

import datetime as dt
import math

from questions.recomputed import recompute

from ledger.projections import PROJECTIONS

KG = 1000
START = dt.date(2024, 1, 7)
SHELF = PROJECTIONS["shelf"]


def day(week, extra=0):
    return (START + dt.timedelta(days=7 * week + extra)).isoformat()


def eat(book, item, amount, on):
    book.write("eaten", {"ate": [{"item": item, "amount": amount}]}, on=on)


def weekly(book, item="flour", stock="40 kg", amount="1 kg", weeks=12):
    """Buy once, then use the same each week; the last whole week ends on the day before."""
    book.write("bought", {"lines": [{"item": item, "amount": stock, "paid": "9"}]}, on=day(0))
    for week in range(weeks):
        eat(book, item, amount, day(week, 3))
    return day(weeks, -1)


def items(book, as_of, **options):
    answer = book.show("shelf", as_of=as_of, items=True, **options).to_dict()
    return {r["item"]: r for r in answer["records"]}, answer


def last_day(events):
    return max(e["on"] for e in events)


def key(record):
    return record["why"].partition("/")[2]


def get(record, name):
    for part in name.split("."):
        record = record[part]
    return record


def compare(state, record, name):
    shown = get(record, name)
    if shown is None:
        return
    node = SHELF.why(state, key(record), name)
    assert math.isclose(node.value or 0.0, shown, rel_tol=1e-9, abs_tol=1e-6), name
    walk(node)


def walk(node):
    value = recompute(node)
    if value is not None:
        assert math.isclose(value, node.value, rel_tol=1e-9, abs_tol=1e-6), node.label
    for part in node.parts:
        walk(part)
