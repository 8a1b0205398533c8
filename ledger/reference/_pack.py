"""Make the compact tables in ``data/`` from the published figures in CSV.

    python -m ledger.reference._pack FOLDER

FOLDER holds food_composition.csv, food_portions.csv and commodity_weights.csv with the columns
named below. Only the columns that the ledger uses are kept; every row keeps its source.
"""

from __future__ import annotations

import csv
import gzip
import io
import sys
from pathlib import Path

TABLES = {
    "foods": (
        "food_composition.csv",
        ("ndb_id", "description", "food_group", "kcal_per_100g", "refuse_pct", "source_id"),
    ),
    "portions": ("food_portions.csv", ("ndb_id", "amount", "measure", "grams", "source_id")),
    "containers": (
        "commodity_weights.csv",
        (
            "record_type", "commodity", "form", "container", "net_weight_lb_min", "net_weight_lb_max",
            "basis", "source_id", "checked",
        ),
    ),
}  # fmt: skip


def pack(folder: Path, out: Path) -> None:
    """Write the compact tables of `folder` into `out`."""
    for name, (source, columns) in TABLES.items():
        with (folder / source).open(encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        text = io.StringIO()
        writer = csv.DictWriter(text, columns, extrasaction="ignore", lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
        with (out / f"{name}.csv.gz").open("wb") as file:
            file.write(gzip.compress(text.getvalue().encode(), 9, mtime=0))


if __name__ == "__main__":
    pack(Path(sys.argv[1]), Path(__file__).parent / "data")
