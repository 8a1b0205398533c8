"""What docs/formats.md says of the file holds for a file, by Python's own library alone."""

from __future__ import annotations

import re
import sqlite3
import subprocess
import sys
import uuid
from pathlib import Path

import pytest

from ledger import Book
from ledger.docs_stored import MEANINGS, PROGRAM, stored_fields
from ledger.log import NewEvent

PAGE = (Path(__file__).parents[2] / "docs" / "formats.md").read_text("utf-8")
TEXTS = ["plum", "crème „brûlée“", '"quoted" \\ back', "a\tb\nc\x01", "\u2028 \x7f </script>", "🍅"]


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "book.sqlite"
    with Book.open(path) as book:
        book.write("harvested", item="plum", amount="31 lb 8 oz", on="2026-09-02", by="Ada")
        with book.log.writing() as tx:
            for text in TEXTS:
                tx.append(
                    NewEvent(
                        str(uuid.uuid4()), "harvested", 1, "2026-09-02", "{}", by=text, at="08:30"
                    )
                )
    with Book.open(path, "other") as book:
        book.write("bought", item="sugar", amount="10 lb", paid="7.90", on="2026-09-02")
    return path


def run(path, tmp_path):
    """Take the program out of the page and run it with nothing of ours on its path."""
    (program,) = re.findall(r"```python\n(.*?)```", PAGE, re.DOTALL)
    file = tmp_path / "verify.py"
    file.write_text(program, "utf-8")
    return subprocess.run(
        [sys.executable, "-I", "-S", file, path], check=False, capture_output=True, text=True
    )


def test_ten_lines_verify_a_book(path, tmp_path):
    found = run(path, tmp_path)
    assert found.returncode == 0, found.stderr
    with Book.open(path) as book:
        head = book.log.head()
    assert f"'home': ({head.seq}, '{head.hash}')" in found.stdout
    assert "'other': (2" in found.stdout
    assert len(PROGRAM.split("\n\n")[1].splitlines()) <= 10


def test_ten_lines_notice_a_change(path, tmp_path):
    raw = sqlite3.connect(path)
    raw.execute("DROP TRIGGER events_stay")
    raw.execute("UPDATE events SET \"by\" = 'Eve' WHERE seq = 4")
    raw.commit()
    raw.close()
    found = run(path, tmp_path)
    assert found.returncode != 0
    assert "event 4 of home does not hold" in found.stderr


def test_page_names_every_column_and_stored_field(path):
    raw = sqlite3.connect(path)
    for table in ("events", "book_layout"):
        assert f"`{table}`:" in PAGE
        for row in raw.execute(f"PRAGMA table_info({table})"):
            assert f"| `{row[1]}` |" in PAGE
    tables = {row[0] for row in raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    assert tables == {"events", "book_layout"}
    raw.close()
    for name in stored_fields():
        assert MEANINGS[name]
