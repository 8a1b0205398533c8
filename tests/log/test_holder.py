"""The note of who is writing: there while a writer holds on, and never believed of the dead."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time

import pytest

from ledger.log._holder import holder_file, present, read_holder


def wait_for(condition):
    end = time.monotonic() + 10
    while not condition() and time.monotonic() < end:
        time.sleep(0.02)
    return condition()


def test_writer_that_holds_on_is_noted_and_leaves_nothing(path, log):
    with log.writing("import"):
        assert wait_for(holder_file(path).exists)
        noted = read_holder(path)
    assert noted is not None
    assert (noted["pid"], noted["what"]) == (os.getpid(), "import")
    assert {"host", "user", "since"} <= set(noted)
    assert not holder_file(path).exists()


def test_note_goes_away_after_an_error_too(path, log):
    with pytest.raises(ZeroDivisionError), log.writing():
        _ = 1 / (not wait_for(holder_file(path).exists))
    assert list(path.parent.glob("*.writer*")) == []


def test_quick_writer_makes_no_file(path, log, event):
    with log.writing() as tx:
        tx.append(event())
    time.sleep(0.3)
    assert not holder_file(path).exists()


def test_note_of_a_dead_process_is_not_believed(path):
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    holder_file(path).write_text(json.dumps({**present("import"), "pid": gone.pid}))
    assert read_holder(path) is None
    holder_file(path).write_text(json.dumps(present("import")))
    assert read_holder(path) is not None


def test_note_from_another_machine_is_believed(path):
    holder_file(path).write_text(json.dumps({**present("x"), "pid": 2**22 + 1, "host": "barn"}))
    noted = read_holder(path)
    assert noted is not None
    assert noted["host"] == "barn"


@pytest.mark.parametrize("content", ["", "{", "[]", "1", '{"pid": "x"}', "{}"])
def test_note_that_cannot_be_read_names_nobody(path, content):
    holder_file(path).write_text(content)
    assert read_holder(path) is None


def test_stale_note_does_not_keep_others_from_writing(path, log, event):
    holder_file(path).write_text("left behind")
    with log.writing() as tx:
        assert tx.append(event()).seq == 1
