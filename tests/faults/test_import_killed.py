"""An import that is killed in the middle: the book stays as it was, and goes on being one."""

from __future__ import annotations

import hashlib
import json
import os
import signal
import subprocess
import sys
import time

import pytest

from ledger import Book
from ledger.cli import main

LINES = 6_000
HALF_WAY = """
import sys, time
from ledger import Book
def lines():
    with open(sys.argv[2], "rb") as file:
        for number, line in enumerate(file, 1):
            if number == 5000:
                print("half way", flush=True)
                time.sleep(60)
            yield number, number * 100, line
with Book.open(sys.argv[1]) as book:
    book.import_events(lines())
"""
COMMAND = "from ledger.cli import main; main(sys.argv[1:])"


@pytest.fixture
def season(tmp_path):
    """A file of several thousand entries, with a batch and a meal among them."""
    path = tmp_path / "season.jsonl"
    kinds = [
        ("harvested", {"item": "plum", "amount": "31 lb 8 oz"}),
        ("bought", {"item": "sugar", "amount": "10 lb", "paid": "7.90"}),
        (
            "put_up",
            {
                "makes": "plum butter",
                "method": "boiling water",
                "used": [{"item": "plum", "amount": "16 lb"}],
                "made": [{"jars": 11, "jar": "half-pint jar"}],
            },
        ),
        ("eaten", {"ate": [{"item": "plum butter", "amount": "1 half-pint jar"}], "people": 6}),
    ]
    with path.open("w") as file:
        for n in range(LINES):
            kind, body = kinds[n % len(kinds)]
            on = f"20{10 + n // 500:02}-{n // 40 % 12 + 1:02}-{n % 28 + 1:02}"
            file.write(json.dumps({"kind": kind, "on": on, "body": body}) + "\n")
    return path


@pytest.fixture
def kept(tmp_path):
    """A book with a few entries; its path and what it holds."""
    path = tmp_path / "book.sqlite"
    with Book.open(path) as book:
        book.write("harvested", item="plum", amount="40 lb", on="2009-08-01")
        book.write("bought", item="sugar", amount="10 lb", paid="8", on="2009-08-01")
    return path, digest(path)


def digest(path):
    with Book.open(path, create=False) as book:
        rows = [row for chunk in book.log.read() for row in chunk]
    return hashlib.sha256(repr(rows).encode()).hexdigest()


def start(script, *words):
    return subprocess.Popen(
        [sys.executable, "-c", "import sys\n" + script, *map(str, words)],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )


def kill(process):
    process.send_signal(signal.SIGKILL)
    process.wait(60)
    process.stdout.close()


def is_sound(path, capsys):
    """Ask the command itself, on a book that was left by a program that is gone."""
    status = main(["check", "--json", "--book", str(path)])
    return status == 0 and json.loads(capsys.readouterr().out)["whole"]


def test_killed_half_way_leaves_the_book_as_it_was(kept, season, capsys):
    path, before = kept
    victim = start(HALF_WAY, path, season)
    assert victim.stdout.readline() == "half way\n"
    kill(victim)
    assert digest(path) == before
    assert is_sound(path, capsys)
    assert main(["import", str(season), "--book", str(path), "--yes"]) == 0
    assert f"{LINES} events written" in capsys.readouterr().out
    assert is_sound(path, capsys)


@pytest.mark.parametrize("part", [0.1, 0.5, 0.9])
def test_command_killed_at_any_moment_wrote_all_or_nothing(kept, season, capsys, tmp_path, part):
    path, before = kept
    whole = tmp_path / "whole.sqlite"
    began = time.monotonic()
    with start(COMMAND, "import", season, "--book", whole, "--yes") as undisturbed:
        assert undisturbed.wait(120) == 0
    took = time.monotonic() - began
    victim = start(COMMAND, "import", season, "--book", path, "--yes")
    time.sleep(took * part)
    kill(victim)
    with Book.open(path, create=False) as book:
        written = len(book.history(kind="eaten"))
    assert written in (0, LINES // 4)
    assert written or digest(path) == before
    assert is_sound(path, capsys)
    with Book.open(path) as book:
        assert book.write("harvested", item="plum", amount="1 lb", on="2026-09-02").is_new
