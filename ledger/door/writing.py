"""The one door through which everything is written: the command line, forms and imports."""

from __future__ import annotations

import datetime as dt
import re
import uuid
from dataclasses import dataclass, field, replace
from typing import Any

from ledger import clock
from ledger.days import iso_day
from ledger.door.answers import Answers
from ledger.door.lines import Lines
from ledger.door.lots import Place, check_lots
from ledger.door.names import check_names
from ledger.door.replacing import (
    check_batch,
    check_replaces,
    check_strike,
    keep_numbers,
    lists_of,
    numbered,
)
from ledger.door.same import same_content
from ledger.errors import InputError, NeedsAnswer
from ledger.items import item_key
from ledger.kinds import Kind, check_typed, decode_stored, kind_of, to_stored
from ledger.known.catalogue import Catalogue
from ledger.log import NewEvent, StoredEvent, Writing
from ledger.messages import Code, Day, Message, Typed, sentence

__all__ = ["TIME", "UUID", "Entry", "Written", "check_envelope", "read_day", "write"]

UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
TIME = re.compile(r"([01]\d|2[0-3]):[0-5]\d")
_FIRST = dt.date(1900, 1, 1)
_LONG = dt.timedelta(days=200)
"""Longer than any winter in which nothing is written down."""


@dataclass
class Entry:
    """An event as typed: what a command, a form or a line of a file brings to the door."""

    kind: str
    body: dict[str, Any]
    on: str | None = None
    at: str | None = None
    by: str | None = None
    replaces: str | None = None
    id: str | None = None
    typed_at: str | None = None
    recorded_at: str | None = None
    v: int | None = None


@dataclass
class Written:
    """What was written: the event, the items described on the way, and what was noted.

    `is_new` is False when the same event had arrived before. `proposals` are food-table rows that
    may be meant by new items; none is taken.
    """

    event: StoredEvent
    body: dict[str, Any]
    described: list[StoredEvent] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    proposals: dict[str, str] = field(default_factory=dict)
    is_new: bool = True


def write(tx: Writing, catalogue: Catalogue, entry: Entry, answers: Answers) -> Written:
    """Check, resolve and append one entry within a writing transaction.

    Raises
    ------
    InputError, NeedsAnswer
        Nothing of the entry is written then.
    UnknownKind, NewerEvent
    """
    kind = kind_of(_text("kind", entry.kind))
    v = entry.v
    if v is not None and v != kind.v:
        entry = _raised(entry, v)
    body = check_typed(kind, entry.body)
    check_names(kind.name, body, catalogue)
    check_clock(tx, answers)
    check_envelope(entry)
    if entry.id is not None:
        there = tx.get(entry.id)
        if there is not None:
            return _again(there, entry, body, catalogue, answers)
    old = check_replaces(tx, entry) if entry.replaces else None
    place = _place(tx, catalogue, entry, old)
    check_day(place.on, catalogue, answers, kind=entry.kind)
    if kind.name == "struck":
        body = {**body, "id": check_strike(tx, catalogue, body["id"])}
    elif "batch" in body:
        body = {**body, "batch": check_batch(tx, catalogue, body["batch"])}
    elif kind.name == "item_described" and old is None:
        _check_near(catalogue, body, answers)
    before = len(answers.notes)
    lines = Lines(catalogue, answers, place.on)
    stored = kind.resolve(body, lines)
    stored = keep_numbers(tx, catalogue, stored, old) if old else _with_numbers(stored)
    check_lots(tx, catalogue, (kind, stored), place, answers)
    new = NewEvent(
        id=entry.id or str(uuid.uuid4()), kind=kind.name, v=_version(kind, v, stored), on=place.on,
        body=to_stored(stored), at=place.at, by=entry.by, replaces=entry.replaces,
        typed_at=entry.typed_at, recorded_at=entry.recorded_at,
    )  # fmt: skip
    described = [_describe(tx, catalogue, new, one) for one in lines.described]
    event = _appended(tx, catalogue, new)
    return Written(event, stored, described, answers.notes[before:], lines.proposals)


def _raised(entry: Entry, v: int) -> Entry:
    if not isinstance(entry.body, dict):
        raise InputError("body", Message.of("refusal-no-fields"))
    body = decode_stored(entry.kind, v, to_stored(entry.body))
    return replace(entry, body=body, v=kind_of(entry.kind).v)


def _version(kind: Kind, v: int | None, stored: dict[str, Any]) -> int:
    """Return the version under which a body is stored: the newest, but for what brought its amounts.

    Such an event comes from an export, and is to leave by the next one as it came.
    """
    parts = [stored, *(line for lines in lists_of(stored).values() for line in lines)]
    parts += [one for one in (stored.get("seed"),) if one]
    first = any("basis" in one for one in parts) or (v == 1 and kind.reads == 1)
    said = any("measure" in one and "whole" in one for one in parts)
    return (v or 1) if first and not said and kind.reads <= (v or 1) else kind.v


def _text(name: str, value: Any) -> str:
    if not isinstance(value, str) or not value.strip() or len(value) > 200:
        raise InputError(name, Message.of("refusal-not-a-short-text"), Message.of("refusal-a-text"))
    return value


def _place(tx: Writing, catalogue: Catalogue, entry: Entry, old: StoredEvent | None) -> Place:
    """Return when an entry happened: as it says, else as what it corrects, else today."""
    if old is None:
        on = entry.on or clock.today(catalogue.setting("time_zone")).isoformat()
        return Place(on, entry.at)
    first = tx.get(catalogue.entries(tx).root(old.id)) or old
    return Place(entry.on or old.on, entry.at or (None if entry.on else old.at), first.seq)


