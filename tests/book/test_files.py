"""Files through the book's face: round trips, sheets as people keep them, flat memory."""

from __future__ import annotations

import json
import tempfile
import tracemalloc
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from strategies import books

from ledger import Answers, Book
from ledger.projections import PROJECTIONS

MAP = """
[columns]
"Datum" = "on"
"Ware" = "item"
"Menge" = "amount"
"Preis" = "paid"
[constants]
kind = "bought"
"""
ROWS = [
    ("2026-09-02", "sugar", "10 lb", "7.90"),
    ("2026-09-13", "crème", "2 cup", "3.10"),
    ("2026-10-04", "rye, ground", "5 kg", "6.00"),
]


def answers_of(book):
    """Return every answer that needs no options, with what depends on the file's place left out."""
    out = {}
    for name in ("jar-cost", "shelf"):
        answer = book.show(name, as_of="2026-12-31").to_dict()
        out[name] = json.dumps(answer, sort_keys=True, default=str)
    return out


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(books(max_size=25))
def test_export_import_export_is_the_same_bytes_and_answers(random):
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        with (
            Book.open(place / "first.sqlite") as first,
            Book.open(place / "second.sqlite") as second,
        ):
            typed = ((n, 0, {k: v for k, v in event.items() if v is not None and k != "seq"})
                     for n, event in enumerate(random, 1))  # fmt: skip
            assert first.import_events(typed, answers=Answers(yes=True)).bad == []
            count = first.export_file(place / "a.jsonl")
            done = second.import_file(place / "a.jsonl")
            assert (done.bad, done.written) == ([], count)
            second.export_file(place / "b.jsonl")
            assert (place / "b.jsonl").read_bytes() == (place / "a.jsonl").read_bytes()
            assert answers_of(second) == answers_of(first)


def sheet(delimiter, day=lambda text: text):
    def cell(text):
        return f'"{text}"' if delimiter in text else text

    head = delimiter.join(("kind", "on", "item", "amount", "paid"))
    rows = [delimiter.join(["bought", day(on), *map(cell, rest)]) for on, *rest in ROWS]
    return "\r\n".join([head, *rows]) + "\r\n"


def bought(book):
    """Return what is written down as bought: the day and the line's text fields."""
    return [
        (row.on, line["item"], line["amount"], line["paid"])
        for row in book.history(kind="bought", newest_first=False)
        for line in json.loads(book.log.get(row.id).body)["lines"]
    ]


@pytest.mark.parametrize("delimiter", [",", ";", "\t"], ids=["comma", "semicolon", "tab"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "latin-1"])
@pytest.mark.parametrize("dates", [None, "dmy", "mdy"])
def test_sheet_reads_the_same_however_it_was_saved(
    book, fixed_day, tmp_path, yes, delimiter, encoding, dates
):
    def day(text):
        y, m, d = text.split("-")
        return {None: text, "dmy": f"{d}.{m}.{y}", "mdy": f"{m}/{d}/{y}"}[dates]

    path = tmp_path / "sheet.csv"
    path.write_bytes(sheet(delimiter, day).encode(encoding))
    said = {"encoding": "latin-1"} if encoding == "latin-1" else {}
    done = book.import_file(path, dates=dates, answers=yes, **said)
    assert done.bad == []
    assert bought(book) == ROWS


def test_foreign_headings_are_mapped(book, fixed_day, tmp_path, yes):
    (tmp_path / "map.toml").write_text(MAP)
    path = tmp_path / "sheet.csv"
    rows = [";".join((on, item, amount, paid, "x")) for on, item, amount, paid in ROWS]
    path.write_text("\n".join(["Datum;Ware;Menge;Preis;Regal", *rows]), "utf-8")
    done = book.import_file(path, mapping=tmp_path / "map.toml", answers=yes)
    assert done.bad == []
    assert bought(book) == ROWS


