"""Print the demo's events as JSON Lines: ``python -m seed_demo [--until DAY] [--seed N]``."""

from __future__ import annotations

import argparse
import datetime as dt
import json
import sys

from seed_demo import events


def main(args: list[str] | None = None) -> None:
    """Write one event a line to the standard output."""
    parser = argparse.ArgumentParser(prog="python -m seed_demo", description=__doc__)
    parser.add_argument("--until", type=dt.date.fromisoformat, help="a day like 2026-11-01")
    parser.add_argument("--seed", type=int, default=7)
    options = parser.parse_args(args)
    for event in events(options.until, options.seed):
        sys.stdout.write(json.dumps(event, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    main()
