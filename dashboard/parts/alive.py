"""What is alive on a page: boxes, choices, sliders and the panel. assets/alive.js draws them.

They are the browser's own elements with their label and what is wrong beside them, and no library's:
one that had a hundred others beside these few was two fifths of the first load. Every component
has ``markup``, the same elements as text, for a page that is sent drawn (`dashboard.first`).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, ClassVar

from dash.development.base_component import Component
from markupsafe import Markup

__all__ = ["Box", "Choice", "Lines", "OneOf", "Panel", "Slide", "Spare", "spelt"]


def spelt(id: Any) -> str:
    """Return an id as the browser spells it."""
    import json

    if isinstance(id, dict):
        return json.dumps(id, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return str(id)


def said(**attributes: Any) -> Markup:
    """Return attributes as HTML writes them; None and False are left out."""
    out = Markup("")
    for name, value in attributes.items():
        if value is not None and value is not False and value != "":
            named = name.rstrip("_").replace("_", "-")
            out += Markup(' {}="{}"').format(named, "" if value is True else value)
    return out


class _Alive(Component):
    _namespace = "dashboard"  # a name that imports: the library looks it up for every property
    _type = "Alive"
    _children_props: ClassVar[list[str]] = []
    _base_nodes: ClassVar[list[str]] = ["children"]
    _valid_wildcard_attributes: ClassVar[list[str]] = ["data-", "aria-"]
    available_wildcard_properties: ClassVar[list[str]] = ["data-", "aria-"]
    _prop_names: ClassVar[list[str]] = []

    @property
    def available_properties(self) -> list[str]:
        return self._prop_names

    def _has(self, name: str) -> Any:
        return getattr(self, name, None)

    def _heard(self) -> Markup:
        own = {k: v for k, v in self.__dict__.items() if k.startswith(("data-", "aria-"))}
        return said(**own)

    def _framed(self, inside: Markup, kind: str) -> Markup:
        """Return a box below its label and above what is wrong with it."""
        label = self._has("label")
        head = Markup("")
        if label:
            head = Markup('<label class="box-label"{}>{}</label>').format(
                said(for_=spelt(self.id)), label
            )
        wrong = self._has("error")
        tail = Markup('<p class="wrong" role="alert">{}</p>').format(wrong) if wrong else Markup("")
        return Markup('<div class="box {}">{}{}{}</div>').format(kind, head, inside, tail)


_BOX = [
    "id", "label", "value", "error", "placeholder", "debounce", "autoComplete", "persistence",
    "persisted_props", "persistence_type",
]  # fmt: skip


class Box(_Alive):
    """A box for one line of text.

    ``inputMode`` names the keypad, ``offers`` (list of str) what was typed there before, ``debounce``
    the milliseconds of rest after which it is read (True: when it is left, or at Enter).
    """

    _namespace, _type = "dashboard", "Box"
    _prop_names: ClassVar[list[str]] = [*_BOX, "inputMode", "offers"]

    def markup(self, _inner: Callable[[Any], str]) -> str:
        """Return it as HTML."""
        own = said(
            id=spelt(self.id), class_="in", type="text", value=self._has("value"),
            placeholder=self._has("placeholder"), inputmode=self._has("inputMode"),
            autocomplete=self._has("autoComplete"), aria_invalid="true" if self._has("error") else None,
        )  # fmt: skip
        return self._framed(Markup("<input{}{}>").format(own, self._heard()), "box-line")


class Lines(_Alive):
    """A box for several lines, ``rows`` high at first and ``most`` at most."""

    _namespace, _type = "dashboard", "Lines"
    _prop_names: ClassVar[list[str]] = [*_BOX, "rows", "most"]

    def markup(self, _inner: Callable[[Any], str]) -> str:
        """Return it as HTML."""
        style = f"--rows:{self._has('rows') or 2};--most:{self._has('most') or 14}"
        own = said(
            id=spelt(self.id), class_="in", rows=self._has("rows") or 2, style=style,
            placeholder=self._has("placeholder"), autocomplete=self._has("autoComplete"),
        )  # fmt: skip
        text = self._has("value") or ""
        inside = Markup("<textarea{}{}>{}</textarea>").format(own, self._heard(), text)
        return self._framed(inside, "box-lines")


class Choice(_Alive):
    """A choice of one among ``options`` (value and label of each); ``empty`` is what none says.

    Without ``empty`` one is always chosen.
    """

    _namespace, _type = "dashboard", "Choice"
    _prop_names: ClassVar[list[str]] = [*_BOX, "options", "empty"]

    def markup(self, _inner: Callable[[Any], str]) -> str:
        """Return it as HTML."""
        chosen, empty = self._has("value"), self._has("empty")
        options = [] if empty is None else [{"value": "", "label": empty}]
        inside = Markup("").join(
            Markup("<option{}{}>{}</option>").format(
                Markup(' value="{}"').format(one["value"]),
                said(selected=True if one["value"] == (chosen or "") else None),
                one["label"],
            )
            for one in [*options, *self.options]
        )
        own = said(id=spelt(self.id), class_="in")
        return self._framed(
            Markup("<select{}{}>{}</select>").format(own, self._heard(), inside), "box-choice"
        )


class Slide(_Alive):
    """A whole number between ``min`` and ``max``, moved in steps, read when it is let go."""

    _namespace, _type = "dashboard", "Slide"
    _prop_names: ClassVar[list[str]] = ["id", "min", "max", "step", "value"]

    def markup(self, _inner: Callable[[Any], str]) -> str:
        """Return it as HTML."""
        own = Markup(' min="{}" max="{}" step="{}" value="{}"').format(
            self.min, self.max, self.step, self.value
        )
        at = round(100 * (self.value - self.min) / ((self.max - self.min) or 1))
        head = said(id=spelt(self.id), type="range", class_="slide", style=f"--at:{at}%")
        return Markup("<input{}{}{}>").format(head, own, self._heard())


class OneOf(_Alive):
    """A choice of one among a few ``options``, side by side."""

    _namespace, _type = "dashboard", "OneOf"
    _prop_names: ClassVar[list[str]] = ["id", "value", "options"]

    def markup(self, _inner: Callable[[Any], str]) -> str:
        """Return it as HTML."""
        inside = Markup("").join(
            Markup('<label><input type="radio" name="{}" value="{}"{}><span>{}</span></label>').format(
                spelt(self.id), one["value"],
                said(checked=True if one["value"] == self.value else None), one["label"],
            )
            for one in self.options
        )  # fmt: skip
        head = said(id=spelt(self.id), class_="one-of", role="radiogroup")
        return Markup("<div{}{}>{}</div>").format(head, self._heard(), inside)


class Panel(_Alive):
    """A panel over the page, with a ``title`` and a way out that ``closes`` names; Back closes it, too."""

    _namespace, _type = "dashboard", "Panel"
    _prop_names: ClassVar[list[str]] = ["children", "id", "opened", "title", "closes"]

    def markup(self, _inner: Callable[[Any], str]) -> str:
        """Return nothing: it opens when the page is alive."""
        return ""


class Spare(_Alive):
    """A line of a form that waits until it is wanted: its boxes are there, and drawn once it is ``opened``.

    Eleven lines that most entries never touch were most of what a slow phone did before a form was ready.
    """

    _namespace, _type = "dashboard", "Spare"
    _prop_names: ClassVar[list[str]] = ["children", "id", "opened"]

    def markup(self, _inner: Callable[[Any], str]) -> str:
        """Return nothing: it opens when the page is alive."""
        return ""
