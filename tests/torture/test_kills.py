"""kill -9 at any moment: nothing acknowledged is lost, nothing is half there, a restore is all or nothing."""

from __future__ import annotations

import contextlib
import json
import os
import random
import select
import shutil
import signal
import time
import uuid
from pathlib import Path

import pytest
from torture_tools import count, keep

from ledger import Answers, Book
from ledger.cli import main
from ledger.log import NewEvent, backup, open_log, verify

pytestmark = [pytest.mark.torture, pytest.mark.timeout(0)]
TOGETHER = 5
"""Events of one import in these tests: all of them are there, or none."""


def acknowledge(out, text):
    os.write(out, f"{text}\n".encode())


def commands(path, _folder, out):
    """The command line, one entry after another."""
    for n in range(1_000):
        id = str(uuid.uuid4())
        with Book.open(path) as book:
            written = book.write(
                "harvested", item="plum", amount=f"{n + 1} oz", on="2026-09-02", id=id
            )
        acknowledge(out, written.event.id)


def typed(path, _folder, out):
    devnull = os.open(os.devnull, os.O_WRONLY)
    os.dup2(devnull, 1)
    for n in range(1_000):
        if main(["harvest", f"{n + 1} oz plum", "--on", "2026-09-02", "--book", str(path)]) == 0:
            acknowledge(out, "+1")


def imports(path, folder, out):
    for n in range(1_000):
        ids = [str(uuid.uuid4()) for _ in range(TOGETHER)]
        file = folder / f"import-{os.getpid()}.jsonl"
        event = {
            "kind": "harvested",
            "on": "2026-09-02",
            "body": {"item": "plum", "amount": f"{n + 1} oz"},
        }
        file.write_text("".join(json.dumps({**event, "id": id}) + "\n" for id in ids))
        with Book.open(path) as book:
            assert book.import_file(file, answers=Answers(yes=True)).written == TOGETHER
        acknowledge(out, " ".join(ids))


def forms(path, _folder, out):
    """What a form's post does behind the page: asked about, tried, then written."""
    from dashboard.data import Data
    from dashboard.forms.reading import Typed
    from dashboard.forms.writing import write_form
    from dashboard.words import Words

    with Book.open(path, wait=3.0) as book:
        data, words = Data(book), Words("en")
        for n in range(1_000):
            id = str(uuid.uuid4())
            boxes = {("lines", 0): f"{n + 1} oz plum"}
            outcome = write_form(
                data, words, Typed("harvested", day="2026-09-02", by=None, boxes=boxes, id=id)
            )
            if outcome.written is not None:
                acknowledge(out, id)


def restores(path, folder, out):
    """Two copies of different length put in the book's place in turn."""
    for n in range(1_000):
        Book.restore(folder / ("short.db" if (n + os.getpid()) % 2 else "long.db"), path)
        acknowledge(out, "restored")


def backups(path, folder, out):
    with open_log(path) as log:
        for _ in range(1_000):
            backup(log, folder / "backup.db", force=True)
            acknowledge(out, "backed up")


def checkpoints(path, _folder, out):
    """Small transactions, each moved into the file at once: most kills fall into that."""
    with open_log(path) as log:
        for _ in range(10_000):
            id = str(uuid.uuid4())
            with log.writing() as tx:
                tx.append(NewEvent(id, "harvested", 1, "2026-09-02", "{}"))
            acknowledge(out, id)


def killed(what, path, folder, luck, most_s):
    """Run something in a process of its own, kill it, and return what it had acknowledged.

    Half of the kills come a moment after the first acknowledgement, so that a slow machine, too,
    meets work behind one.
    """
    reading, writing = os.pipe()
    pid = os.fork()
    if pid == 0:
        os.close(reading)
        with contextlib.suppress(BaseException):
            what(path, folder, writing)
        os._exit(0)
    os.close(writing)
    if luck.random() < 0.5:
        select.select([reading], [], [], 30)
    time.sleep(luck.uniform(0.005, most_s))
    os.kill(pid, signal.SIGKILL)
    os.waitpid(pid, 0)
    said = b""
    while select.select([reading], [], [], 0)[0]:
        part = os.read(reading, 65536)
        if not part:
            break
        said += part
    os.close(reading)
    return said.decode().splitlines()


