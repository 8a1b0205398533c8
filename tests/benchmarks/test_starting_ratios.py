"""Commands against starting Python and importing what they rest on: printed ratios.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_starting_ratios.py``. Nothing is asserted
of times, only of results.
"""

from __future__ import annotations

import re
import resource
import subprocess
import sys

import pytest
from ratio_tools import TOP, run_python, told

from ledger.log import open_log

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(1800)]


COMMAND = ("-c", "from ledger.cli import main; raise SystemExit(main())")
HEAVY = "import numpy, sqlite3"


def started(*args):
    """Return the processor's seconds of a program, its start included."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    run_python(*args)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def ratio_of_starts(mine, other, rounds=9):
    """Return the ratios of starts in turn, after one that fills the caches."""
    found = [(started(*mine), started(*other)) for _ in range(rounds + 1)][1:]
    return [one / two for one, two in found]


def test_starting_the_command(tmp_path):
    lines = tmp_path / "demo.jsonl"
    lines.write_text(run_python("-m", "seed_demo", "--until", "2026-10-31"), encoding="utf-8")
    book = str(tmp_path / "demo.sqlite")
    run_python(*COMMAND, "import", str(lines), "--book", book)
    shelf = (*COMMAND, "show", "shelf", "--as-of", "2026-10-31", "--book", book)
    assert len(run_python(*shelf).splitlines()) > 5
    assert "croftbook" in run_python(*COMMAND, "--help")
    help_ = ratio_of_starts((*COMMAND, "--help"), ("-c", "pass"))
    told("croftbook --help / python -c pass", help_, "10 or less")
    for question in ("shelf", "jar-cost", "our-table"):
        asked = (*COMMAND, "show", question, "--as-of", "2026-10-31", "--book", book)
        name = f"show {question} on the sample / importing NumPy and sqlite3"
        told(name, ratio_of_starts(asked, ("-c", HEAVY)), "5 or less")
    for words in (("harvest", "3 lb plum"), ("say", "picked 3 lb plums today", "--yes")):
        wrote = (*COMMAND, *words, "--book", book)
        name = f"{words[0]} on the sample / importing NumPy and sqlite3"
        told(name, ratio_of_starts(wrote, ("-c", HEAVY)), "(no aim of its own)")


IMPORTS = (
    "--help", "harvest", "say", "history --limit 3", "show shelf", "show jar-cost", "show our-table", "show season",
    "show shelf --csv",
)  # fmt: skip


def imported_by(line, book):
    """Return the milliseconds that a command's modules take to import, by package, biggest first."""
    words = line.split()
    words += {"harvest": ["3 lb plum"], "say": ["picked 3 lb plums today", "--yes"]}.get(line, [])
    words += [] if line == "--help" else ["--book", book]
    best = {}
    for _ in range(3):
        done = subprocess.run(
            [sys.executable, "-X", "importtime", *COMMAND, *words],
            cwd=TOP, capture_output=True, text=True, check=True,
        )  # fmt: skip
        for row in done.stderr.splitlines():
            found = re.match(r"import time:\s+(\d+) \|\s+\d+ \|\s*(\S+)", row)
            if found:
                best[found[2]] = min(int(found[1]), best.get(found[2], 1 << 60))
    packages = {}
    for name, took in best.items():
        package = name.partition(".")[0]
        package = "Python's own" if package in sys.stdlib_module_names else package
        packages[package] = packages.get(package, 0) + took / 1000
    return dict(sorted(packages.items(), key=lambda one: -one[1]))


def test_import_time_by_command(tmp_path):
    """Print one row a command: what `-X importtime` tells, the least of three starts."""
    book = str(tmp_path / "demo.sqlite")
    run_python(
        "-c", f"from ledger import Book; from seed_demo import build; build(Book.open({book!r}))"
    )
    run_python(*COMMAND, "show", "shelf", "--book", book)
    for line in IMPORTS:
        found = imported_by(line, book)
        parts = ", ".join(f"{name} {took:.0f}" for name, took in found.items() if took >= 1)
        print(f"\nimports of {line}: {sum(found.values()):.0f} ms ({parts})")
        assert "sqlalchemy" not in found


def test_commands_on_forty_years_against_the_sample(demo_file, tmp_path, monkeypatch):
    """Kept columns are there from the first round on, as for every command but the first."""
    from browser.conftest import COPIES, copied, shifted

    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    with copied(demo_file, tmp_path) as sample:
        rows = [row for chunk in sample.log.read() for row in chunk]
    forty = tmp_path / "forty.sqlite"
    with open_log(forty) as log, log.writing("import") as tx:
        for copy in range(COPIES):
            tx.append_many(shifted(row, copy) for row in rows)
    for question in ("shelf", "jar-cost", "our-table"):
        long, short = (
            (*COMMAND, "show", question, "--as-of", "2026-10-31", "--book", str(book))
            for book in (forty, tmp_path / "book.sqlite")
        )
        name = f"show {question} on forty years ({COPIES * len(rows):,} events) / on the sample"
        told(name, ratio_of_starts(long, short, rounds=5), "1.3 or less")
