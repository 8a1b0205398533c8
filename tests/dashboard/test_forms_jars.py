"""Forms and the box ask before jars that bear the fresh food's name are taken, as the command does."""

from __future__ import annotations

import pytest
from form_tools import UUID_A, boxes, send
from page_tools import text_of

from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.forms.doubts import doubt_shown
from dashboard.forms.happening import write_said
from dashboard.forms.writing import key_of
from ledger import Answers
from ledger.errors import DANGER, NeedsAnswer

YES = Answers(yes=True)


@pytest.fixture
def data(book, fixed_day):
    book.write("harvested", item="green bean", amount="14 lb", on="2026-09-01", answers=YES)
    batch = {
        "makes": "green bean",
        "used": [{"amount": "14 lb", "item": "green bean"}],
        "made": [{"jar": "quart jar", "jars": 4}],
        "method": "boiling water",
        "minutes": 30,
    }
    book.write("put_up", batch, on="2026-09-02", answers=YES)
    return Data(book)


@pytest.mark.parametrize("language", ["en", "de"])
def test_form_of_a_count_asks_before_marked_jars_are_gone(data, language):
    data.book.write("setting_changed", name="language", value=language, on="2026-01-01")
    said = boxes(lines="2 lb green bean")
    doubt = send(data, "counted", said).doubt
    assert doubt.code == DANGER
    shown = text_of(doubt_shown(ask_of(data, "/write"), doubt))
    assert ("do not taste, discard" if language == "en" else "nicht kosten, wegwerfen") in shown
    assert send(data, "counted", said, accepted=[key_of(doubt)]).written is not None


def test_box_asks_before_marked_jars_are_gone(data):
    doubt = write_said(data, "counted 2 lb green bean", [], UUID_A)
    assert isinstance(doubt, NeedsAnswer)
    assert doubt.code == DANGER


def test_form_of_a_meal_asks_whether_a_quart_is_a_jar(data):
    said = boxes(ate="1 quart green bean", people="4")
    doubt = send(data, "eaten", said).doubt
    assert doubt.code == "quart-or-jar"
    then = send(data, "eaten", said, accepted=[key_of(doubt)]).doubt
    assert then.code == DANGER
    written = send(data, "eaten", said, accepted=[key_of(doubt), key_of(then)]).written
    assert written.body["ate"][0]["amount"] == "1 quart jar"
