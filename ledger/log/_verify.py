"""Recompute the chain, and tell a whole log from a cut-off or rewritten one."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from ledger import clock
from ledger.errors import BookDamaged, InputError
from ledger.log._chain import Head, chained
from ledger.log._file_faults import file_faults
from ledger.log._heads import head_file, read_heads
from ledger.log._kept import Kept
from ledger.log._standing import standing_of
from ledger.log._store import Log
from ledger.messages import Code, sentence

__all__ = ["ChainReport", "verify"]

Progress = Callable[[int, int], None]

NO_HEAD = "no head kept"
WHOLE = "whole as far as the kept head tells"

_AHEAD = dt.timedelta(days=1)
_SHORTEST = 8
"""Digits of a hash that a head written down on paper has to have."""


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
        before it does not hold, or the kept head is damaged).
    kept : Head or None
        The kept head that `tail` rests on.
    file : str or None
        What is wrong with the database: its pages, indexes, ids or triggers. It may be damaged
        while every event still reads well.
    reasons : list of str
        All that is wrong, a sentence each with what to do; empty where nothing is.
    notes : list of str
        What is worth knowing though nothing is wrong.
    """

    events: int
    first_bad: tuple[int, str] | None
    head: Head
    tail: str
    kept: Head | None = None
    file: str | None = None
    reasons: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    @property
    def whole(self) -> bool:
        """Whether nothing was found wrong."""
        return not self.reasons

    @property
    def is_head_known(self) -> bool:
        """Whether a head kept elsewhere told where the log has to end."""
        return self.tail != NO_HEAD


def verify(
    log: Log,
    head: Head | Iterable[Head] | None = None,
    progress: Progress | None = None,
    *,
    file: bool = True,
) -> ChainReport:
    """Check numbers, moments and hashes of every event, and the end against kept heads.

    Parameters
    ----------
    log : Log
        The log to check. It is read in pieces, so memory does not grow with it.
    head : Head or several, optional
        Heads kept elsewhere; of one written down on paper the first digits of the hash are enough.
        The one kept in the user's data folder and one beside the book's file are always used too.
    progress : callable, optional
        Called with the events done and their number.
    file : bool
        Check the database's pages, indexes and triggers as well.

    Returns
    -------
    ChainReport
        A log that does not hold is reported, not raised.
    """
    total = log.position()
    notes: list[str] = []
    kept = [head] if isinstance(head, Head) else list(head or ())
    kept += _beside(log, notes)
    here, reasons, is_unreadable = _kept_here(log, notes)
    kept += here
    hashes: dict[int, str | None] = {one.seq: None for one in kept}
    hashes[0] = ""
    chain = _Chain()
    bad: tuple[int, str] | None = None
    for row in _rows(log, total, progress):
        bad = row if len(row) == 2 else chain.follow(row)
        if bad is not None:
            reasons.append(sentence("refusal-first-bad", seq=bad[0], why=bad[1]))
            break
        if chain.seq in hashes:
            hashes[chain.seq] = chain.hash
    tail, which = _tail(kept, hashes, total)
    if is_unreadable and tail in (NO_HEAD, WHOLE):
        tail = "not told: the kept head is damaged"
    elif tail not in (NO_HEAD, WHOLE) and not reasons and which is not None:
        reasons.append(_ending(tail, which, total))
    found = file_faults(log) if file else []
    reasons += found
    if chain.at > clock.stamp(clock.now() + _AHEAD):
        notes.append(
            f"the last event was written down at {chain.at[:16].replace('T', ' ')} UTC, which is "
            "still to come: the clock was ahead then, or is behind now"
        )
    end = Head(chain.seq, chain.hash)
    return ChainReport(chain.seq, bad, end, tail, which, "; ".join(found) or None, reasons, notes)


def _beside(log: Log, notes: list[str]) -> list[Head]:
    """Return the head that backup or export left beside the file."""
    if log.path is None or not head_file(log.path).is_file():
        return []
    try:
        one = read_heads(log.path).get(log.household)
    except InputError as error:
        notes.append(str(error))
        return []
    return [one] if one is not None else []


def _kept_here(log: Log, notes: list[str]) -> tuple[list[Head], list[str], bool]:
    """Return the heads kept in the data folder, what the look at the end says, and if one is damaged."""
    if log.keeper is None:
        return [], [], False
    try:
        standing = standing_of(log.keeper, log.household, log.head(), log.hash_at)
    except BookDamaged:  # the end cannot be read: said where the chain is followed
        standing = None
    kept = log.keeper.read()
    one: Kept | None = (kept or {}).get(log.household)
    heads = [one.head] if one is not None else []
    if one is not None and one.coming is not None and standing is not None and not standing.fault:
        heads = [one.coming] if log.hash_at(one.coming.seq) == one.coming.hash else heads
    if standing is not None and standing.note:
        notes.append(standing.note)
    faults = [standing.fault] if standing is not None and standing.fault else []
    return heads, faults, kept is None


def _ending(tail: str, which: Head, last: int) -> str:
    if which.seq > last:
        missing = which.seq - last
        return sentence("refusal-end-held-against", last=last, seq=which.seq, missing=missing)
    if tail.startswith("not told"):
        return sentence("refusal-end-untold")
    return sentence("refusal-end-other", seq=which.seq)


class _Chain:
    """The chain as far as it was followed."""

    def __init__(self) -> None:
        self.seq, self.hash, self.at = 0, "", ""

    def follow(self, row: tuple[Any, ...]) -> tuple[int, str] | None:
        """Take the next row; return its number and the reason where it does not follow."""
        seq = row[0]
        if seq != self.seq + 1:
            return self.seq + 1, sentence("refusal-chain-missing", seq=self.seq + 1, next=seq)
        try:
            expected = chained(self.hash, row[:-1])
        except InputError as error:
            return seq, str(error)
        if expected != row[-1]:
            return seq, sentence("refusal-chain-hash")
        if row[6] < self.at:
            return seq, sentence("refusal-chain-before", at=Code(row[6]), before=Code(self.at))
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
                yield done + 1, sentence("refusal-chain-unread", why=str(error))
                return
            chunk = 1  # find which one


def _tail(kept: list[Head], hashes: dict[int, str | None], last: int) -> tuple[str, Head | None]:
    """Judge by the kept heads, the worst news first."""
    for one in sorted(kept, key=lambda head: head.seq):
        found = hashes.get(one.seq)
        if found is not None and not _is_same(found, one.hash):
            return f"rewritten at or before {one.seq}", one
    newest = max(kept, key=lambda head: head.seq, default=None)
    if newest is None:
        return NO_HEAD, None
    if newest.seq > last:
        return f"cut off after {last}", newest
    if hashes[newest.seq] is None:
        return "not told: an event before the kept head does not hold", newest
    return WHOLE, newest


def _is_same(found: str, kept: str) -> bool:
    return found == kept or (len(kept) >= _SHORTEST and found.startswith(kept))
