"""An import as strict as the export: what was cut, changed or swallowed is said by its line."""

from __future__ import annotations

import json
import stat

import pytest
from freezegun import freeze_time

from ledger import Answers, Book
from ledger.cells import as_csv, plain_cell, shown_cell
from ledger.errors import InputError, NeedsAnswer

PLUM = {"item": "plum", "amount": "10 lb"}


@pytest.fixture
def exported(tmp_path):
    """An export of seven events, its lines, and an empty book."""
    with Book.open(tmp_path / "first.sqlite") as book:
        for n in range(6):
            book.write("harvested", item="plum", amount=f"{n + 1} lb", on="2026-09-02", by="Ada")
        book.export_file(tmp_path / "book.jsonl")
    return tmp_path / "book.jsonl"


@pytest.fixture(params=["empty", "begun"])
def into(request, tmp_path):
    with Book.open(tmp_path / "second.sqlite") as book:
        if request.param == "begun":
            book.write("bought", item="sugar", amount="1 lb", paid="1", on="2026-09-01")
        yield book


def lines(path):
    return path.read_bytes().splitlines(keepends=True)


def problems(done):
    return [(bad.number, bad.problem) for bad in done.bad]


def test_whole_export_is_taken(exported, into):
    done = into.import_file(exported)
    assert (done.bad, done.written + done.known) == ([], 7)
    assert not any("head" in note for note in done.notes)


def test_cut_file_is_said(exported, into):
    exported.write_bytes(b"".join(lines(exported)[:4]))
    done = into.import_file(exported)
    ((number, problem),) = problems(done)
    assert number == 4
    assert "ends at event 4, and its head tells of event 7: 3 lines are missing" in problem
    assert not done.is_kept


def test_file_without_a_head_is_taken_and_said(exported, into):
    exported.with_name("book.jsonl.head").unlink()
    done = into.import_file(exported)
    assert done.bad == []
    assert any("no head stands beside" in note for note in done.notes)


def test_changed_line_is_said_once(exported, into):
    raw = exported.read_bytes().replace(b'"3 lb"', b'"4 lb"')
    exported.write_bytes(raw)
    ((number, problem),) = problems(into.import_file(exported))
    assert number == 4
    assert "changed by hand" in problem


def test_missing_and_doubled_lines_are_said(exported, into):
    kept = lines(exported)
    exported.write_bytes(b"".join(kept[:3] + kept[4:]))
    ((number, problem),) = problems(into.import_file(exported))
    assert (number, "event 4 is missing" in problem) == (4, True)
    exported.write_bytes(b"".join(kept[:3] + kept[2:]))
    assert problems(into.import_file(exported))[0][0] == 4
    exported.write_bytes(b"".join(kept[2:]))
    assert "lines before it are missing" in problems(into.import_file(exported))[0][1]


def test_good_lines_around_a_changed_one_can_be_kept(exported, into):
    exported.write_bytes(exported.read_bytes().replace(b'"3 lb"', b'"4 lb"'))
    before = into.log.position()
    done = into.import_file(exported, keep_good=True)
    assert (done.bad_count, into.log.position() - before) == (1, 6)
    assert into.check().is_whole


def test_lines_without_hashes_are_typed(exported, into):
    plain = [
        {k: v for k, v in json.loads(line).items() if k not in ("seq", "hash")}
        for line in lines(exported)
    ]
    exported.with_name("typed.jsonl").write_text("\n".join(map(json.dumps, plain[2:])))
    assert into.import_file(exported.with_name("typed.jsonl")).bad == []


def test_book_of_a_clock_that_was_ahead_goes_round(tmp_path):
    with freeze_time("2031-05-01 12:00:00"), Book.open(tmp_path / "ahead.sqlite") as book:
        book.write("harvested", PLUM, on="2031-05-01")
        book.export_file(tmp_path / "ahead.jsonl")
    with freeze_time("2026-11-01 12:00:00"), Book.open(tmp_path / "again.sqlite") as book:
        done = book.import_file(tmp_path / "ahead.jsonl")
        assert (done.bad, done.written) == ([], 2)
        assert any("still to come and is kept" in note for note in done.notes)
        book.export_file(tmp_path / "again.jsonl")
        found = book.check()
        assert found.is_whole
        assert any("clock was ahead" in note for note in found.chain.notes)
    assert (tmp_path / "again.jsonl").read_bytes() == (tmp_path / "ahead.jsonl").read_bytes()


