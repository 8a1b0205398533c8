"""A book that a newer program wrote into: read as far as it is known, told of, and not written into."""

from __future__ import annotations

import json
import uuid

import pytest

from ledger import Book
from ledger.cli import main
from ledger.errors import NewerBook
from ledger.kinds import KINDS
from ledger.log import NewEvent

PLUM = {"item": "plum", "amount": "10 lb"}


def add(book, kind, v, body, id="5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11", **more):
    with book.log.writing() as tx:
        tx.append(NewEvent(id, kind, v, "2026-09-02", body, **more))


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "book.sqlite"
    with Book.open(path) as book:
        book.write("harvested", PLUM, on="2026-09-01")
    return path


@pytest.fixture(params=[("cellared", 1, "{}"), ("harvested", 9, '{"heap":"plum"}'), ("setting_changed", 7, "{}")])  # fmt: skip
def newer(request, path):
    with Book.open(path) as book:
        add(book, *request.param)
    return path


def test_it_is_read_and_told_of(newer):
    with Book.open(newer) as book:
        answer = book.show("shelf", as_of="2026-09-03")
        assert answer.frame["item"].tolist() == ["plum"]
        (told,) = [one for one in answer.assumptions if one.id == "unread"]
        assert "1 entry is left out" in told.text
        assert list(told.events) == ["5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11"]
        assert any("not read" in row.line for row in book.history())
        found = book.check()
        assert (found.reasons, found.is_balanced, len(found.unread)) == ([], False, 1)


def test_it_is_not_written_into(newer, tmp_path):
    file = tmp_path / "more.jsonl"
    file.write_text(json.dumps({"kind": "harvested", "on": "2026-09-05", "body": PLUM}))
    with Book.open(newer) as book:
        head = book.log.head()
        with pytest.raises(NewerBook, match="Update Croftbook"):
            book.write("harvested", PLUM, on="2026-09-03")
        with pytest.raises(NewerBook):
            book.import_file(file)
        assert book.log.head() == head


def test_command_says_so_in_one_sentence(newer, capsys):
    assert main(["harvest", "1 lb plum", "--on", "2026-09-03", "--book", str(newer)]) == 2
    said = capsys.readouterr().err
    assert len(said.splitlines()) == 1
    assert "Nothing was written" in said
    assert main(["check", "--book", str(newer)]) == 0
    said = capsys.readouterr().out
    assert "Not read" in said
    assert "Every amount" not in said
    assert main(["show", "shelf", "--book", str(newer)]) == 0
    assert "left out" in " ".join(capsys.readouterr().out.split())


def test_one_that_corrects_takes_the_entry_out_of_the_answers(path):
    with Book.open(path) as book:
        first = book.history(kind="harvested")[0].id
        add(book, "harvested", 9, "{}", replaces=first)
        assert book.show("shelf", as_of="2026-09-03").frame.empty


@pytest.mark.parametrize(
    ("kind", "body"), [("harvested", '{"lines":7}'), ("harvested", "{}"), ("item_described", "{}")]
)
def test_body_that_is_no_body_is_set_aside(path, kind, body):
    with Book.open(path) as book:
        book.state()
        add(book, kind, 1, body)
        book.show("shelf", as_of="2026-09-03")
        assert next(iter(book.replay().journal.unread.values())).endswith("cannot be read")


BROKEN = (
    "{}",
    '{"item":7,"lines":7}',
    '{"item":"plum","lines":[{"item":3}]}',
    '{"made":[{}],"used":[{}]}',
)


def test_what_no_kind_can_read_is_said_everywhere_and_stops_nothing(path):
    """Bodies of every kind and version that never came through the door: one book holds them all."""
    with Book.open(path) as book:
        for kind in KINDS.values():
            for v in range(1, kind.v + 1):
                for body in BROKEN:
                    add(book, kind.name, v, body, id=str(uuid.uuid4()))
        add(book, "cellared", 1, "{}", id=str(uuid.uuid4()))
        unread = book.replay().journal.unread
        assert len(unread) > 2 * len(KINDS)
        for name in ("shelf", "jar-cost", "season"):
            answer = book.show(name, as_of="2026-09-03")
            (told,) = [one for one in answer.assumptions if one.id == "unread"]
            assert told.text.startswith(f"{len(unread)} entries are left out")
        assert book.show("shelf", as_of="2026-09-03").frame["item"].tolist() == ["plum"]
        assert sum("not read" in row.line for row in book.history()) == len(unread)
        found = book.check()
        assert (found.reasons, len(found.unread)) == ([], len(unread))
