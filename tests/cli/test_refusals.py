"""Bad input typed on the command line: one line of plain words, and the book as it was, by its dump."""

from __future__ import annotations

import contextlib
import io
import json
import shlex
import shutil
import sqlite3

import pytest
from freezegun import freeze_time

from ledger.cli import main

FIRST = [
    "harvest '31 lb plum' --on 2026-09-02",
    "buy '10 lb sugar' --paid 7 --on 2026-09-02",
    "putup 'plum butter' --used '16 lb plum' --made '11 half-pint jars' --method cook --on 2026-09-03",
]


@pytest.fixture(scope="module")
def first(tmp_path_factory):
    """A book in which the first entries stand, to be copied."""
    path = tmp_path_factory.mktemp("first") / "book.sqlite"
    with freeze_time("2026-11-01 12:00:00"):
        for line in FIRST:
            assert main([*shlex.split(line), "--book", str(path)]) == 0
    return path


@pytest.fixture
def run(first, tmp_path, monkeypatch, capsys, fixed_day):
    monkeypatch.setenv("CROFTBOOK", str(shutil.copy(first, tmp_path / "book.sqlite")))

    def go(line):
        status = main(shlex.split(line))
        return status, *capsys.readouterr()

    return go


def dump(tmp_path):
    with contextlib.closing(sqlite3.connect(tmp_path / "book.sqlite")) as raw:
        return list(raw.iterdump())


REFUSED = [
    ("harvest '3 furlong plum'", "'furlong' is not a unit"),
    ("harvest '3 acres plum'", "amount: 'acres' is a unit of length or area"),
    ("harvest '-3 lb plum'", "'-3 lb plum'"),
    ("harvest -3", "'-3'"),
    ("harvest '0 lb plum'", "amount: '0 lb' is nothing"),
    ("harvest '11 t plum'", "is a great deal"),
    ("harvest '3 qt and 2 heads plum'", "Write two lines, '3 qt plum' and '2 heads plum'"),
    ("harvest plum", "amount: 'plum' does not begin with a number"),
    ("harvest '1 lb plum' --on 2026-12-24", "is still to come"),
    ("harvest '1 lb plum' --on 1899-12-31", "before 1900"),
    ("harvest '1 lb plum' --on 2026-02-30", "on: '2026-02-30' is not a day"),
    ("harvest '1 lb plum' --colour red", "No such option '--colour'"),
    ("harvst '1 lb plum'", "Did you mean 'harvest'?"),
    ("harvest '1 lb plum' --replaces ffffffff", "replaces: no entry's id begins with 'ffffffff'"),
    ("meal --ate '1 lb plum from lot ffffffff:1'", "lot: ffffffff:1: there is no such lot"),
    ("putup jam --used '1 lb plum' --method cook", 'for example "11 half-pint jars"'),
    ("putup jam --used '1 lb plum' --made '2 lb' --method cook", "was water added?"),
    ("putup jam --used '1 lb plum' --made '5 quart jars' --method 'boiling water'", "water added?"),
    ("practise grafting", 'for example "Ada, Ben"'),
    ("person Ada --sex female --age -3", "age: is below zero. Write 0 at least"),
    ("person Ada --age -3 --sex female", "age: is below zero. Write 0 at least"),
    ("meal --ate '1 lb plum' --people -2", "people: is below zero. Write 0 at least"),
    ("practise grafting --people Ada --went 9", "went: is too much. Write 5 at most"),
    ("item plum --g-per 'cup x'", "g_per: 'cup x' is not a unit and a number"),
    ("item plum --food 99999", "'99999' is not a row of the food table"),
    ("setting people -3", "people: cannot be '-3'"),
    ("show weather", "There is no question 'weather'"),
    ("history --limit x", "'x' is not a valid integer"),
    ("import", "Missing argument 'FILE'"),
]


@pytest.mark.parametrize(("line", "says"), REFUSED, ids=[line for line, _ in REFUSED])
def test_one_plain_line_and_the_book_as_it_was(run, tmp_path, line, says):
    before = dump(tmp_path)
    status, out, err = run(line)
    assert (status, out) == (2, "")
    assert len(err.splitlines()) == 1
    assert err.startswith("croftbook: ")
    assert says in err
    for odd in ("[0]", "`int`", "{'", "Usage:"):
        assert odd not in err
    assert dump(tmp_path) == before


