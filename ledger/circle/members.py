"""The list of members whose books an organisation keeps: ``book,household,card,zone,consent``."""

from __future__ import annotations

import csv
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

from ledger.circle.seal import member_of
from ledger.circle.sheet import check_zone
from ledger.errors import InputError, LedgerError
from ledger.log import Head, heads_of
from ledger.messages import Code, Message

if TYPE_CHECKING:
    from ledger.circle.keep import Circle

__all__ = ["Chosen", "Job", "choose"]

_COLUMNS = ("book", "household", "card", "zone", "consent")


@dataclass(frozen=True)
class Job:
    """A member whose sheet may have to be made.

    Attributes
    ----------
    line : int
        Its line in the list.
    book, household, zone, member : str
    card : str
        Never leaves this process.
    head : Head
        Where its book ended when it was looked at.
    """

    line: int
    book: str
    household: str
    zone: str
    member: str
    card: str = field(repr=False)
    head: Head = field(default=Head(0, ""))

    @property
    def name(self) -> str:
        """The member as messages name it: by its line and household."""
        return f"line {self.line} ({self.household})"


@dataclass
class Chosen:
    """Who takes part: jobs by member; sentences of who is left out, and of what failed."""

    jobs: list[Job] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    failed: list[str] = field(default_factory=list)


def choose(circle: Circle, path: Path) -> Chosen:
    """Return who of a list agreed and can be read; nobody else's book is opened.

    Raises
    ------
    InputError
        The list cannot be read.
    """
    chosen, members, seen = Chosen(), circle.members(), set[str]()
    for line, row in _rows(path):
        try:
            job = _job(circle, path, line, row)
        except InputError as error:
            chosen.failed.append(f"line {line}: {error}")
            continue
        if job is None:
            chosen.left_out.append(f"line {line}: did not consent")
        elif job.member not in members:
            chosen.left_out.append(f"{job.name}: no card of this group makes its number")
        elif members[job.member]:
            chosen.left_out.append(f"{job.name}: withdrew")
        elif job.member in seen:
            chosen.failed.append(f"{job.name}: card: stands twice in the list. One card, one line")
        else:
            seen.add(job.member)
            chosen.jobs.append(job)
    _look(chosen)
    return chosen


def _rows(path: Path) -> list[tuple[int, dict[str, str]]]:
    try:
        with path.open(newline="", encoding="utf-8-sig") as file:
            reader = csv.DictReader(file, strict=True)
            missing = [name for name in _COLUMNS if name not in (reader.fieldnames or ())]
            if missing:
                wanted = Message.of("refusal-first-line", line=Code(",".join(_COLUMNS)))
                raise InputError(
                    "members",
                    Message.of("refusal-no-column-in-file", name=Code(missing[0])),
                    wanted,
                )
            return [(reader.line_num, row) for row in reader]
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        problem = error.strerror if isinstance(error, OSError) else str(error)
        raise InputError(
            "members",
            Message.of("refusal-file-unreadable", path=Code(str(path)), problem=Code(str(problem))),
            Message.of("refusal-csv-file"),
        ) from None


def _job(circle: Circle, path: Path, line: int, row: dict[str, str]) -> Job | None:
    """Return the job of a row, or None without consent: then nothing else of it is looked at."""
    given = {name: (row.get(name) or "").strip() for name in _COLUMNS}
    if given["consent"].lower() != "yes":
        return None
    check_zone(circle.call, given["zone"])
    book = given["book"]
    if not book:
        raise InputError(
            "book", Message.of("refusal-none-named"), Message.of("refusal-file-or-database")
        )
    if "://" not in book:
        book = str((path.parent / book).resolve())
    elif ":" in book.split("://", 1)[1].partition("@")[0] and "@" in book:
        raise InputError("book", Message.of("refusal-password-in-address"))
    member = member_of(circle.call.digest, given["card"])
    return Job(line, book, given["household"] or "home", given["zone"], member, given["card"])


def _look(chosen: Chosen) -> None:
    """Put each book's head to its job, one look a place; take out those without a book."""
    places: dict[str, list[Job]] = {}
    for job in chosen.jobs:
        places.setdefault(job.book, []).append(job)
    chosen.jobs = []
    for place, jobs in places.items():
        try:
            heads = heads_of(place, [job.household for job in jobs])
        except LedgerError as error:
            chosen.failed += [f"{job.name}: {error}" for job in jobs]
            continue
        for job in jobs:
            if job.household not in heads:
                chosen.left_out.append(f"{job.name}: has no entries there, or did not agree there")
            else:
                chosen.jobs.append(replace(job, head=heads[job.household]))
    chosen.jobs.sort(key=lambda job: job.line)
