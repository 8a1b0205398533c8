"""A circle of many households: work by book and by worker, and a crowd's sheets gathered and told.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_circle_ratio.py``; the number of books is
CROFTBOOK_BENCH_BOOKS (200), that of sheets CROFTBOOK_BENCH_SHEETS (10000).
"""

from __future__ import annotations

import os
import resource
import time

import pytest

from ledger import Book
from ledger.circle import Circle
from seed_demo import circle as sample

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(7200)]
BOOKS = int(os.environ.get("CROFTBOOK_BENCH_BOOKS", "200"))
SHEETS = int(os.environ.get("CROFTBOOK_BENCH_SHEETS", "10000"))


def spent(run):
    """Return wall seconds, processor seconds of this process and those that it started, and the result."""
    before, wall = os.times(), time.perf_counter()
    result = run()
    after = os.times()
    return time.perf_counter() - wall, sum(after[:4]) - sum(before[:4]), result


def test_work_by_book_and_worker(tmp_path):
    pytest.importorskip("distributed", reason="Dask is not installed (pip install '.[many]')")
    for number in range(BOOKS):
        with Book.open(tmp_path / f"{number}.sqlite") as book:
            sample.build(book, number, 2026)
    call = sample.call_for(2026)
    held = {}
    for name, workers in (("plain loop", 0), ("1 worker", 1), ("2 workers", 2)):
        circle = Circle.begin(tmp_path / name, call)
        rows = [
            f"{number}.sqlite,home,{card},{sample.zone_of(number)},yes"
            for number, card in enumerate(circle.cards(BOOKS))
        ]
        path = tmp_path / "members.csv"
        path.write_text("\n".join(["book,household,card,zone,consent", *rows]) + "\n")
        wall, cpu, done = spent(lambda: circle.work(path, workers=workers))  # noqa: B023 - run at once
        assert (done.made, done.failed) == (BOOKS, [])
        print(f"\n{name}: {BOOKS} books, wall {wall:.1f} s, CPU {cpu / BOOKS:.3f} s a book")
        wall, cpu, done = spent(lambda: circle.work(path, workers=workers))  # noqa: B023
        assert done.unchanged == BOOKS
        print(f"  nothing moved: wall {wall:.2f} s")
        for number in range(3):
            with Book.open(tmp_path / f"{number}.sqlite") as book:
                book.write("price_seen", item="salt", amount="1 lb", price="0.70", on="2026-10-30")
        wall, cpu, done = spent(lambda: circle.work(path, workers=workers))  # noqa: B023
        assert done.made == 3
        print(f"  3 moved: wall {wall:.2f} s")
        held[name] = sorted(str(one.figures) for one in circle.held())
    assert held["plain loop"] == held["1 worker"] == held["2 workers"]
    print(f"memory, most: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB here, "
          f"{resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024:.0f} MB a worker")  # fmt: skip


@pytest.mark.parametrize("private", [False, True])
def test_crowd_of_sheets(tmp_path, private):
    if private:
        pytest.importorskip("opendp", reason="OpenDP is not installed (pip install '.[many]')")
    circle = Circle.begin(tmp_path / "crowd", sample.call_for(2026))
    wall, _, cards = spent(lambda: circle.cards(SHEETS))
    print(f"\n{SHEETS} cards: {wall:.1f} s")
    wall, _, _ = spent(lambda: (tmp_path / "all").write_bytes(b"".join(sample.sheets(circle.call, cards))))  # fmt: skip
    print(f"drawing and sealing: {wall:.1f} s")
    wall, _, done = spent(lambda: circle.gather([tmp_path / "all"]))
    assert done.taken == SHEETS
    print(f"gathering: {wall:.1f} s")
    wall, _, told = spent(lambda: circle.tell(private=private))
    print(f"telling {told.head['for']}, {len(told.cells)} cells: {wall:.1f} s")
