"""Which book: named before the command or after it; and of many records the newest season's."""

from __future__ import annotations

import json

import pytest

from ledger.cli import _show, main


@pytest.fixture
def path(tmp_path, fixed_day):
    """A book with three batches of bread in three seasons."""
    path = str(tmp_path / "book.sqlite")
    for year in (2024, 2025, 2026):
        words = ["putup", "bread", "--used", "2 lb flour", "--made", "3 lb", "--method", "cook"]
        assert main([*words, "--on", f"{year}-05-01", "--yes", "--book", path]) == 0
    return path


@pytest.mark.parametrize(
    "line",
    [
        ["--book", "{}", "history", "--json"],
        ["--book={}", "history", "--json"],
        ["--household", "home", "--book", "{}", "history", "--json"],
        ["history", "--json", "--book", "{}", "--household=home"],
    ],
)
def test_book_is_named_before_or_after_the_command(line, path, capsys):
    capsys.readouterr()
    assert main([word.format(path) for word in line]) == 0
    kinds = [one["kind"] for one in json.loads(capsys.readouterr().out)]
    assert kinds.count("put_up") == 3


def test_words_after_two_hyphens_stay_words(path, capsys):
    assert main(["--book", path, "harvest", "--yes", "--", "2 lb plum"]) == 0
    assert "plum" in capsys.readouterr().out


@pytest.mark.parametrize("named", [["--book", "{}"], ["--book={}"]])
def test_a_book_named_without_a_command_says_what_is_due_in_it(named, path, capsys):
    assert main(["--book", path, "harvest", "2 lb plum", "--yes"]) == 0
    assert main([word.format(path) for word in named]) == 0
    out = capsys.readouterr().out
    assert "Write down what happened" in out
    assert "Your book is empty" not in out


def test_of_many_records_a_table_shows_the_newest_season(path, capsys, monkeypatch):
    monkeypatch.setattr(_show, "_MANY", 2)
    capsys.readouterr()
    assert main(["show", "jar-cost", "--book", path]) == 0
    shown = capsys.readouterr().out
    assert "2026-05-01" in shown
    assert "2025-05-01" not in shown
    assert "From 2026-01-01 on; and 2 earlier: --all" in shown
    assert main(["show", "jar-cost", "--all", "--book", path]) == 0
    whole = capsys.readouterr().out
    assert "2024-05-01" in whole
    assert "earlier" not in whole
    # the totals are of all, as is what programs read
    totals = [line for line in shown.splitlines() if line.startswith("Total")]
    assert totals == [line for line in whole.splitlines() if line.startswith("Total")]
    assert main(["show", "jar-cost", "--json", "--book", path]) == 0
    assert len(json.loads(capsys.readouterr().out)["records"]) == 3