def test_clock_that_jumps_ahead_is_asked_about(tmp_path):
    with freeze_time("2026-11-01 12:00:00") as clock, Book.open(tmp_path / "book.sqlite") as book:
        book.write("harvested", PLUM, on="2026-09-02")
        clock.move_to("2027-03-01 12:00:00")  # a winter in which nothing was written
        book.write("harvested", PLUM, on="2026-09-03")
        clock.move_to("2031-05-01 12:00:00")
        with pytest.raises(NeedsAnswer, match="is the clock right") as asked:
            book.write("harvested", PLUM, on="2026-09-04")
        assert asked.value.code == "clock"
        book.write("harvested", PLUM, on="2026-09-04", answers=Answers(yes=True))


# Sheets


def sheet(book, tmp_path, text, **options):
    path = tmp_path / "sheet.csv"
    path.write_text(text, "utf-8")
    return book.import_file(path, answers=Answers(yes=True), **options)


def test_stray_quote_that_swallows_rows_is_said_by_its_line(book, tmp_path):
    text = (
        "kind,on,item,amount,by\n"
        "harvested,2026-09-01,plum,1 lb,Ada\n"
        'harvested,2026-09-02,"plum,2 lb,Ada\n'
        "harvested,2026-09-03,plum,3 lb,Ada\n"
        'harvested,2026-09-04,plum",4 lb,Ada\n'
        "harvested,2026-09-05,plum,5 lb,Ada\n"
    )
    done = sheet(book, tmp_path, text)
    ((number, problem),) = problems(done)
    assert number == 3
    assert "goes on to line 5" in problem
    assert book.log.position() == 0


def test_text_over_several_lines_is_no_stray_quote(book, tmp_path):
    text = 'kind,on,ate,people,note\neaten,2026-09-01,1 lb plum,4,"good, sweet, ripe\nfrom the old tree, again"\n'
    done = sheet(book, tmp_path, text)
    assert (done.bad, done.written) == ([], 1)


def test_two_million_headings_are_one_message(book, tmp_path):
    with pytest.raises(InputError, match=r"longer than|columns"):
        sheet(book, tmp_path, "kind,on," + ",".join(f"c{n}" for n in range(2_000_000)) + "\n")
    with pytest.raises(InputError, match="columns"):
        sheet(book, tmp_path, "kind,on," + ",".join(f"c{n}" for n in range(5_000)) + "\n")


# Formulas

FORMULAS = ["=1+1", "+1", "-1 lb", "@SUM(A1)", "\t=1", "\r=1", "'=1", "''@x", "＝1+1"]


@pytest.mark.parametrize("text", [*FORMULAS, "plum", "'tis", "", "3-4", "a=b"])
def test_cell_is_shown_and_read_back(text):
    cell = shown_cell(text)
    assert plain_cell(cell) == text
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r", "＝"))


@pytest.mark.parametrize("name", ["=cmd|' /C calc'!A0", "+plum", "-plum", "@plum"])
def test_name_that_looks_like_a_formula_goes_round(book, tmp_path, name, fixed_day):
    book.write("harvested", {"item": name, "amount": "3 lb"}, on="2026-09-02")
    text = as_csv(book.show("shelf", as_of="2026-09-03").frame)
    assert f"'{name}" in text
    done = sheet(book, tmp_path, f'kind,on,item,amount\nharvested,2026-09-02,"\'{name}",1 lb\n')
    assert done.bad == []
    assert book.show("shelf", as_of="2026-09-03").frame["item"].tolist() == [name, name]


def test_numbers_below_zero_stay_numbers(book, fixed_day):
    import pandas as pd

    assert as_csv(pd.DataFrame({"a": [-1.5], "b": ["-1.5"], "c": [None]})) == "a,b,c\n-1.5,'-1.5,\n"


# Names and modes


@pytest.mark.parametrize("name", ["-", "---", "...", "?!", "_", "' '"])
def test_name_of_punctuation_alone_is_refused(book, name, fixed_day):
    with pytest.raises(InputError, match="is not a name"):
        book.write("harvested", {"item": name, "amount": "1 lb"}, on="2026-09-02")
    assert book.log.position() == 0


@pytest.mark.parametrize("name", ["7", "é", "🍅", "梅", "plum-butter"])
def test_any_other_name_will_do(book, name, fixed_day):
    assert book.write("harvested", {"item": name, "amount": "1 lb"}, on="2026-09-02").is_new


def test_files_are_for_their_owner_alone(tmp_path):
    deep = tmp_path / "a" / "b"
    with Book.open(deep / "book.sqlite") as book:
        book.write("harvested", PLUM, on="2026-09-02")
        book.backup(deep / "copies" / "copy.sqlite")
        book.export_file(deep / "book.jsonl")
        for path in [*tmp_path.rglob("*")]:
            wanted = 0o700 if path.is_dir() else 0o600
            assert stat.S_IMODE(path.stat().st_mode) == wanted, path
