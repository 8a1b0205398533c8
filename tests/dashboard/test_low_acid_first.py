"""Food of little acid in boiling water: the caution stands first on the page and beside the form."""

from __future__ import annotations

import pytest
from page_tools import text_of

from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page
from dashboard.forms.batch import beside_batch
from dashboard.forms.reading import Typed


@pytest.fixture
def data(book, fixed_day):
    book.write("harvested", {"item": "plum", "amount": "1 lb"}, on="2026-09-01")
    return Data(book)


def page(data, search):
    return [text_of(part) for part in draw_page(ask_of(data, "/as-published", search))]


def test_question_is_answered_by_the_caution_above_everything(data):
    title, first, second, *_ = page(data, "?product=green+beans&method=boiling+water")
    assert title.startswith("As published")
    assert first.startswith("CAUTION: green beans: food of little acid.")
    assert second.startswith("This compares figures")


@pytest.mark.parametrize("search", ["?product=green+beans&method=pressure", "?method=boiling+water", ""])  # fmt: skip
def test_page_says_it_of_nothing_else(data, search):
    assert not any("CAUTION" in text for text in page(data, search))


def test_it_stands_beside_a_batch_whose_boxes_cannot_be_read_yet(data):
    boxes = {("makes", 0): "green beans", ("method", 0): "boiling water", ("used", 0): "14 lbs of"}
    (card,) = beside_batch(ask_of(data, "/write"), Typed("put_up", boxes=boxes)).danger
    assert text_of(card).startswith("CAUTION: green beans")
    assert "within 2 hours" in text_of(card)
    boxes[("method", 0)] = "pressure"
    assert beside_batch(ask_of(data, "/write"), Typed("put_up", boxes=boxes)).danger == []


def test_it_stands_beside_a_batch_whose_recipe_brings_the_method(data):
    uses = [{"item": "green beans", "amount": "14 lb"}]
    recipe = {"recipe": "beans", "makes": "canned green beans", "uses": uses, "method": "boiling water", "yields": "7 pint jars"}  # fmt: skip
    data.book.write("recipe_written", recipe, on="2026-09-01")
    typed = Typed("put_up", boxes={("makes", 0): "canned green beans", ("recipe", 0): "beans"})
    (card,) = beside_batch(ask_of(data, "/write"), typed).danger
    assert text_of(card).startswith("CAUTION: canned green beans")
