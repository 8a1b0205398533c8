"""Every question against the cold replay of the same book, and against a book a quarter as long.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_question_ratios.py``. Ratios of one
run, in the processor's seconds, are printed; nothing is asserted of times, only that the answers hold
together.
"""

from __future__ import annotations

import datetime as dt
import json
import statistics
import time

import pytest
from books import ListLog
from ratio_tools import EVENTS, drawn_events

import seed_demo
from ledger import Book
from ledger.projections import PROJECTIONS
from ledger.replay import Replay

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(3600)]

ROUNDS = 5
ASKED = (
    ("jar-cost", {}),
    ("shelf", {}), ("shelf", {"items": True}),
    ("our-table", {}), ("our-table", {"by": "month"}), ("our-table", {"paths": True}),
    ("know-how", {}), ("know-how", {"year_sheet": "2025"}), ("know-how", {"curve": "bread"}),
    ("season", {}), ("season", {"weeks": True}), ("season", {"against": "2025"}),
    ("next-season", {}), ("next-season", {"rotate": True}), ("next-season", {"preserving": True}),
    ("stocking-up", {}), ("worth-it", {}), ("worth-it", {"prices": True}), ("came-true", {}), ("as-published", {}),
)  # fmt: skip
LONG = [(name, options) for name, options in ASKED if "curve" not in options]


def seconds(work):
    """Return the processor's seconds of one call, and what it gave."""
    began = time.process_time()
    out = work()
    return time.process_time() - began, out


def holds_together(name, answer):
    """Hold shares to one, paths to what came in, causes to their difference, beds to their ground."""
    totals, frame = answer.totals, answer.frame
    if "grams" in totals:
        grams = totals["grams"]
        assert grams["paths"] == pytest.approx(grams["there_before"] + grams["came_in"])
    elif name == "our-table":
        known = frame[frame["share_of_eaten"].notna()]
        for _, shares in known.groupby(["period", "basis"])["share_of_eaten"]:
            assert sum(shares) == pytest.approx(1.0)
    if "where_it_went" in totals:
        kept = frame["kept_g"].astype(float).sum()
        assert sum(totals["where_it_went"].values()) == pytest.approx(kept)
    if "from_price" in totals:
        parts = ("from_price", "from_amount", "from_mix", "not_split")
        assert sum(totals[part] for part in parts) == pytest.approx(totals["difference"])
    for bed in totals["beds"].values() if name == "next-season" and "beds" in totals else ():
        assert 0 <= bed["free_m2"] <= bed["area_m2"]


def test_the_sample_against_its_cold_replay(tmp_path):
    path = tmp_path / "demo.sqlite"
    with Book.open(path) as book:
        seed_demo.build(book)

    def cold():
        book = Book.open(path)
        book.state().costs  # noqa: B018
        return book

    cold()
    rounds = [seconds(cold) for _ in range(ROUNDS)]
    whole, book = statistics.median(took for took, _ in rounds), rounds[-1][1]
    took = {(n, k): [] for n in range(len(ASKED)) for k in ("after an entry", "again")}
    for name, options in ASKED:
        book.show(name, **options)  # imports are not what is measured
    for _ in range(ROUNDS):
        for n, (name, options) in enumerate(ASKED):
            book.write("bought", {"lines": [{"item": "sugar", "amount": "1 lb", "paid": "0.89"}]})
            book.state().costs  # noqa: B018
            for when in ("after an entry", "again"):
                spent, answer = seconds(lambda n=name, o=options: book.show(n, **o))
                took[n, when].append(spent)
                holds_together(name, answer)
    print(f"\n{'question / cold replay of the sample':46} after an entry  again  (reach for 0.1)")
    for n, (name, options) in enumerate(ASKED):
        said = f"{name} {' '.join(f'{key}={value}' for key, value in options.items())}"
        entry, again = (statistics.median(took[n, k]) / whole for k in ("after an entry", "again"))
        print(f"{said:46} {entry:14.2f} {again:6.2f}")


def replay_of_size(number):
    """Return a drawn book of so many events, without a store."""
    events = [
        {
            "seq": seq, "id": one.id, "kind": one.kind, "on": one.on,
            "recorded_at": "2026-01-01T00:00:00Z", "body": json.loads(one.body),
        }
        for seq, one in enumerate(drawn_events(number), 1)
    ]  # fmt: skip
    replay = Replay(ListLog(events, 20_000))
    replay.refresh()
    return replay


def test_they_grow_no_faster_than_the_book():
    took = {}
    for size in (EVENTS // 4, EVENTS):
        replay = replay_of_size(size)
        for n, (name, options) in enumerate(LONG):
            if "against" in options:
                continue
            build = PROJECTIONS[name].build
            spent = []
            for later in range(4):  # another day each time, so that nothing is kept from before
                day = dt.date(2027, 1, 1) + dt.timedelta(days=4 * n + later)
                state = replay.state(as_of=day.isoformat())
                state.costs  # noqa: B018
                once, answer = seconds(lambda s=state, b=build, o=options: b(s, **o))
                spent.append(once)
                holds_together(name, answer)
            took.setdefault(n, []).append(statistics.median(spent[1:]))
    print(f"\nfour times the events ({EVENTS // 4:,} to {EVENTS:,}): 4 is linear")
    for n, (small, large) in took.items():
        name, options = LONG[n]
        print(f"{f'{name} {chr(32).join(options)}':32} {large / small:.1f} times as long")
