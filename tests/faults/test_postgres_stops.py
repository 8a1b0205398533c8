"""A PostgreSQL server that stops in the middle: a clear message, and nothing half written."""

from __future__ import annotations

import hashlib
import json

import pytest
from faults_tools import tell

from ledger import Book
from ledger.cli import main
from ledger.errors import BookError

pytestmark = pytest.mark.postgres


@pytest.fixture
def kept(server):
    """A book with an entry on the running server, and what it holds."""
    with Book.open(server[1]) as book:
        book.write("harvested", item="plum", amount="40 lb", on="2009-08-01")
    return digest(server[1])


def digest(url):
    with Book.open(url, create=False) as book:
        rows = [row for chunk in book.log.read() for row in chunk]
        assert book.check().is_whole
    return hashlib.sha256(repr(rows).encode()).hexdigest()


def event(n):
    on = f"2010-{n // 28 % 12 + 1:02}-{n % 28 + 1:02}"
    body = {"item": "plum", "amount": f"{n + 1} oz"}
    return json.dumps({"kind": "harvested", "on": on, "body": body}).encode()


def events(many, halt_at, folder):
    for n in range(many):
        if n == halt_at:
            tell("halt", folder)
        yield n + 1, n * 100, event(n)


@pytest.mark.parametrize("halt_at", [1, 2_500, 4_999])
def test_import_that_loses_its_server_leaves_the_book_as_it_was(server, kept, halt_at):
    folder, url = server
    with Book.open(url) as book:
        with pytest.raises(BookError, match="is the server running"):
            book.import_events(events(5_000, halt_at, folder))
        tell("again", folder)
        assert digest(url) == kept
        # The same book goes on once the server is back.
        assert book.import_events(events(100, -1, folder)).written == 100
        assert book.check().is_whole


def test_command_names_the_server_that_is_not_there(server, kept, capsys):
    folder, url = server
    tell("halt", folder)
    try:
        for words in (["harvest", "1 lb plum", "--on", "2026-09-02"], ["show", "shelf"], ["check"]):
            status = main([*words, "--book", url])
            out, err = capsys.readouterr()
            assert (status, out) == (1, "")
            assert len(err.splitlines()) == 1
            assert "cannot be reached" in err
            assert "is the server running?" in err
    finally:
        tell("again", folder)
    assert digest(url) == kept
