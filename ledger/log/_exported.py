"""Lines of an export: each with all that its hash was made from."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import msgspec

from ledger.errors import InputError
from ledger.log._chain import StoredEvent
from ledger.messages import Code, Message

__all__ = ["exported_events"]

_LONGEST = 1_000_000
_encode = msgspec.json.Encoder(order="sorted").encode


class _Line(msgspec.Struct, forbid_unknown_fields=True):
    seq: int
    id: str
    kind: str
    on: str
    recorded_at: str
    body: msgspec.Raw
    hash: str
    v: int = 1
    at: str | None = None
    typed_at: str | None = None
    by: str | None = None
    replaces: str | None = None


_decode = msgspec.json.Decoder(_Line).decode


def exported_events(path: Path) -> Iterator[tuple[int, StoredEvent]]:
    """Yield (line number, event) of an export, bodies in their canonical form.

    Whether the hashes follow is for whoever appends the events to say.

    Raises
    ------
    InputError
        Naming the line that is none of an export.
    """
    with path.open("rb") as file:
        for number in range(1, 1 << 62):
            line = file.readline(_LONGEST + 1)
            if not line:
                return
            if len(line) > _LONGEST:
                raise InputError(f"line {number}", Message.of("refusal-line-long-bytes"))
            if number == 1:
                line = line.removeprefix(b"\xef\xbb\xbf")
            if line.strip():
                yield number, _event(number, line)


def _event(number: int, line: bytes) -> StoredEvent:
    try:
        one = _decode(line)
        body = _encode(msgspec.json.decode(one.body)).decode()
    except (msgspec.DecodeError, ValueError, RecursionError) as error:
        raise InputError(
            f"line {number}",
            Message.of("refusal-export-line-not-whole", why=Code(str(error))),
        ) from None
    return StoredEvent(**{**msgspec.structs.asdict(one), "body": body})
