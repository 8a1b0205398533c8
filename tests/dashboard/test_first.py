"""The first answer: the page drawn as the browser draws it, what its scripts begin with, and nothing to strangers."""

from __future__ import annotations

import json
import re
from html.parser import HTMLParser

import pytest
from dash import dcc, html

from dashboard import bundle
from dashboard.app import make_app
from dashboard.first import GUARD, markup
from dashboard.gate import Devices, Gate, Keeper
from dashboard.pages import PAGES
from dashboard.parts.alive import Box, Choice, Lines, OneOf, Slide

VOID = {"input", "img", "br", "hr", "meta", "link", "col", "wbr"}


class Whole(HTMLParser):
    """Reads markup; every element that is opened has to be closed, in order."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.open, self.tags, self.text = [], [], ""
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, text):
        self.text += text


def begun(page):
    """Return what a page's scripts begin with."""
    (text,) = re.findall(r'<script type="application/json" id="at-once">(.*?)</script>', page, re.S)
    return json.loads(text)


def drawn(page):
    return (
        page.partition('<div id="drawn">')[2]
        .partition('<script type="application/json"')[0]
        .removesuffix("</div>")
    )


@pytest.mark.parametrize("path", [page.path for page in PAGES])
def test_every_page_comes_drawn_and_whole(book, path):
    book.write("harvested", {"item": "plum", "amount": "31 lb"})
    page = make_app(book).server.test_client().get(path).text
    shown, begins = Whole(drawn(page)), begun(page)
    ids = [said["id"] for _, said in shown.tags if "id" in said]
    assert len(ids) == len(set(ids))
    assert {"page", "main", "why-panel"} - set(ids) == {"why-panel"}
    assert (begins["path"], begins["search"], begins["scheme"]) == (path, "", "light")
    assert begins["page"]["response"]["main"] == {"lang": "en"}
    links = [said for _, said in shown.tags if "menu-link" in said.get("class", "")]
    current = [one["href"] for one in links if one.get("aria-current") == "page"]
    assert current == [one["href"] for one in links if one["href"] == path]


def test_names_are_text_in_both(book):
    name = "</script><img src=x onerror=alert(1)>"
    book.write("harvested", {"item": name, "amount": "3 lb"})
    page = make_app(book).server.test_client().get("/shelf").text
    assert name not in page
    assert "<img src=x" not in page
    assert name in Whole(drawn(page)).text
    assert name in json.dumps(begun(page)["page"], ensure_ascii=False).replace("&lt;", "<").replace(
        "&gt;", ">"
    )


def test_boxes_are_drawn_with_their_label_and_what_is_wrong():
    field = {"field": "paid", "part": "box", "row": 0}
    box = Box(
        id=field,
        label="Paid",
        value='7 "or" 8',
        error="not a number",
        inputMode="decimal",
        **{"data-drawn": "7"},
    )
    tags = Whole(markup(box)).tags
    spelt = '{"field":"paid","part":"box","row":0}'
    assert ("label", {"class": "box-label", "for": spelt}) in tags
    (said,) = [said for tag, said in tags if tag == "input"]
    assert said["id"] == spelt
    assert (said["value"], said["inputmode"], said["aria-invalid"], said["data-drawn"]) == (
        '7 "or" 8',
        "decimal",
        "true",
        "7",
    )
    assert ("p", {"class": "wrong", "role": "alert"}) in tags
    some = [{"value": "a", "label": "A & B"}, {"value": "b", "label": "C"}]
    choice = Whole(markup(Choice(id="c", value="b", options=some, empty="Choose")))
    assert [said for tag, said in choice.tags if tag == "option"] == [
        {"value": ""},
        {"value": "a"},
        {"value": "b", "selected": ""},
    ]
    assert "A & B" in choice.text
    days = Whole(markup(OneOf(id="w", value="a", options=some))).tags
    assert [("checked" in said) for tag, said in days if tag == "input"] == [True, False]
    assert Whole(markup(Lines(id="l", value="<b>\n2"))).text == "<b>\n2"
    ((_, slide),) = Whole(markup(Slide(id="s", min=0, max=8, step=1, value=2))).tags
    assert (slide["type"], slide["value"], slide["style"]) == ("range", "2", "--at:25%")


def test_what_is_kept_in_the_page_is_not_drawn():
    part = html.Div(
        [dcc.Store(id="a", data=1), dcc.Location(id="u"), None, "x", dcc.Link("y", href="/y")],
        id="d",
    )
    assert markup(part) == '<div id="d">x<a href="/y">y</a></div>'
    assert markup(part, inside={"d": ["in"]}) == '<div id="d">in</div>'


def test_an_address_that_is_no_page_comes_without(book):
    page = make_app(book).server.test_client().get("/no-such-page").text
    assert "at-once" not in page
    assert bundle.script_link() in page


def test_a_stranger_is_sent_nothing_of_the_book(book, tmp_path):
    """The page that comes drawn stands behind the gate, as does what its scripts would ask for."""
    book.write("harvested", {"item": "quince", "amount": "31 lb"})
    keeper = Keeper(tmp_path / "gate.json")
    keeper.set("a long passphrase for a test")
    gate = Gate(keeper, Devices(tmp_path / "devices.sqlite"))
    text = make_app(book, gate=gate).server.test_client().get("/shelf", follow_redirects=True).text
    assert "at-once" not in text
    assert "quince" not in text


def test_the_one_script_holds_what_pages_need_and_no_more():
    script = bundle.script().decode()
    for name in ("React", "DashRenderer", "window.dashboard =", "croftAhead", "croftDrafts"):
        assert name in script
    for path in bundle._LIBRARY:
        from importlib.resources import files

        assert files("dash").joinpath(path).read_text("utf-8")[:2000] not in script
    assert script.rstrip().endswith(bundle._BEGINS)
    assert "src" not in GUARD
