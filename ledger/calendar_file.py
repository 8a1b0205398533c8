"""A calendar file (iCalendar, RFC 5545) of what is to be done, kept in place by stable ids.

Written again, an event keeps its id; where it changed its number of changes goes up, and what is no
longer to be done is cancelled rather than taken out, so that a calendar that took the file in follows.
Events of anybody else in the file stay as they are.
"""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ledger import clock
from ledger.errors import InputError
from ledger.files import whole_file
from ledger.messages import Code, Message

if TYPE_CHECKING:
    from icalendar import Calendar, Component

    from ledger.questions.month_by_month.question import Doing

__all__ = ["Calendared", "uid_of", "write_calendar"]

_SPACE = uuid.UUID("7b0f4c52-6d1e-4c8b-9a54-1f0d5f3f2c10")
_DOMAIN = "@croftbook"
_EPOCH = dt.date(1970, 1, 1)


@dataclass(frozen=True)
class Calendared:
    """What a writing did: events new, changed, cancelled and as they were."""

    new: int
    changed: int
    cancelled: int
    same: int


def uid_of(book: str, key: str) -> str:
    """Return the stable id of a thing to do in a book (by the id of its first event)."""
    return f"{uuid.uuid5(_SPACE, f'{book}/{key}')}{_DOMAIN}"


def write_calendar(path: Path, book: str, todo: Sequence[Doing]) -> Calendared:
    """Write a calendar file, or bring the one that is there up to date, all or nothing.

    Parameters
    ----------
    path : Path
    book : str
        The id of the book's first event.
    todo : sequence of Doing

    Raises
    ------
    InputError
        When the file there is no calendar, or cannot be written.
    """
    from icalendar import Calendar

    old = _read(path)
    found = {str(event["UID"]): event for event in old.walk("VEVENT")} if old else {}
    out = Calendar()
    out.add("PRODID", "-//Croftbook//month by month//EN")
    out.add("VERSION", "2.0")
    out.add("METHOD", "PUBLISH")
    count = {"new": 0, "changed": 0, "cancelled": 0, "same": 0}
    wanted: dict[str, Component] = {}
    for one in todo:
        event, how = _event(uid_of(book, one.id), one, found)
        wanted[str(event["UID"])] = event
        count[how] += 1
    today = clock.today()
    for uid, event in found.items():
        if uid in wanted:
            continue
        if uid.endswith(_DOMAIN) and _starts(event) >= today and event.get("STATUS") != "CANCELLED":
            event["STATUS"] = "CANCELLED"
            _again(event)
            count["cancelled"] += 1
        wanted[uid] = event
    for event in sorted(wanted.values(), key=lambda e: (_starts(e), str(e["UID"]))):
        out.add_component(event)
    for other in old.subcomponents if old else ():
        if other.name != "VEVENT":
            out.add_component(other)
    _save(path, out.to_ical())
    return Calendared(**count)


def _read(path: Path) -> Calendar | None:
    from icalendar import Calendar

    if not path.exists():
        return None
    try:
        found = Calendar.from_ical(path.read_bytes())
    except OSError as error:
        raise _fault(path, error, Message.of("refusal-other-file")) from None
    except (ValueError, IndexError, KeyError):
        raise InputError(
            "file", Message.of("refusal-no-calendar-there", path=Code(str(path)))
        ) from None
    if not isinstance(found, Calendar):
        raise InputError("file", Message.of("refusal-no-calendar-there", path=Code(str(path))))
    return found


def _event(uid: str, one: Doing, found: dict[str, Component]) -> tuple[Component, str]:
    """Return an event, and whether it is ``new``, ``changed`` or the ``same``."""
    from icalendar import Event

    start = _EPOCH + dt.timedelta(days=one.day)
    end = _EPOCH + dt.timedelta(days=(one.until or one.day) + 1)
    text = one.what[0].upper() + one.what[1:]
    why = f"croftbook why {one.why}" if one.why else ""
    old = found.get(uid)
    if old is not None:
        same = (str(old.get("SUMMARY")), _starts(old), _ends(old), old.get("STATUS")) == (
            text,
            start,
            end,
            None,
        )
        if same:
            return old, "same"
    event = Event()
    event.add("UID", uid)
    event.add("DTSTART", start)
    event.add("DTEND", end)
    event.add("SUMMARY", text)
    event.add("CATEGORIES", [one.kind])
    event.add("TRANSP", "TRANSPARENT")
    if why:
        event.add("DESCRIPTION", why)
    event.add("SEQUENCE", 0 if old is None else int(old.get("SEQUENCE", 0)))
    event.add("DTSTAMP", _now())
    if old is None:
        return event, "new"
    _again(event)
    return event, "changed"


def _now() -> dt.datetime:
    return clock.now().astimezone(dt.UTC).replace(microsecond=0)


def _again(event: Component) -> None:
    """Count one change up, and stamp it."""
    number = int(event.get("SEQUENCE", 0)) + 1
    for name in ("SEQUENCE", "DTSTAMP", "LAST-MODIFIED"):
        event.pop(name, None)
    event.add("SEQUENCE", number)
    event.add("DTSTAMP", _now())
    event.add("LAST-MODIFIED", _now())


def _day(event: Component, name: str) -> dt.date:
    found: Any = event.get(name)
    value = found.dt if found is not None else dt.date(9999, 1, 1)
    return value.date() if isinstance(value, dt.datetime) else value


def _starts(event: Component) -> dt.date:
    return _day(event, "DTSTART")


def _ends(event: Component) -> dt.date:
    return _day(event, "DTEND")


def _save(path: Path, data: bytes) -> None:
    try:
        with whole_file(path, private=False) as file:
            file.write(data)
    except OSError as error:
        raise _fault(path, error, Message.of("refusal-file-in-writable")) from None


def _fault(path: Path, error: OSError, wanted: Message) -> InputError:
    """Return the refusal of a file that the system does not give or take."""
    said = Message.of(
        "refusal-file-fault", path=Code(str(path)), strerror=Code(str(error.strerror))
    )
    return InputError("file", said, wanted)
