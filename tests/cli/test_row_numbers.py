"""Row numbers: `croftbook why 2` opens the second row of the table shown last of that book."""

from __future__ import annotations

import json
import re
import shlex

import pytest

from ledger.cli import main

WRITTEN = [
    "buy '30 lb sugar' --paid 20 --on 2026-08-01",
    "harvest '60 lb plum' --on 2026-08-02",
    "putup 'plum butter' --used '16 lb plum' --used '3 lb sugar' --made '11 half-pint jars' "
    "--method 'boiling water' --minutes 10 --on 2026-08-03",
    "putup 'plum jam' --used '4 lb plum' --used '3 lb sugar' --made '5 half-pint jars' "
    "--method 'boiling water' --minutes 10 --on 2026-08-05",
]


@pytest.fixture
def run(tmp_path, capsys, fixed_day, monkeypatch):
    """Run a line of words on a book named with --book; return status, output and errors."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))

    def go(line, *more, book="book.sqlite"):
        status = main([*shlex.split(line), *more, "--book", str(tmp_path / book)])
        return status, *capsys.readouterr()

    for line in WRITTEN:
        assert go(line, "--yes")[0] == 0
    return go


def test_a_row_opens_by_its_number(run):
    shown = run("show jar-cost")[1]
    assert [line.split()[:3] for line in shown.splitlines() if re.match(r"\d+ \d{4}-", line)] == [
        ["1", "2026-08-03", "plum"],
        ["2", "2026-08-05", "plum"],
    ]
    address = json.loads(run("show jar-cost --json")[1])["records"][1]["why"]
    by_number, by_address = (run(f"why {one} cost_per_quart --json")[1] for one in (2, address))
    assert by_number == by_address
    assert run("why 2")[1].startswith(
        f"Row 2 of jar-cost, as of {{}}: {address[:17]}:1".format(
            json.loads(run("show jar-cost --json")[1])["as_of"]
        )
    )


def test_the_table_shown_last_counts_at_its_moment(run):
    run("show jar-cost")
    run("show jar-cost --as-of 2026-08-04")
    assert "as of 2026-08-04" in run("why 1")[1]
    status, _, err = run("why 2")
    assert (status, "the table shown last (jar-cost) has no row 2" in err) == (2, True)
    assert "Its rows are 1 to 1" in err
    run("show shelf")
    assert run("why 1")[1].startswith("Row 1 of shelf")


def test_each_book_has_rows_of_its_own(run):
    run("show jar-cost")
    run("buy '1 lb salt' --paid 1", "--yes", book="other.sqlite")
    status, _, err = run("why 1", book="other.sqlite")
    assert (status, "the last table of this book had no rows" in err) == (2, True)


def test_an_answer_without_rows_leaves_none_of_the_table_before(run):
    run("show jar-cost")
    assert run("show hens")[0] == 0
    status, _, err = run("why 1")
    assert (status, "the last table of this book had no rows" in err) == (2, True)


def test_without_a_folder_for_it_no_numbers_are_shown(run, tmp_path, monkeypatch):
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    shown = run("show jar-cost")[1]
    assert "# " not in shown
    assert "2026-08-03" in shown


def test_a_beginning_that_several_ids_have_is_refused(run, monkeypatch):
    from ledger.log import Log

    monkeypatch.setattr(Log, "ids", lambda self, beginning="": ["a" * 36, "b" * 36])
    status, _, err = run("why jar-cost/8f2a:1")
    assert (status, "2 ids begin with '8f2a'" in err) == (2, True)
