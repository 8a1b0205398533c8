"""One bit or byte changed anywhere in a book, its journal or its head: noticed, or without effect."""

from __future__ import annotations

import os
import random
import shutil
import subprocess
import sys

import pytest
from torture_tools import count, keep

from ledger import Book
from ledger.errors import LedgerError
from ledger.log import open_log, verify

pytestmark = [pytest.mark.torture, pytest.mark.timeout(0)]

LEFT_BY_A_CRASH = """
import os, sys
from ledger import Book
with Book.open(sys.argv[1]) as book:
    book.log.store.settle = lambda: None
    for n in range(8):
        book.write("harvested", item="plum", amount=f"{n + 1} lb", on="2026-08-03")
    os.kill(os.getpid(), 9)
"""


def rows(path):
    with open_log(path, create=False) as log:
        return [row for chunk in log.read() for row in chunk]


def notices(path):
    """Return whether a look at the book tells that something is wrong, as `croftbook check` looks."""
    try:
        with open_log(path, create=False) as log:
            return bool(log.standing().fault or log.faults or verify(log).reasons)
    except LedgerError:
        return True


def flipped(file, at, luck):
    raw = bytearray(file.read_bytes())
    if luck.random() < 0.5:
        raw[at] ^= 1 << luck.randrange(8)
    else:
        raw[at] = luck.choice(
            [b for b in (0, 255, luck.randrange(256)) if b != raw[at]] or [raw[at] ^ 1]
        )
    file.write_bytes(bytes(raw))


@pytest.fixture
def kitchen(tmp_path):
    path = tmp_path / "book.db"
    with Book.open(path) as book:
        for n in range(40):
            book.write("harvested", item="plum", amount=f"{n + 1} lb", on="2026-08-02")
        head = book.log.keeper.file
    environ = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    subprocess.run([sys.executable, "-c", LEFT_BY_A_CRASH, path], check=False, env=environ)
    return path, head


@pytest.mark.parametrize(("which", "full"), [("file", 1_000), ("journal", 700), ("head", 300)])
def test_flips_are_noticed_or_harmless(kitchen, tmp_path, which, full):
    path, head = kitchen
    journal = path.with_name("book.db-wal")
    assert journal.stat().st_size > 4096
    kept = tmp_path / "kept"
    kept.mkdir()
    for one in (path, journal, head):
        shutil.copyfile(one, kept / one.name)

    def put_back():
        for one in (path, journal, head):
            shutil.copyfile(kept / one.name, one)
        path.with_name("book.db-shm").unlink(missing_ok=True)

    put_back()
    whole = rows(path)
    assert len(whole) == 49
    luck, many, noticed, harmless, silent = random.Random(which), count(full), 0, 0, []
    for _ in range(many):
        put_back()
        file = {"file": path, "journal": journal, "head": head}[which]
        at = luck.randrange(file.stat().st_size)
        flipped(file, at, luck)
        if notices(path):
            noticed += 1
            continue
        put_back_is_needed = rows(path)
        if put_back_is_needed == whole:
            harmless += 1
        else:
            silent.append(at)
    put_back()
    keep(f"flips: {which}", many, noticed=noticed, harmless=harmless, silent=len(silent))
    assert silent == []
