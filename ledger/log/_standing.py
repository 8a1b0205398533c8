"""How a log stands to the head kept of it: whole, cut off, rewritten, or nobody can tell."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from ledger.log._chain import Head
from ledger.log._kept import Keeper, Kept

__all__ = ["ACCEPT", "RESTORE", "Standing", "standing_of"]

RESTORE = "Put your newest backup in its place with `croftbook restore FILE`"
ACCEPT = "if the book is right as it is, say so with `croftbook check --accept`"


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
            fault=f"The head kept of this book in {keeper.file} is damaged, so nobody can tell "
            "whether entries are missing at its end. Compare `croftbook check` with the head that "
            f"you wrote down; {ACCEPT}"
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
    when = f"on {kept.at[:10]} at {kept.at[11:16]} UTC"
    of = "" if household == "home" else f" of {household}"
    if head.seq < last.seq:
        missing = last.seq - head.seq
        held = f"ends at event {head.seq}{of}" if head.seq else f"holds no entries{of}"
        events = "event is" if missing == 1 else "events are"
        return (
            f"{name} {held}, and held {last.seq} {when}: {missing} {events} missing. "
            f"{RESTORE}; {ACCEPT}"
        ), missing
    if last.seq and hash_at(last.seq) != last.hash:
        return (
            f"Event {last.seq}{of} of {name} is not the one that was written down {when}: the book "
            f"was changed or replaced from outside. {RESTORE}; {ACCEPT}"
        ), 0
    return "", 0


def _gone(gone: Mapping[str, Kept], household: str) -> str:
    before = gone.get(household)
    if before is None:
        return ""
    return (
        f"A book of {before.head.seq} events stood here until after {before.at[:10]} and is gone; "
        "this is another one. If its disk is only not there, or you want it back, stop here and "
        f"use `croftbook restore FILE`; {ACCEPT}"
    )
