"""check, backup, export and restore as typed: what is wrong, what to do, and the exit status."""

from __future__ import annotations

import json
import os
import sqlite3

import pytest

from ledger import Book
from ledger.cli import main


@pytest.fixture
def path(tmp_path, monkeypatch):
    path = tmp_path / "book.sqlite"
    monkeypatch.setenv("CROFTBOOK", str(path))
    with Book.open(path) as book:
        for n in range(4):
            book.write("harvested", item="plum", amount=f"{n + 1} lb", on="2026-09-02")
        book.backup(tmp_path / "copy.sqlite")
    return path


@pytest.fixture
def run(capsys):
    def go(*words):
        status = main(list(map(str, words)))
        out, err = capsys.readouterr()
        assert "Traceback" not in err
        assert "should not" not in err
        return status, out, err

    return go


def cut(path, after):
    raw = sqlite3.connect(path)
    raw.execute("DROP TRIGGER events_remain")
    raw.execute("DELETE FROM events WHERE seq > ?", (after,))
    raw.execute(
        "CREATE TRIGGER events_remain BEFORE DELETE ON events\n"
        "BEGIN SELECT RAISE(ABORT, 'croftbook: events are never deleted'); END"
    )
    raw.commit()
    raw.close()


def test_well_book_is_said_to_be_well_and_its_head_shown(path, run):
    status, out, err = run("check")
    assert (status, err) == (0, "")
    assert "5 events hold together" in out
    assert "Nothing is missing at the end" in out
    assert "Every amount that came in" in out
    (line,) = [line for line in out.splitlines() if line.startswith("Head, to write down: ")]
    written = line.partition(": ")[2]
    assert run("check", "--head", written)[0] == 0
    status, _, err = run("check", "--head", "6 " + written.partition(" ")[2])
    assert (status, "1 event is missing" in err) == (1, True)
    assert run("check", "--head", "5 0000 0000 0000 0000")[0] == 1


def test_unknown_head_is_said_not_to_be_known(path, run):
    with Book.open(path) as book:
        book.log.keeper.file.unlink()
    status, out, _ = run("check")
    assert status == 0
    assert "cannot be told" in out
    assert "Nothing is missing" not in out
    found = json.loads(run("check", "--json")[1])
    assert (found["verdict"], found["head_known"]) == ("end not known", False)
    assert "Nothing is missing" in run("check", "--accept")[1]


def test_cut_book_is_said_everywhere_and_not_written_into(path, run, tmp_path):
    cut(path, 3)
    status, out, err = run("check")
    assert status == 1
    assert "2 events are missing" in err
    assert "What to do next" in err
    found = json.loads(run("check", "--json")[1])
    assert (found["whole"], found["verdict"], found["tail"]) == (
        False,
        "damaged",
        "cut off after 3",
    )
    assert found["reasons"]
    status, out, err = run("show", "shelf", "--as-of", "2026-09-03")
    assert (status, "plum" in out, "warning: " in err) == (0, True, True)
    assert run("harvest", "1 lb plum", "--on", "2026-09-03")[0] == 1
    status, _, err = run("backup", tmp_path / "other.sqlite")
    assert (status, "does not hold" in err, (tmp_path / "other.sqlite").exists()) == (
        1,
        True,
        False,
    )
    status, _, err = run("export", tmp_path / "book.jsonl")
    assert (status, "does not hold" in err) == (1, True)
    assert len((tmp_path / "book.jsonl").read_text().splitlines()) == 3
    status, out, _ = run("restore", tmp_path / "copy.sqlite")
    assert (status, "set aside" in out) == (0, True)
    assert run("check")[0] == 0


def test_changed_event_is_named_and_amounts_are_not_vouched_for(path, run):
    raw = sqlite3.connect(path)
    (sql,) = raw.execute("SELECT sql FROM sqlite_master WHERE name = 'events_stay'").fetchone()
    raw.execute("DROP TRIGGER events_stay")
    raw.execute("UPDATE events SET body = '{}' WHERE seq = 2")
    raw.execute(sql)
    raw.commit()
    raw.close()
    status, out, err = run("check")
    assert status == 1
    assert "Event 2 is the first that does not hold" in err
    assert "Every amount" not in out + err
    assert run("check", "--accept")[0] == 1


def test_every_household_is_checked_and_one_that_is_none_refused(path, run):
    with Book.open(path, "barn") as book:
        book.write("bought", item="sugar", amount="1 lb", paid="1", on="2026-09-02")
    found = json.loads(run("check", "--json")[1])
    assert [one["household"] for one in found["households"]] == ["barn", "home"]
    status, _, err = run("check", "--household", "nobody")
    assert (status, "barn, home" in err) == (2, True)
    assert run("check", "--household", "barn")[0] == 0


