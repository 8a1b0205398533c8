"""What the torture tests share: how many, and where their figures are kept.

``CROFTBOOK_TORTURE`` is the part of the full count that is run: 1 for the nightly one, 0.02 for a few
minutes; ``CROFTBOOK_TORTURE_FIGURES`` a file to which each figure is added as a line of JSON.
"""

from __future__ import annotations

import json
import os

__all__ = ["count", "keep"]


def count(full):
    """Return how many of a full count are run."""
    return max(1, round(full * float(os.environ.get("CROFTBOOK_TORTURE", "0.02"))))


def keep(what, many, **figures):
    """Print what was found, and add it to the file of figures."""
    line = json.dumps({"test": what, "count": many, **figures})
    print(line)
    where = os.environ.get("CROFTBOOK_TORTURE_FIGURES")
    if where:
        with open(where, "a", encoding="utf-8") as file:
            file.write(line + "\n")