BROKEN = {
    "not-utf8": b'\xff\xfe{"kind"',
    "cut-off": b'{"kind": "harv',
    "nul": b'{"kind":"harvested","on":"2026-09-03","body":{"item":"pl\\u0000um","amount":"1 lb"}}',
    "kind": b'{"kind":"harvestd","on":"2026-09-03","body":{"item":"plum","amount":"1 lb"}}',
    "field": b'{"kind":"harvested","on":"2026-09-03","body":{"itm":"plum","amount":"1 lb"}}',
    "long": b"x" * 10_000_000,
}


@pytest.mark.parametrize("name", BROKEN)
def test_broken_line_is_named_and_nothing_goes_to_the_output(run, tmp_path, name):
    path = tmp_path / "in.jsonl"
    good = b'{"kind":"harvested","on":"2026-09-03","body":{"item":"pear","amount":"1 lb"}}\n'
    path.write_bytes(good + BROKEN[name] + b"\n")
    before = dump(tmp_path)
    status, out, err = run(f"import {shlex.quote(str(path))}")
    assert (status, out) == (2, "")
    first, last = err.splitlines()
    assert first.startswith(f"{path}, line 2: ")
    assert last.startswith("Nothing was written: bad lines 1, good ones 1.")
    assert dump(tmp_path) == before


def test_texts_of_digits_stay_texts(run):
    status, _, err = run("item plum --food 09279")
    assert status == 0, err
    status, out, err = run("buy '1 lb salt' --paid 1 --shop 1234 --json")
    assert status == 0, err
    assert json.loads(out)["body"]["shop"] == "1234"
    status, out, err = run("plant tomato --plants 24 --bed 7 --json")
    assert status == 0, err
    assert json.loads(out)["body"] == {"bed": "7", "crop": "tomato", "plants": 24}


def layout(path, step):
    with contextlib.closing(sqlite3.connect(path)) as raw:
        raw.execute("INSERT INTO book_layout VALUES (?, 'later', '2030-01-01')", (step,))
        raw.commit()


@pytest.mark.parametrize("words", [["show", "shelf"], ["harvest", "1 lb plum"], ["check"]])
@pytest.mark.parametrize("what", ["text", "folder", "other", "newer"])
def test_what_is_no_book_is_named_and_left_alone(run, tmp_path, capsys, what, words):
    path = tmp_path / what
    if what == "text":
        path.write_text("a list of plums")
    elif what == "folder":
        path.mkdir()
    elif what == "other":
        with contextlib.closing(sqlite3.connect(path)) as raw:
            raw.execute("CREATE TABLE plums (n)")
    else:
        main(["harvest", "1 lb plum", "--book", str(path)])
        layout(path, 99)
        capsys.readouterr()
    before = path.read_bytes() if path.is_file() else list(path.iterdir())
    status = main([*words, "--book", str(path)])
    out, err = capsys.readouterr()
    assert (status, out) == (2, "")
    assert err.startswith(f"croftbook: {path} ")
    assert len(err.splitlines()) == 1
    assert (path.read_bytes() if path.is_file() else list(path.iterdir())) == before


@pytest.mark.parametrize(
    "words",
    [
        ["plant", "tomato", "--plants", "9" * 5000],
        ["harvest", "2 lb plum", "--plants", "²"],
        ["putup", "\ud83d", "--used", "2 lb plum", "--made", "1 pint jar", "--method", "boiling water"],
        ["show", "as-published", "--product", "\ud83d"],
    ],
    ids=["endless number", "a raised figure", "half a character", "half a character asked"],
)  # fmt: skip
def test_what_no_count_and_no_text_is_gets_one_sentence(words, tmp_path, capsys, monkeypatch):
    """Found by the fuzzing of the command line at its full count."""
    out = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    monkeypatch.setattr("sys.stdout", out)
    status = main([*words, "--book", str(tmp_path / "book.sqlite")])
    assert status in (0, 2)
    assert "something went wrong" not in capsys.readouterr().err
