"""What one stored event is, and how its hash chains it to the one before."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Sequence
from typing import Any

import msgspec

from ledger.errors import InputError
from ledger.messages import Code, Message

__all__ = [
    "BARE",
    "COLUMNS",
    "HASH_FORMAT",
    "Head",
    "NewEvent",
    "StoredEvent",
    "canonical_bodies",
    "chained",
]

HASH_FORMAT = 1
"""First element of the hashed array; raised if what is hashed ever changes."""

BARE = ("seq", "kind", "v", "on", "at", "by", "replaces", "body")
"""What a replay reads of every event: it asks for the ids and moments of few."""

COLUMNS = (
    "seq",
    "id",
    "kind",
    "v",
    "on",
    "at",
    "recorded_at",
    "typed_at",
    "by",
    "replaces",
    "body",
    "hash",
)
"""The columns of a stored event, in the order in which every read returns them."""

_AT_ONCE = 100
"""Bodies decoded together: more of them at once only wake the garbage collector."""

_encode = msgspec.json.Encoder().encode
_sorted_lines = msgspec.json.Encoder(order="sorted").encode_lines


class _FloatFoundError(ValueError):
    """A number with a fraction stands in a body."""


def _refuse_float(text: str) -> float:
    raise _FloatFoundError(text)


_decode_lines = msgspec.json.Decoder(dict[str, Any], float_hook=_refuse_float).decode_lines


class NewEvent(msgspec.Struct, frozen=True, gc=False):
    """An event to be written.

    Parameters
    ----------
    id : str
        UUID text; a second arrival of the same id with the same content writes nothing.
    kind : str
        The kind's literal name, ``"harvested"``.
    v : int
        Version of the body.
    on : str
        ISO date on which it happened.
    body : str
        Canonical JSON text of an object: sorted keys, no spaces, no floats.
    at : str, optional
        ``"HH:MM"``, for the order within a day.
    by : str, optional
        The person who wrote it down.
    replaces : str, optional
        The id of the event that this one corrects.
    typed_at : str, optional
        The writing device's own clock.
    recorded_at : str, optional
        RFC 3339 in UTC. Honoured only while writing into an empty book.
    """

    id: str
    kind: str
    v: int
    on: str
    body: str
    at: str | None = None
    by: str | None = None
    replaces: str | None = None
    typed_at: str | None = None
    recorded_at: str | None = None


class StoredEvent(msgspec.Struct, frozen=True, gc=False):
    """An event as it stands in the log; the fields are the columns, in order.

    Build one from a row of :meth:`ledger.log.Log.read` with ``StoredEvent(*row)``.
    """

    seq: int
    id: str
    kind: str
    v: int
    on: str
    at: str | None
    recorded_at: str
    typed_at: str | None
    by: str | None
    replaces: str | None
    body: str
    hash: str


class Head(msgspec.Struct, frozen=True, gc=False):
    """Where a household's log ends: the last event's number and hash (0 and "" when empty)."""

    seq: int
    hash: str


def chained(before: str, fields: Sequence[Any]) -> str:
    """Return the hash of one event.

    Parameters
    ----------
    before : str
        Hash of the event before it in hexadecimal, "" for the first.
    fields : sequence
        seq, id, kind, v, on, at, recorded_at, typed_at, by, replaces, body: a row up to its hash.

    Returns
    -------
    str
        SHA-256 in hexadecimal over `before` and the compact UTF-8 JSON array of the hash format
        and `fields`. The household's name is left out, so that an export matches anywhere.

    Raises
    ------
    InputError
        A field holds a NUL or half a character, which not every database can keep.
    """
    try:
        canonical = _encode((HASH_FORMAT, *fields))
    except (UnicodeEncodeError, OverflowError, TypeError) as error:
        _refuse_text(fields, error)
    # A NUL in any field is encoded as \u0000; so is one that a body holds as an escape.
    if b"\\u0000" in canonical:
        _refuse_nul(fields)
    return hashlib.sha256(before.encode() + canonical).hexdigest()


def _refuse_text(fields: Sequence[Any], error: Exception) -> None:
    for name, value in zip(COLUMNS, fields, strict=False):
        if isinstance(value, str):
            try:
                value.encode()
            except UnicodeEncodeError:
                raise InputError(
                    f"event {fields[1]!r}, {name}",
                    Message.of("refusal-half-character"),
                ) from error
    raise InputError(f"event {fields[1]!r}", Message.of("refusal-neither-text-nor-whole"))


# An escaped NUL, and not a backslash followed by the letters u0000.
_ESCAPED_NUL = re.compile(r"(?<!\\)(?:\\\\)*\\u0000")


def _refuse_nul(fields: Sequence[Any]) -> None:
    for name, value in zip(COLUMNS, fields, strict=False):
        if isinstance(value, str) and (
            "\0" in value or (name == "body" and _ESCAPED_NUL.search(value))
        ):
            raise InputError(f"event {fields[1]!r}, {name}", Message.of("refusal-nul-stands"))


def canonical_bodies(events: Sequence[NewEvent]) -> None:
    """Raise unless every body is the canonical JSON text of an object.

    One decode and one encode for many together: equal text with as many line ends as bodies
    means that each line is canonical, since canonical JSON holds no line end of its own.

    Raises
    ------
    InputError
        Naming the first event whose body is not canonical.
    """
    for start in range(0, len(events), _AT_ONCE):
        part = events[start : start + _AT_ONCE]
        try:
            raw = ("\n".join([event.body for event in part]) + "\n").encode()
            if raw.count(b"\n") == len(part) and _sorted_lines(_decode_lines(raw)) == raw:
                continue
        except (ValueError, TypeError, OverflowError, RecursionError):
            pass  # found one by one below, to be named
        for event in part:
            _canonical_body(event)


def _canonical_body(event: NewEvent) -> None:
    field = f"event {event.id!r}, body"
    wanted = Message.of("refusal-canonical")
    try:
        again = json.dumps(
            json.loads(event.body, parse_float=_refuse_float, parse_constant=_refuse_float),
            sort_keys=True,
            separators=(",", ":"),
            ensure_ascii=False,
        )
    except _FloatFoundError as error:
        raise InputError(
            field, Message.of("refusal-number-not-whole", number=Code(str(error))), wanted
        ) from error
    except (ValueError, TypeError, RecursionError) as error:
        raise InputError(
            field, Message.of("refusal-it-is-no-json", why=Code(str(error))), wanted
        ) from error
    if again != event.body or not again.startswith("{"):
        raise InputError(field, Message.of("refusal-not-canonical"), wanted)
    try:
        _decode_lines(event.body.encode())
    except UnicodeEncodeError:
        return  # named with its field where the hash is made
    except (ValueError, OverflowError) as error:
        raise InputError(
            field, Message.of("refusal-it-is-no-json", why=Code(str(error))), wanted
        ) from error
