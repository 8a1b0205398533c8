"""Reading what people type, and taking many typed entries in: printed ratios of one run.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_writing_ratios.py``.
"""

from __future__ import annotations

import contextlib
import csv
import json
import random
import statistics
import time
from fractions import Fraction

import pint
import pytest
from ratio_tools import EVENTS, run_python, told
from test_log_speed import INSERT, bare_book

from ledger import Book
from ledger.amounts import parse_amount
from ledger.door import Answers

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(1800)]

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


def cpu(work):
    began = time.process_time()
    out = work()
    return time.process_time() - began, out


def stored_bare(path, rows):
    """Return the processor's seconds in which rows made beforehand are only stored."""
    with contextlib.closing(bare_book(path)) as raw:

        def plain():
            raw.execute("BEGIN IMMEDIATE")
            raw.executemany(INSERT, rows)
            raw.execute("COMMIT")

        return cpu(plain)[0]


def as_files(lines, folder):
    """Write the lines as JSON Lines and as a sheet; return both files."""
    jsonl, sheet = folder / "lines.jsonl", folder / "lines.csv"
    names = ("item", "amount", "paid", "shop", "sort", "measure")
    with jsonl.open("w") as one, sheet.open("w", newline="") as other:
        writer = csv.writer(other)
        writer.writerow(["kind", "on", *names])
        for line in lines:
            one.write(json.dumps(line) + "\n")
            writer.writerow([line["kind"], line["on"], *(line["body"].get(n, "") for n in names)])
    return jsonl, sheet


def test_typed_import_against_executemany(tmp_path):
    """Every line resolved, checked and stored, against rows made beforehand and only stored."""
    lines = list(typed_lines(LINES))
    jsonl, sheet = as_files(lines, tmp_path)
    ways = {
        "events": lambda book: book.import_events(
            ((i, 0, line) for i, line in enumerate(lines, 1)), answers=Answers(yes=True)
        ),
        "JSON Lines": lambda book: book.import_file(jsonl, answers=Answers(yes=True)),
        "CSV": lambda book: book.import_file(sheet, answers=Answers(yes=True)),
    }
    for way, work in ways.items():
        ratios, ours = [], []
        for n in range(2 * ROUNDS - 1):
            with Book.open(tmp_path / f"{way}{n}.sqlite") as book:
                took, done = cpu(lambda b=book, w=work: w(b))
                assert done.written == LINES, done
                rows = [("home", *row) for chunk in book.log.read() for row in chunk]
            ours.append(took)
            ratios.append(stored_bare(tmp_path / f"bare {way}{n}.sqlite", rows) / took)
        told(
            f"typed import, {way} / executemany of the same rows, in its speed", ratios, "0.25",
            f"{LINES / statistics.median(ours):,.0f} events a second",
        )  # fmt: skip


IMPORTED = """
import json, sys, time
from pathlib import Path
from ledger import Answers, Book
with Book.open(sys.argv[2]) as book:
    began = time.process_time()
    done = book.import_file(sys.argv[1], answers=Answers(yes=True))
    took = time.process_time() - began
try:
    with open("/proc/self/status") as status:
        peak = next(int(line.split()[1]) * 1024 for line in status if line.startswith("VmHWM"))
except OSError:
    import resource
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * (1 if sys.platform == "darwin" else 1024)
print(json.dumps([done.written, took, peak]))
"""


def test_memory_of_a_large_typed_import(tmp_path):
    """CROFTBOOK_BENCH_EVENTS lines (100,000) against a tenth of them, each in a program of its own."""
    for ending in ("jsonl", "csv"):
        found = []
        for number in (EVENTS // 10, EVENTS):
            folder = tmp_path / f"{number}{ending}"
            folder.mkdir()
            jsonl, sheet = as_files(typed_lines(number), folder)
            file = jsonl if ending == "jsonl" else sheet
            written, took, peak = json.loads(
                run_python("-c", IMPORTED, str(file), str(folder / "book.sqlite"))
            )
            assert written == number
            found.append((took, peak))
        (t1, m1), (t2, m2) = found
        told(f"typed import of {EVENTS:,} lines of {ending} / of a tenth, memory", [m2 / m1], "1.2 or less",
             f"{m1 / 1e6:.0f} and {m2 / 1e6:.0f} MB; time for each line {t2 / t1 / 10:.2f} times, {t2:.1f} s")  # fmt: skip
