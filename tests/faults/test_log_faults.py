"""A book on a full disk, in a folder that cannot be written to, and with damaged pages."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from ledger.errors import BookDamaged, BookError, BookReadOnly
from ledger.log import backup, open_log, verify

NOBODY = 65534
is_root = hasattr(os, "geteuid") and os.geteuid() == 0


@pytest.fixture
def small_disk():
    """Yield a folder on a file system of one megabyte and a half."""
    folder = Path(tempfile.mkdtemp(prefix="croftbook-full-"))
    mounted = (
        is_root
        and not subprocess.run(
            ["mount", "-t", "tmpfs", "-o", "size=1536k", "tmpfs", folder],
            check=False,
            capture_output=True,
        ).returncode
    )
    if not mounted:
        folder.rmdir()
        pytest.skip("no small file system can be mounted here; the page limit stands in")
    yield folder
    subprocess.run(["umount", folder], check=True)
    folder.rmdir()


def as_nobody(script, *arguments):
    """Run a script as a user whom the permissions hold (root passes them all)."""
    run = subprocess.run(
        [sys.executable, "-c", "import os, sys\n" + script, *map(str, arguments)],
        check=False,
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONDONTWRITEBYTECODE": "1"},
    )
    return run.stdout + run.stderr


DROP = f"""
import ledger.log, ledger.errors, sqlite3, tempfile, platformdirs.unix
if os.geteuid() == 0:
    os.setgid({NOBODY})
    os.setuid({NOBODY})
"""


@pytest.fixture
def locked_folder(event):
    """Yield a book of three events in a folder that only its owner may write to."""
    folder = Path(tempfile.mkdtemp(prefix="croftbook-ro-"))
    with open_log(folder / "book.db") as log, log.writing() as tx:
        tx.append_many([event(), event(), event()])
    (folder / "book.db").chmod(0o444)
    folder.chmod(0o555)
    yield folder
    folder.chmod(0o755)
    shutil.rmtree(folder)


READ = (
    DROP
    + """
with ledger.log.open_log(sys.argv[1]) as log:
    print(log.read_only, log.count(), ledger.log.verify(log).whole)
    try:
        with log.writing() as tx: pass
    except ledger.errors.BookReadOnly as error:
        print(error)
