"""A fixed word (a method, a place) may be typed in the book's language, as the pages show it."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest
from click.testing import CliRunner

from ledger import Book, InputError
from ledger.cli._root import root
from ledger.door.choosing import chosen

RUN = "from ledger.cli import main; main()"
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


def test_a_refusal_lists_the_words_of_the_language(put_up):
    done, _ = put_up("--made", "2 500 ml jars", "--method", "Drock")
    with pytest.raises(InputError) as refused:
        raise done.exception
    problem, wanted = refused.value.parts("de")
    assert problem.startswith("„Drock“")
    assert {"Wasserbad", "Druck", "Kalt gerührte Konfitüre"} <= set(
        wanted.partition(": ")[2].split(", ")
    )
    assert "boiling water, pressure" in refused.value.wanted  # as a script writes it, in English


def test_help_lists_the_words_of_the_language(run_help):
    said = run_help("putup", "de")
    assert "z. B. Wasserbad (eines von: Wasserbad, Druck," in said
    assert "boiling water (one of: boiling water, pressure," in run_help("putup", "en")


@pytest.fixture
def run_help():
    """Return a command's help in a language, on one line; in a process that has said nothing yet."""

    def call(command, language):
        words = [sys.executable, "-c", RUN, command, "--help", "--language", language]
        done = subprocess.run(words, capture_output=True, text=True, check=True)
        return " ".join(done.stdout.split())

    return call


def test_words_of_the_other_language_are_read_too():
    assert chosen("Druck", ("pressure", "dry"), "method") == "pressure"
    with pytest.raises(InputError, match=r"'Drock'.*pressure, dry"):
        chosen("Drock", ("pressure", "dry"), "method")


def test_a_setting_is_named_in_german(tmp_path, fixed_day):
    place = str(tmp_path / "book.sqlite")
    done = CliRunner().invoke(root, ["setting", "Währung", "EUR", "--book", place])
    assert done.exit_code == 0, done.output
    with Book.open(place) as book:
        assert book.setting("currency") == "EUR"


@pytest.mark.parametrize(
    ("typed", "stored"),
    [("1/2 Zoll", "1/2 in"), ("1,2 cm", "1.2 cm"), ("13 mm", "13 mm"), ("1/4 in", "1/4 in")],
)
def test_a_headspace_is_read_in_german(put_up, typed, stored):
    done, (body,) = put_up("--made", "2 500-ml-Gläser", "--method", "Druck", "--headspace", typed)
    assert done.exit_code == 0, done.output
    assert body["headspace"] == stored


@pytest.mark.parametrize("typed", ["Zoll", "viel", "1,2 kg"])
def test_what_is_no_length_is_refused_by_its_field(put_up, typed):
    done, bodies = put_up("--made", "2 500-ml-Gläser", "--method", "Druck", "--headspace", typed)
    assert isinstance(done.exception, InputError)
    assert (done.exception.field, bodies) == ("headspace", [])


@pytest.mark.parametrize(
    ("typed", "method"),
    [
        ("im Wasserbad", "boiling water"), ("Einkochautomat", "boiling water"),
        ("Dampfdruckkocher", "pressure"), ("eingefroren", "freeze"), ("gedörrt", "dry"),
    ],
)  # fmt: skip
def test_other_words_for_a_method_are_read(put_up, typed, method):
    done, (body,) = put_up("--made", "2 500-ml-Gläser", "--method", typed)
    assert done.exit_code == 0, done.output
    assert body["method"] == method


@pytest.mark.parametrize("typed", ["Einkochen", "eingekocht", "Einmachen", "canned"])
def test_a_word_for_both_ways_of_canning_is_never_taken_for_one(put_up, typed):
    done, bodies = put_up("--made", "2 500-ml-Gläser", "--method", typed)
    assert isinstance(done.exception, InputError)
    assert done.exception.says("refusal-either-canning")
    assert bodies == []


@pytest.mark.parametrize("text", ["oven", "open kettle"])
def test_a_refused_way_of_closing_jars_says_where_it_is_written(text):
    with pytest.raises(InputError) as refused:
        chosen(text, ("boiling water", "pressure"), "method")
    assert "--equipment oven" in str(refused.value)