@pytest.mark.parametrize("how", ["empty", "gone"])
def test_book_that_was_there_is_missed(path, run, tmp_path, how):
    path.write_bytes(b"") if how == "empty" else path.unlink()
    status, _, err = run("show", "shelf")
    assert status in (1, 2)
    assert "held 5 events" in err
    assert "croftbook restore FILE" in err
    if how == "empty":
        assert run("harvest", "1 lb plum", "--on", "2026-09-03")[0] == 1
        assert path.stat().st_size == 0
    else:
        status, _, err = run("harvest", "1 lb plum", "--on", "2026-09-03")
        assert (status, "A book of 5 events stood here" in err) == (0, True)
    assert run("restore", tmp_path / "copy.sqlite")[0] == 0
    assert json.loads(run("check", "--json")[1])["events"] == 5


def test_emptied_book_may_begin_anew_when_its_owner_says_so(path, run):
    path.write_bytes(b"")
    run("check", "--accept")
    assert run("harvest", "1 lb plum", "--on", "2026-09-03")[0] == 0


def test_dry_run_of_a_restore_says_what_would_happen(path, run, tmp_path):
    run("harvest", "1 lb pear", "--on", "2026-09-03", "--yes")
    before = path.read_bytes()
    status, out, _ = run("restore", tmp_path / "copy.sqlite", "--dry-run")
    assert status == 0
    for part in (
        "5 events hold together and would be",
        "2 events that the copy does not hold",
        "Nothing was touched",
    ):
        assert part in out
    assert path.read_bytes() == before
    assert sorted(p.name for p in tmp_path.iterdir()) == [
        "book.sqlite",
        "copy.sqlite",
        "copy.sqlite.head",
    ]


def test_file_holds_every_entry_after_each_command(path, run, tmp_path):
    run("harvest", "1 lb pear", "--on", "2026-09-03", "--yes")
    other = tmp_path / "elsewhere.sqlite"
    other.write_bytes(path.read_bytes())
    assert not list(tmp_path.glob("book.sqlite-*"))
    assert json.loads(run("check", "--json", "--book", other)[1])["events"] == 7


def test_running_book_is_in_its_file(path, tmp_path):
    with Book.open(path) as book:
        for n in range(60):
            book.write("harvested", item="plum", amount=f"{n + 1} lb", on="2026-09-02")
        other = tmp_path / "elsewhere.sqlite"
        other.write_bytes(path.read_bytes())  # without the journal, as if it were killed now
        with Book.open(other) as copy:
            assert copy.log.head() == book.log.head()


@pytest.mark.parametrize(
    "words", [["show", "shelf"], ["check"], ["export", "x"], ["harvest", "1 lb plum"]]
)
def test_book_that_is_a_pipe_is_one_sentence(tmp_path, run, words, monkeypatch):
    monkeypatch.chdir(tmp_path)
    os.mkfifo(tmp_path / "pipe")
    status, _, err = run(*words, "--book", tmp_path / "pipe")
    assert (status, len(err.splitlines())) == (2, 1)


def test_look_alike_database_is_no_book(tmp_path, run):
    raw = sqlite3.connect(tmp_path / "other.db")
    raw.execute("CREATE TABLE book_layout (step, name, done_at)")
    raw.execute("INSERT INTO book_layout VALUES (1, 'x', 'y')")
    raw.execute(
        "CREATE VIEW events AS WITH RECURSIVE n(seq) AS (SELECT 1 UNION ALL SELECT seq + 1 FROM n) "
        "SELECT 'home' household, seq FROM n"
    )
    raw.commit()
    raw.close()
    for words in (["show", "shelf"], ["check"], ["harvest", "1 lb plum"]):
        status, _, err = run(*words, "--book", tmp_path / "other.db")
        assert (status, len(err.splitlines())) == (2, 1)
        assert "something else" in err


def test_fault_of_the_program_leaves_a_report_to_send(path, capsys, monkeypatch):
    def fail(*_args, **_options):
        raise RuntimeError("a fault of ours")

    monkeypatch.setattr(Book, "show", fail)
    assert main(["show", "shelf"]) == 1
    said = capsys.readouterr().err
    (file,) = [word for word in said.split() if word.endswith(".txt")]
    with open(file) as report:
        text = report.read()
    assert "a fault of ours" in text
    assert "plum" not in text