def test_dry_run_and_refused_file_leave_the_book_as_it_was(book, fixed_day, tmp_path, yes):
    book.write("harvested", {"item": "plum", "amount": "1 lb"})
    head, size = book.log.head(), book.log.position()
    path = tmp_path / "sheet.csv"
    path.write_text(sheet(","), "utf-8")
    done = book.import_file(path, dry_run=True, answers=yes)
    assert (done.written, done.is_kept, len(done.preview)) == (3, False, 3)
    path.write_text(sheet(",") + "bought,2026-02-30,sugar,1 lb,1\n", "utf-8")
    done = book.import_file(path, answers=Answers(yes=True))
    assert [bad.number for bad in done.bad] == [5]
    assert not done.is_kept
    assert (book.log.head(), book.log.position()) == (head, size)
    assert not book.catalogue().is_item("sugar")
    done = book.import_file(path, keep_good=True, answers=Answers(yes=True))
    assert (done.written, done.bad_count, done.is_kept) == (3, 1, True)
    assert bought(book) == ROWS


def peak_of_import(folder, ending, rows):
    """Return the most bytes held at once while a file of so many events is read in."""
    path = folder / f"{rows}.{ending}"
    with path.open("w", encoding="utf-8") as file:
        if ending == "csv":
            file.write("kind,on,item,amount,bed\n")
        for n in range(rows):
            day, amount = f"2025-{n % 12 + 1:02}-{n % 28 + 1:02}", f"{n % 90 + 1} lb"
            if ending == "csv":
                file.write(f"harvested,{day},plum,{amount},orchard\n")
            else:
                body = {"item": "plum", "amount": amount, "bed": "orchard"}
                file.write(json.dumps({"kind": "harvested", "on": day, "body": body}) + "\n")
    with Book.open(folder / f"{ending}{rows}.sqlite") as book:
        book.write("harvested", {"item": "plum", "amount": "1 lb"}, on="2025-01-01")
        tracemalloc.start()
        try:
            done = book.import_file(path)
            peak = tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()
        assert (done.written, done.bad) == (rows, [])
    return peak


@pytest.mark.parametrize("ending", ["jsonl", "csv"])
def test_memory_of_an_import_does_not_grow_with_the_file(tmp_path, ending):
    """Three times the lines may take a little more for the ids of one transaction, no more."""
    small, large = peak_of_import(tmp_path, ending, 5_000), peak_of_import(tmp_path, ending, 15_000)
    assert large < 1.5 * small, f"{small:,} bytes for 5,000 lines, {large:,} for 15,000"


SAY_NOTHING = {
    "glut", "hens", "month-by-month", "own-prices", "when-to-sow", "whole-year", "work-worth",
}  # fmt: skip
"""Questions to which such a book knows nothing: no beds, no hens, no plan, prices of one season."""


# `touched` follows what is named; `came-true` asks what was known when, which a copy made today cannot say alike
@pytest.mark.parametrize("name", [n for n in PROJECTIONS if n not in ("touched", "came-true")])
def test_answers_of_a_copy_taken_by_export_are_the_same(book, fixed_day, tmp_path, yes, name):
    book.write("bought", {"item": "sugar", "amount": "10 lb", "paid": "8"}, on="2026-08-01")
    book.write("bought", {"item": "sugar", "amount": "10 lb", "paid": "8"}, on="2026-08-20")
    book.write("harvested", {"item": "plum", "amount": "20 lb"}, on="2026-08-02")
    batch = {
        "makes": "plum butter",
        "method": "boiling water",
        "minutes": "10",
        "used": [{"item": "plum", "amount": "16 lb"}, {"item": "sugar", "amount": "3 lb"}],
        "made": [{"jars": 11, "jar": "half-pint jar"}],
    }
    book.write("put_up", batch, on="2026-08-03", answers=yes)
    for day in ("05", "12", "19", "26"):
        ate = [{"item": "sugar", "amount": "4 oz"}, {"item": "plum butter", "amount": "1 cup"}]
        book.write("eaten", {"ate": ate}, on=f"2026-08-{day}")
    book.export_file(tmp_path / "a.jsonl")
    with Book.open(tmp_path / "other.sqlite") as other:
        other.import_file(tmp_path / "a.jsonl")
        mine, theirs = (b.show(name, as_of="2026-10-01").to_dict() for b in (book, other))
        assert json.dumps(mine, default=str) == json.dumps(theirs, default=str)
        assert mine["records"] or name in SAY_NOTHING
