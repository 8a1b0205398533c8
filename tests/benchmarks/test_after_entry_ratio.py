"""What the server works out after one more entry, on forty years against the sample: printed ratios.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_after_entry_ratio.py``. Processor
seconds of drawing a page to the text that is sent, without browser or network.
"""

from __future__ import annotations

import datetime as dt
import statistics

import pytest
from browser.conftest import COPIES, copied, shifted
from dash._utils import to_json
from ratio_tools import seconds, told

from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page
from dashboard.parts import still
from ledger import Book

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(900)]

ROUNDS = 7
PATHS = ("/", "/shelf", "/jar-cost")


@pytest.fixture
def books(demo_file, tmp_path):
    sample = copied(demo_file, tmp_path)
    rows = [row for chunk in sample.log.read() for row in chunk]
    forty = Book.open(tmp_path / "forty.sqlite")
    with forty.log.writing("import") as tx:
        for copy in range(COPIES):
            tx.append_many(shifted(row, copy) for row in rows)
    yield sample, forty
    sample.close()
    forty.close()


def after_entries(book, path):
    """Return the seconds of drawing a page after each of some entries."""
    data = Data(book)

    def draw():
        return to_json(still(draw_page(ask_of(data, path, "", None, "light"))))

    draw()
    found = []
    for _ in range(ROUNDS):
        book.write("harvested", {"item": "plum", "amount": "3 lb"}, on=dt.date(2026, 9, 2))
        took, text = seconds(draw)
        assert len(text) > 1000
        found.append(took)
    return found


@pytest.mark.parametrize("path", PATHS)
def test_page_after_an_entry_on_forty_years(path, books):
    sample, forty = (after_entries(book, path) for book in books)
    base = statistics.median(sample)
    more = f"(sample {base * 1000:.0f} ms, forty years {statistics.median(forty) * 1000:.0f} ms)"
    told(f"{path} after an entry, forty years / sample", [one / base for one in forty], "3", more)
