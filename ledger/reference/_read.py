"""Reading the packaged tables."""

from __future__ import annotations

import csv
import gzip
import io
from importlib.resources import files

__all__ = ["rows"]


def rows(name: str) -> list[dict[str, str]]:
    """Return the rows of a packaged table, as text."""
    data = files("ledger.reference").joinpath("data", f"{name}.csv.gz").read_bytes()
    return list(csv.DictReader(io.StringIO(gzip.decompress(data).decode("utf-8"))))
