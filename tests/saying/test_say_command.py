"""`croftbook say` and its kin, from a terminal's side and from a script's."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from saying.kitchen_said import TODAY, bodies

from ledger import Book, InputError
from ledger.cli import _common
from ledger.cli._root import root
from ledger.published.danger import oil_named
from ledger.saying.known import Known
from ledger.saying.reading import read
from ledger.saying.settled import Settled


@pytest.fixture
def at_terminal(monkeypatch):
    monkeypatch.setattr(_common, "at_terminal", lambda: True)


def test_a_plain_sentence_is_written_without_a_question(run, place):
    done = run("say", "picked 31 lb plums and two dozen eggs")
    assert done.exit_code == 0, done.output
    (body,) = bodies(place, "harvested")
    assert [(line["item"], line["amount"]) for line in body["lines"]] == [
        ("plum", "31 lb"),
        ("egg", "24"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "picked -3 lb plums", "picked plums -3 lb", "picked 2 eggs, −3 lb plums", "-3 lb plums picked",
        "gepflückt -3 kg Pflaumen", "picked minus 3 lb plums", "picked -1 1/2 lb plums",
    ],
)  # fmt: skip
def test_a_number_below_zero_is_refused(run, place, text):
    done = run("say", text)
    assert isinstance(done.exception, InputError)
    assert "is below zero" in str(done.exception)
    assert not bodies(place, "harvested")


def test_money_below_zero_is_not_read_as_if_above(run, place):
    for sum_ in ("-$3", "$-3", "-3"):
        done = run("say", f"bought 10 lb sugar for {sum_}")
        assert isinstance(done.exception, InputError)
        assert str(done.exception).startswith("paid: '-3' is not a number of zero or more")
    assert not bodies(place, "bought")


@pytest.mark.parametrize(
    "text",
    [
        "picked\n- 3 lb plums\n- 2 eggs",
        "picked\n-3 lb plums\n-2 eggs",
        "picked plums - 3 lb, 2 eggs",
    ],
)
def test_a_dash_of_a_list_is_no_minus(run, place, text):
    assert run("say", text).exit_code == 0
    amounts = [line["amount"] for one in bodies(place, "harvested") for line in one["lines"]]
    assert amounts == ["3 lb", "2"]


def test_a_dash_between_two_numbers_is_a_range(run, place):
    for text in ("picked 2-3 lb plums", "picked 2 - 3 lb plums", "picked 2 -3 lb plums"):
        assert "2 lb or 3 lb of plum?" in run("say", text).output


def test_words_need_no_quotes(run, place):
    assert run("say", "picked", "3", "lb", "plums").exit_code == 0
    assert len(bodies(place, "harvested")) == 1


def test_dry_run_writes_nothing_and_never_fails(run, place):
    for text in ("picked 3 lb plums", "", "?", "- 3 lb", "zorblatt", "\\ud800"):
        done = run("say", text, "--dry-run", "--json")
        assert done.exit_code == 0, (text, done.output)
        assert set(json.loads(done.stdout)) == {"entries", "questions", "left_over"}
    assert run("history").exit_code != 0 or "plum" not in run("history").output


def test_standard_input_is_read_line_by_line(place):
    words = ["say", "--dry-run", "--json", "--book", place]
    done = CliRunner().invoke(root, words, input="picked 3 lb plums\nate 2 eggs\n")
    assert [one["kind"] for one in json.loads(done.stdout)["entries"]] == ["harvested", "eaten"]


def test_a_doubt_off_a_terminal_is_refused_with_what_is_missing(run, place):
    done = run("say", "31 lb plums")
    assert isinstance(done.exception, Exception)
    assert "picked?" in str(done.exception)
    assert "31 lb plum" in done.output
    assert not bodies(place, "harvested")


def test_yes_takes_what_is_offered_but_makes_no_item_of_leftover_words(run, place):
    assert run("say", "31 lb plums lovely", "--yes").exit_code == 0
    (body,) = bodies(place, "harvested")
    assert body["lines"][0]["item"] == "plum"
    assert body["note"] == "lovely"
    assert run("say", "picked 3 lb fox took", "--yes").exit_code != 0
    assert len(bodies(place, "harvested")) == 1


def test_several_entries_are_written_all_or_none(run, place):
    done = run("say", "picked 3 lb plums; ate 2 zorblatt of eggs")
    assert done.exit_code != 0
    assert not bodies(place, "harvested")


def test_at_a_terminal_it_asks_and_enter_takes_what_is_likely(run, place, at_terminal):
    done = run("say", "31 lb plums", keys="\n")
    assert done.exit_code == 0, done.output
    assert len(bodies(place, "harvested")) == 1


def test_enter_never_takes_a_typo(run, place, at_terminal):
    run("say", "picked 3 lb plums")
    assert run("say", "picked 4 lb zorblatt", keys="\n\n\n").exit_code != 0
    assert len(bodies(place, "harvested")) == 1
    done = run("say", "picked 4 lb plumz", keys="\n")  # the known name is what Enter takes
    assert done.exit_code == 0, done.output
    assert [body["lines"][0]["item"] for body in bodies(place, "harvested")] == ["plum", "plum"]


def test_a_slip_is_asked_once(run, place):
    run("say", "picked 3 lb plums")
    assert run("say", "picked 4 lb plumz").exit_code != 0
    assert run("say", "picked 4 lb plumz", "--yes").exit_code == 0
    assert run("say", "picked 5 lb plumz").exit_code == 0


def test_a_repeat_within_the_day_is_asked(run, place):
    run("say", "picked 3 lb plums")
    again = run("say", "picked 3 lb plums")
    assert "already" in str(again.exception)
    assert run("say", "picked 3 lb plums yesterday").exit_code == 0


def test_an_open_question_waits_and_its_answer_mends_the_entry(run, place):
    assert run("say", "bought 10 lb sugar at the mill").exit_code == 0
    assert "What did 10 lb sugar cost" in run("questions").output
    assert run("answer", "1", "7.90").exit_code == 0
    (body,) = bodies(place, "bought")
    assert body["lines"][0]["paid"] == "7.90"
    assert "No question is open" in run("questions").output


def test_what_a_bucket_weighs_is_asked_once_for_all(run, place):
    run("say", "picked a bucket of apples")
    run("say", "picked 2 buckets of apples yesterday")
    assert run("questions").output.count("bucket") == 1
    assert run("answer", "1", "20", "lb").exit_code == 0
    with Book.open(place) as book:
        assert book.catalogue().facts("apple").g_per["bucket"] == "9071.847"
        assert book.show("shelf", items=True).frame["item"].tolist() == ["apple"]


def test_nobody_knows_is_an_answer(run, place):
    run("say", "bought 10 lb sugar")
    run("answer", "1", "-")
    assert "No question is open" in run("questions").output


def test_what_went_in_is_answered_in_the_same_words(run, place):
    run("say", "put up 7 pints of applesauce in boiling water, 20 minutes")
    run("answer", "1", "12 lb apples and 1 lb sugar")
    (body,) = bodies(place, "put_up")
    assert [(one["item"], one["amount"]) for one in body["used"]] == [
        ("apple", "12 lb"),
        ("sugar", "1 lb"),
    ]


def test_undo_takes_back_the_last_entry_and_then_the_one_before(run, place):
    run("say", "picked 3 lb plums")
    run("say", "picked 4 lb apples")
    assert run("undo").exit_code == 0
    assert [body["lines"][0]["item"] for body in bodies(place, "harvested")] == ["plum"]
    assert run("undo").exit_code == 0
    assert not bodies(place, "harvested")
    assert run("undo").exit_code != 0


def test_undo_says_what_was_written_together_and_stands_still(run):
    run("say", "picked 3 lb plums; ate 2 lb plums; bought 5 lb sugar for 3.40", "--yes")
    stands = [run("undo").stderr for _ in range(3)]
    assert "2 entries that were written together with it stand still" in stands[0]
    assert "1 entry that was written together" in stands[1]
    assert "together" not in stands[2]


def test_undo_of_a_correction_brings_back_what_stood_before(run, place):
    run("say", "bought 10 lb sugar")
    run("answer", "1", "7.90")
    run("undo")
    (body,) = bodies(place, "bought")
    assert "paid" not in body["lines"][0]
    run("undo")
    assert not bodies(place, "bought")


def test_undo_of_a_correction_strikes_again_what_was_struck_before_it(run, place):
    run("meal", "--ate", "99 qt milk")
    with Book.open(place) as book:
        first = next(row.id for row in book.history() if row.kind == "eaten")
    run("strike", first, "--why", "written twice")
    run("meal", "--ate", "9 qt milk", "--replaces", first)
    run("meal", "--ate", "8 qt milk", "--replaces", first)
    said = [body["ate"][0]["amount"] for body in bodies(place, "eaten")]
    assert run("undo").exit_code == 0
    assert said + [body["ate"][0]["amount"] for body in bodies(place, "eaten")] == ["8 qt", "9 qt"]
    assert run("undo").exit_code == 0
    assert not bodies(place, "eaten")
    assert run("undo").exit_code != 0


def test_two_names_for_one_thing(run, place):
    run("say", "picked 3 lb plums")
    assert run("same", "plum", "damson").exit_code == 0
    run("say", "picked 2 lb plums yesterday")
    assert [body["lines"][0]["item"] for body in bodies(place, "harvested")] == ["plum", "damson"]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("asdf", "Say it in other words; nothing was written"),
        ("picked 3 lb plums, wobbly asdf", "Say it in other words, or put it into the note with --yes"),
        ("ate bread", "Put that into the sentence; nothing was written"),
    ],
)  # fmt: skip
def test_a_refusal_says_what_helps(run, place, text, wanted):
    done = run("say", text)
    assert isinstance(done.exception, InputError)
    assert wanted in str(done.exception)


@pytest.mark.parametrize(
    ("answer", "made"),
    [
        ("7 quarts", [("7", "quart jar")]),
        ("7 quarts and 2 pint jars", [("7", "quart jar"), ("2", "pint jar")]),
    ],
)
def test_the_jars_of_what_was_canned_by_weight_are_asked(place, run, answer, made):
    text = "canned 14 lb carrots in the pressure canner"
    refused = run("say", text)
    assert refused.exit_code != 0
    assert "How many jars of carrot" in str(refused.exception)
    with Book.open(place) as book:
        settled = Settled({("jars-of", "carrot", 0): answer})
        (entry,) = read(text, Known(book.catalogue(), TODAY, book.log), settled=settled).entries
    assert [(str(one["jars"]), one["jar"]) for one in entry.body["made"]] == made
    assert entry.body["used"] == [{"item": "carrot", "amount": "14 lb"}]


@pytest.mark.parametrize(
    "text",
    [
        "made garlic in olive oil, 2 half-pint jars, in the fridge",
        "Knoblauch in Öl eingelegt, 2 Halblitergläser, im Kühlschrank",
    ],
)
def test_garlic_under_oil_is_cautioned_of_and_marked(run, place, text):
    done = run("say", text)
    assert done.exit_code == 0, done.output
    assert "moist food under oil or fat" in done.output
    assert "look it up before it is eaten" in run("show", "shelf").output


@pytest.mark.parametrize("text", ["garlic, fried in olive oil", "in Öl gebraten", "with olive oil"])
def test_what_was_fried_in_oil_does_not_stand_in_it(text):
    assert not oil_named(text)


@pytest.mark.parametrize("text", ["in oil", "in olive oil", "under oil", "in Öl", "unter Olivenöl"])
def test_what_stands_in_oil_is_heard(text):
    assert oil_named(text)


@pytest.mark.parametrize(
    "text",
    ["fed the baby 1 tbsp honey", "gave the baby 1 tbsp honey", "dem Baby 1 EL Honig gefüttert"],
)
def test_honey_for_a_baby_brings_its_caution(run, text):
    assert "never for a child under one year" in run("say", text, "--yes").output


def test_honey_for_others_brings_none(run):
    assert "under one year" not in run("say", "fed the guests 1 tbsp honey", "--yes").output


@pytest.mark.parametrize(
    "said", ["the freezer was off for 2 days", "power was out 30 hours", "Strom war 30 Stunden weg"]
)
def test_a_power_cut_names_the_question_to_ask(run, said):
    done = run("say", said)
    assert done.exit_code != 0
    assert "croftbook show as-published --freezer-off" in str(done.exception) + done.output
    assert run("show", "as-published", "--freezer-off", "30 Stunden").exit_code == 0
