"""A group's folder: its call, the sheets it holds and what it released.

Sheets lie in a table that forgets (SQLite's ``secure_delete``, no write-ahead log), as who withdraws is
deleted; releases are events in a log that never does.
"""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ledger.circle.call import Call
from ledger.circle.seal import canonical, digest_of, key_of, member_of, new_card
from ledger.circle.sheet import Sheet, Withdrawal, read_paper
from ledger.circle.sheets import note_change, put_sheet
from ledger.errors import BookLocked, InputError
from ledger.log import make_file, make_folder

if TYPE_CHECKING:
    from ledger.circle.release import Release
    from ledger.circle.work import Worked

__all__ = ["Circle", "Gathered", "Held"]

_LAYOUT = 1
_TABLES = """
CREATE TABLE about (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
CREATE TABLE members (member TEXT PRIMARY KEY, key BLOB NOT NULL, withdrawn INTEGER NOT NULL DEFAULT 0)
    STRICT, WITHOUT ROWID;
CREATE TABLE sheets (member TEXT PRIMARY KEY REFERENCES members, sheet TEXT NOT NULL, head TEXT)
    STRICT, WITHOUT ROWID;
CREATE TABLE changed (member TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
"""
_ASK_PRIVATE = 12
_FEW = 100


@dataclass
class Gathered:
    """What a gathering took.

    Attributes
    ----------
    taken, withdrawn : int
    refused : list of str
        File, line, field and what was wrong, a sentence each.
    """

    taken: int = 0
    withdrawn: int = 0
    refused: list[str] = field(default_factory=list)


@dataclass(frozen=True)
class Held:
    """A sheet that is held: its member, zone and figures."""

    member: str
    zone: str
    figures: dict[str, int | None]


