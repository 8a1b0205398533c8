"""The lines of an export as a chain: a line cut out, changed by hand or missing is said by its line."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from ledger.errors import InputError
from ledger.kinds import to_stored
from ledger.log import Head, chained, head_file, read_heads
from ledger.messages import Message

__all__ = ["ExportedChain", "head_beside"]

_FIELDS = ("seq", "id", "kind", "v", "on", "at", "recorded_at", "typed_at", "by", "replaces")


class ExportedChain:
    """Follows the numbers and hashes that the lines of an export carry.

    Each line is held against the hash that stands in the line before it, so that one changed line
    is said once, and not all behind it.
    """

    def __init__(self) -> None:
        self.head = Head(0, "")
        self.lines = 0

    def follow(self, event: dict[str, Any]) -> None:
        """Take the next line that carries a number and a hash.

        Raises
        ------
        InputError
            It does not follow from its content and the line before.
        """
        seq, said = event["seq"], event["hash"]
        if not isinstance(seq, int) or isinstance(seq, bool) or not isinstance(said, str):
            raise InputError(
                "line",
                Message.of("refusal-no-export-line"),
            )
        before, self.head = self.head, Head(seq, said)
        self.lines += 1
        if seq != before.seq + 1:
            missing = "the lines before it are" if not before.seq else f"event {before.seq + 1} is"
            raise InputError(
                "seq",
                Message.of("refusal-export-gap", seq=seq, before=before.seq, n=missing),
            )
        try:
            content = [event.get(name, 1 if name == "v" else None) for name in _FIELDS]
            followed = chained(before.hash, [*content, to_stored(event["body"])]) == said
        except (TypeError, ValueError, OverflowError, RecursionError):
            followed = False
        if not followed:
            raise InputError(
                "hash",
                Message.of("refusal-export-hash"),
            )

    def check_end(self, kept: Head | None) -> None:
        """Hold the end of the file against the head that was written beside it.

        Raises
        ------
        InputError
            Lines are missing at the end, or the last one is another.
        """
        if kept is None or kept == self.head:
            return
        less = kept.seq - self.head.seq
        if less > 0:
            raise InputError(
                "file",
                Message.of("refusal-export-cut", seq=self.head.seq, kept=kept.seq, n=less),
            )
        raise InputError(
            "file",
            Message.of("refusal-export-end"),
        )


def head_beside(path: Path, household: str) -> Head | None:
    """Return the head written beside an export, None where there is none.

    Raises
    ------
    InputError
        There is one, and it cannot be read.
    """
    if not head_file(path).is_file():
        return None
    heads = read_heads(path)
    if household not in heads and len(heads) == 1:
        return next(iter(heads.values()))
    return heads.get(household)
