"""The note on what was written: danger first, what it is in a line, what was taken as known folded, in the book's measures."""

from __future__ import annotations

import uuid

import pytest
from page_tools import text_of, walk

from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.forms.callbacks import outcome_shown
from dashboard.forms.happened import written_shown
from dashboard.forms.happening import reading_of, write_said
from dashboard.forms.reading import Typed
from dashboard.forms.writing import write_form

SHORT = "put up 9 pints apple sauce from 20 lb apples, boiling water 5 minutes, hot pack"
OPEN = "put up 9 pints apple sauce from 20 lb apples, boiling water"


def say(book, text):
    data = Data(book)
    asked = reading_of(data, text, []).questions
    settling = [[*one.key, one.options[0]] for one in asked if not one.waits]
    done = write_said(data, text, settling, str(uuid.uuid4()))
    return written_shown(ask_of(data, "/write"), done)


def folded(card):
    (details,) = [one for one in walk(card) if one._type == "Details"]
    return text_of(details)


@pytest.mark.parametrize(
    ("measures", "weighs"), [("us", "one weighs 10 oz"), ("metric", "one weighs 284 g")]
)
def test_what_was_taken_as_known_folds_and_speaks_the_book_s_measures(
    book, fixed_day, measures, weighs
):
    book.write("setting_changed", name="measures", value=measures, on="2026-01-01")
    card = say(book, "picked 3 lb potatoes")
    assert weighs in folded(card)
    assert folded(card).startswith("1 thing was taken as known")
    assert "picked 3 lb potato" in text_of(card)


def test_german_says_the_weight_in_the_book_s_measures(book, fixed_day):
    book.write("setting_changed", name="language", value="de", on="2026-01-01")
    book.write("setting_changed", name="measures", value="metric", on="2026-01-01")
    card = say(book, "3 kg Kartoffeln geerntet")
    assert "eines wiegt 284 g" in folded(card)
    assert folded(card).startswith("1 Annahme dazu")


@pytest.mark.parametrize(("text", "kind"), [(SHORT, "marked"), (OPEN, "marked open")])
def test_the_mark_stands_first_red_only_where_it_is_grave(book, fixed_day, text, kind):
    first, *_ = say(book, text).children
    assert first.className == kind
    assert text_of(first).startswith("These jars are marked: ")


def test_the_form_s_note_is_the_same(book, fixed_day):
    book.write("harvested", item="apple", amount="30 lb", on="2026-10-10")
    data = Data(book)
    boxes = {("makes", 0): "applesauce", ("method", 0): "boiling water", ("minutes", 0): "5",
             ("pack", 0): "hot", ("used", 0): "20 lb apple", ("made", 0): "9 pint jars"}  # fmt: skip
    ask = ask_of(data, "/write")
    typed = Typed("put_up", day="today", boxes=boxes)
    accepted: list[str] = []
    outcome = write_form(data, ask.words, typed, accepted)
    assert outcome.written is not None, (outcome.doubt, outcome.errors, outcome.trouble)
    first, *_ = outcome_shown(ask, outcome).children
    assert first.className == "marked"


def test_many_entries_are_told_in_few_lines(book, fixed_day):
    card = say(
        book,
        "picked 2 lb plums; ate 1 lb plums; picked 3 lb apples; ate 1 lb apples; picked 2 dozen eggs",
    )
    said = [one for one in walk(card) if getattr(one, "className", "") == "said-so"]
    assert len(said) == 2
    assert "and 3 more" in text_of(card)
