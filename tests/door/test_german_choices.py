"""A fixed word (a method, a place) may be typed in the book's language, as the pages show it."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from ledger import Book, InputError
from ledger.cli._root import root

BEANS = ("--used", "1 kg grüne Bohnen", "--minutes", "25")


@pytest.fixture
def put_up(tmp_path, fixed_day):
    """Put beans up in a German book; return what came of it, and the bodies that were written."""
    place = str(tmp_path / "book.sqlite")
    with Book.open(place) as book:
        book.write("setting_changed", name="language", value="de", on="2026-01-01")
        book.write("setting_changed", name="measures", value="metric", on="2026-01-01")

    def call(*words):
        done = CliRunner().invoke(root, ["putup", "Bohnen", *BEANS, *words, "--book", place])
        with Book.open(place) as book:
            rows = [row for chunk in book.log.read(kinds=("put_up",)) for row in chunk]
        return done, [json.loads(row[10]) for row in rows]

    return call


@pytest.mark.parametrize(
    ("typed", "method"),
    [("Druck", "pressure"), ("wasserbad", "boiling water"), ("pressure", "pressure")],
)
def test_a_method_is_read_in_the_books_language(put_up, typed, method):
    done, (body,) = put_up("--made", "2 500 ml jars", "--method", typed, "--pack", "roh eingefüllt")
    assert done.exit_code == 0, done.output
    assert (body["method"], body["pack"]) == (method, "raw")


@pytest.mark.parametrize(("typed", "is_warned"), [("Druck", False), ("Wasserbad", True)])
def test_the_caution_before_knows_the_method(put_up, typed, is_warned):
    done, _ = put_up("--made", "2 500 ml jars", "--method", typed)
    first = done.output.partition("\n")[0]
    assert ("Botulismus" in first or "botulism" in first.lower()) is is_warned


def test_a_place_is_read_in_the_books_language(put_up):
    done, (body,) = put_up("--made", "500 ml Kühlschrank", "--method", "Druck")
    assert done.exit_code == 0, done.output
    assert body["made"][0]["kept"] == "fridge"


def test_a_word_of_neither_language_is_refused(put_up):
    done, bodies = put_up("--made", "2 500 ml jars", "--method", "Drock")
    assert isinstance(done.exception, InputError)
    assert done.exception.field == "method"
    assert not bodies
