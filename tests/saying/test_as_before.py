"""What a sentence takes from the book: its own batch, today's harvest, last time's meal."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from saying.kitchen_said import TODAY

from ledger import Book
from ledger.cli._root import root
from ledger.door import Answers
from ledger.saying.known import Known
from ledger.saying.reading import read
from ledger.saying.waiting import waiting


@pytest.fixture
def place(tmp_path, fixed_day):
    return tmp_path / "book.sqlite"


@pytest.fixture
def run(place):
    def call(*words):
        done = CliRunner().invoke(root, [*words, "--book", str(place)])
        assert done.exit_code == 0, (words, done.output, done.exception)
        return done

    return call


def batch(book, on, jars=7):
    used = [{"item": "tomato", "amount": "10 lb"}]
    made = [{"jars": jars, "jar": "quart jar"}]
    body = {"makes": "tomato sauce", "method": "pressure", "used": used, "made": made}
    return book.write("put_up", body, on=on, answers=Answers(yes=True)).event.id


def known(book):
    return Known(book.catalogue(), book.today(), book.log)


def test_a_failed_seal_comes_off_the_batch_of_its_day_else_it_is_asked(place):
    with Book.open(place) as book:
        old, new = batch(book, "2026-08-01"), batch(book, "2026-09-01")
        reading = read("a jar of tomato sauce didn't seal", known(book), on=TODAY)
        assert reading.entries[0].body["lines"][0]["lot"] == f"{new}:1"
        later = read("a jar of tomato sauce didn't seal", known(book), on=TODAY.replace(day=20))
        (asked,) = later.questions
        assert asked.code == "batch"
        assert len(asked.options) == 2
        assert old not in str(later.entries[0].body)
        assert new not in str(later.entries[0].body)


def test_the_command_takes_it_off_its_own_batch_too(place, run):
    with Book.open(place) as book:
        batch(book, "2026-08-01")
        new = batch(book, book.today().isoformat())
    run("discard", "1 quart jar tomato sauce", "--why", "seal failed")
    left = json.loads(run("show", "shelf", "--json").stdout)["records"]
    assert {one["lot"]: one["jars_left"] for one in left if one["jar"]}[f"{new}:1"] == 6


def test_todays_fruit_goes_into_todays_batch(place, run):
    run("harvest", "50 lb tomato", "--on", "2026-08-01")
    said = "picked 40 lb tomatoes; made 3 qt tomato sauce from 35 lb of today's tomatoes"
    run("say", said, "--yes")
    records = json.loads(run("show", "shelf", "--item", "tomato", "--json").stdout)["records"]
    assert {one["on"]: round(one["left"]["whole"] / 453592.37) for one in records} == {
        "2026-08-01": 50,
        max(one["on"] for one in records): 5,
    }


def test_a_batch_says_where_older_fruit_went_in(run):
    run("harvest", "50 lb tomato", "--on", "2026-08-01")
    run("harvest", "40 lb tomato")
    done = run("say", "made 3 qt tomato sauce from 35 lb tomatoes", "--yes")
    assert "the oldest first: 35 lb of 2026-08-01" in done.stderr


def test_a_count_of_empty_jars_sets_them(run):
    run("buy", "12 quart jar", "--paid", "12", "--on", "2026-08-01")
    run("count", "9 quart jar", "--on", "2026-08-20")
    run("buy", "2 quart jar", "--paid", "2", "--on", "2026-08-21")
    totals = json.loads(run("show", "shelf", "--json").stdout)["totals"]["jars"]["quart jar"]
    assert (totals["had"], totals["empty"], totals["never_written_down"]) == (11, 11, 0)


def test_where_the_opening_pantry_came_from_is_asked_once(place, run):
    run("count", "6 quart jars tomato sauce", "3 lb sugar", "--on", "2026-08-01")
    run("count", "2 lb honey", "--on", "2026-08-03")
    with Book.open(place) as book:
        (asked,) = [one for one in waiting(known(book)) if one.code == "opening"]
    assert "tomato sauce, sugar, honey" in asked.text
    run("answer", "1", "tomato sauce and honey")
    with Book.open(place) as book:
        assert [one for one in waiting(known(book)) if one.code == "opening"] == []
    records = json.loads(run("show", "shelf", "--json").stdout)["records"]
    origin = {one["item"]: one["origin"]["grown"] for one in records}
    assert origin == {"tomato sauce": 1, "sugar": 0, "honey": 1}


def test_other_spending_of_a_receipt_is_listed_and_answered(place, run):
    slip = "CORNER SHOP\n2026-08-28\nSUGAR 5 LB 4.10\nMAGAZINE 4.50\nLAMP 7.00\nTOTAL 15.60\n"
    run("say", slip, "--yes")
    with Book.open(place) as book:
        assert sorted(one.item for one in waiting(known(book))) == ["LAMP", "MAGAZINE"]
        first = waiting(known(book))[0].item
    run("answer", "1", "2 lb rice")
    run("answer", "2", "no")
    with Book.open(place) as book:
        assert waiting(known(book)) == []
        (row,) = known(book).rows("bought")
    assert [line["item"] for line in row[2]["lines"]] == ["sugar", "rice"]
    assert len(row[2]["other"]) == 1
    assert row[2]["other"][0]["words"] != first


def test_as_last_time_is_the_last_meal_or_batch_again(place):
    with Book.open(place) as book:
        batch(book, "2026-08-01", jars=5)
        ate = {"ate": [{"item": "lentil", "amount": "1 lb"}], "dish": "lentil soup", "people": 4}
        book.write("eaten", ate, on="2026-08-02", answers=Answers(yes=True))
        meal = read("ate lentil soup as last time", known(book), on=TODAY)
        assert meal.entries[0].body == {
            "ate": [{"item": "lentil", "amount": "1 lb"}], "dish": "lentil soup", "people": 4,
        }  # fmt: skip
        made = read("made tomato sauce as last time", known(book), on=TODAY).entries[0].body
        assert [one["jars"] for one in made["made"]] == [5]
        assert made["used"] == [{"item": "tomato", "amount": "10 lb"}]


def test_leftovers_belong_to_the_meal_said_with_them(place):
    with Book.open(place) as book:
        batch(book, "2026-08-01")
        said = "ate 2 quarts of tomato sauce, 4 people; leftovers: a pint of sauce"
        reading = read(said, known(book), on=TODAY)
        assert [one.code for one in reading.questions if not one.waits][-1] == "share"
        assert reading.entries[0].body["left"][0]["item"] == "tomato sauce"


def test_a_failed_seal_is_of_the_jars_never_of_what_was_picked(place, run):
    with Book.open(place) as book:
        book.write("harvested", item="tomato", amount="40 lb", on="2026-08-01")
        new = batch(book, "2026-09-01")
        for said, amount in (("a jar of tomatoes", "1"), ("2 of the 7 quarts of tomatoes", "2")):
            (line,) = read(f"{said} didn't seal", known(book), on=TODAY).entries[0].body["lines"]
            assert line["item"] == "tomato sauce"
            assert line["amount"].startswith(f"{amount} quart jar")
            assert line["lot"] == f"{new}:1"
        none = read("a jar of carrots didn't seal", known(book), on=TODAY)
        assert not none.entries
        assert none.questions
    words = ["discard", "1 quart jar tomato", "--why", "seal failed", "--book", str(place)]
    assert CliRunner().invoke(root, words).exception.field == "item"
