"""The lines of an export as a chain: a line cut out, changed by hand or missing is said by its line."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from ledger.errors import InputError
from ledger.kinds import to_stored
from ledger.log import Head, chained, head_file, read_heads

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
                "is no line of an export",
                "Leave `seq` and `hash` out: then it is typed anew",
            )
        before, self.head = self.head, Head(seq, said)
        self.lines += 1
        if seq != before.seq + 1:
            missing = "the lines before it are" if not before.seq else f"event {before.seq + 1} is"
            raise InputError(
                "seq",
                f"is {seq}, and the line before it is event {before.seq}: {missing} missing",
                "Take the whole export, or leave `seq` and `hash` out of every line",
            )
        try:
            content = [event.get(name, 1 if name == "v" else None) for name in _FIELDS]
            followed = chained(before.hash, [*content, to_stored(event["body"])]) == said
        except (TypeError, ValueError, OverflowError, RecursionError):
            followed = False
        if not followed:
            raise InputError(
                "hash",
                "does not follow from the line and the one before it: the line was changed by hand",
                "Take the line from the export again, or leave `seq` and `hash` out of every line",
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
                f"ends at event {self.head.seq}, and its head tells of event {kept.seq}: {less} "
                "lines are missing at its end",
                "It was cut off: take another copy of the export with its .head",
            )
        raise InputError(
            "file", "does not end with the event that its head tells of",
            "Take the .head that was written with this export",
        )  # fmt: skip


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
