"""Elements made quickly: what reaches the browser, and what is refused, is as Dash has it."""

from __future__ import annotations

import json

import dash
import pytest
from dash._utils import to_json
from hypothesis import given
from hypothesis import strategies as st

from dashboard.elements import dcc, html
from dashboard.parts.still import attributes

NAMES = ("Div", "Span", "Button", "Td", "Img", "Details", "A")
TEXTS = st.text(max_size=8)
SAID = st.dictionaries(
    st.sampled_from(("id", "className", "title", "role", "data-why", "aria-label", "n_clicks")),
    TEXTS,
    max_size=4,
)


@given(st.sampled_from(NAMES), TEXTS, SAID)
def test_an_element_is_sent_as_dash_sends_it(name, text, said):
    mine, theirs = (getattr(of, name)(text, **said) for of in (html, dash.html))
    assert json.loads(to_json(mine)) == json.loads(to_json(theirs))
    assert isinstance(mine, getattr(dash.html, name))
    assert sorted(attributes(mine)) == sorted(attributes(theirs))


@given(TEXTS, TEXTS)
def test_a_link_is_sent_as_dash_sends_it(text, href):
    assert to_json(dcc.Link(text, href=href)) == to_json(dash.dcc.Link(text, href=href))
    assert dcc.Store is dash.dcc.Store


def test_an_element_refuses_what_dash_refuses():
    for of in (html, dash.html):
        with pytest.raises(TypeError):
            of.Span("x", clas="quiet")
    for of in (dcc, dash.dcc):
        with pytest.raises(TypeError):
            of.Link("x")
    with pytest.raises(AttributeError):
        _ = html.Sapn
