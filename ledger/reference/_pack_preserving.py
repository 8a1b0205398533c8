"""Make the preserving tables in ``data/`` from the published figures in CSV.

    python -m ledger.reference._pack_preserving FOLDER

FOLDER holds process_schedules.csv and process_schedules_more.csv (one table here), storage.csv,
yields.csv, recipe_bounds.csv, kinds.csv and the SOURCES.md and SOURCES_more.md that explain them.
Figures are carried over unchanged; remarks are put in words that call no food safe, because the
program shows them.
"""

from __future__ import annotations

import csv
import gzip
import io
import re
import sys
from collections.abc import Iterable
from pathlib import Path

TABLES = {
    "schedules": ("process_schedules.csv", "process_schedules_more.csv"),
    "storage": ("storage.csv",),
    "yields": ("yields.csv",),
    "bounds": ("recipe_bounds.csv",),
    "kinds": ("kinds.csv",),
}
DROPPED = frozenset({"confirmed"})  # says in words what `checked` says
SOURCE_COLUMNS = ("source_id", "title", "publisher", "year", "address", "read")

_REWORDED = (
    ("quality only; safe indefinitely at 0 F", "a limit of quality, at a steady 0 F"),
    ("mashed or pureed squash has no safe process", "no process is published for mashed or pureed squash"),
    ("You Asked It: drying meat safely", "You Asked It: drying meat"),
    ("guide 1, ensuring safe canned foods", "guide 1, on why foods are processed"),
    ("guide 3/4, for safety sake (boiling before eating)", "guide 3/4, boiling before eating"),
    ("white flesh has no tested process", "no process is tested for white flesh"),
    ("Are electric multi-cookers safe for canning? (", "Electric multi-cookers and canning ("),
    ("Pumpkin: preserving pumpkin safely", "Preserving pumpkin"),
    ("Preserving pumpkin safely", "Preserving pumpkin"),
    ("Are elderberries safe to home can (", "Elderberries and home canning ("),
    ("Safely infusing oils at home", "Infusing oils at home"),
    ("flavour and texture, not safety", "flavour and texture"),
    ("recipe, not safety", "recipe, for taste"),
    ("Unsafe methods (", "Methods that are not recommended ("),
    ("sterile jars", "sterile jars"),
)  # fmt: skip


def _plain(text: str) -> str:
    for found, said in _REWORDED:
        text = text.replace(found, said)
    return text


def _write(path: Path, columns: Iterable[str], rows: Iterable[dict[str, str]]) -> None:
    text = io.StringIO()
    writer = csv.DictWriter(text, list(columns), extrasaction="ignore", lineterminator="\n")
    writer.writeheader()
    writer.writerows({k: _plain(v) for k, v in row.items() if v is not None} for row in rows)
    path.write_bytes(gzip.compress(text.getvalue().encode(), 9, mtime=0))


def _sources(markdown: str) -> list[dict[str, str]]:
    """Return the rows of the table of sources: ``| id | rows | title | publisher | ... |``."""
    out = []
    for line in markdown.splitlines():
        cells = [cell.strip() for cell in line.strip().strip("|").split(" | ")]
        if len(cells) != 7 or not re.fullmatch(r"[A-Z][A-Z0-9_]+", cells[0]):
            continue
        del cells[1]
        out.append(dict(zip(SOURCE_COLUMNS, cells, strict=True)))
    return out


def pack(folder: Path, out: Path) -> None:
    """Write the compact tables of `folder` into `out`."""
    for name, parts in TABLES.items():
        rows: list[dict[str, str]] = []
        for part in parts:
            with (folder / part).open(encoding="utf-8", newline="") as file:
                rows += csv.DictReader(file)
        columns = [column for column in rows[0] if column not in DROPPED]
        _write(out / f"{name}.csv.gz", columns, rows)
    found = [
        row
        for name in ("SOURCES.md", "SOURCES_more.md")
        for row in _sources((folder / name).read_text("utf-8"))
    ]
    _write(out / "preserving_sources.csv.gz", SOURCE_COLUMNS, found)


if __name__ == "__main__":
    pack(Path(sys.argv[1]), Path(__file__).parent / "data")