def loaded():
    """Load what the victims use: a kill should fall into their work, not into imports."""
    import dashboard.app
    import dashboard.forms.writing

    return dashboard.app, dashboard.forms.writing


@pytest.fixture
def kitchen(tmp_path):
    loaded()
    path = tmp_path / "book.db"
    with Book.open(path) as book:
        book.write("harvested", item="plum", amount="40 lb", on="2026-08-01")
        book.state()
        backup(book.log, tmp_path / "short.db")
        for n in range(30):
            book.write("harvested", item="plum", amount=f"{n + 1} lb", on="2026-08-02")
        backup(book.log, tmp_path / "long.db")
    return path


def ids_of(path):
    with open_log(path, create=False) as log:
        report = verify(log)
        assert report.reasons == [], report.reasons
        assert log.standing().fault == ""
        return [row[1] for chunk in log.read() for row in chunk], report.head


@pytest.mark.parametrize(
    ("what", "full"),
    [(commands, 200), (typed, 100), (imports, 200), (forms, 150), (checkpoints, 150)],
    ids=lambda one: getattr(one, "__name__", ""),
)
def test_nothing_acknowledged_is_lost(kitchen, tmp_path, what, full):
    luck = random.Random(what.__name__)
    known, acknowledged, many = set(ids_of(kitchen)[0]), 0, count(full)
    for _ in range(many):
        before = len(known)
        said = killed(what, kitchen, tmp_path, luck, 0.4)
        now = ids_of(kitchen)[0]
        assert len(set(now)) == len(now)
        assert known <= set(now)
        new = len(now) - before
        if what is typed:
            assert new >= len(said)
        else:
            told = {id for line in said for id in line.split()}
            assert told <= set(now)
        if what is imports:
            assert new % TOGETHER == 0
        acknowledged += len(said)
        known = set(now)
    keep(f"kill -9: {what.__name__}", many, acknowledged=acknowledged, lost=0, half_written=0)
    assert acknowledged or many < 5
    with Book.open(kitchen) as book:
        assert book.check().reasons == []


def test_restore_is_all_or_nothing(kitchen, tmp_path):
    luck, many = random.Random(1), count(120)
    short, long = ids_of(tmp_path / "short.db")[1], ids_of(tmp_path / "long.db")[1]
    found = {short: 0, long: 0}
    for _ in range(many):
        killed(restores, kitchen, tmp_path, luck, 1.0)
        for one in tmp_path.glob("*set-aside*"):
            one.unlink()
        head = ids_of(kitchen)[1]
        assert head in found
        found[head] += 1
    keep("kill -9: restore", many, neither=0, short=found[short], long=found[long])
    with Book.open(kitchen) as book:
        assert book.write("harvested", item="plum", amount="1 lb", on="2026-09-02").is_new
    Book.restore(tmp_path / "long.db", kitchen)
    assert not list(tmp_path.glob(".*partial*"))


def test_backup_is_whole_or_the_one_before(kitchen, tmp_path):
    luck, many = random.Random(2), count(80)
    target = tmp_path / "backup.db"
    with open_log(kitchen) as log:
        backup(log, target)
    for _ in range(many):
        killed(backups, kitchen, tmp_path, luck, 0.2)
        assert ids_of(target)[0] == ids_of(kitchen)[0]
    keep("kill -9: backup", many, half_written=0)
    backup_again = Path(f"{target}.second")
    with open_log(kitchen) as log:
        backup(log, backup_again)
    shutil.rmtree(tmp_path / "nothing", ignore_errors=True)
