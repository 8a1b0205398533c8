"""The form of a batch: filled from a recipe, and what stands beside it."""

from __future__ import annotations

import json

import pytest
from page_tools import text_of, walk

from dashboard.ask import Ask
from dashboard.data import Data
from dashboard.forms.batch import beside_batch
from dashboard.forms.boxes import box_id
from dashboard.forms.reading import Typed
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
    assert order.index("rows-made") < order.index("batch-takes") < order.index("form-other")


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


@pytest.fixture
def canner(book, yes):
    book.write("setting_changed", {"name": "altitude", "value": "2600 ft"})
    book.write("setting_changed", {"name": "gauge", "value": "dial"})
    return Ask(Data(book), Words("en", "us", "USD"), path="/write")


def beside(ask, **said):
    boxes = {(name, 0): text for name, text in said.items()}
    return beside_batch(ask, Typed("put_up", boxes=boxes), costs=False)


BEANS = {"makes": "green beans", "used": "14 lb green beans", "made": "7 quart jars"}


def test_published_stands_beside_what_was_done_and_only_a_tap_fills_it_in(canner, page):
    """Snap beans, raw, quarts, dial gauge, 2,001 to 4,000 ft: 25 minutes at 12 psi (USDA Complete Guide, guide 4)."""
    now = beside(canner, method="pressure", **BEANS)
    assert (now.printed.values["minutes"], now.printed.values["psi"]) == ("25", "12")
    assert now.danger == []
    (tap,) = now.printed.just
    said = {field: text for field, _row, text in json.loads(getattr(tap, "data-just"))}
    assert said["minutes"] == "25"
    assert said["psi"] == "12"
    assert said["method"] == "pressure"
    drawn = page("/write", "?kind=put_up")
    assert not {("minutes", 0), ("psi", 0), ("headspace", 0), ("acid", 0)} & set(boxes(drawn))


def test_in_danger_the_remedy_is_a_tap_and_nothing_is_just_so(canner):
    now = beside(canner, method="boiling water", **BEANS)
    assert len(now.danger) == 1
    assert now.printed.just == []
    assert now.printed.values["method"] == "pressure only"
    taps = [
        json.loads(getattr(one, "data-just"))
        for one in walk(now.danger)
        if hasattr(one, "data-just")
    ]
    assert taps == [[["method", 0, "pressure"]], [["made", 0, "7 quart jars fridge"]]]
    assert (
        beside(canner, method="boiling water", **{**BEANS, "made": "7 quart jars fridge"}).danger
        == []
    )


def test_of_two_whole_processes_the_one_that_was_done_is_shown(canner):
    """Tomato sauce prints 20 minutes at 7 psi and 15 at 12 (FCS8186, table 2): never one's time with the other's pressure."""
    sauce = {"makes": "tomato sauce", "made": "7 quart jars", "method": "pressure", "pack": "hot"}
    for minutes, psi in (("20", "7"), ("15", "12")):
        values = beside(canner, minutes=minutes, psi=psi, **sauce).printed.values
        assert (values["minutes"], values["psi"]) == (minutes, psi)
        assert values["acid"] == (
            "2 tbsp bottled lemon juice or ½ tsp citric acid or 4 tbsp vinegar of 5%"
        )


def test_each_step_says_what_stands_in_it(canner):
    heads = beside(canner, method="pressure", **BEANS).heads
    said = {name: text_of(part) for name, part in heads.items()}
    assert "Green beans" in said["what"]
    assert "7 quarts" in said["out"]
    assert said["done"] == "In the pressure canner"


def test_below_a_danger_no_process_of_what_did_not_go_in(canner):
    """A recipe's tomato sauce with beans in it: the sauce's minutes are no beans' minutes."""
    beans = {"makes": "tomato sauce", "used": "14 lb green beans", "made": "7 quart jars"}
    now = beside(canner, method="boiling water", **beans)
    assert len(now.danger) == 1
    assert now.printed.just == []
    assert now.printed.values == {}


def test_a_plain_food_is_given_no_figures_of_its_pickle(canner):
    from dashboard.forms.process import printed

    body = {"makes": "zucchini", "method": "boiling water"}
    plain = printed(canner, body, "2026-09-03")
    assert not plain.values
    assert "Published only as" in " ".join(text_of(one) for one in plain.note)
    assert printed(canner, {**body, "makes": "pickled zucchini"}, "2026-09-03").values["minutes"]
