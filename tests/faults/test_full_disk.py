"""A full disk is called full; what is written down can still be read, checked and shown."""

from __future__ import annotations

import contextlib
import gc
import os

import pytest
from test_log_faults import fill, small_disk

from ledger import Book
from ledger.cli import main
from ledger.errors import BookReadOnly

assert small_disk


@pytest.fixture
def full(small_disk):
    path = small_disk / "book.sqlite"
    with Book.open(path) as book:
        for n in range(20):
            book.write("harvested", item="plum", amount=f"{n + 1} lb", on="2026-09-02")
    with pytest.raises(OSError, match="space"):
        fill(small_disk)
    yield path
    gc.collect()  # a refusal holds on to the connection that it came from
    with contextlib.suppress(OSError):
        os.unlink(small_disk / "rest")


def test_book_on_a_full_disk_is_read(full, capsys):
    for words in (["show", "shelf"], ["check"], ["history"]):
        status = main([*words, "--book", str(full)])
        out, err = capsys.readouterr()
        assert (status, err) == (0, ""), words
        assert out


def test_writing_on_a_full_disk_is_called_full(full, capsys):
    body = "x" * 3_000
    status = main(
        ["harvest", "1 lb plum", "--on", "2026-09-03", "--by", body[:150], "--book", str(full)]
    )
    err = capsys.readouterr().err
    if status:  # a page may have room yet for one more
        assert status == 2
        assert "the disk is full" in err
    with Book.open(full) as book:
        written = [book.log.head()]

        def write():
            for n in range(300):
                book.write(
                    "harvested", item="plum", amount=f"{n + 1} lb", on="2026-09-03", by="x" * 150
                )
                written.append(book.log.head())

        with pytest.raises(BookReadOnly, match="the disk is full"):
            write()
        assert book.log.head() == written[-1]
        assert book.show("shelf", as_of="2026-09-04").frame["item"].unique().tolist() == ["plum"]
    os.unlink(full.with_name("rest"))
    with Book.open(full) as book:
        assert book.write("harvested", item="plum", amount="1 lb", on="2026-09-03").is_new
        assert book.check().is_whole


def test_export_and_backup_onto_a_full_disk_say_so(full, tmp_path, capsys):
    with Book.open(tmp_path / "book.sqlite") as book:
        book.write("harvested", item="plum", amount="1 lb", on="2026-09-02")
    before = sorted(p.name for p in full.parent.iterdir())
    for words in (
        ["export", str(full.parent / "e.jsonl")],
        ["backup", str(full.parent / "k.sqlite")],
    ):
        assert main([*words, "--book", str(tmp_path / "book.sqlite")]) == 2
        assert "disk is full" in capsys.readouterr().err
    assert sorted(p.name for p in full.parent.iterdir()) == before
