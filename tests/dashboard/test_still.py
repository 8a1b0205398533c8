"""Markup of what is still: texts come back as they were, and nothing alive is swallowed."""

from __future__ import annotations

from html.parser import HTMLParser

from dash import dcc, html
from hypothesis import given
from hypothesis import strategies as st

from dashboard.parts import still
from dashboard.parts.still import _markup


class Read(HTMLParser):
    """What a browser would make of markup: elements with their attributes, and texts."""

    def __init__(self, text):
        super().__init__(convert_charrefs=True)
        self.tags, self.texts = [], []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))

    def handle_data(self, text):
        self.texts.append(text)


def inner(part):
    return getattr(part, "data-still", None)


@given(st.text(alphabet=st.characters(codec="utf-8", exclude_characters="\r\0"), min_size=1))
def test_any_text_comes_back_as_it_was_written(text):
    part = still(html.Div([html.P(text, title=text), html.Br()]))
    read = Read(inner(part))
    assert read.tags == [("p", {"title": text}), ("br", {})]
    assert "".join(read.texts) == text
    assert part.children is None


def test_names_of_properties_are_those_of_html():
    cell = html.Td(
        "x", className="number", colSpan=2, tabIndex="0", hidden=True, n_clicks=3,
        style={"width": "3px", "color": "red"}, **{"data-why": "shelf/a", "aria-label": 'a "b"'},
    )  # fmt: skip
    ((tag, said),) = Read(_markup(cell)).tags
    assert tag == "td"
    assert said == {
        "class": "number", "colspan": "2", "tabindex": "0", "hidden": None,
        "style": "width:3px;color:red", "data-why": "shelf/a", "aria-label": 'a "b"',
    }  # fmt: skip


def test_link_is_followed_within_the_page():
    ((tag, said),) = Read(_markup(dcc.Link("Shelf", href="/shelf?a=1&b=2", className="x"))).tags
    assert tag == "a"
    assert said == {"href": "/shelf?a=1&b=2", "class": "x", "data-goes": None}


def test_what_is_alive_stays_a_component_and_its_neighbours_become_markup():
    graph, store = dcc.Graph(id="g"), html.Button("Do", id="do")
    table = html.Table(html.Tbody(html.Tr(html.Td(1.5))))
    page = still(
        [html.H1("Title"), html.Section([html.Div([graph]), table, html.P("text"), store])]
    )
    assert page[0].children == "Title"
    section = page[1]
    assert inner(section) is None
    assert section.children[0].children == [graph]
    assert inner(table) == "<tbody><tr><td>1.5</td></tr></tbody>"
    assert section.children[2].children == "text"
    assert inner(store) is None


def test_nothing_is_shown_of_what_is_not_there():
    assert inner(still(html.Ul([html.Li([None, "a", False, ["b", html.B("c")]])]))) == (
        "<li>ab<b>c</b></li>"
    )
