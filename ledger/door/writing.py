"""The one door through which everything is written: the command line, forms and imports."""

from __future__ import annotations

import datetime as dt
import re
import uuid
from dataclasses import dataclass, field
from typing import Any

from ledger import clock
from ledger.door._same import same_content
from ledger.door.answers import Answers
from ledger.door.bodies import resolve
from ledger.door.catalogue import Catalogue
from ledger.door.lines import Lines
from ledger.door.lots import check_lots
from ledger.door.replacing import check_measure, check_replaces, check_strike, keep_numbers
from ledger.errors import InputError, NeedsAnswer
from ledger.events import check_typed, decode_stored, kind_of, to_stored
from ledger.items import item_key
from ledger.log import NewEvent, StoredEvent, Writing

__all__ = ["Entry", "Written", "write"]

_UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
_TIME = re.compile(r"([01]\d|2[0-3]):[0-5]\d")
_FIRST = dt.date(1900, 1, 1)


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
    v: int = 1


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
    kind = kind_of(entry.kind)
    if entry.v != kind.v:
        entry = _raised(entry)
    body = check_typed(kind, entry.body)
    _check_envelope(entry)
    id_ = entry.id or str(uuid.uuid4())
    if entry.id is not None:
        there = tx.get(id_)
        if there is not None:
            return _again(there, entry, body, catalogue)
    on = entry.on or clock.today(catalogue.setting("time_zone")).isoformat()
    check_day(on, catalogue, answers)
    before = len(answers.notes)
    old = check_replaces(tx, entry) if entry.replaces else None
    if kind.name == "struck":
        body = {**body, "id": check_strike(tx, catalogue, body["id"])}
    lines = Lines(catalogue, answers, on)
    if kind.name == "item_described":
        check_measure(tx, catalogue, body)
        _check_near(catalogue, body, answers)
    stored = resolve(kind.name, body, lines)
    if old is not None:
        stored = keep_numbers(stored, old)
    check_lots(tx, catalogue, (kind, stored, on, entry.id), answers)
    described = [_described(tx, catalogue, entry, on, id_, one) for one in lines.described]
    event = tx.append(
        NewEvent(
            id=id_, kind=kind.name, v=kind.v, on=on, body=to_stored(stored), at=entry.at, by=entry.by,
            replaces=entry.replaces, typed_at=entry.typed_at, recorded_at=entry.recorded_at,
        )
    )  # fmt: skip
    _learn(catalogue, event)
    return Written(event, stored, described, answers.notes[before:], lines.proposals)


def _raised(entry: Entry) -> Entry:
    body = decode_stored(entry.kind, entry.v, to_stored(entry.body))
    return Entry(**{**entry.__dict__, "body": body, "v": kind_of(entry.kind).v})


def _learn(catalogue: Catalogue, event: StoredEvent) -> None:
    if event.kind in ("item_described", "setting_changed", "recipe_written", "put_up", "struck"):
        catalogue.take(
            (event.seq, event.id, event.kind, event.v, event.on, event.at, event.recorded_at,
             event.typed_at, event.by, event.replaces, event.body)
        )  # fmt: skip
    catalogue.seq = event.seq


def _described(
    tx: Writing, catalogue: Catalogue, entry: Entry, on: str, id_: str, body: dict[str, Any]
) -> StoredEvent:
    """Describe a new item just before its first use, under an id that follows from both."""
    own = str(uuid.uuid5(uuid.UUID(id_), item_key(body["item"]) + body.get("measure", "")))
    event = tx.append(
        NewEvent(
            id=own,
            kind="item_described",
            v=1,
            on=on,
            body=to_stored(body),
            by=entry.by,
            recorded_at=entry.recorded_at,
        )
    )
    _learn(catalogue, event)
    return event


def _check_envelope(entry: Entry) -> None:
    if entry.id is not None and not _UUID.fullmatch(str(entry.id)):
        raise InputError(
            "id",
            f"{str(entry.id)[:60]!r} is not a UUID",
            "Leave it out, or write a UUID in lower case",
        )
    if entry.at is not None and not _TIME.fullmatch(str(entry.at)):
        raise InputError(
            "at", f"{str(entry.at)[:20]!r} is not a time of day", "Write it like 08:30"
        )
    for name in ("by", "replaces", "typed_at", "recorded_at", "on"):
        value = getattr(entry, name)
        if value is not None and (
            not isinstance(value, str) or not value.strip() or len(value) > 200
        ):
            raise InputError(name, "is not a short text", "Leave it out, or write a text")


def check_day(on: str, catalogue: Catalogue, answers: Answers) -> None:
    """Refuse a day that is none or before 1900; ask about one beyond tomorrow.

    Raises
    ------
    InputError, NeedsAnswer
    """
    try:
        day = dt.date.fromisoformat(on)
        good = day.isoformat() == on
    except ValueError:
        good = False
    if not good:
        raise InputError(
            "on", f"{on!r} is not a day", "Write it like 2026-09-02, yesterday or friday"
        )
    if day < _FIRST:
        raise InputError("on", f"{on} is before 1900", "Check the year")
    if day > clock.today(catalogue.setting("time_zone")) + dt.timedelta(days=1):
        answers.settle(
            NeedsAnswer("future", "on", f"{on} is still to come; is the day right?", "it is right")
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
                f"{body['item']!r} is close to {near!r}; is it another item?",
                "it is another item",
            )
        )


def _again(there: StoredEvent, entry: Entry, body: dict[str, Any], catalogue: Catalogue) -> Written:
    """Return what is stored when the same event arrives again; refuse another one of its id."""
    stored = decode_stored(there.kind, there.v, there.body, seq=there.seq)
    same = (
        there.kind == entry.kind
        and (entry.on is None or entry.on == there.on)
        and (entry.at, entry.by, entry.replaces) == (there.at, there.by, there.replaces)
        and same_content(body, stored, catalogue)
    )
    if not same:
        raise InputError(
            "id",
            f"{there.id} is already in the book with other content",
            "Leave the id out, or correct the entry with `replaces`",
        )
    return Written(there, stored, is_new=False)
