"""Where there is no book: what only reads says so and makes nothing."""

from __future__ import annotations

import json

import pytest

from ledger import book as book_module
from ledger.cli import main

READS = [
    "show shelf",
    "show jar-cost --json",
    "why jar-cost/ID:1",
    "history",
    "history --json",
    "check",
    "export OUT",
    "backup OUT",
]


@pytest.fixture
def run(tmp_path, capsys, monkeypatch, fixed_day):
    monkeypatch.delenv("CROFTBOOK", raising=False)

    def go(line, *more):
        words = [str(tmp_path / "out") if word == "OUT" else word for word in line.split()]
        status = main([*words, *more])
        return status, *capsys.readouterr()

    return go


def held(tmp_path):
    return sorted(path.name for path in tmp_path.rglob("*"))


@pytest.mark.parametrize("line", READS)
def test_mistyped_path_is_named_and_nothing_is_made(run, tmp_path, line):
    missing = tmp_path / "no folder" / "bok.sqlite"
    status, out, err = run(line, "--book", str(missing))
    assert (status, out) == (2, "")
    assert err == (
        f"croftbook: book: there is no book at {missing}. "
        "Check the path; a first entry begins one there\n"
    )
    assert held(tmp_path) == []


@pytest.mark.parametrize("line", READS)
def test_first_use_is_told_what_to_type(run, tmp_path, monkeypatch, line):
    monkeypatch.setattr(book_module, "default_path", lambda: tmp_path / "data" / "book.sqlite")
    status, out, err = run(line)
    assert (status, out) == (1, "")
    assert "your book is empty" in err
    assert "croftbook harvest" in err
    assert held(tmp_path) == []


def test_variable_that_names_no_book_is_refused_too(run, tmp_path, monkeypatch):
    monkeypatch.setenv("CROFTBOOK", str(tmp_path / "away.sqlite"))
    status, _, err = run("show shelf")
    assert status == 2
    assert "away.sqlite" in err
    assert held(tmp_path) == []


def test_published_process_and_dry_run_need_no_book(run, tmp_path, capsys):
    missing = ["--book", str(tmp_path / "bok.sqlite")]
    words = ["--made", "7 quart jars", "--pack", "raw", "--gauge", "dial", "--altitude", "1000 ft"]
    status = main(["putup", "green beans", *words, "--before", "--json", *missing])
    out, err = capsys.readouterr()
    assert status == 0, err
    assert json.loads(out)[0]["processes"]
    source = tmp_path / "in.csv"
    source.write_text("on,kind,item,amount\n2026-09-02,harvested,medlar,3 lb\n")
    status, out, err = run(f"import {source} --dry-run", *missing)
    assert status == 0, err
    assert "1 events would be written" in out
    assert held(tmp_path) == ["in.csv"]


def test_empty_file_is_no_book(run, tmp_path):
    path = tmp_path / "book.sqlite"
    path.touch()
    status, _, err = run("history", "--book", str(path))
    assert status == 2
    assert str(path) in err
    assert path.read_bytes() == b""
