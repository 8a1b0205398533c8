"""A form asks before a jar in danger is opened, and offers to throw it out first; in both languages."""

from __future__ import annotations

import pytest
from danger_tools import BATCH, OPEN, SAID, YES, draw, send
from page_tools import text_of, walk

from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.forms.understanding import understood


@pytest.mark.parametrize(
    ("kind", "boxes"),
    [
        ("eaten", {("ate", 0): "1 quart jar canned green beans"}),
        ("given_away", {("lines", 0): "1 quart jar canned green beans", ("how", 0): "gift"}),
        ("put_up", {("makes", 0): "soup", ("method", 0): "cook", ("used", 0): "1 quart jar canned green beans",
                    ("made", 0): "2 qt freezer"}),
    ],
)  # fmt: skip
def test_form_asks_before_its_button_writes(kitchen, kind, boxes):
    data, language, batch = kitchen
    end = data.position()
    outcome, shown = send(data, kind, boxes)
    assert outcome.written is None
    assert data.position() == end
    assert (shown.className, shown.role) == ("danger", "alert")
    assert SAID[language][0] in text_of(shown)
    links = [one.href for one in walk(shown) if one._type == "Link"]
    assert links == [f"/write?kind=discarded&batch={batch}", "/shelf"]
    form = draw(data, "/write", links[0].partition("/write")[2])
    filled = [str(getattr(one, "value", "")) for one in walk(form.parts)]
    (line,) = [text for text in filled if "canned green beans" in text]
    assert "7" in line
    (button,) = [one for one in walk(shown) if one._type == "Button"]
    assert button.className == "button quiet-button"  # to go on is not what is offered
    outcome, _ = send(data, kind, boxes, [button.id["accept"]])
    assert outcome.written is not None


def test_a_jar_that_did_not_seal_is_thrown_out_by_a_form_filled_in_with_it(book, fixed_day):
    made = [{**BATCH["made"][0], "unsealed": 7}]
    done = {**OPEN, "headspace": "1 in", "loads": 1, "made": made}
    batch = book.write("put_up", done, on="2026-09-12", answers=YES).event.id
    data = Data(book)
    _, shown = send(data, "eaten", {("ate", 0): "1 quart jar canned green beans"})
    (href, _) = [one.href for one in walk(shown) if one._type == "Link"]
    assert href == f"/write?kind=discarded&jar={batch}:1f"
    form = draw(data, "/write", href.partition("/write")[2])
    filled = [str(getattr(one, "value", "")) for one in walk(form.parts)]
    assert f"1 quart jar canned green beans from lot {batch}:1f" in filled


def test_what_is_only_open_is_asked_about_in_its_own_words(book, fixed_day):
    book.write("put_up", OPEN, on="2026-09-12", answers=YES)
    outcome, shown = send(Data(book), "eaten", {("ate", 0): "1 quart jar canned green beans"})
    assert outcome.written is None
    assert shown.className == "caution grave"
    assert "This is not settled yet" in text_of(shown)
    assert "not recorded, 12 Sep 2026" in text_of(shown)


def test_line_is_marked_as_it_is_typed_and_never_green(kitchen):
    data, language, _ = kitchen
    box = {"field": "ate", "part": "box", "row": 0}
    shown = understood(ask_of(data, "/write"), "eaten", "1 quart jar canned green beans", box)
    assert SAID[language][0] in text_of(shown)
    assert "said-well" not in [getattr(one, "className", "") for one in walk(shown)]
    shown = understood(ask_of(data, "/write"), "eaten", "1 lb green bean", box)
    assert "said-well" in [getattr(one, "className", "") for one in walk(shown)]
