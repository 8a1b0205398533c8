"""The first answer: a page that can be read before any script has run, with all that its scripts begin with.

A phone far from the house waits half a second for every answer. So the page comes drawn, and the
layout, the wires and the drawing that the scripts would ask for come along with it; assets/ahead.js
answers from there, and sets the live page in the place of the drawn one when it is whole.
"""

from __future__ import annotations

import hashlib
import re
from base64 import b64encode
from dataclasses import dataclass
from typing import Any

import flask
from dash import Dash, dcc
from dash.development.base_component import Component
from markupsafe import escape
from plotly.io.json import to_json_plotly

from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page
from dashboard.pages import PAGES, page_at
from dashboard.parts.alive import spelt
from dashboard.parts.still import VOID, attributes, still
from dashboard.shell import BAR

__all__ = ["GUARD", "First", "first", "guard_hash", "markup"]

GUARD = (
    "try{var m=JSON.parse(sessionStorage.getItem('moment'));"
    "if(m&&(m.as_of||m.known_at))document.documentElement.className='past'}catch(e){}"
    "window.croftTaps=[];addEventListener('click',function(e){var b=window.croftTaps&&e.target.closest&&"
    "e.target.closest('button,[role=radiogroup] label');if(!b)return;croftTaps.push(b);"
    "if(b.matches('button'))e.stopImmediatePropagation()},true)"
)
"""Runs before anything is painted: who looks at an earlier moment is not shown today's figures first, and what
is tapped on the drawn page is kept for the live one."""


def guard_hash() -> str:
    """Return what the policy of scripts says of `GUARD`."""
    return f"'sha256-{b64encode(hashlib.sha256(GUARD.encode()).digest()).decode()}'"


@dataclass(frozen=True)
class First:
    """A page's name, the page drawn (HTML), and what its scripts begin with (JSON that may stand in HTML)."""

    title: str
    drawn: str
    begins: str

    def html(self) -> str:
        """Return both, between the marks by which the worker leaves them out of what it keeps."""
        return (
            f'<!--first--><div id="drawn">{self.drawn}</div>'
            f'<script type="application/json" id="at-once">{self.begins}</script><!--/first-->'
        )


def first(app: Dash, data: Data, scheme: str) -> First | None:
    """Return the first answer to what is asked for now; None of an address that is no page.

    Parameters
    ----------
    app : Dash
    data : Data
    scheme : {'light', 'dark'}
    """
    path, search = flask.request.path, flask.request.query_string.decode("latin-1")
    search = f"?{search}" if search else ""
    page = page_at(path)
    if page is None:
        return None
    ask = ask_of(data, path, search, None, scheme)
    title = page.titled(ask) if page.titled else ask.words(f"nav.{page.name}")
    shell, parts = app.layout(), still(draw_page(ask))  # the shell that the scripts would ask for
    response = {
        "page": {"children": parts},
        "moment-note": {"children": None},
        "main": {"lang": ask.words.language},
    }
    begins = {
        "path": path,
        "search": search,
        "scheme": scheme,
        "layout": shell,
        "page": {"multi": True, "response": response},
    }
    wires = app.dependencies().get_data(as_text=True)
    as_json = f'{{"dependencies":{wires},{to_json_plotly(begins)[1:]}'
    drawn = _shown(markup(shell, inside={"page": parts}), path)
    return First(title, drawn, as_json.replace("<", "\\u003c"))


def markup(part: Any, *, inside: dict[str, Any] | None = None) -> str:
    """Return a component and all in it as HTML, as the browser draws it.

    Parameters
    ----------
    part : component, text, number, None, or a list of these
    inside : dict, optional
        Children of what has an id, instead of its own.
    """
    inside = inside or {}

    def write(one: Any) -> str:
        if one is None or isinstance(one, bool):
            return ""
        if isinstance(one, (list, tuple)):
            return "".join(write(other) for other in one)
        if not isinstance(one, Component):
            return str(escape(one))
        if isinstance(one, (dcc.Store, dcc.Location)):
            return ""
        if hasattr(one, "markup"):
            return str(one.markup(write))
        if isinstance(one, dcc.Graph):
            height = escape((getattr(one, "style", None) or {}).get("height", ""))
            return f'<div class="dash-graph" style="height:{height}"></div>'
        return element(one)

    def element(one: Component) -> str:
        name = "a" if isinstance(one, dcc.Link) else type(one).__name__.lower()
        said = "".join(attributes(one))
        if type(one).__name__ in VOID:
            return f"<{name}{said}>"
        raw = getattr(one, "data-still", None)
        own = inside.get(spelt(getattr(one, "id", None)), getattr(one, "children", None))
        return f"<{name}{said}>{write(own) if raw is None else raw}</{name}>"

    return write(part)


def _shown(drawn: str, path: str) -> str:
    """Return a page on which links of the bar and the menu say that theirs is shown, as `arrived` does."""
    address = re.escape(str(escape(path)))
    here = re.compile(rf'<a (?=[^>]*\bhref="{address}")(?=[^>]*\bclass="menu-link\b)')
    drawn = here.sub(r'\g<0>aria-current="page" ', drawn)
    bar = {name for name, _ in BAR}
    if all(page.path != path for page in PAGES if page.name in bar):
        drawn = drawn.replace(' id="bar-more"', ' id="bar-more" aria-current="true"', 1)
    return drawn
