"""What was typed into a form's boxes, as an entry for the door."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from dashboard.forms.specs import FORMS, Form
from ledger.door import Entry
from ledger.door.filling import fill
from ledger.door.texts import Texts, whole_number
from ledger.door.when import day_of
from ledger.errors import InputError, LedgerError, NeedsAnswer, UnknownKind
from ledger.messages import Code, Message

__all__ = ["Boxes", "FieldTrouble", "Typed", "read_form"]

_NUMBERS = ("money", "decimal")

Boxes = Mapping[tuple[str, int], str]
"""What stands in each box, by field and row."""


@dataclass
class Typed:
    """What a form was told besides its boxes. An empty day is one that was left out; none is today.

    What waited on a phone brings the phone's clock, and the day on which it was typed there.
    """

    kind: str
    day: str | None = None
    by: str | None = None
    id: str | None = None
    replaces: str | None = None
    boxes: Boxes = field(default_factory=dict)
    typed_at: str | None = None
    on_day: dt.date | None = None


class FieldTrouble(Exception):
    """A refusal or a doubt, with the box it belongs to."""

    def __init__(self, error: LedgerError, box: tuple[str, int]) -> None:
        super().__init__(str(error))
        self.error, self.box = error, box


def read_form(typed: Typed, texts: Texts, today: dt.date) -> Entry:
    """Return the entry that a form's boxes say.

    Raises
    ------
    FieldTrouble
        With the box that could not be read.
    UnknownKind
        When there is no form of that kind.
    """
    if typed.kind not in FORMS:
        raise UnknownKind(typed.kind)
    form = FORMS[typed.kind]
    body: dict[str, Any] = {}
    for name in dict.fromkeys(one for one, _ in typed.boxes):
        if form.is_parts(name) or name == form.as_line:
            _read_parts(form, name, typed.boxes, body, texts)
    _read_singles(form, typed.boxes, body, texts)
    try:
        if typed.day == "":
            raise InputError(
                "day",
                Message.of("refusal-missing"),
                Message.of("refusal-like", example=Code(today.isoformat())),
            )
        on = day_of(typed.day, today, "day")
    except InputError as error:
        raise FieldTrouble(error, ("day", 0)) from None
    return Entry(
        typed.kind,
        body,
        on=on,
        by=(typed.by or "").strip() or None,
        id=typed.id,
        replaces=typed.replaces,
        typed_at=typed.typed_at,
    )


def _said(boxes: Boxes, name: str) -> dict[int, str]:
    return {
        row: text.strip()
        for (one, row), text in sorted(boxes.items())
        if one == name and (text or "").strip()
    }


def _read_parts(form: Form, name: str, boxes: Boxes, body: dict[str, Any], texts: Texts) -> None:
    """Read the boxes of a list, each row with what stands beside it."""
    parts = []
    for row, text in _said(boxes, name).items():
        try:
            if name == form.as_line:
                body.update(texts.line(text, "line"))
                continue
            part: dict[str, Any] = {name: []}
            fill(part, [form.named(name)] if name != "lines" else [], {name: [text]}, texts)
            one = part[name][0] if part[name] else texts.line(text, "lines")
        except (InputError, NeedsAnswer) as error:
            raise FieldTrouble(error, (name, row)) from None
        parts.append(_with_beside(form, name, row, one, boxes, texts))
    if parts:
        body[name] = parts


def _with_beside(
    form: Form, name: str, row: int, one: dict[str, Any], boxes: Boxes, texts: Texts
) -> dict[str, Any]:
    wanted = (
        (*form.in_row, *form.beside)
        if name == "lines"
        else ("labels", "unsealed")
        if name == "made"
        else ()
    )
    for field_name in wanted:
        text = (boxes.get((field_name, row)) or "").strip()
        if not text:
            continue
        try:
            if field_name == "labels":
                one["labels"] = texts.labels(text)
            elif field_name in ("plants", "unsealed") and text.isdecimal():
                one[field_name] = whole_number(text)
            else:
                kind = form.named(field_name).kind
                one[field_name] = texts.number(text, kind, field_name) if kind in _NUMBERS else text
        except InputError as error:
            raise FieldTrouble(error, (field_name, row)) from None
    return one


def _read_singles(form: Form, boxes: Boxes, body: dict[str, Any], texts: Texts) -> None:
    for one in form.fields:
        if one.of_line or form.is_parts(one.name) or one.name in ("labels", "unsealed"):
            continue
        said = list(_said(boxes, one.name).values())
        if not said:
            continue
        try:
            fill(body, [one], {one.name: said if one.is_list else said[0]}, texts)
        except (InputError, NeedsAnswer) as error:
            raise FieldTrouble(error, (one.name, 0)) from None
