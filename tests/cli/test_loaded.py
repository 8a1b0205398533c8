"""What a command loads: of the heavy libraries only those that its question needs."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from ledger import Book
from seed_demo import build

HEAVY = {
    "babel",
    "dash",
    "dask",
    "distributed",
    "opendp",
    "icalendar",
    "openpyxl",
    "pandas",
    "pint",
    "plotly",
    "psycopg",
    "rapidfuzz",
    "rich",
    "scipy",
    "sqlalchemy",
}
SHOWS = {"rich"}
"""A table is drawn with it."""
TRACES = {"scipy"}
"""What became of what went in is solved as one sparse system."""
COMMANDS = {
    "--help": set(),
    "history --limit 3": SHOWS,
    "check": set(),
    "harvest 3_lb_plum": set(),
    "say picked_3_lb_plums_today --yes": {"rapidfuzz"},
    "export out.jsonl": set(),
    "show shelf": SHOWS | {"rapidfuzz"},
    "show shelf --csv": {"rapidfuzz"},
    "show jar-cost": SHOWS | {"rapidfuzz"},  # jars that bear a mark are named before what they cost
    "show jar-cost --csv": {"rapidfuzz"},
    "show jar-cost --json": {"rapidfuzz"},
    "show our-table": SHOWS | TRACES,
    "show season": SHOWS,
    "show who-eats": SHOWS,
    "show hens": SHOWS,
    "show keeping-life": SHOWS | {"rapidfuzz"},
    "show enough": SHOWS | TRACES | {"rapidfuzz"},
}
"""Each command, and what it may load."""
LOADED = """
import sys
from ledger.cli import main
status = main(sys.argv[2:])
import json
with open(sys.argv[1], "w") as out:
    json.dump([status, sorted({name.partition(".")[0] for name in sys.modules})], out)
"""


@pytest.fixture(scope="module")
def sample(tmp_path_factory):
    """The sample household's book."""
    path = tmp_path_factory.mktemp("sample") / "book.sqlite"
    with Book.open(path) as book:
        build(book)
    return path


@pytest.mark.parametrize("line", COMMANDS)
def test_command_loads_only_what_it_needs(line, sample, tmp_path):
    told = tmp_path / "loaded.json"
    words = [word.replace("_", " ") for word in line.split()]
    book = [] if line == "--help" else ["--book", str(sample)]
    done = subprocess.run(
        [sys.executable, "-c", LOADED, str(told), *words, *book],
        capture_output=True, check=False, cwd=tmp_path,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr.decode()
    status, loaded = json.loads(told.read_text())
    assert not status
    assert HEAVY & set(loaded) <= COMMANDS[line]