"""
)


def test_book_in_a_read_only_folder_can_be_read(locked_folder):
    before = (locked_folder / "book.db").read_bytes()
    output = as_nobody(READ, locked_folder / "book.db")
    assert output.startswith("True 3 True\n"), output
    assert "cannot be written to" in output
    assert "Traceback" not in output
    assert (locked_folder / "book.db").read_bytes() == before
    assert [one.name for one in locked_folder.iterdir()] == ["book.db"]


def test_read_only_file_in_an_open_folder_can_be_read(locked_folder):
    locked_folder.chmod(0o777)
    output = as_nobody(READ, locked_folder / "book.db")
    assert output.startswith("True 3 True\n"), output
    assert "cannot be written to" in output


def test_book_open_elsewhere_can_be_read_from_a_read_only_folder(locked_folder, event):
    if not is_root:
        pytest.skip("the owner of a locked folder cannot write there either")
    with open_log(locked_folder / "book.db") as log:
        with log.writing() as tx:
            tx.append(event())
        output = as_nobody(READ, locked_folder / "book.db")
        # Its newest event is in the file beside the book, so it must not be read without it.
        assert output.startswith("True 4 True\n") or "BookError" in output, output


def test_new_book_in_a_read_only_folder_is_refused(locked_folder):
    script = DROP + (
        "try: ledger.log.open_log(sys.argv[1])\n"
        "except ledger.errors.LedgerError as error: print('refused:', error)\n"
    )
    for name in ("new.db", "deeper/new.db"):
        output = as_nobody(script, locked_folder / name)
        assert output.startswith("refused:"), output
        assert name in output
    assert [one.name for one in locked_folder.iterdir()] == ["book.db"]


def test_backup_into_a_read_only_folder_is_refused(locked_folder):
    script = DROP + (
        "log = ledger.log.open_log(sys.argv[1])\n"
        "try: ledger.log.backup(log, sys.argv[1] + '.copy')\n"
        "except ledger.errors.BookReadOnly as error: print('refused:', error)\n"
    )
    output = as_nobody(script, locked_folder / "book.db")
    assert output.startswith("refused:"), output
    assert [one.name for one in locked_folder.iterdir()] == ["book.db"]


def test_full_disk_keeps_the_book_as_it_was(small_disk, event):
    with open_log(small_disk / "book.db") as log:
        with log.writing() as tx:
            tx.append(event())
        before = list(log.read())
        with pytest.raises(BookReadOnly, match="full"), log.writing() as tx:
            tx.append_many(event() for _ in range(20_000))
        assert list(log.read()) == before
        with log.writing() as tx:
            assert tx.append(event()).seq == 2
        assert verify(log).whole


def test_single_entries_until_the_disk_is_full(small_disk, event):
    body = '{"note":"' + "x" * 20_000 + '"}'
    written = 0

    def write_one():
        nonlocal written
        with log.writing() as tx:
            tx.append(event(body=body))
        written += 1

    with open_log(small_disk / "book.db") as log:
        with pytest.raises(BookReadOnly, match="full"):
            [write_one() for _ in range(200)]
        assert log.count() == written > 0
        assert verify(log).whole


def fill(folder):
    with open(folder / "rest", "wb", buffering=0) as rest:
        while True:
            rest.write(b"x" * 4096)


def test_new_book_on_a_full_disk_is_refused(small_disk):
    with pytest.raises(OSError, match="space"):
        fill(small_disk)
    with pytest.raises(BookError):
        open_log(small_disk / "book.db")


def test_backup_onto_a_full_disk_leaves_nothing(small_disk, tmp_path, event):
    with open_log(tmp_path / "book.db") as log:
        with log.writing() as tx:
            tx.append_many(event() for _ in range(8_000))
        with pytest.raises(BookReadOnly):
            backup(log, small_disk / "copy.db")
        assert list(small_disk.iterdir()) == []


def test_page_limit_stands_in_for_a_full_disk(tmp_path, event, monkeypatch):
    with open_log(tmp_path / "book.db") as log:
        with log.writing() as tx:
            tx.append(event())
        log.close()

        connect = log.store.connect

        def limited():
            raw = connect()
            raw.execute("PRAGMA max_page_count = 60")
            return raw

        monkeypatch.setattr(log.store, "connect", limited)
        before = list(log.read())
        with pytest.raises(BookReadOnly, match="full"), log.writing() as tx:
            tx.append_many(event() for _ in range(20_000))
        assert list(log.read()) == before
        with log.writing() as tx:
            assert tx.append(event()).seq == 2


@pytest.mark.parametrize("part", [0.1, 0.3, 0.5, 0.7, 0.9])
def test_damaged_page_is_reported_not_raised(tmp_path, event, part):
    path = tmp_path / "book.db"
    with open_log(path) as log, log.writing() as tx:
        tx.append_many(event() for _ in range(3_000))
    with open(path, "r+b") as file:
        file.seek(int(path.stat().st_size * part) // 4096 * 4096)
        file.write(b"\xff" * 4096)
    with open_log(path) as log:
        report = verify(log)
        assert not report.whole
        # A damaged page of the events stops the chain there; one of the index shows in the file.
        assert report.file or report.first_bad
        if report.first_bad:
            assert report.events == report.first_bad[0] - 1 < 3_000
        with pytest.raises(BookDamaged):
            backup(log, tmp_path / "copy.db")
    assert [one.name for one in tmp_path.iterdir()] == ["book.db"]


def test_text_that_is_no_utf8_is_named(tmp_path, event):
    path = tmp_path / "book.db"
    with open_log(path) as log, log.writing() as tx:
        tx.append_many(event(body=f'{{"note":"abcdefgh{n}"}}') for n in range(20))
    path.write_bytes(path.read_bytes().replace(b"abcdefgh11", b"abcdefgh\xff\xfe"))
    with open_log(path) as log:
        report = verify(log)
    assert report.first_bad is not None
    assert report.first_bad[0] == 12
    assert "cannot be read" in report.first_bad[1]


def test_file_cut_short_is_an_error_of_ours(tmp_path, event):
    path = tmp_path / "book.db"
    with open_log(path) as log, log.writing() as tx:
        tx.append_many(event() for _ in range(3_000))
    os.truncate(path, path.stat().st_size // 2)
    try:
        with open_log(path) as log:
            found = verify(log).first_bad
    except BookError as error:
        found = str(error)
    assert found
