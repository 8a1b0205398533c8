"""Reading what people type, and taking many typed entries in: printed ratios of one run.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_writing_ratios.py``.
"""

from __future__ import annotations

import contextlib
import random
import statistics
import time
from fractions import Fraction

import pint
import pytest
from test_log_speed import INSERT, bare_book

from ledger import Book
from ledger.amounts import parse_amount
from ledger.door import Answers

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(600)]

AMOUNTS = 20_000
LINES = 20_000
ROUNDS = 3
UNITS = ("lb", "oz", "cup", "qt", "kg", "g", "l", "tbsp")


def seconds(work):
    began = time.perf_counter()
    out = work()
    return time.perf_counter() - began, out


def median_of(work):
    """Return the median seconds of a few rounds, and what the last one gave."""
    found = [seconds(work) for _ in range(ROUNDS)]
    return statistics.median(took for took, _ in found), found[-1][1]


def test_amounts_against_pint():
    """A household writes a few hundred different amounts, again and again."""
    rng = random.Random(1)
    few = [f"{rng.randint(1, 40)}.{rng.choice('05')} {rng.choice(UNITS)}" for _ in range(400)]
    texts = [rng.choice(few) for _ in range(AMOUNTS)]
    units = pint.UnitRegistry(non_int_type=Fraction)
    some = texts[:500]
    by_pint, quantities = median_of(lambda: [units.Quantity(text) for text in some])
    by_pint *= AMOUNTS / len(some)
    cold, _ = seconds(lambda: [parse_amount(text) for text in texts])
    took, amounts = median_of(lambda: [parse_amount(text) for text in texts])
    grams = [q.to_base_units() for q in quantities if q.check("[mass]")]
    mine = [a for a in amounts[: len(some)] if a.measure == "mass"]
    for amount, quantity in zip(mine, grams, strict=True):
        assert abs(Fraction(quantity.to("mg").magnitude) - amount.whole) <= 1
    print(
        f"\namounts: {AMOUNTS / took:,.0f} a second through the cache (reach for 20,000), "
        f"{AMOUNTS / cold:,.0f} with the cache empty at first; "
        f"{by_pint / took:.0f} and {by_pint / cold:.0f} times as fast as Pint reading the same"
    )


def test_amounts_that_never_come_again():
    rng = random.Random(2)
    texts = [f"{rng.randint(1, 99)} lb {n % 16}.{n} oz" for n in range(AMOUNTS)]
    took, amounts = seconds(lambda: [parse_amount(text) for text in texts])
    assert len({a.whole for a in amounts}) > AMOUNTS // 2
    print(f"\namounts, all different: {AMOUNTS / took:,.0f} a second")


def typed_lines(number, seed=3):
    """Yield purchases as people type them, of 200 items that are described first."""
    rng = random.Random(seed)
    for n in range(200):
        told = {"item": f"food {n}", "sort": "food", "measure": "mass"}
        yield {"kind": "item_described", "on": "2020-01-01", "body": told}
    for n in range(200, number):
        day = f"20{20 + n * 6 // number}-{rng.randint(1, 12):02}-{rng.randint(1, 28):02}"
        line = {"amount": f"{rng.randint(1, 40)} lb {rng.randint(1, 15)} oz", "paid": "3.40"}
        body = {"item": f"food {rng.randrange(200)}", "shop": "corner shop", **line}
        yield {"kind": "bought", "on": day, "body": body}


def test_typed_import_against_executemany(tmp_path):
    """Every line resolved, checked and stored, against rows made beforehand and only stored."""
    lines = list(typed_lines(LINES))
    answers = Answers(yes=True)
    bare, ours = [], []
    for n in range(ROUNDS):
        with Book.open(tmp_path / f"ours{n}.sqlite") as book:
            numbered = ((i, 0, line) for i, line in enumerate(lines, 1))
            took, done = seconds(lambda b=book, s=numbered: b.import_events(s, answers=answers))
            assert done.written == LINES, done
            ours.append(took)
            rows = [("home", *row) for chunk in book.log.read() for row in chunk]
        with contextlib.closing(bare_book(tmp_path / f"bare{n}.sqlite")) as raw:

            def plain(raw=raw, rows=rows):
                raw.execute("BEGIN IMMEDIATE")
                raw.executemany(INSERT, rows)
                raw.execute("COMMIT")

            bare.append(seconds(plain)[0])
    took = statistics.median(ours)
    print(
        f"\ntyped import / executemany of the same rows: "
        f"{statistics.median(bare) / took:.2f} of its speed, {LINES / took:,.0f} events a second"
    )
