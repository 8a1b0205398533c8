"""What never changes by itself, as markup: the browser then keeps one component and not thousands.

The renderer's work for a page grows faster than its components do: a year sheet of three thousand
took five seconds on a slow machine, as markup a twentieth of that. So a part of a page without
boxes, pictures or anything with an id is sent as text, and assets/croft.js puts it in place. Every
text is escaped here: what somebody wrote in a note is shown as it was written.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from dash import dcc
from dash.development.base_component import Component
from markupsafe import escape

from dashboard.parts.alive import spelt

__all__ = ["VOID", "attributes", "markup_of", "still"]

VOID = ("Br", "Hr", "Img", "Col", "Wbr")
_NAMES = {"className": "class", "htmlFor": "for"}
_OWN = ("children", "n_clicks", "disable_n_clicks", "n_clicks_timestamp", "key", "data-still")
"""Properties for Dash itself, which mean nothing to a browser."""
_FREE = ("data-", "aria-")


def still(part: Any, *, ids: bool = False) -> Any:
    """Return a page, or a part of it, with what is still in it turned to markup.

    Parameters
    ----------
    part : component, text, number, None, or a list of these
        Its own components are changed.
    ids : bool
        Below the part itself, what has an id is still, too: no callback reads or writes it.

    Returns
    -------
    the same, where a plain element without an id holds its children as ``data-still``.
    """
    if isinstance(part, (list, tuple)):
        return [still(one, ids=ids) for one in part]
    children = getattr(part, "children", None)
    if not isinstance(part, Component) or not _holds_elements(children):
        return part
    inner = _inner(children, ids) if _is_plain(part) else None
    if inner is None:
        part.children = still(children, ids=ids)
    else:
        part.children = None
        setattr(part, "data-still", inner)
    return part


def markup_of(children: Any) -> str:
    """Return what never changes, as `still` does, for whoever writes the markup around it.

    Raises
    ------
    ValueError
        Where something in it is alive.
    """
    inner = _inner(children, ids=False)
    if inner is None:
        raise ValueError("something in it is alive")
    return inner


def _holds_elements(children: Any) -> bool:
    some = children if isinstance(children, (list, tuple)) else [children]
    return any(isinstance(one, (Component, list, tuple)) for one in some)


def _is_plain(part: Component, ids: bool = False) -> bool:
    """Return whether an element has a name of its own in HTML and nothing refers to it."""
    is_named = getattr(part, "id", None) is not None
    return part._namespace == "dash_html_components" and (ids or not is_named)


def _inner(children: Any, ids: bool) -> str | None:
    """Return children as markup; None where something in them is alive."""
    if children is None or isinstance(children, bool):
        return ""
    if isinstance(children, Component):
        return _markup(children, ids)
    if not isinstance(children, (list, tuple)):
        return str(escape(children))
    parts = []
    for one in children:
        inner = _inner(one, ids)
        if inner is None:
            return None
        parts.append(inner)
    return "".join(parts)


def _markup(part: Component, ids: bool = False) -> str | None:
    is_link = isinstance(part, dcc.Link)
    if not is_link and not _is_plain(part, ids):
        return None
    inner = _inner(getattr(part, "children", None), ids)
    if inner is None:
        return None
    name = "a" if is_link else type(part).__name__.lower()
    said = "".join(attributes(part)) + (" data-goes" if is_link else "")
    return f"<{name}{said}>" if type(part).__name__ in VOID else f"<{name}{said}>{inner}</{name}>"


def attributes(part: Component) -> Iterable[str]:
    """Return an element's properties as HTML writes them, each after a space."""
    named = _KNOWN.get(type(part))
    if named is None:
        named = _KNOWN[type(part)] = _Written(part._prop_names)
    out = []
    for name, value in part.__dict__.items():
        if value is None or value is False:
            continue
        said = named[name]
        if not said:
            continue
        if value is True:
            out.append(f" {said}")
        elif name in _SPELT:
            out.append(f' {said}="{escape(_SPELT[name](value))}"')
        else:
            out.append(f' {said}="{escape(value)}"')
    return out


class _Written(dict[str, str]):
    """How HTML writes each property of a type of elements; empty for what means nothing to a browser."""

    def __init__(self, known: Iterable[str]) -> None:
        super().__init__()
        self._known = frozenset(known).difference(_OWN)

    def __missing__(self, name: str) -> str:
        is_said = name in self._known or (name.startswith(_FREE) and name not in _OWN)
        self[name] = _NAMES.get(name, name.lower()) if is_said else ""
        return self[name]


_KNOWN: dict[type, _Written] = {}


def _style(style: dict[str, Any]) -> str:
    return ";".join(f"{name}:{value}" for name, value in style.items())


_SPELT = {"style": _style, "id": spelt}
