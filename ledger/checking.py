"""Checking a book: its events, its file, its heads, and that every amount is accounted for."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ledger.errors import BookDamaged, InputError, LedgerError
from ledger.kinds import newer_than_this
from ledger.log import ChainReport, Head, Log, read_heads, verify
from ledger.messages import Code, Message, Names, Typed, sentence

if TYPE_CHECKING:
    from ledger.book import Book

__all__ = ["Checked", "accept", "check", "check_all", "read_head", "shown_head"]

_TYPED = re.compile(r"(?P<seq>\d{1,15})[\s:,]+(?P<hash>[0-9a-fA-F][0-9a-fA-F \t]{7,80})")
_END = "9999-12-31"


@dataclass(frozen=True)
class Checked:
    """What a check of one household found.

    Attributes
    ----------
    chain : ChainReport
    unbalanced : list of str
        Items whose amounts do not add up; empty, too, where not all was read.
    unread : list of str
        What this program cannot read: kinds and versions of a newer one.
    household : str
    is_balanced : bool
        Every amount was read, and what came in is there or went out.
    """

    chain: ChainReport
    unbalanced: list[str]
    unread: list[str] = field(default_factory=list)
    household: str = "home"
    is_balanced: bool = True

    @property
    def reasons(self) -> list[str]:
        """All that is wrong, a sentence each."""
        more = [f"Not accounted for: {', '.join(self.unbalanced)}"] if self.unbalanced else []
        return [*self.chain.reasons, *more]

    @property
    def is_whole(self) -> bool:
        """Whether nothing was found wrong."""
        return not self.reasons

    @property
    def verdict(self) -> str:
        """``well``, ``damaged``, or ``end not known`` where no head tells whether it is whole."""
        if not self.is_whole:
            return "damaged"
        return "well" if self.chain.is_head_known else "end not known"


def shown_head(head: Head) -> str:
    """Return a head as it is written down on paper: the number, and sixteen digits in fours."""
    digits = head.hash[:16]
    return f"{head.seq} {' '.join(digits[i : i + 4] for i in range(0, len(digits), 4))}".strip()


def read_head(said: str | os.PathLike[str], household: str) -> Head:
    """Return the head that a file holds for a household, or that was typed from paper.

    Raises
    ------
    InputError
        It is neither.
    """
    typed = _TYPED.fullmatch(os.fspath(said).strip())
    if typed:
        return Head(int(typed["seq"]), re.sub(r"\s", "", typed["hash"]).lower())
    heads = read_heads(said)
    if household not in heads:
        raise InputError(
            "head",
            Message.of(
                "refusal-no-head-of",
                said=Code(str(said)),
                household=Typed(household),
                names=Names(tuple(heads)) if heads else None,
            ),
        )
    return heads[household]


def check(
    book: Book,
    head: str | os.PathLike[str] | None = None,
    progress: Callable[[int], None] | None = None,
    *,
    file: bool = True,
) -> Checked:
    """Check the household that a book is opened on."""
    log = book.log
    kept = read_head(head, log.household) if head is not None else None
    chain = verify(log, head=kept, file=file)
    if chain.first_bad is not None:
        return Checked(chain, [], [], log.household, is_balanced=False)
    unread = newer_than_this(log.kinds())
    try:
        state = book.state(as_of=_END, progress=progress)
        unbalanced = state.conservation()
        unread = list(state.journal.unread.values())
    except LedgerError as error:
        if not unread:
            chain.reasons.append(sentence("refusal-not-reckoned", why=str(error)))
        return Checked(chain, [], unread, log.household, is_balanced=False)
    return Checked(
        chain, unbalanced, unread, log.household, is_balanced=not unbalanced and not unread
    )


def check_all(
    book: Book,
    household: str | None = None,
    head: str | os.PathLike[str] | None = None,
    progress: Callable[[int], None] | None = None,
) -> list[Checked]:
    """Check every household of a database, or the one named.

    Raises
    ------
    InputError
        There is no household of that name.
    """
    try:
        names = book.log.households()
    except BookDamaged:
        names = [household or book.log.household]
    kept = (book.log.keeper.read() if book.log.keeper else None) or {}
    # One whose events are gone altogether is found by its kept head.
    names += [name for name, one in kept.items() if one.head.seq and name not in names]
    if household is not None and household not in names and (names or household != "home"):
        raise InputError(
            "household",
            Message.of("refusal-no-household", household=Typed(household)),
            Message.of("refusal-there-are", names=Names(tuple(names)))
            if names
            else Message.of("refusal-no-entries-yet"),
        )
    asked = [household] if household is not None else names or [book.log.household]
    found = []
    for i, name in enumerate(asked):
        same = name == book.log.household
        one = book if same else type(book)(book.log.for_household(name))
        found.append(check(one, head, progress, file=not i))
    return found


def accept(log: Log, found: list[Checked]) -> None:
    """Take a book as it stands for whole from now on: keep its heads, set its guards anew.

    Raises
    ------
    BookDamaged
        Its events do not hold; then there is nothing to take for whole.
    """
    for one in found:
        if one.chain.first_bad is not None:
            seq, why = one.chain.first_bad
            raise BookDamaged(
                sentence("refusal-end-not-taken", seq=seq, household=one.household, why=why)
            )
    log.accept({one.household: one.chain.head for one in found})
