"""What tests of faults share: telling a PostgreSQL server of their own to stop and to go on."""

from __future__ import annotations

import subprocess
from pathlib import Path

SCRIPT = Path(__file__).parents[1] / "postgres.sh"


def tell(word, folder):
    """Tell the server something, and return what it answers."""
    run = subprocess.run(["sh", SCRIPT, word, folder], check=False, capture_output=True, text=True)
    assert run.returncode == 0, run.stderr
    return run.stdout.strip()
