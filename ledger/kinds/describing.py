"""The fields of a kind as people type them: what commands, forms and docs are made from."""

from __future__ import annotations

import typing
from dataclasses import dataclass
from typing import Annotated, Any, get_args, get_origin

import msgspec

from ledger.kinds.kind import Kind

__all__ = ["OF_JARS", "TYPED", "Field", "describe", "fields_of"]

OF_JARS = ("labels", "unsealed")
"""Options that go to the entries of `made` that have jars, in their order."""


TYPED = {
    "lines": "31 lb 8 oz plum",
    "used": "16 lb plum",
    "made": "11 half-pint jars",
    "uses": "16 lb plum",
    "ate": "2 lb bread",
    "people": "Ada, Ben",
    "left": "1 qt stew fridge 0.25",
    "work": "Ada 90",
    "acid": "1 tbsp lemon juice per jar",
    "fuel": "electricity 2.4 kWh",
    "labels": "41-51",
    "g_per": "clove 5",
    "keeps": "fridge 4 days",
    "also": "knoblauch",
    "equipment": "canner",
    "seed": "2 oz tomato seed",
    "other": "magazine 4.50",
}
"""How a field that is made of parts is typed."""


@dataclass(frozen=True)
class Field:
    """A field as it is typed: how often it may come, and what it may be."""

    name: str
    help: str
    kind: str
    is_list: bool
    choices: tuple[str, ...]
    of_line: bool


def fields_of(kind: Kind) -> list[Field]:
    """Return what is typed for a kind: its body's fields, then those of one line."""
    out = [_field(kind.body, one, of_line=False) for one in kind.fields if one.name != "lines"]
    if kind.line is not None:
        names = {f.encode_name for f in kind.fields}
        for one in msgspec.structs.fields(kind.line):
            if one.encode_name not in names | {"item", "amount"}:
                out.append(_field(kind.line, one, of_line=True))
    made = typing.get_type_hints(kind.body).get("made")
    if made is not None:
        jars = {one.encode_name: one for one in msgspec.structs.fields(get_args(made)[0])}
        out += [_field(get_args(made)[0], jars[name], of_line=False) for name in OF_JARS]
    return [field for field in out if field.kind != "stored"]


def _field(struct: type, one: Any, *, of_line: bool) -> Field:
    hint = typing.get_type_hints(struct, include_extras=True)[one.name]
    help_text, kind, example = "", "", None
    for meta in _metas(hint):
        help_text = help_text or (meta.description or "")
        example = example if example is not None else (meta.examples or [None])[0]
        kind = kind or (meta.extra or {}).get("as", "")
    choices, is_list = _shape(hint)
    kind = kind or ("whole" if _is_whole(hint) else "")
    if not isinstance(example, (str, int)):
        example = TYPED.get(one.encode_name)
    if example:
        help_text += f", e.g. {example}"
    return Field(one.encode_name, help_text, kind, is_list, choices, of_line)


def _is_whole(hint: Any) -> bool:
    args = [arg for arg in get_args(hint) if arg is not type(None)]
    return hint is int or (
        len(args) > 0 and get_origin(hint) not in (list, dict) and _is_whole(args[0])
    )


def _metas(hint: Any) -> list[msgspec.Meta]:
    if get_origin(hint) is Annotated:
        inner, *metas = get_args(hint)
        return [m for m in metas if isinstance(m, msgspec.Meta)] + _metas(inner)
    return [m for arg in get_args(hint) if arg is not type(None) for m in _metas(arg)]


def _shape(hint: Any) -> tuple[tuple[str, ...], bool]:
    origin = get_origin(hint)
    if origin is Annotated:
        return _shape(get_args(hint)[0])
    if origin is list:
        return _shape(get_args(hint)[0])[0], True
    if str(origin) == "typing.Literal":
        return tuple(str(a) for a in get_args(hint)), False
    if origin is dict or (isinstance(hint, type) and hint.__name__ == "Keeps"):
        return (), True
    for arg in get_args(hint):
        if arg is not type(None):
            choices, is_list = _shape(arg)
            if choices or is_list:
                return choices, is_list
    return (), False


def describe(struct: type) -> list[tuple[Field, bool]]:
    """Return the fields of a body or a line that people type, and whether each is needed."""
    found = [
        (_field(struct, one, of_line=False), one.required) for one in msgspec.structs.fields(struct)
    ]
    return [(field, needed) for field, needed in found if field.kind != "stored"]
