"""Food of little acid in boiling water: the caution stands first on the page and beside the form."""

from __future__ import annotations

import pytest
from page_tools import text_of

from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page
from dashboard.forms.batch import beside_batch
from dashboard.forms.low_acid import caution_cards
from dashboard.forms.reading import Typed
from ledger import Answers


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


def test_a_page_has_a_card_for_each_remedy_and_its_documents_fold(data):
    for makes in ("green beans", "canned tomato", "figs", "confit garlic"):
        used = [{"item": makes, "amount": "12 lb"}]
        if makes == "confit garlic":
            used = [{"item": "garlic", "amount": "2 lb"}, {"item": "olive oil", "amount": "4 cup"}]
        batch = {
            "makes": makes, "method": "cook" if "confit" in makes else "boiling water",
            "used": used, "made": [{"jars": 4, "jar": "quart jar", "kept": "shelf"}],
        }  # fmt: skip
        data.book.write("put_up", batch, on=str(data.today()), answers=Answers(yes=True))
    ask = ask_of(data, "/as-published")
    cautions = [one.text for one in ask.show("as-published").cautions]
    cards = caution_cards(ask, cautions)
    said = [text_of(card) for card in cards]
    assert len(said) == len(cautions) == 3
    assert all(text.startswith("CAUTION: ") for text in said)
    for food in ("green bean", "fig", "garlic"):
        assert sum(food in text for text in said) == 1
    shared = caution_cards(ask, [cautions[0], cautions[0].replace("green beans", "corn")])
    assert len(shared) == 1
    assert text_of(shared[0]).count("within 2 hours") == 1
    assert all(food in text_of(shared[0]) for food in ("green beans", "corn"))
    assert all("Details" in {type(part).__name__ for part in card.children} for card in cards)
