"""What holds for any words at all."""

from __future__ import annotations

import datetime as dt
import json
from fractions import Fraction
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st
from saying.kitchen_said import TODAY, short

from ledger.saying.reading import read

HERE = Path(__file__).parent
WORDS = sorted(
    {
        word
        for name in ("said_en.txt", "said_de.txt")
        for line in (HERE / name).read_text("utf-8").splitlines()
        for word in line.split(" => ")[0].split()
    }
)
SALAD = st.lists(st.sampled_from([*WORDS, ",", ";", "\n", "(", ")", "-", "?"]), max_size=14).map(
    " ".join
)


def _holds(reading, text):
    said = json.loads(json.dumps(reading.as_json()))
    assert set(said) == {"entries", "questions", "left_over"}
    for one in said["entries"]:
        assert set(one) == {"kind", "on", "body"}
        assert dt.date.fromisoformat(one["on"]).isoformat() == one["on"]
        assert isinstance(one["body"].get("lines", []), list)
    for one in said["questions"]:
        assert set(one) == {"about", "text", "options", "waits"}
        assert one["text"]
        assert isinstance(one["waits"], bool)
    return said


@given(st.text(max_size=120))
@example("\x00")
@example("(" * 50)
@example("picked " * 40)
@settings(max_examples=150)
def test_any_text_is_read(known, text):
    _holds(read(text, known), text)


@given(SALAD)
@settings(max_examples=250)
def test_any_words_of_the_kitchen_are_read_and_none_is_lost(known, text):
    reading = read(text, known)
    _holds(reading, text)
    if {"Pflaumen", "plums", "eggs", "sugar"} & set(text.split()):
        assert reading.entries or reading.questions or reading.left_over


SENTENCES = [
    line.split(" => ")[0].replace("\\n", "\n")
    for name in ("said_en.txt", "said_de.txt")
    for line in (HERE / name).read_text("utf-8").splitlines()
    if " => " in line
]


@given(st.sampled_from(SENTENCES), st.integers(0, 20), st.sampled_from(["zorblatt", "Zorblatt"]))
@settings(max_examples=300)
def test_a_word_that_nothing_knows_is_never_dropped(known, sentence, place, word):
    words = sentence.split(" ")
    words.insert(min(place, len(words)), word)
    said = json.dumps(read(" ".join(words), known).as_json(), ensure_ascii=False)
    assert "zorblatt" in said.lower()


@given(SALAD)
@settings(max_examples=50)
def test_the_same_words_give_the_same_reading(known, text):
    assert read(text, known).as_json() == read(text, known).as_json()


AMOUNTS = st.tuples(
    st.fractions(min_value=Fraction(1, 8), max_value=500, max_denominator=8),
    st.sampled_from(["lb", "oz", "kg", "g"]),
)


def _said(value: Fraction) -> str:
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


@given(AMOUNTS, st.sampled_from(["plum", "carrot", "apple", "potato"]))
@settings(max_examples=120)
def test_an_amount_is_read_back(known, amount, item):
    value, unit = amount
    for text in (f"picked {_said(value)} {unit} {item}s", f"{item}s {_said(value)} {unit} picked"):
        (entry,) = read(text, known).entries
        (line,) = entry.body["lines"]
        many, _, measure = line["amount"].rpartition(" ")
        assert (sum(Fraction(part) for part in many.split()), measure) == (value, unit)


@given(st.dates(min_value=dt.date(2000, 1, 1), max_value=TODAY), st.integers(0, 5))
@settings(max_examples=120)
def test_a_day_is_read_back(known, day, way):
    ways = (
        day.isoformat(),
        f"{day:%B} {day.day}, {day.year}",
        f"{day.day} {day:%b} {day.year}",
        f"{day.month}/{day.day}/{day.year}",
        f"the {day.day}th of {day:%B} {day.year}",
        f"{day:%b} {day.day} {day.year}",
    )
    for text in (f"picked 3 lb plums on {ways[way]}", f"{ways[way]}: picked 3 lb plums"):
        (entry,) = read(text, known).entries
        assert entry.on == day.isoformat(), text


@given(st.permutations(["3 lb plums", "2 lb beans", "a dozen eggs", "4 heads of lettuce"]))
@settings(max_examples=24)
def test_the_order_of_lines_does_not_matter(known, parts):
    (entry,) = read("picked " + ", ".join(parts), known).entries
    found = {(line["item"], line["amount"]) for line in entry.body["lines"]}
    assert found == {("plum", "3 lb"), ("bean", "2 lb"), ("egg", "12"), ("lettuce", "4 head")}


def test_nothing_is_read_of_nothing(known):
    assert short(read("", known)) == "nothing"
    assert short(read(" \n\t ", known)) == "nothing"
