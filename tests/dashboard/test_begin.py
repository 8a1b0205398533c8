"""A new book's questions: written whole or not at all, a list read as counts, and when a book is new no more."""

from __future__ import annotations

import uuid

import pytest

from dashboard.ask import Ask, words_of
from dashboard.data import Data
from dashboard.forms.happened import AS
from dashboard.forms.happening import write_said
from dashboard.forms.household import household_form, write_household
from dashboard.pages.begin import first_answer, is_new
from dashboard.parts.drawings import text_of
from dashboard.words import Words
from ledger import Answers, Book
from ledger.errors import InputError

ID = "0190b1a2-0000-4000-8000-000000000001"
LIST = "12 quart jars tomato sauce\n25 lb flour, 10 lb sugar\n3 dozen eggs"
COUNTS = [[AS, "", 0, "counted"]]


@pytest.fixture
def data(tmp_path):
    with Book.open(tmp_path / "book.sqlite") as book:
        yield Data(book)


def ask(data):
    return Ask(data, words_of(data))


@pytest.mark.parametrize(("language", "marked"), [("de", {"de", "metric"}), ("en", {"en", "us"})])
def test_the_form_marks_what_is_usual_where_the_language_is_spoken(data, language, marked):
    form = household_form(Ask(data, Words(language)))
    pressed = [
        one.to_plotly_json()["props"]["data-text"]
        for one in form._traverse()
        if getattr(one, "aria-pressed", None) == "true"
    ]
    assert set(pressed) == marked


def test_what_was_said_is_written_once_and_a_height_takes_the_unit_of_the_measures(data):
    said = {"language": "en", "people": "5", "measures": "metric", "altitude": "800", "gauge": None}
    assert len(write_household(data, said, ID)) == 3  # English holds already
    assert write_household(data, said, ID) == []
    catalogue = data.book.catalogue()
    held = [catalogue.setting(one) for one in ("people", "measures", "altitude", "gauge")]
    assert held == ["5", "metric", "800 m", None]


def test_one_wrong_answer_leaves_nothing_half_written(data):
    said = {"people": "5", "altitude": "up the hill"}
    with pytest.raises(InputError) as refused:
        write_household(data, said, ID)
    assert refused.value.field == "altitude"
    assert data.position() == 0


@pytest.mark.parametrize(
    ("text", "many"), [(LIST, 4), ("there are 2 lb salt", 1), ("flour 5 lb\nrice 4 lb", 2)]
)
def test_a_list_without_a_verb_is_a_count(data, text, many):
    done = write_said(data, text, COUNTS, str(uuid.uuid4()))
    (count,) = (one for one in done if one.event.kind == "counted")
    assert len(count.body["lines"]) == many
    assert not [one for one in done if one.event.kind not in ("counted", "item_described")]


def test_a_verb_in_the_list_holds(data):
    done = write_said(data, "bought 5 lb flour for 4.20", COUNTS, str(uuid.uuid4()))
    assert [one.event.kind for one in done if one.event.kind != "item_described"] == ["bought"]


def test_a_book_is_new_until_something_happened_and_young_for_a_while(data):
    assert is_new(ask(data))
    write_said(data, LIST, COUNTS, str(uuid.uuid4()))
    assert is_new(ask(data))
    yes = Answers(yes=True)
    data.book.write("harvested", item="plum", amount="31 lb", answers=yes)
    assert not is_new(ask(data))
    assert "31 lb in the house" in text_of(first_answer(ask(data)))
    for n in range(3):
        data.book.write("received", item="sugar", amount=f"{n + 1} lb", how="gift", answers=yes)
    assert first_answer(ask(data)) is None


@pytest.mark.parametrize(
    ("kind", "said"),
    [("received", {"how": "gift"}), ("counted", {}), ("discarded", {"why": "spoiled"})],
)
def test_any_first_entry_has_an_answer(data, kind, said):
    yes = Answers(yes=True)
    data.book.write("received", item="flour", amount="25 lb", how="gift", answers=yes)
    data.book.write(kind, item="flour", amount="5 lb", answers=yes, **said)
    assert "lour" in text_of(first_answer(ask(data)))


def test_settings_of_money_carry_the_currency(page, book, yes):
    for name, value in (
        ("currency", "USD"),
        ("labour_rate", "6.00"),
        ("price_of_gas", "1.395 per therm"),
    ):
        book.write("setting_changed", name=name, value=value, on="2026-01-01", answers=yes)
    text = page("/settings").text
    assert "$6.00 an hour" in text
    assert "$1.395 per therm" in text
