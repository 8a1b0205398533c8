"""What tests of pages share: a page drawn without a browser, its text, its figures and its files."""

from __future__ import annotations

import copy
import html
import re
from urllib.parse import unquote, urlencode
from xml.etree import ElementTree

import plotly.graph_objects as go
from dash.development.base_component import Component

from dashboard.app import make_app
from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page
from ledger.projections import PROJECTIONS

__all__ = ["Drawn", "Seen", "as_seen", "draw", "figures_open", "text_of", "walk"]

SVG = "{http://www.w3.org/2000/svg}"


def walk(part):
    """Yield a component and every one in it."""
    left = [part]
    while left:
        one = left.pop()
        if isinstance(one, Component):
            yield one
            left.append(getattr(one, "children", None))
        elif isinstance(one, (list, tuple)):
            left.extend(reversed(one))


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


class Seen:
    """A drawing as an image holds it: its labels, its bars, its lines."""

    def __init__(self, source, alt):
        self.root, self.alt = ElementTree.fromstring(source), alt
        self.labels = [one.text for one in self.root.iter(f"{SVG}text")]

    def bars(self, kind):
        """Return (x, width, height) of the bars of a kind, in their order."""
        return [
            tuple(float(one.get(name)) for name in ("x", "width", "height"))
            for one in self.root.iter(f"{SVG}rect")
            if one.get("class") == kind
        ]

    def lines(self, kind):
        """Return the heights of the points of a line, from the top of the drawing."""
        for one in self.root.iter(f"{SVG}path"):
            if one.get("class") == f"line {kind}":
                return [float(y) for y in re.findall(r"[ML][-\d.]+ ([-\d.]+)", one.get("d"))]
        return []

    def dots(self):
        return [float(one.get("cy")) for one in self.root.iter(f"{SVG}circle")]

    def steps(self, kind):
        """Return how tall each bar of a calendar is, upwards above 0, in the order of the weeks."""
        for one in self.root.iter(f"{SVG}path"):
            if one.get("class") == kind:
                return [-float(v) for v in re.findall(r"v(-?[\d.]+)h", one.get("d"))]
        return []


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

    def drawing(self, key):
        """Return a drawing of our own as a desk sees it, to be looked into; None where there is none."""
        for one in self.all("Figure"):
            if one.to_plotly_json()["props"].get("data-drawing") == key:
                image = [part for part in walk(one) if part._type == "Img"][-1]
                return Seen(unquote(image.src.partition(",")[2]), image.alt)
        return None

    def chosen(self, name):
        """Return the (text, is chosen) of the chips that choose under a name, in their order."""
        mark = re.compile(rf"[?&]{name}=")
        for one in self.all("Ul"):
            if getattr(one, "className", "") in ("strip", "chips"):
                links = [part for part in walk(one) if part._type == "A"]
                if any(mark.search(link.href) for link in links):
                    props = [link.to_plotly_json()["props"] for link in links]
                    return [
                        (text_of(link), "aria-current" in p)
                        for link, p in zip(links, props, strict=True)
                    ]
        return []

    def fold(self, title):
        """Return a folded part of the page by what is written on it."""
        for one in self.all("Details"):
            if text_of(one.children[0]) == title:
                part = copy.copy(self)
                part.parts, part.text = [one], text_of(one)
                return part
        raise AssertionError(f"no fold {title!r} in {self.text[:500]}")

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
