"""Questions at a terminal: each is asked once, between attempts, while the book is free."""

from __future__ import annotations

import json

import click
import pytest
from click.testing import CliRunner

from ledger import Book
from ledger.cli import _common, main
from ledger.log import open_log


@pytest.fixture
def run(tmp_path, monkeypatch, fixed_day):
    """Run a command as if at a terminal, with what is typed there; return status, output, errors."""
    monkeypatch.setattr(_common, "at_terminal", lambda: True)
    runner = CliRunner()

    def go(*words, typed=""):
        with runner.isolation(input=typed) as (out, err, _):
            status = main([*words, "--book", str(tmp_path / "book.sqlite")])
            return status, out.getvalue().decode(), err.getvalue().decode()

    return go


def bodies(tmp_path, kind):
    with Book.open(tmp_path / "book.sqlite") as book:
        rows = [row for chunk in book.log.read(kinds=[kind]) for row in chunk]
    return [json.loads(row[10]) for row in rows]


def test_what_is_missing_is_asked_for_line_by_line(run, tmp_path):
    status, _, err = run("buy", "10 lb sugar", "24 lid", typed="7.90\n6\n")
    assert status == 0, err
    assert "10 lb sugar" in err
    (body,) = bodies(tmp_path, "bought")
    assert [line["paid"] for line in body["lines"]] == ["7.90", "6"]


def test_answer_that_cannot_be_is_asked_for_again(run, tmp_path):
    status, _, err = run("buy", "10 lb sugar", typed="lots\n7.90\n")
    assert status == 0, err
    assert "'lots' is not a number" in err
    assert bodies(tmp_path, "bought")[0]["lines"][0]["paid"] == "7.90"


def test_missing_parts_of_a_batch_are_asked_for(run, tmp_path):
    run("harvest", "31 lb plum")
    typed = "cook\n16 lb plum\n3 quart jars fridge\n"
    status, _, err = run("putup", "plum butter", typed=typed)
    assert status == 0, err
    (body,) = bodies(tmp_path, "put_up")
    assert (body["method"], body["made"][0]["jars"]) == ("cook", 3)


def test_near_miss_is_asked_once_and_taken(run, tmp_path):
    run("harvest", "31 lb plum")
    status, _, err = run("harvest", "2 lb plumm", typed="y\n")
    assert status == 0, err
    assert err.count("did you mean 'plum'?") == 1
    assert bodies(tmp_path, "harvested")[1]["lines"][0]["item"] == "plum"


def test_no_to_a_near_miss_makes_a_new_item_and_no_to_a_doubt_writes_nothing(run, tmp_path):
    run("harvest", "31 lb plum")
    assert run("harvest", "2 lb plumm", typed="n\n")[0] == 0
    assert bodies(tmp_path, "harvested")[1]["lines"][0]["item"] == "plumm"
    status, out, err = run("harvest", "20 t plum", typed="n\n")
    assert (status, out) == (2, "")
    assert err.count("is a great deal") == 2  # the question, and what was refused
    assert len(bodies(tmp_path, "harvested")) == 2


def test_amount_of_no_known_weight_is_kept_as_said(run, tmp_path):
    run("harvest", "31 lb plum")
    status, _, err = run("harvest", "3 plum", "2 buckets plum")
    assert status == 0, err
    assert 'croftbook item "plum" --g-per "bucket 8000"' in err
    lines = bodies(tmp_path, "harvested")[1]["lines"]
    assert [(line["measure"], line["whole"]) for line in lines] == [
        ("count", 3000),
        ("bucket", 2000),
    ]


def test_book_is_free_while_a_person_thinks(run, tmp_path, monkeypatch):
    run("harvest", "31 lb plum")
    thinking = []

    def confirm(*_words, **_more):
        with open_log(tmp_path / "book.sqlite", wait=0.2) as log, log.writing("meanwhile"):
            thinking.append(log.position())
        with Book.open(tmp_path / "book.sqlite") as other:
            other.write("harvested", item="pear", amount="1 lb")
        return True

    monkeypatch.setattr(click, "confirm", confirm)
    status, _, err = run("harvest", "20 t plumm")  # a near miss, and a great deal
    assert status == 0, err
    assert len(thinking) == 2
    assert [body["lines"][0]["item"] for body in bodies(tmp_path, "harvested")] == [
        "plum", "pear", "pear", "plum"
    ]  # fmt: skip


def test_notes_are_not_told_twice(run):
    run("harvest", "31 lb skirret")
    _, _, err = run("harvest", "1 bucket skirrett", typed="y\n")
    assert err.count("is kept as said") == 1
