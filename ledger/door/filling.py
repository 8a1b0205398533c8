"""Short texts by field name to a body: what a command and a form do with what was typed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, get_args

from ledger.door.choosing import chosen
from ledger.door.hearing import hear_length
from ledger.door.texts import PARTS, Texts, whole_number
from ledger.errors import InputError
from ledger.items import near_misses
from ledger.kinds.describing import OF_JARS, Field
from ledger.kinds.item_described import Sort
from ledger.known.catalogue import Catalogue
from ledger.messages import Code, Message, Names, Typed

__all__ = ["fill", "fill_sort"]

_FOR_ALL = ("for_crop", "bed", "kept", "variety")
"""Fields of a line that, said once, hold for every line."""
_LENGTHS = ("headspace", "altitude", "row", "area", "height")


def fill(
    body: dict[str, Any], fields: Sequence[Field], given: Mapping[str, Any], texts: Texts
) -> None:
    """Put what was typed into a body that may hold its lines already.

    Parameters
    ----------
    body : dict
        Changed in place.
    fields : sequence of Field
        What may be typed, `ledger.kinds.describing.fields_of`.
    given : mapping
        By field name, a text, or texts where it may come more than once; absent, None, ``''`` and
        ``()`` are not said.
    texts : Texts

    Raises
    ------
    InputError, NeedsAnswer
    """
    said = {name: value for name, value in given.items() if value not in (None, "", (), [])}
    for field in fields:
        if field.name in said and not field.of_line:
            _put(body, field, said[field.name], texts)
    for field in fields:
        if field.name in said and field.of_line:
            _onto_lines(body.get("lines", []), field, said[field.name], texts)


def fill_sort(body: dict[str, Any], catalogue: Catalogue, *, needed: bool) -> None:
    """Put the sort of an item that the book knows into its description, where it is not said.

    Parameters
    ----------
    needed : bool
        Refuse a new item without its sort.

    Raises
    ------
    InputError
    """
    name = body.get("item")
    if not isinstance(name, str) or not name.strip() or "sort" in body:
        return
    facts = catalogue.facts(name)
    if facts is not None:
        body["sort"] = facts.sort or "food"
    elif needed:
        near = near_misses(name, catalogue.names())
        raise InputError(
            "sort",
            Message.of("refusal-missing-unknown-item", name=Typed(name)),
            Message.of(
                "refusal-say-sort",
                near=Typed(near[0]) if near else None,
                sorts=Names(tuple(map(Code, get_args(Sort)))),
            ),
        )


def _put(body: dict[str, Any], field: Field, value: Any, texts: Texts) -> None:
    name = field.name
    if name in OF_JARS:
        _onto_jars(body, name, value, texts)
    elif name in PARTS and isinstance(value, tuple | list):
        body[name] = [*body.get(name, []), *(PARTS[name](texts, text, name) for text in value)]
    elif name in PARTS and (field.is_list or name == "seed"):  # an item's `uses` is a number
        body[name] = PARTS[name](texts, value, name)
    elif name in ("g_per", "pieces_per"):
        body[name] = dict(texts.pair(text, name) for text in value)
    elif name == "keeps":
        body[name] = dict(texts.keeps(text) for text in value)
    elif field.is_list:
        body[name] = list(value)
    elif field.kind in ("money", "decimal") and isinstance(value, str):
        body[name] = texts.number(value, field.kind, name)
    elif field.kind == "whole" and isinstance(value, str):
        body[name] = texts.whole(value, name)
    elif field.choices and isinstance(value, str):
        body[name] = chosen(value, field.choices, name)
    elif name in _LENGTHS and isinstance(value, str):
        body[name] = hear_length(value, texts.catalogue, name)
    else:
        body[name] = value


def _onto_lines(
    lines: list[dict[str, Any]], field: Field, values: Sequence[str], texts: Texts
) -> None:
    """Give a field to the lines in their order; one value serves a single line."""
    name = field.name
    if field.kind in ("money", "decimal"):
        values = [texts.number(value, field.kind, name) for value in values]
    if field.choices:
        values = [chosen(value, field.choices, name) for value in values]
    if len(values) != len(lines) and not (len(values) == 1 and name in _FOR_ALL):
        raise InputError(
            name,
            Message.of("refusal-given-times", n=len(values), n2=len(lines)),
        )
    for i, line in enumerate(lines):
        value = values[i] if len(values) == len(lines) else values[0]
        line[name] = whole_number(value) if name == "plants" else value


def _onto_jars(body: dict[str, Any], name: str, values: Sequence[str], texts: Texts) -> None:
    jars = [made for made in body.get("made", []) if "jars" in made]
    for i, value in enumerate(values):
        if i >= len(jars):
            raise InputError(name, Message.of("refusal-more-than-jars"))
        jars[i][name] = texts.labels(value) if name == "labels" else whole_number(value)
