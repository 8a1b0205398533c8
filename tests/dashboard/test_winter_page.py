"""The winter's page: every question is offered and drawn, and its figures open."""

from __future__ import annotations

import re
import shutil

import pytest
from page_tools import Drawn, text_of

from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.pages.winter import ASKED, ONE_PAGE
from dashboard.parts.saying import days_said
from ledger import Book
from ledger.projections import PROJECTIONS


def test_every_question_of_the_winter_is_offered():
    assert len({one.name for one in ASKED}) == len(ASKED)
    for one in ASKED:
        known = {option.name for option in PROJECTIONS[one.question].options}
        assert set(one.options) <= known


@pytest.mark.parametrize("asked", ASKED, ids=lambda one: one.name)
def test_question_is_drawn_and_its_figures_open(demo, asked, fixed_day):
    drawn = Drawn(ask_of(demo, "/winter", f"?asks={asked.name}"))
    answer = drawn.ask.show(asked.question, **asked.options)
    for text in answer.totals.get("in_words", ())[:1]:
        assert days_said(drawn.ask, text.split("`")[0])[:28] in drawn.text
    assert [one for one in drawn.all("P") if one.className == "answer"]
    opened = {}
    for text, address, field in drawn.figures():
        opened.setdefault(field, (text, address))
    for field, (_, address) in list(opened.items())[:4]:
        node = drawn.ask.data.why(address, field, drawn.ask.moment)
        assert node.label
    assert len(answer.frame) == 0 or drawn.all("Table")


def test_one_page_is_a_sheet_for_the_cellar_door(demo, fixed_day):
    drawn = Drawn(ask_of(demo, "/winter", f"?asks={ONE_PAGE}"))
    for words in ("In jars", "Eat first", "Without the shop", "doctor's matter", "To do"):
        assert words in drawn.text
    assert drawn.drawing("winter-leaf").labels
    assert not drawn.all("Table")


@pytest.mark.parametrize(
    "asked", ["to_add", "losses", "freezer", "hens", "first_year", "whole_year"]
)
def test_a_metric_book_hears_of_no_pounds(demo_file, tmp_path, asked, fixed_day):
    path = tmp_path / "book.sqlite"
    shutil.copy(demo_file, path)
    with Book.open(path) as book:
        book.write("setting_changed", name="measures", value="metric")
        text = Drawn(ask_of(Data(book), "/winter", f"?asks={asked}")).text.split(
            "What these figures rest on"
        )[0]
    assert not re.search(r"\d (lb|oz|qt|ft|sq ft|quarts)\b", text)
    assert re.search(r"\d (kg|g|l|m²)\b", text)


def test_an_unknown_question_shows_the_first(demo, fixed_day):
    drawn = Drawn(ask_of(demo, "/winter", "?asks=summer"))
    assert "of calcium" in drawn.text or "in the house" in drawn.text


def test_an_empty_book_says_what_will_be_here(page, fixed_day):
    assert "The book is empty" in text_of(page("/winter").parts)
