"""The form of a batch: filled from a recipe, and what stands beside it."""

from __future__ import annotations

import pytest

from dashboard.ask import Ask
from dashboard.data import Data
from dashboard.forms.boxes import box_id
from dashboard.forms.understanding import understood
from dashboard.words import Words


@pytest.fixture
def kitchen(book, yes):
    uses = [{"item": "plum", "amount": "16 lb"}, {"item": "sugar", "amount": "3 lb"}]
    recipe = {"recipe": "plum butter", "makes": "plum butter", "uses": uses}
    recipe |= {"yields": "11 half-pint jars", "method": "boiling water"}
    book.write("recipe_written", recipe, on="2026-09-01", answers=yes)
    return book


def boxes(drawn):
    """Return what stands in the boxes by field and row."""
    return {
        (one.id["field"], one.id["row"]): one.value
        for kind in ("Box", "Choice")
        for one in drawn.all(kind)
        if isinstance(getattr(one, "id", None), dict) and getattr(one, "value", None)
    }


def test_a_recipe_is_one_tap_away(kitchen, page):
    links = [one.href for one in page("/write", "?kind=put_up").all("Link")]
    assert any("recipe=plum+butter" in href for href in links)


@pytest.mark.parametrize(
    ("times", "plums", "jars"),
    [("", "16 lb plum", "11 half-pint jars"), ("2", "32 lb plum", "22 half-pint jars")],
)
def test_a_recipe_fills_the_boxes(kitchen, page, times, plums, jars):
    filled = boxes(page("/write", f"?kind=put_up&recipe=plum+butter&times={times}"))
    assert filled["used", 0] == plums
    assert filled["used", 1].endswith("lb sugar")
    assert filled["made", 0] == jars
    assert filled["makes", 0] == "plum butter"
    assert filled["method", 0] == "boiling water"


@pytest.mark.parametrize("search", ["recipe=none+such", "recipe=plum+butter&times=lots"])
def test_a_recipe_that_is_not_there_leaves_a_form(kitchen, page, search):
    drawn = page("/write", f"?kind=put_up&{search}")
    assert ("used", 0) in boxes(drawn) or "none" in search


def test_typing_a_recipe_offers_to_fill_the_form(kitchen):
    ask = Ask(Data(kitchen), Words("en", "us", "USD"), path="/write")
    (link,) = understood(ask, "put_up", "plum butter", box_id("recipe", 0))
    assert link.href == "/write?kind=put_up&recipe=plum+butter"
    assert understood(ask, "put_up", "plum", box_id("recipe", 0)) == []


def test_what_it_takes_stands_right_below_what_came_out(kitchen, page):
    drawn = page("/write", "?kind=put_up")
    order = [getattr(one, "id", None) for one in drawn.all("Div")]
    assert order.index("batch-side") < order.index("form-other")


@pytest.mark.parametrize(
    ("days", "when"), [(0, "today"), (1, "yesterday"), (2, "other")], ids=["0", "1", "2"]
)
def test_an_entry_of_today_is_corrected_as_of_today(book, page, fixed_day, days, when):
    import datetime as dt

    on = (book.today() - dt.timedelta(days=days)).isoformat()
    line = {"item": "plum", "amount": "3 lb"}
    written = book.write("harvested", {"lines": [line]}, on=on)
    drawn = page("/write", f"?kind=harvested&replaces={written.event.id}")
    (control,) = drawn.of("OneOf", id="form-when")
    assert control.value == when
