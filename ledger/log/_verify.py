"""Recompute the chain, and tell a whole log from a cut-off or rewritten one."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from ledger.errors import BookDamaged, InputError
from ledger.log._chain import Head, chained
from ledger.log._heads import read_heads
from ledger.log._store import Log

__all__ = ["ChainReport", "verify"]

Progress = Callable[[int, int], None]

NO_HEAD = "no head kept"
WHOLE = "whole as far as the kept head tells"


@dataclass(frozen=True)
class ChainReport:
    """What a check of one household's log found.

    Attributes
    ----------
    events : int
        Events found whole, from the first.
    first_bad : tuple of int and str, or None
        The number of the first event that does not hold, and why.
    head : Head
        Where the part that holds ends.
    tail : str
        ``"no head kept"``, ``"whole as far as the kept head tells"``, ``"cut off after N"``
        (the head kept is of a later event than the last one here), ``"rewritten at or before N"``
        (event N is another one than when the head was kept) or ``"not told: ..."`` (an event
        before it does not hold).
    kept : Head or None
        The kept head that `tail` rests on.
    file : str or None
        What the database's own check of its file found wrong: a page of an index may be damaged
        while every event still reads well.
    """

    events: int
    first_bad: tuple[int, str] | None
    head: Head
    tail: str
    kept: Head | None = None
    file: str | None = None

    @property
    def whole(self) -> bool:
        """Whether nothing was found wrong."""
        return self.first_bad is None and self.file is None and self.tail in (NO_HEAD, WHOLE)


def verify(
    log: Log,
    head: Head | Iterable[Head] | None = None,
    progress: Progress | None = None,
) -> ChainReport:
    """Check numbers, moments and hashes of every event, and the end against kept heads.

    Parameters
    ----------
    log : Log
        The log to check. It is read in pieces, so memory does not grow with it.
    head : Head or several, optional
        Heads kept elsewhere. One beside the book's file is always used too.
    progress : callable, optional
        Called with the events done and their number.

    Returns
    -------
    ChainReport
        A log that does not hold is reported, not raised.
    """
    kept = [head] if isinstance(head, Head) else list(head or ())
    if log.path is not None:
        with contextlib.suppress(InputError):
            beside = read_heads(log.path).get(log.household)
            kept += [beside] if beside is not None else []
    hashes: dict[int, str | None] = {one.seq: None for one in kept}
    hashes[0] = ""
    chain = _Chain()
    total = log.position()
    bad: tuple[int, str] | None = None
    for row in _rows(log, total, progress):
        bad = row if len(row) == 2 else chain.follow(row)
        if bad is not None:
            break
        if chain.seq in hashes:
            hashes[chain.seq] = chain.hash
    tail, which = _tail(kept, hashes, total)
    end = Head(chain.seq, chain.hash)
    return ChainReport(chain.seq, bad, end, tail, which, _file_fault(log))


def _file_fault(log: Log) -> str | None:
    """Return what SQLite finds wrong with its own pages, or None."""
    if not log.is_sqlite:
        return None
    try:
        with log._connected() as raw:
            (found,) = raw.execute("PRAGMA quick_check(1)").fetchone()
    except BookDamaged as error:
        return str(error)
    return None if found == "ok" else f"the file is damaged: {found}"


class _Chain:
    """The chain as far as it was followed."""

    def __init__(self) -> None:
        self.seq, self.hash, self.at = 0, "", ""

    def follow(self, row: tuple[Any, ...]) -> tuple[int, str] | None:
        """Take the next row; return its number and the reason where it does not follow."""
        seq = row[0]
        if seq != self.seq + 1:
            return self.seq + 1, f"event {self.seq + 1} is missing: the next one is {seq}"
        try:
            expected = chained(self.hash, row[:-1])
        except InputError as error:
            return seq, str(error)
        if expected != row[-1]:
            return seq, "its hash does not follow from its content and the event before it"
        if row[6] < self.at:
            return seq, f"written down at {row[6]}, before the event above it ({self.at})"
        self.seq, self.hash, self.at = seq, expected, row[6]
        return None


def _rows(log: Log, total: int, progress: Progress | None) -> Iterator[tuple[Any, ...]]:
    """Yield rows one by one; where one cannot be read, its number and the reason instead."""
    done = 0
    chunk = 5_000
    while done < total:
        try:
            for rows in log.read(after=done, upto=total, chunk=chunk):
                yield from rows
                done = rows[-1][0]
                if progress is not None:
                    progress(done, total)
            return
        except BookDamaged as error:
            if chunk == 1:
                yield done + 1, f"it cannot be read: {error}"
                return
            chunk = 1  # find which one


def _tail(kept: list[Head], hashes: dict[int, str | None], last: int) -> tuple[str, Head | None]:
    """Judge by the kept heads, the worst news first."""
    for one in sorted(kept, key=lambda head: head.seq):
        found = hashes.get(one.seq)
        if found is not None and found != one.hash:
            return f"rewritten at or before {one.seq}", one
    newest = max(kept, key=lambda head: head.seq, default=None)
    if newest is None:
        return NO_HEAD, None
    if newest.seq > last:
        return f"cut off after {last}", newest
    if hashes[newest.seq] is None:
        return "not told: an event before the kept head does not hold", newest
    return WHOLE, newest
