"""A line of an export, taken in as it was written down elsewhere."""

from __future__ import annotations

import datetime as dt
from typing import Any

import msgspec

from ledger import clock
from ledger.door.answers import Answers
from ledger.door.replacing import lists_of
from ledger.door.writing import Entry, check_envelope, read_day
from ledger.errors import InputError
from ledger.kinds import check_typed, decode_stored, kind_of, to_stored
from ledger.known.catalogue import Catalogue
from ledger.log import StoredEvent, Writing
from ledger.messages import Code, Message, sentence

__all__ = ["not_ahead", "verbatim"]

AHEAD = dt.timedelta(days=1)
"""How far a file's `recorded_at` may be ahead of this machine's clock."""


class _Exported(msgspec.Struct, forbid_unknown_fields=True):
    """A line of an export, with everything that its hash was made from."""

    seq: int
    id: str
    kind: str
    on: str
    recorded_at: str
    body: dict[str, Any]
    hash: str
    v: int = 1
    at: str | None = None
    typed_at: str | None = None
    by: str | None = None
    replaces: str | None = None


def verbatim(tx: Writing, catalogue: Catalogue, event: dict[str, Any], answers: Answers) -> None:
    """Append an exported event as it was; it is checked all the same, as anybody can write one.

    Raises
    ------
    InputError
    """
    try:
        one = msgspec.convert(event, _Exported)
    except msgspec.ValidationError as error:
        raise InputError(
            "line", Message.of("refusal-no-export-line-so", why=Code(str(error)))
        ) from None
    kind = kind_of(one.kind)
    text = to_stored(one.body)
    check_typed(kind, decode_stored(one.kind, one.v, text))
    check_envelope(Entry(one.kind, one.body, one.on, one.at, one.by, one.replaces, one.id))
    read_day(one.on)
    if is_ahead(one.recorded_at):
        answers.note(sentence("doubt-still-to-come", at=Code(one.recorded_at)))
    _check_stored(one.body)
    stored = tx.append_verbatim(StoredEvent(**{**msgspec.structs.asdict(one), "body": text}))
    catalogue.learn(msgspec.structs.astuple(stored))


def _check_stored(body: dict[str, Any]) -> None:
    """Refuse lines without what every stored line has."""
    for name, lines in lists_of(body).items():
        for i, line in enumerate(lines):
            if type(line.get("n")) is not int or type(line.get("whole")) is not int:
                raise InputError(f"{name}[{i}]", Message.of("refusal-lacks-whole"))


def is_ahead(recorded_at: str) -> bool:
    """Return whether a moment is later than this machine's clock, by more than it may be wrong."""
    return recorded_at[:19] > clock.stamp(clock.now() + AHEAD)[:19]


def not_ahead(recorded_at: str) -> None:
    """Refuse a moment to come: no later event could be written down before it.

    Raises
    ------
    InputError
    """
    if is_ahead(recorded_at):
        raise InputError(
            "recorded_at", Message.of("refusal-recorded-ahead", at=Code(str(recorded_at)))
        )
