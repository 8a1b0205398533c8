"""HTML elements and links for pages: Dash's own, made without the work that it does for each.

Dash builds two lists of names, a copy of all arguments and the beginning of an error's text for every
element: two fifths of what a page of a thousand elements took. Here names are checked, and no more.
"""

from __future__ import annotations

from typing import Any

from dash import dcc as _dcc
from dash import html as _html
from dash.development.base_component import Component

__all__ = ["dcc", "html"]


def _quick(of: Any, **needed: Any) -> Any:
    """Return a component's class with a shorter way of making one; it refuses what that refuses."""
    like = of(**needed)
    names, wild = frozenset(like._prop_names), tuple(like._valid_wildcard_attributes)

    def __init__(self: Any, children: Any = None, **said: Any) -> None:
        for name in said:
            if name not in names and not name.startswith(wild):
                raise TypeError(f"{of.__name__} has no property {name!r}")
        for name in needed:
            if name not in said:
                raise TypeError(f"{of.__name__} lacks {name!r}")
        own = self.__dict__
        own["children"] = children
        own.update(said)

    told = ("_prop_names", "_valid_wildcard_attributes", "available_properties")
    known = {name: getattr(like, name) for name in (*told, "available_wildcard_properties")}
    for name in ("_namespace", "_type", "_children_props", "_base_nodes"):
        known[name] = getattr(of, name)
    # known by the module of the original, from which Dash tells whose scripts a page needs
    return type(of)(
        of.__name__, (of,), {**known, "__init__": __init__, "__module__": of.__module__}
    )


class _Elements:
    """Every element of HTML by its name, made ready when it is first asked for."""

    def __getattr__(self, name: str) -> Any:
        of = getattr(_html, name)
        if not (isinstance(of, type) and issubclass(of, Component)):
            raise AttributeError(name)
        made = _quick(of)
        setattr(self, name, made)
        return made


class _Parts:
    """Dash's own parts: links, of which a page has hundreds, made quickly; the few others as they are."""

    Link = _quick(_dcc.Link, href="")

    def __getattr__(self, name: str) -> Any:
        return getattr(_dcc, name)


html = _Elements()
dcc = _Parts()