class Circle:
    """The folder of a group.

    Parameters
    ----------
    folder : path
        As `Circle.begin` made it.

    Raises
    ------
    InputError
        There is no group, or its call was changed after it was begun.
    """

    def __init__(self, folder: str | Path) -> None:
        self.folder = Path(folder)
        if not (self.folder / "sheets.sqlite").is_file():
            raise InputError(
                "folder", f"{self.folder} holds no group", "Begin one with `croftbook circle begin`"
            )
        self.call = Call.read(self.folder / "call.json")
        with self._reading() as raw:
            begun = raw.execute("SELECT value FROM about WHERE name = 'call'").fetchone()
        if begun is None or begun[0] != self.call.digest:
            raise InputError(
                "call",
                f"{self.folder / 'call.json'} was changed after the group was begun",
                "Cards and sheets belong to the call as it was: put it back, or begin another folder",
            )

    @classmethod
    def begin(cls, folder: str | Path, call: Call) -> Circle:
        """Make a folder for a new group: nobody but its owner can look into it.

        Raises
        ------
        InputError
            The folder holds something.
        """
        from ledger.circle.releases import log_of

        where = Path(folder)
        if where.exists() and (not where.is_dir() or any(where.iterdir())):
            raise InputError("folder", f"{where} is not empty", "Name a new folder")
        make_folder(where)
        where.chmod(0o700)
        make_file(where / "call.json", anew=True)
        (where / "call.json").write_bytes(canonical(call.to_dict()) + b"\n")
        make_file(where / "sheets.sqlite", anew=True)
        with contextlib.closing(_connected(where / "sheets.sqlite")) as raw:
            raw.executescript(f"BEGIN; {_TABLES} PRAGMA user_version = {_LAYOUT}; COMMIT;")
            raw.execute("INSERT INTO about VALUES ('call', ?)", [call.digest])
            raw.commit()
        log_of(where, create=True).close()
        return cls(where)

    @staticmethod
    def advice(call: Call, cards: int) -> str:
        """Return what to think of before so many cards are given out; '' where nothing is."""
        from ledger.circle.told import told_of

        many = len(told_of(call))
        if cards < _FEW and many > _ASK_PRIVATE:
            return (
                f"{many} figures of {cards} households tell much of each to who knows most of it already. "
                f"Under {_FEW} households ask for {_ASK_PRIVATE} figures at most (--ask, once for each)"
            )
        return ""

    # The table

    @contextlib.contextmanager
    def _reading(self) -> Iterator[sqlite3.Connection]:
        with contextlib.closing(_connected(self.folder / "sheets.sqlite")) as raw:
            yield raw

    @contextlib.contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Run one transaction on the table of sheets: all of it is kept, or nothing.

        Raises
        ------
        BookLocked
            Somebody else writes to it for longer than half a minute.
        """
        with self._reading() as raw:
            try:
                raw.execute("BEGIN IMMEDIATE")
            except sqlite3.OperationalError as error:
                raise BookLocked(f"{self.folder} is being written to. Try again later") from error
            try:
                yield raw
            except BaseException:
                raw.rollback()
                raise
            raw.commit()

    def cards(self, many: int) -> list[str]:
        """Return new cards; only their digests are kept.

        Raises
        ------
        InputError
            None, or more than a hundred thousand are asked for.
        """
        if not 1 <= many <= 100_000:
            raise InputError("number", f"{many} cards cannot be made", "Ask for 1 to 100000")
        cards = [new_card() for _ in range(many)]
        call = self.call.digest
        with self.writing() as raw:
            raw.executemany(
                "INSERT INTO members (member, key) VALUES (?, ?)",
                [(member_of(call, card), key_of(call, card)) for card in cards],
            )
        return cards

    def members(self) -> dict[str, bool]:
        """Return every card's number, and whether it withdrew."""
        with self._reading() as raw:
            return {
                row[0]: bool(row[1]) for row in raw.execute("SELECT member, withdrawn FROM members")
            }

    def held(self) -> list[Held]:
        """Return the sheets that are held, by their members' numbers."""
        import msgspec

        with self._reading() as raw:
            rows = raw.execute("SELECT sheet FROM sheets ORDER BY member").fetchall()
        sheets = [msgspec.json.decode(row[0], type=Sheet) for row in rows]
        return [Held(one.member, one.zone, one.figures) for one in sheets]

    def sheets(self) -> Iterator[str]:
        """Yield the sheets that are held as they came, one canonical JSON each."""
        with self._reading() as raw:
            for row in raw.execute("SELECT sheet FROM sheets ORDER BY member").fetchall():
                yield row[0]

    def changed(self) -> int:
        """Return how many members' sheets came, changed or went since the last release to the class."""
        with self._reading() as raw:
            return int(raw.execute("SELECT count(*) FROM changed").fetchone()[0])

    def sheets_digest(self) -> str:
        """Return a digest of all sheets that are held: while it stays, a release stays."""
        return digest_of(list(self.sheets()))

    # Gathering

    def gather(self, paths: Iterable[str | Path]) -> Gathered:
        """Take sheets and withdrawals from files, one a line; the others are refused by name.

        Parameters
        ----------
        paths : iterable of path
            Files, each with one or more sheets or withdrawals, one a line.
        """
        done, seen = Gathered(), dict[str, str]()
        with self.writing() as raw:
            keys = {row[0]: row[1] for row in raw.execute("SELECT member, key FROM members")}
            for path in map(Path, paths):
                try:
                    lines = path.read_bytes().splitlines()
                except OSError as error:
                    done.refused.append(f"{path.name}: {(error.strerror or str(error)).lower()}")
                    continue
                if not any(lines):
                    done.refused.append(f"{path.name}: is empty. A sheet is one line")
                for number, line in enumerate(lines, 1):
                    if not line:
                        continue
                    where = f"{path.name}, line {number}"
                    try:
                        paper = read_paper(line, self.call, keys)
                        _refuse_twice(seen, paper.member, where)
                        self._take(raw, paper, line.decode(), done)
                    except InputError as error:
                        done.refused.append(f"{where}: {error}")
        return done

    def _take(
        self, raw: sqlite3.Connection, paper: Sheet | Withdrawal, text: str, done: Gathered
    ) -> None:
        (withdrawn,) = raw.execute(
            "SELECT withdrawn FROM members WHERE member = ?", [paper.member]
        ).fetchone()
        held = raw.execute("SELECT sheet FROM sheets WHERE member = ?", [paper.member]).fetchone()
        if isinstance(paper, Withdrawal):
            if withdrawn:
                raise InputError("member", "withdrew already", "Nothing of it is held")
            raw.execute("UPDATE members SET withdrawn = 1 WHERE member = ?", [paper.member])
            if held:
                raw.execute("DELETE FROM sheets WHERE member = ?", [paper.member])
                note_change(raw, paper.member)
            done.withdrawn += 1
            return
        if withdrawn:
            raise InputError(
                "member",
                "withdrew, and no later sheet of it is taken",
                "Draw a new card to take part again",
            )
        if held and held[0] == text:
            raise InputError("sheet", "is held already", "Nothing is to be done")
        if held and _made_on(held[0]) > paper.made_on:
            raise InputError(
                "made_on",
                f"{paper.made_on} is before the day of the sheet held, {_made_on(held[0])}",
                "Hand in the newest",
            )
        put_sheet(raw, paper.member, text, None)
        done.taken += 1

    # Telling, and working: each in a file of its own

    def tell(self, *, private: bool = False, epsilon: float = 1.0) -> Release:
        """Return what leaves the circle: for the class, or (`private`) for the public.

        Raises
        ------
        InputError
            The rules of a release forbid it; the message says which.
        """
        from ledger.circle.releases import tell

        return tell(self, private=private, epsilon=epsilon)

    def budget(self) -> tuple[int, int]:
        """Return the epsilon spent and left for the public, in thousandths."""
        from ledger.circle.releases import budget

        return budget(self)

    def work(
        self,
        members: str | Path,
        *,
        workers: int = 2,
        scheduler: str | None = None,
        progress: Callable[[int, int], None] | None = None,
        **options: Any,
    ) -> Worked:
        """Make the sheets of members whose books are kept here; see `ledger.circle.work.work`."""
        from ledger.circle.work import work

        return work(
            self, members, workers=workers, scheduler=scheduler, progress=progress, **options
        )


def _made_on(text: str) -> str:
    import msgspec

    return msgspec.json.decode(text, type=Sheet).made_on


def _refuse_twice(seen: dict[str, str], member: str, where: str) -> None:
    if member in seen:
        raise InputError(
            "member", f"comes twice; the one of {seen[member]} counts", "Hand in one sheet a card"
        )
    seen[member] = where


def _connected(path: Path) -> sqlite3.Connection:
    raw = sqlite3.connect(path, timeout=30, isolation_level=None)
    # What is deleted is overwritten, and the journal is a file of its own that goes: nothing stays.
    raw.execute("PRAGMA secure_delete = ON")
    raw.execute("PRAGMA journal_mode = DELETE")
    raw.execute("PRAGMA foreign_keys = ON")
    return raw
