"""The winter's page: every question is offered and drawn, and its figures open."""

from __future__ import annotations

import pytest
from page_tools import Drawn, text_of

from dashboard.drawing import ask_of
from dashboard.pages.winter import ASKED, ONE_PAGE
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
        assert text.split("`")[0][:40] in drawn.text
    opened = {}
    for text, address, field in drawn.figures():
        opened.setdefault(field, (text, address))
    for field, (_, address) in list(opened.items())[:4]:
        node = drawn.ask.data.why(address, field, drawn.ask.moment)
        assert node.label
    assert len(answer.frame) == 0 or drawn.all("Table")


def test_one_page_tells_each_answer_in_words(demo, fixed_day):
    drawn = Drawn(ask_of(demo, "/winter", f"?asks={ONE_PAGE}"))
    for words in ("Short first", "Without the shop", "for the year from", "doctor's matter"):
        assert words in drawn.text
    assert not drawn.all("Table")


def test_an_unknown_question_shows_the_first(demo, fixed_day):
    drawn = Drawn(ask_of(demo, "/winter", "?asks=summer"))
    assert "Short first" in drawn.text


def test_an_empty_book_says_what_will_be_here(page, fixed_day):
    assert "The book is empty" in text_of(page("/winter").parts)
