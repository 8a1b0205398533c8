"""Make the compact winter tables in ``data/`` from the published figures in CSV.

    python -m ledger.reference._pack_winter FOLDER

FOLDER holds the thirteen tables named below. Every row keeps its source and whether it was read;
every packed row is read back, and one that does not parse stops the packing.
"""

from __future__ import annotations

import gzip
import sys
from pathlib import Path

__all__ = ["TABLES", "pack"]

TABLES = (
    "dri", "energy", "feed_eggs", "first_year", "glut", "keeping", "nutrients", "nutrients_extra",
    "reserve", "retention", "sowing", "watering", "work_value",
)  # fmt: skip


def pack(folder: Path, out: Path) -> None:
    """Write the compact tables of `folder` into `out`."""
    for name in TABLES:
        data = (folder / f"{name}.csv").read_bytes()
        (out / f"winter_{name}.csv.gz").write_bytes(gzip.compress(data, 9, mtime=0))
    _read_back()


def _read_back() -> None:
    from ledger.reference import cooking, needs, nutrients, reserves, servings, sowing, winter

    for module in (cooking, needs, nutrients, reserves, servings, sowing, winter):
        module.check()


if __name__ == "__main__":
    pack(Path(sys.argv[1]), Path(__file__).parent / "data")
