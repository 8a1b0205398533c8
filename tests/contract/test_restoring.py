"""A copy in the book's place: checked first, the old one set aside, all of it or nothing."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest
from conftest_events import event

from ledger.door.exporting import export_lines
from ledger.errors import BookDamaged, BookLocked, InputError, NotABook
from ledger.log import Head, backup, keep_heads, open_log, read_heads, restore, verify


def fill(log, many=10):
    with log.writing() as tx:
        tx.append_many(event() for _ in range(many))
    return log.head()


def rows(log):
    return [row for chunk in log.read() for row in chunk]


@pytest.fixture
def filled(log):
    fill(log)
    return log


@pytest.fixture(params=["backup", "export"])
def copy(request, filled, tmp_path):
    target = tmp_path / "copies" / "copy"
    if request.param == "backup":
        backup(filled, target)
    else:
        target.parent.mkdir()
        export_lines(filled, target)
    return target


def nothing_is_left(store, tmp_path):
    return [p.name for p in tmp_path.rglob("*.partial*")] == []


def test_copy_comes_into_the_books_place(store, filled, copy, tmp_path):
    before = rows(filled)
    fill(filled, 5)
    done = restore(store.address, copy)
    assert done.heads == {"home": Head(10, before[-1][-1])}
    assert done.lost == {"home": 5}
    assert rows(filled) == rows(store.open()) == before
    assert filled.standing().is_known
    assert filled.standing().fault == ""
    assert verify(filled).reasons == []
    with filled.writing() as tx:
        assert tx.append(event()).seq == 11
    assert nothing_is_left(store, tmp_path)


def test_old_book_stands_aside_whole(store, filled, copy):
    fill(filled, 5)
    before = rows(filled)
    aside = restore(store.address, copy).aside
    if store.name == "sqlite":
        assert stat.S_IMODE(Path(aside).stat().st_mode) == 0o600
        with open_log(aside, create=False, keeps_head=False) as old:
            assert rows(old) == before
            assert verify(old).whole
    else:
        assert store.run(f"SELECT count(*), max(hash) FILTER (WHERE seq = 15) FROM {aside}") == [
            (15, before[-1][-1])
        ]


def test_dry_run_touches_nothing(store, filled, copy, tmp_path):
    fill(filled, 5)
    before, kept = rows(filled), filled.keeper.read()
    names = sorted(p.name for p in tmp_path.iterdir())
    done = restore(store.address, copy, dry_run=True)
    assert (done.lost, done.aside) == ({"home": 5}, "")
    assert rows(filled) == before
    assert filled.keeper.read() == kept
    assert sorted(p.name for p in tmp_path.iterdir()) == names


def test_guards_hold_after_a_restore(store, filled, copy):
    restore(store.address, copy)
    assert store.open().faults == []
    with pytest.raises(Exception, match="croftbook"):
        store.run("UPDATE events SET body = '{}'")
    with pytest.raises(Exception, match="croftbook"):
        store.run("DELETE FROM events")


def test_others_households_stay(store, filled, copy):
    other = store.open("other")
    fill(other, 3)
    before = rows(other)
    restore(store.address, copy, "home")
    assert rows(other) == before
    assert store.open("other").standing().fault == ""
    assert verify(store.open()).whole
    assert verify(other).whole


def test_backup_of_all_brings_all_back(store, filled, tmp_path):
    if store.name != "sqlite":
        pytest.skip("on a server it is one household at a time")
    fill(store.open("other"), 3)
    backup(filled, tmp_path / "copy.db")
    fill(store.open("third"), 2)
    done = restore(store.address, tmp_path / "copy.db")
    assert set(done.heads) == {"home", "other"}
    assert done.lost == {"third": 2}
    assert store.open().households() == ["home", "other"]


def test_cut_or_changed_copy_is_refused(store, filled, copy):
    fill(filled, 2)
    before = rows(filled)
    if copy.read_bytes().startswith(b"{"):
        lines = copy.read_bytes().splitlines(keepends=True)
        for content, problem in (
            (b"".join(lines[:7]), "3 are missing at its end"),
            (b"".join(lines)[:-40], "line 10"),
            (b"".join(lines).replace(b"plum", b"pear", 1), "line 1,"),
            (b"".join(lines[:4] + lines[5:]), "line 5,"),
        ):
            copy.write_bytes(content)
            with pytest.raises((InputError, BookDamaged), match=problem):
                restore(store.address, copy)
    else:
        keep_heads(copy, {"home": Head(12, "f" * 64)})
        with pytest.raises(InputError, match="2 are missing at its end"):
            restore(store.address, copy)
        raw = copy.read_bytes()
        copy.write_bytes(raw.replace(b"plum", b"pear", 1))
        with pytest.raises(BookDamaged, match="copy was not taken"):
            restore(store.address, copy)
    assert rows(filled) == before
    assert filled.standing().fault == ""


def test_copy_without_a_head_is_taken_and_said(store, filled, copy):
    copy.with_name("copy.head").unlink()
    done = restore(store.address, copy)
    assert any("nobody can tell" in note for note in done.notes)


@pytest.mark.parametrize("content", [b"", b"plain text", b"\x00" * 5000, b"SQLite format 3\0junk"])
def test_copy_of_something_else_is_refused(store, filled, tmp_path, content):
    path = tmp_path / "photo.jpg"
    path.write_bytes(content)
    with pytest.raises((InputError, BookDamaged)):
        restore(store.address, path)
    with pytest.raises(InputError, match="no file"):
        restore(store.address, tmp_path / "nowhere")
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(InputError, match="plain file"):
        restore(store.address, tmp_path / "pipe")
    assert filled.count() == 10


def test_restore_of_a_database_without_the_household_is_refused(store, filled, copy):
    if copy.read_bytes().startswith(b"{"):
        pytest.skip("an export names no household")
    with pytest.raises(InputError, match="no household"):
        restore(store.address, copy, "cellar")


# A file


@pytest.fixture
def book(tmp_path):
    """A book in a file, with a backup of its first ten events."""
    path, target = tmp_path / "book.db", tmp_path / "copies" / "copy.db"
    with open_log(path) as log:
        fill(log)
        backup(log, target)
        fill(log, 5)
    return path, target


@pytest.mark.parametrize(
    "damage",
    [
        lambda p: p.write_bytes(b""),
        lambda p: p.unlink(),
        lambda p: p.write_bytes(b"\xff" * 9000),
        lambda p: p.write_bytes(b"SQLite format 3\0" + b"\x17" * 9000),
        lambda p: os.truncate(p, p.stat().st_size // 2),
        lambda p: os.truncate(p, 5000),
        lambda p: p.write_bytes(p.read_bytes()[:4096] + b"\xff" * 8192 + p.read_bytes()[12288:]),
        lambda p: Path(f"{p}-wal").write_bytes(b"junk" * 5000),
    ],
)  # fmt: skip
def test_any_damage_is_restored(book, damage):
    path, target = book
    damage(path)
    there = path.exists() and path.stat().st_size
    done = restore(str(path), target)
    with open_log(path, create=False) as log:
        assert verify(log).reasons == []
        assert (log.count(), log.head()) == (10, read_heads(target)["home"])
        assert log.standing().is_known
        with log.writing() as tx:
            assert tx.append(event()).seq == 11
    assert bool(done.aside) == bool(there)
    assert sorted(p.name for p in path.parent.iterdir() if "aside" not in p.name) == [
        "book.db",
        "copies",
    ]


def test_journal_left_by_a_crash_does_not_reach_into_the_new_book(book):
    path, target = book
    script = (
        "import os, sys, uuid\n"
        "from ledger.log import NewEvent, open_log\n"
        "log = open_log(sys.argv[1])\n"
        "log._settle = lambda *_: None\n"  # as if it were killed before
        "for n in range(60):\n"
        "    with log.writing() as tx:\n"
        "        tx.append(NewEvent(str(uuid.uuid4()), 'harvested', 1, '2026-09-02', '{}'))\n"
        "os.kill(os.getpid(), 9)\n"
    )
    environ = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    subprocess.run([sys.executable, "-c", script, str(path)], check=False, env=environ)
    assert Path(f"{path}-wal").stat().st_size > 0
    done = restore(str(path), target)
    with open_log(path, create=False) as log:
        assert (log.count(), verify(log).reasons) == (10, [])
    with open_log(done.aside, create=False, keeps_head=False) as old:
        assert old.count() == 75


def test_file_that_never_was_a_book_is_not_replaced(book, tmp_path):
    _, target = book
    photo = tmp_path / "photo.jpg"
    photo.write_bytes(b"\xff\xd8" * 100)
    with pytest.raises(NotABook):
        restore(str(photo), target)
    assert photo.read_bytes() == b"\xff\xd8" * 100


def test_restore_waits_for_a_writer_and_gives_up(book):
    path, target = book
    with open_log(path) as log, log.writing(), pytest.raises(BookLocked):
        restore(str(path), target, wait=0.5)
    with open_log(path) as log:
        assert (log.count(), log.standing().fault) == (15, "")
    assert not list(path.parent.glob("*aside*"))


def test_restore_of_the_book_onto_itself_is_refused(book):
    path, _ = book
    with pytest.raises(InputError, match="itself"):
        restore(str(path), path)


def test_head_that_was_to_come_is_no_fault_before_or_after(book):
    path, target = book
    with open_log(path) as log:
        log.keeper.expect({"home": read_heads(target)["home"]})
        assert log.standing().fault == ""
        restore(str(path), target)
        log.keeper.expect({"home": Head(99, "e" * 64)})
        assert log.standing().fault == ""
