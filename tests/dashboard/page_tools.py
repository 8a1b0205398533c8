"""What tests of pages share: a page drawn without a browser, its text, its figures and its files."""

from __future__ import annotations

import html
from urllib.parse import urlencode

import plotly.graph_objects as go
from dash.development.base_component import Component

from dashboard.app import make_app
from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page
from ledger.projections import PROJECTIONS

__all__ = ["Drawn", "as_seen", "draw", "figures_open", "text_of", "walk"]


def walk(part):
    """Yield a component and every one in it."""
    if isinstance(part, (list, tuple)):
        for one in part:
            yield from walk(one)
    elif isinstance(part, Component):
        yield part
        yield from walk(getattr(part, "children", None))
        if part._type == "Alert":
            yield from walk(getattr(part, "title", None))


def text_of(part):
    """Return the text of a component and of all in it, parted by spaces."""
    if part is None or isinstance(part, bool):
        return ""
    if isinstance(part, (list, tuple)):
        return " ".join(text for one in part if (text := text_of(one)))
    return text_of(getattr(part, "children", None)) if isinstance(part, Component) else str(part)


def as_seen(figure):
    """Return a copy of a figure with its names as the charting script shows them: entities read."""
    figure = go.Figure(figure)
    for trace in figure.data:
        for name in ("x", "y", "name", "text", "labels"):
            value = getattr(trace, name, None)
            if isinstance(value, str):
                trace[name] = html.unescape(value)
            elif isinstance(value, tuple):
                trace[name] = [html.unescape(v) if isinstance(v, str) else v for v in value]
    return figure


class Drawn:
    """A page as it was drawn."""

    def __init__(self, ask):
        self.ask, self.parts = ask, draw_page(ask)
        self.text = text_of(self.parts)

    def all(self, kind):
        return [one for one in walk(self.parts) if one._type == kind]

    def by_id(self, id):
        return next(one for one in walk(self.parts) if getattr(one, "id", None) == id)

    def choice(self, name):
        return self.by_id({"choice": name})

    def picture(self, key):
        """Return the plotly figure of a picture, its names as they are seen; None where there is none."""
        for graph in self.all("Graph"):
            if graph.id == f"picture-{key}":
                return as_seen(graph.figure)
        return None

    def figures(self):
        """Return (text, address, field) of every figure that opens."""
        return [
            (text_of(one), one.to_plotly_json()["props"]["data-why"], one.to_plotly_json()["props"].get("data-field"))
            for one in self.all("Button")
            if "data-why" in one.to_plotly_json()["props"]
        ]  # fmt: skip

    def csv(self):
        """Return (address, text) of every CSV that the page links to, as the server gives it."""
        client = make_app(self.ask.data.book).server.test_client()
        links = [one.href for one in self.all("A") if ".csv" in str(one.href)]
        answers = [(href, client.get(href)) for href in links]
        assert all(answer.status_code == 200 for _, answer in answers)
        return [(href, answer.text) for href, answer in answers]


def draw(book, path, query=None, **moment):
    """Return a page of a book drawn at an address and a moment."""
    return Drawn(ask_of(Data(book), path, f"?{urlencode(query or {})}", moment))


def figures_open(drawn):
    """Check that each figure says what the root of its arithmetic says; return how many there are."""
    ask, figures = drawn.ask, drawn.figures()
    for text, address, field in figures:
        node = ask.data.why(address, field, ask.moment)
        projection = PROJECTIONS[address.partition("/")[0]]
        every = [projection.columns, *projection.variants.values()]
        column = next(c for columns in every for c in columns if c.name == field)
        if field.endswith(".whole"):  # shown in words
            assert node.value is not None
        elif "weeks" in field and text == ask.words.weeks(node.value):  # few are said in days
            continue
        else:
            assert ask.words.cell(column, node.value) in text, (text, address, field, node.value)
    return len(figures)