def _with_numbers(stored: dict[str, Any]) -> dict[str, Any]:
    return stored | {name: numbered(lines, name) for name, lines in lists_of(stored).items()}


def _appended(tx: Writing, catalogue: Catalogue, new: NewEvent) -> StoredEvent:
    """Append an event whose id was looked for, or just made."""
    (row,) = tx.append_new((new,))
    catalogue.learn(row)
    return StoredEvent(*row)


def _describe(
    tx: Writing, catalogue: Catalogue, user: NewEvent, body: dict[str, Any]
) -> StoredEvent:
    """Describe a new item just before its first use, under an id that follows from both."""
    own = uuid.uuid5(uuid.UUID(user.id), item_key(body["item"]))
    if tx.get(str(own)) is not None:  # the same entry described it once, and that was struck
        own = uuid.uuid4()
    new = NewEvent(
        id=str(own), kind="item_described", v=1, on=user.on, body=to_stored(body), by=user.by,
        recorded_at=user.recorded_at,
    )  # fmt: skip
    return _appended(tx, catalogue, new)


def check_envelope(entry: Entry) -> None:
    """Refuse an id that is no UUID, a time that is none, and texts that are too long.

    Raises
    ------
    InputError
    """
    if entry.id is not None and not UUID.fullmatch(str(entry.id)):
        raise InputError(
            "id",
            Message.of("refusal-no-uuid", text=Typed(str(entry.id)[:60])),
        )
    if entry.at is not None and not TIME.fullmatch(str(entry.at)):
        raise InputError(
            "at", Message.of("refusal-not-a-time-of-day", text=Typed(str(entry.at)[:20]))
        )
    for name in ("by", "replaces", "typed_at", "recorded_at", "on"):
        value = getattr(entry, name)
        if value is not None and (
            not isinstance(value, str) or not value.strip() or len(value) > 200
        ):
            raise InputError(
                name, Message.of("refusal-not-a-short-text"), Message.of("refusal-leave-or-text")
            )


def check_clock(tx: Writing, answers: Answers) -> None:
    """Ask whether the clock is right where it is far ahead of the last entry written down.

    What is recorded ahead of time stays so: nothing later can be recorded before it.

    Raises
    ------
    NeedsAnswer
    """
    last = tx.last_recorded_at[:10]
    if not last or tx.was_empty:
        return
    today = clock.now().date()
    if today - dt.date.fromisoformat(last) > _LONG:
        answers.settle(
            NeedsAnswer(
                "clock",
                "recorded_at",
                sentence("doubt-clock", today=Day(str(today)), last=Day(last)),
                sentence("doubt-right"),
            )
        )


def read_day(on: str) -> dt.date:
    """Return a day written as ISO 8601, from 1900 on.

    Raises
    ------
    InputError
    """
    try:
        day = iso_day(on)
        good = day.isoformat() == on
    except ValueError:
        good = False
    if not good:
        raise InputError(
            "on",
            Message.of("refusal-not-a-day", text=Typed(on)),
            Message.of("refusal-like-day-short"),
        )
    if day < _FIRST:
        raise InputError("on", Message.of("refusal-before-1900", day=Day(on)))
    return day


_SET = frozenset({"setting_changed", "target_set", "person_described"})
"""Kinds of what is to hold from a day on: tomorrow is as good as today."""


def check_day(on: str, catalogue: Catalogue, answers: Answers, *, kind: str = "") -> None:
    """Refuse a day that is none or before 1900; ask about one that is still to come.

    Raises
    ------
    InputError, NeedsAnswer
    """
    day = read_day(on)
    last = clock.today(catalogue.setting("time_zone")) + dt.timedelta(days=int(kind in _SET))
    if day > last:
        answers.settle(
            NeedsAnswer(
                "future", "on", sentence("doubt-future", day=Day(on)), sentence("doubt-right")
            )
        )


def _check_near(catalogue: Catalogue, body: dict[str, Any], answers: Answers) -> None:
    """Ask whether a new item's name is a slip of a known one; a file's word stands."""
    from ledger.items import near_misses

    if answers.importing or catalogue.is_item(body["item"]):
        return
    for near in near_misses(body["item"], catalogue.names())[:1]:
        answers.settle(
            NeedsAnswer(
                "near-miss",
                "item",
                sentence("doubt-close-to", item=Typed(body["item"]), near=Typed(near)),
                sentence("doubt-another-item"),
            )
        )


def _again(
    there: StoredEvent, entry: Entry, body: dict[str, Any], catalogue: Catalogue, answers: Answers
) -> Written:
    """Return what is stored when the same event arrives again; refuse another one of its id."""
    stored = decode_stored(there.kind, there.v, there.body, seq=there.seq)
    same = (
        there.kind == entry.kind
        and (entry.on is None or entry.on == there.on)
        and (entry.by, entry.replaces) == (there.by, there.replaces)
        and (entry.at == there.at or (entry.at is None and entry.on is None))
        and (kind_of(entry.kind).name != "target_set" or body.get("per") == stored.get("per"))
        and (body == stored or _means(body, stored, there, catalogue, answers))
    )
    if not same:
        raise InputError(
            "id",
            Message.of("refusal-id-taken", id=Code(there.id)),
        )
    return Written(there, stored, is_new=False)


def _means(
    body: dict[str, Any],
    stored: dict[str, Any],
    there: StoredEvent,
    catalogue: Catalogue,
    answers: Answers,
) -> bool:
    """Return whether a typed body comes to the same as the stored one through this same door."""
    if same_content(body, stored, catalogue):
        return True
    quiet = replace(answers, notes=[], more_notes=0)
    try:
        resolved = kind_of(there.kind).resolve(body, Lines(catalogue, quiet, there.on))
    except (InputError, NeedsAnswer):
        return False
    return same_content(resolved, stored, catalogue)
