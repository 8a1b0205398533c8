"""Long tables: what a person wants first, totals over all, and a word on the rest; files are whole."""

from __future__ import annotations

import json

import pytest

from ledger import Answers, Book
from ledger.cells import as_csv, csv_pieces
from ledger.cli import _tables, main
from ledger.projections import PROJECTIONS
from seed_demo import build


@pytest.fixture(scope="module")
def full(tmp_path_factory):
    """A shelf of 150 items."""
    path = str(tmp_path_factory.mktemp("long") / "book.sqlite")
    bought = [
        {"kind": "bought", "on": "2026-08-01", "body": {"item": f"kind {n} flour", "amount": "2 lb", "paid": "1.50"}}
        for n in range(150)
    ]  # fmt: skip
    with Book.open(path) as book:
        book.import_events(((n, 0, one) for n, one in enumerate(bought)), answers=Answers(yes=True))
    return path


def shown(capsys, *words):
    assert main(["show", *words, "--as-of", "2026-08-02"]) == 0
    return capsys.readouterr().out


def numbered(text):
    return [line for line in text.splitlines() if line.strip().partition(" ")[0].isdigit()]


def test_first_records_and_how_many_more(full, capsys):
    text = shown(capsys, "shelf", "--book", full)
    rows = numbered(text)
    assert [int(row.split()[0]) for row in rows] == list(range(1, 61))
    assert "\nAnd 90 more: --all\n" in text
    every = shown(capsys, "shelf", "--all", "--book", full)
    assert len(numbered(every)) == 150
    assert "more: --all" not in every
    totals = [line for line in every.splitlines() if line.startswith("Total")]
    assert totals == [line for line in text.splitlines() if line.startswith("Total")]


def test_json_and_csv_are_whole(full, capsys):
    assert len(json.loads(shown(capsys, "shelf", "--json", "--book", full))["records"]) == 150
    assert len(shown(capsys, "shelf", "--csv", "--book", full).splitlines()) == 151


def test_drawing_costs_what_is_shown(full, capsys, monkeypatch):
    drawn = []
    cell = _tables._cell
    monkeypatch.setattr(_tables, "_cell", lambda *a: drawn.append(a) or cell(*a))
    shown(capsys, "shelf", "--book", full)
    few = len(drawn)
    shown(capsys, "shelf", "--all", "--book", full)
    assert len(drawn) - few == few * 150 // 60


def test_brackets_in_a_name_are_shown(tmp_path, capsys):
    path = str(tmp_path / "book.sqlite")
    with Book.open(path) as book:
        book.write("bought", item="jam [red] :egg:", amount="2 lb", paid="1.50", on="2026-08-01", answers=Answers(yes=True))  # fmt: skip
    assert "jam [red] :egg:" in " ".join(shown(capsys, "shelf", "--book", path).split())


@pytest.fixture(scope="module")
def sample(tmp_path_factory):
    path = tmp_path_factory.mktemp("sample") / "book.sqlite"
    with Book.open(path) as book:
        build(book)
    with Book.open(path) as book:
        yield book


@pytest.mark.parametrize(
    "name", ["shelf", "jar-cost", "our-table", "know-how", "season", "worth-it"]
)
def test_streamed_is_what_stands_whole(name, sample):
    assert name in list(PROJECTIONS)
    answer = sample.show(name)
    assert answer.count
    assert "".join(csv_pieces(list(answer.cells), answer.each_row())) == as_csv(answer.frame)
    told = json.JSONEncoder(default=str).iterencode(answer.to_dict(streamed=True))
    assert "".join(told) == json.dumps(answer.to_dict(), default=str)
