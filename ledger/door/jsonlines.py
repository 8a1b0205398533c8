"""JSON Lines: a file's lines as they stand, and one line as an event."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import msgspec

from ledger.errors import InputError
from ledger.messages import Code, Message, Names, Typed

__all__ = ["json_lines", "parse_json"]

LONGEST = 1_000_000
"""Bytes of one line beyond which it is refused: no household's event is that long."""

_LEAST = {"kind", "body", "on"}
_ENVELOPE = {
    "kind",
    "on",
    "body",
    "id",
    "by",
    "at",
    "replaces",
    "typed_at",
    "v",
    "recorded_at",
    "seq",
    "hash",
}
_DECODER = msgspec.json.Decoder(float_hook=str)


def json_lines(
    path: Path, *, encoding: str = "utf-8", dates: str | None = None
) -> Iterator[tuple[int, int, bytes | InputError]]:
    """Return (line number, bytes read so far, line) of a file; an endless line is an InputError.

    Raises
    ------
    InputError
        When another encoding than UTF-8, or an order of dates, is named: JSON Lines know neither.
    """
    if encoding.lower().replace("_", "-") not in ("utf-8", "utf8", "utf-8-sig"):
        raise InputError(
            "encoding",
            Message.of("refusal-encoding-of-sheets", text=Typed(encoding)),
        )
    if dates is not None:
        raise InputError("dates", Message.of("refusal-for-sheets"))
    return _json_lines(path)


def _json_lines(path: Path) -> Iterator[tuple[int, int, bytes | InputError]]:
    size = 0
    with path.open("rb") as file:
        for number in range(1, 1 << 62):
            line = file.readline(LONGEST + 1)
            if not line:
                return
            size += len(line)
            if len(line) > LONGEST:
                while line and not line.endswith(b"\n"):
                    line = file.readline(LONGEST)
                    size += len(line)
                yield (
                    number,
                    size,
                    InputError(
                        "line",
                        Message.of("refusal-line-long-bytes"),
                        Message.of("refusal-split-line"),
                    ),
                )
                continue
            if number == 1:
                line = line.removeprefix(b"\xef\xbb\xbf")
            yield number, size, line


def parse_json(line: bytes) -> dict[str, Any]:
    """Return one line's event; decimals are kept as they were typed.

    Raises
    ------
    InputError
    """
    try:  # a context manager would take as long as half of the decoding
        event = _DECODER.decode(line)
        if b"\0" not in line and type(event) is dict and _LEAST <= event.keys() <= _ENVELOPE:
            return event
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        pass  # what was wrong is found out in order
    try:
        text = line.decode("utf-8")
    except UnicodeDecodeError as error:
        raise InputError("line", Message.of("refusal-not-utf8", n=error.start + 1)) from None
    if "\x00" in text:
        raise InputError(
            "line", Message.of("refusal-nul-character"), Message.of("refusal-take-it-out")
        )
    try:
        event = _DECODER.decode(text)
    except (msgspec.DecodeError, RecursionError) as error:
        raise InputError(
            "line", Message.of("refusal-json-not-whole", why=Code(str(error)))
        ) from None
    if not isinstance(event, dict):
        raise InputError("line", Message.of("refusal-no-event"))
    unknown = sorted(set(event) - _ENVELOPE)
    if unknown:
        raise InputError(
            unknown[0], Message.of("refusal-no-event-field", names=Names(tuple(sorted(_ENVELOPE))))
        )
    for name in ("kind", "body", "on"):
        if name not in event:
            raise InputError(name, Message.of("refusal-missing"), Message.of("refusal-like-event"))
    return event
