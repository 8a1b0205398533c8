"""Sums of another currency than the book's, as they are said: asked in the words of the door."""

from __future__ import annotations

import pytest

from ledger import InputError
from ledger.door.answers import Answers
from ledger.door.texts import Texts
from ledger.saying.answering import answer
from ledger.saying.known import Known
from ledger.saying.reading import read
from ledger.saying.settled import Settled
from ledger.saying.waiting import waiting


@pytest.fixture
def hear(book):
    """Read a text, with the answers to its sums of another currency."""

    def call(text, *answers):
        settled, known = Settled(), Known(book.catalogue(), book.today(), book.log)
        reading = read(text, known, settled=settled)
        for one in answers:
            (question,) = [q for q in reading.questions if q.code == "currency"]
            settled.answers[question.key] = one
            reading = read(text, known, settled=settled)
        return reading, [q for q in reading.questions if q.code == "currency"]

    return call


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("bought 5 lb sugar for 8,99 €", "8,99 €"),
        ("bought 5 lb sugar for €8.99", "€8.99"),
        ("bought 5 lb sugar for five euros", "five euros"),
        ("sold 3 lb honey for 5 EUR", "5 EUR"),
        ("saw flour for 1.20 €/kg at the mill", "1.20 €"),
        ("received 3 lb honey worth 50 pence", "50 pence"),
        ("3 kg Zucker gekauft für 4 Franken", "4 Franken"),
    ],
)
def test_a_sum_of_another_currency_is_asked_in_the_door_s_words(book, hear, text, said):
    reading, (asked,) = hear(text)
    with pytest.raises(InputError) as refused:
        Texts(book.catalogue()).number(said, "money", "")
    assert asked.text == f"{text}: {refused.value}."
    assert reading.blocks
    assert not asked.waits


@pytest.mark.parametrize("said", ["$8.99", "8.99 USD", "8.99 dollars", "8.99", "899 cents"])
def test_a_sum_of_the_book_s_currency_is_taken(hear, said):
    reading, asked = hear(f"bought 5 lb sugar for {said}")
    assert (reading.entries[0].body["lines"][0]["paid"], asked) == ("8.99", [])


def test_the_answer_stands_in_place_of_the_sum(hear):
    reading, asked = hear("bought 5 lb sugar for 8,99 € and 2 lb salt for 3 €", "9.80", "$3.25")
    assert [one["paid"] for one in reading.entries[0].body["lines"]] == ["9.80", "3.25"]
    assert not asked


def test_an_answer_in_the_other_currency_is_none(hear):
    _, asked = hear("bought 5 lb sugar for 8,99 €", "9 €")
    assert len(asked) == 1


def test_a_receipt_names_the_line(hear):
    text = "Corner Mill\nSUGAR 5 LB 3,49 €\nSALT 1 LB 1,29 €\nTOTAL EUR 4,78"
    reading, (asked,) = hear(text)
    assert asked.text.startswith("SUGAR 5 LB 3,49 €: ")
    assert reading.blocks
    reading, asked = hear(text, "3.80", "1.40", "5.20")
    assert not asked
    assert [one["paid"] for one in reading.entries[0].body["lines"]] == ["3.80", "1.40"]
    assert reading.entries[0].body["receipt_total"] == "5.20"


def test_an_answer_about_a_price_is_held_to_the_currency_too(book, hear):
    spoken = Answers(yes=True)
    spoken.spoken = True
    book.write("bought", {"lines": [{"item": "sugar", "amount": "5 lb"}]}, answers=spoken)
    known = Known(book.catalogue(), book.today(), book.log)
    (one,) = [one for one in waiting(known) if one.code == "price"]
    with pytest.raises(InputError, match="is not in USD"):
        answer(one, "8,99 €", known)
    text, settled = "bought 5 lb salt and 2 lb rice for 9", Settled()
    share = next(q for q in read(text, known, settled=settled).questions if q.code == "share")
    settled.answers[share.key] = "4 and 5 €"
    again = next(q for q in read(text, known, settled=settled).questions if q.code == "share")
    assert "is not in USD" in again.text
