"""How a log stands to the head kept of it: whole, cut off, rewritten, or nobody can tell."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from ledger.log._chain import Head
from ledger.log._kept import Keeper, Kept
from ledger.messages import Code, Day, sentence

__all__ = ["ACCEPT", "RESTORE", "Standing", "standing_of"]

RESTORE, ACCEPT = "refusal-restore-backup", "refusal-or-accept"
"""Ids of what is to be done about an end that is not the one known."""


@dataclass(frozen=True)
class Standing:
    """How a household's log stands to the head kept of it.

    Parameters
    ----------
    is_known : bool
        A head is kept here, and can be read.
    fault : str
        What is wrong, with what to do; "" where nothing is.
    note : str
        What is worth saying though nothing is wrong; "" where nothing is.
    missing : int
        Events that are missing at the end, as far as the kept head tells.
    """

    is_known: bool = False
    fault: str = ""
    note: str = ""
    missing: int = 0


def standing_of(
    keeper: Keeper, household: str, head: Head, hash_at: Callable[[int], str | None]
) -> Standing:
    """Compare a log's end with what is kept of it.

    Parameters
    ----------
    keeper : Keeper
    household : str
    head : Head
        Where the log ends.
    hash_at : callable
        The stored hash of an event by its number, None where there is none.
    """
    kept = keeper.read()
    if kept is None:
        return Standing(
            fault=sentence(
                "refusal-head-damaged", file=Code(str(keeper.file)), accept=sentence(ACCEPT)
            )
        )
    one = kept.get(household)
    if one is None:
        return Standing(note=_gone(keeper.gone(), household))
    if one.coming is not None and hash_at(one.coming.seq) == one.coming.hash:
        return Standing(is_known=True)
    fault, missing = _fault(keeper.name, household, one, head, hash_at)
    return Standing(True, fault, "" if fault else _gone(keeper.gone(), household), missing)


def _fault(
    name: str, household: str, kept: Kept, head: Head, hash_at: Callable[[int], str | None]
) -> tuple[str, int]:
    last = kept.head
    what: dict[str, Any] = {
        "name": Code(name),
        "household": None if household == "home" else household,
        "day": Day(kept.at[:10]),
        "time": Code(kept.at[11:16]),
        "restore": sentence(RESTORE),
        "accept": sentence(ACCEPT),
    }
    if head.seq < last.seq:
        missing = last.seq - head.seq
        if not head.seq:
            return sentence("refusal-all-missing", missing=missing, **what), missing
        return sentence(
            "refusal-end-missing", seq=head.seq, last=last.seq, missing=missing, **what
        ), missing
    if last.seq and hash_at(last.seq) != last.hash:
        return sentence("refusal-event-other", seq=last.seq, **what), 0
    return "", 0


def _gone(gone: Mapping[str, Kept], household: str) -> str:
    before = gone.get(household)
    if before is None:
        return ""
    return sentence(
        "refusal-book-gone", n=before.head.seq, day=Day(before.at[:10]), accept=sentence(ACCEPT)
    )
