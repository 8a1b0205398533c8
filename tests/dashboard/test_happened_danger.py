"""What happened? A batch in danger stands red in its reading, as it is said and before the button, in both languages."""

from __future__ import annotations

import pytest
from page_tools import text_of, walk

from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.forms.batch import beside_batch
from dashboard.forms.happened import button_shown, dangers_of, reading_shown
from dashboard.forms.happening import reading_of
from dashboard.forms.reading import Typed
from ledger import Answers

YES = Answers(yes=True)
APPLESAUCE = "put up 9 pints apple sauce from 20 lb apples, boiling water 5 minutes, hot pack"


@pytest.fixture
def data(book, fixed_day):
    book.write("harvested", item="green bean", amount="30 lb", on="2026-10-10")
    return Data(book)


def shown(data, text, settling=()):
    return reading_shown(ask_of(data, "/write"), reading_of(data, text, settling))


def is_marked(data, text):
    ask, reading = ask_of(data, "/write"), reading_of(data, text, [])
    spans = walk(button_shown(ask, reading, dangers_of(ask, reading)))
    return [one.className for one in spans] == ["as-marked"]


@pytest.mark.parametrize(
    ("text", "makes"),
    [
        ("put up 7 quarts green beans, water bath 40 min", "green bean"),
        ("put up 5 pints pumpkin butter in boiling water, 20 minutes", "pumpkin butter"),
        ("canned 7 quarts green beans in boiling water", "green bean"),
    ],
)
def test_low_acid_food_is_red_and_first_in_the_form_s_own_words(data, text, makes):
    first, *others = shown(data, text)
    assert (first.className, first.role) == ("danger", "alert")
    assert text_of(first).startswith(f"CAUTION: {makes}: food of little acid")
    assert "within 2 hours" in text_of(first)
    boxes = {("makes", 0): makes, ("method", 0): "boiling water", ("made", 0): "7 quart jars"}
    (card,) = beside_batch(ask_of(data, "/write"), Typed("put_up", boxes=boxes)).danger
    said = [
        text_of([one for one in walk(each) if one._type in ("H2", "P")]) for each in (first, card)
    ]
    assert said[0] == said[1]
    folded = [one for one in walk(first) if one._type == "Details"]
    assert [text_of(one).startswith("Sources") for one in folded] == [True]
    assert others
    assert is_marked(data, text)


def test_it_needs_no_answer_to_what_is_asked(data):
    """What is asked of the words beside it keeps no danger back, and does not stand above it."""
    reading = reading_of(data, "put up 7 quarts green beans, water bath 40 min / 3 lb -", [])
    assert reading.blocks
    first, *_ = reading_shown(ask_of(data, "/write"), reading)
    assert first.className == "danger"


def test_a_batch_that_falls_short_is_red_with_the_words_its_jars_will_bear(data):
    first, *_ = shown(data, APPLESAUCE)
    assert first.className == "marked"
    assert text_of(first) == (
        "Written down so, its jars are marked: short of it, 1 Nov 2026: do not eat before it is settled."
    )
    assert is_marked(data, APPLESAUCE)


def test_what_stands_in_no_danger_is_read_calmly(data):
    for text in ("put up 7 quarts green beans, pressure canner 11 psi 25 minutes",
                 "froze 5 lb green beans", "picked 3 lb plums"):  # fmt: skip
        assert "danger" not in str(shown(data, text)), text
        assert "marked" not in str(shown(data, text)), text
        assert not is_marked(data, text)


def test_signs_of_spoilage_are_red_and_first_before_any_question(data):
    text = "ate a pint jar of plum jam, the lid was bulging"
    first, *others = shown(data, text)
    assert (first.className, first.role) == ("danger", "alert")
    assert "poison centre" in text_of(first)
    assert "Missouri" in text_of(first)
    assert others
    ask, reading = ask_of(data, "/write"), reading_of(data, text, [])
    assert button_shown(ask, reading, dangers_of(ask, reading)) == ["Write 1 thing down"]


def test_reading_writes_nothing(data):
    before = data.book.log.position()
    shown(data, APPLESAUCE)
    shown(data, "put up 7 quarts green beans, water bath 40 min")
    assert data.book.log.position() == before


def test_a_meal_of_jars_in_danger_bears_their_mark_as_it_is_said(data):
    body = {"makes": "canned green beans", "method": "boiling water", "minutes": "180",
            "used": [{"item": "green bean", "amount": "14 lb"}],
            "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}]}  # fmt: skip
    data.book.write("put_up", body, on="2026-10-12", answers=YES)
    said = text_of(shown(data, "ate a quart of canned green beans"))
    assert "! against every published process, 12 Oct 2026: do not taste, discard" in said


def test_it_is_said_in_german(book, fixed_day):
    book.write("setting_changed", name="language", value="de", on="2026-01-01")
    book.write("setting_changed", name="measures", value="metric", on="2026-01-01")
    data = Data(book)
    text = "7 Gläser Kürbismus eingekocht, Wasserbad 40 Minuten, aus 5 kg Kürbis"
    first, *_ = shown(data, text)
    assert first.className == "danger", text_of(shown(data, text))
    assert "wenig Säure" in text_of(first)
    ask, reading = ask_of(data, "/write"), reading_of(data, text, [])
    marked = text_of(button_shown(ask, reading, dangers_of(ask, reading)))
    assert marked == "Eintragen, mit „Nicht essen“ markiert"
