"""One household's book: the public face of the ledger."""

from __future__ import annotations

import datetime as dt
import os
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ledger import clock
from ledger.door import Answers, Catalogue, Entry, Written, write
from ledger.door.importing import Imported, import_lines, json_lines
from ledger.errors import InputError, NeedsAnswer, NotFound
from ledger.events import KINDS, decode_stored, tell
from ledger.log import ChainReport, Head, Log, backup, keep_heads, open_log, read_heads, verify

if TYPE_CHECKING:
    from ledger.projections import Answer, Node, Projection
    from ledger.replay import Replay, State

__all__ = ["Book", "Checked", "HistoryRow", "default_path"]

_PREFIX = re.compile(r"[0-9a-f-]{4,36}")


def default_path() -> Path:
    """Return where a book is kept when nobody says: a file in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("croftbook", appauthor=False) / "book.sqlite"


@dataclass(frozen=True)
class HistoryRow:
    """An event in the history: `state` is ``holds``, ``corrected`` or ``struck``."""

    seq: int
    id: str
    entry: str
    kind: str
    on: str
    recorded_at: str
    by: str | None
    state: str
    line: str


@dataclass(frozen=True)
class Checked:
    """What a check found: the chain's report, and items whose amounts do not add up."""

    chain: ChainReport
    unbalanced: list[str]

    @property
    def is_whole(self) -> bool:
        """Whether everything holds."""
        return self.chain.whole and not self.unbalanced


class Book:
    """A household's book.

    Parameters
    ----------
    log : Log
        An open log; `Book.open` opens one.

    Examples
    --------
    >>> book = Book.open(getfixture("tmp_path") / "book.sqlite")
    >>> written = book.write("harvested", item="plum", amount="31 lb 8 oz", on="2026-09-02")
    >>> book.show("shelf", as_of="2026-09-02").frame["item"].tolist()
    ['plum']
    """

    def __init__(self, log: Log) -> None:
        self.log = log
        self._catalogue = Catalogue()
        self._replay: Replay | None = None

    @classmethod
    def open(
        cls,
        where: str | os.PathLike[str] | None = None,
        household: str = "home",
        *,
        create: bool = True,
    ) -> Book:
        """Return the book at a path or SQLAlchemy URL.

        Default: the environment variable CROFTBOOK, else a file in the user's data folder.

        Raises
        ------
        BookError
            NotABook, NewerBook, BookReadOnly or BookLocked.
        """
        chosen = where or os.environ.get("CROFTBOOK") or default_path()
        return cls(open_log(str(chosen), household, create=create))

    def close(self) -> None:
        """Close the book's connections."""
        self.log.close()

    def __enter__(self) -> Book:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    # -- writing ------------------------------------------------------------------------

    def write(
        self,
        kind: str,
        body: dict[str, Any] | None = None,
        *,
        answers: Answers | None = None,
        **fields: Any,
    ) -> Written:
        """Write one event down.

        Parameters
        ----------
        kind : str
            ``harvested``, ``bought``, ... (`ledger.events.KINDS`).
        body : dict, optional
            The body as typed; `fields` that are not of the envelope are added to it.
        answers : Answers, optional
            How doubts are settled; default: they are raised.
        **fields
            ``on``, ``at``, ``by``, ``replaces``, ``id`` and fields of the body.

        Raises
        ------
        InputError, NeedsAnswer
            Nothing is written then.
        """
        envelope: dict[str, Any] = {
            name: fields.pop(name)
            for name in ("at", "replaces", "id", "typed_at")
            if name in fields
        }
        if kind != "target_set" and "by" in fields:
            envelope["by"] = fields.pop("by")
        on = fields.pop("on", None)
        on = on.isoformat() if isinstance(on, dt.date) else on
        entry = Entry(kind, {**(body or {}), **fields}, on=on, **envelope)
        return self.enter(entry, answers or Answers())

    def enter(self, entry: Entry, answers: Answers) -> Written:
        """Write an `Entry`: what commands and forms call."""
        if entry.replaces:
            entry.replaces = self.find(entry.replaces)
        if entry.kind == "struck" and isinstance(entry.body.get("id"), str):
            entry.body = {**entry.body, "id": self.find(entry.body["id"])}
        if entry.kind == "counted":
            self._check_count(entry, answers)
        try:
            with self.log.writing(entry.kind) as tx:
                self._catalogue.refresh(tx, tx.head.seq)
                return write(tx, self._catalogue, entry, answers)
        except BaseException:
            self._catalogue = Catalogue()
            raise

    def strike(self, id: str, why: str, **more: Any) -> Written:
        """Take an entry back; it stays readable in the history."""
        return self.write("struck", {"id": id, "why": why}, **more)

    def _check_count(self, entry: Entry, answers: Answers) -> None:
        """Ask about a count below what later lines that name a lot prove to have been there."""
        from ledger.events import check_typed
        from ledger.replay.counting import proven

        body = check_typed(KINDS["counted"], entry.body)
        on = entry.on or self.today().isoformat()
        if not self.log.count():
            return
        for i, (name, text, said, least) in enumerate(
            proven(self.state(as_of="9999-12-31"), body, on)
        ):
            if said < least:
                answers.settle(
                    NeedsAnswer(
                        "count-contradicted",
                        f"lines[{i}].amount",
                        f"{text} of {name} is less than later entries that name a lot took; is the count right?",
                        "it is right",
                    )
                )

    def catalogue(self) -> Catalogue:
        """Return what the book knows of items, settings and recipes."""
        self._catalogue.refresh(self.log, self.log.position())
        return self._catalogue

    def find(self, id: str) -> str:
        """Return the full id of an event from its beginning.

        Raises
        ------
        NotFound
            When no event's id begins so, or several do.
        """
        if not _PREFIX.fullmatch(id):
            raise NotFound("id", f"{id[:60]!r} is not an id", "Take one from `croftbook history`")
        if len(id) == 36:
            return id
        found = {row[1] for chunk in self.log.read() for row in chunk if row[1].startswith(id)}
        if len(found) != 1:
            problem = (
                f"no entry's id begins with {id!r}"
                if not found
                else f"{len(found)} ids begin with {id!r}"
            )
            raise NotFound("id", problem, "Take an id from `croftbook history`")
        return str(found.pop())

    # -- asking -------------------------------------------------------------------------

    def today(self) -> dt.date:
        """Return the household's today."""
        return clock.today(self.catalogue().setting("time_zone"))

    def replay(self, progress: Callable[[int], None] | None = None) -> Replay:
        """Return the replay, up to the log's end."""
        from ledger.replay import Replay

        if self._replay is None:
            self._replay = Replay(self.log)
        self._replay.refresh(progress)
        return self._replay

    def state(
        self,
        as_of: str | dt.date | None = None,
        known_at: str | None = None,
        progress: Callable[[int], None] | None = None,
    ) -> State:
        """Return the book at a moment (default: today, everything known).

        Parameters
        ----------
        as_of : date or ISO text
            What happened by the end of that day.
        known_at : str
            A day, or an RFC 3339 moment: what was written down by then.
        """
        day = as_of or self.today()
        return self.replay(progress).state(
            as_of=day.isoformat() if isinstance(day, dt.date) else _iso(day),
            known_at=_moment(known_at),
        )

    def show(
        self,
        name: str,
        *,
        as_of: str | dt.date | None = None,
        known_at: str | None = None,
        **options: Any,
    ) -> Answer:
        """Return the answer to a question: ``jar-cost``, ``shelf`` and so on.

        Raises
        ------
        NotFound
            When there is no such question.
        """
        return _projection(name).build(self.state(as_of, known_at), **options)

    def why(
        self,
        address: str,
        field: str | None = None,
        *,
        as_of: str | dt.date | None = None,
        known_at: str | None = None,
    ) -> Node:
        """Return a figure's arithmetic as a tree down to events.

        Raises
        ------
        NotFound
            When the address names no figure.
        """
        name, _, key = address.partition("/")
        projection = _projection(name)
        if projection.why is None or not key:
            raise NotFound(
                "address",
                f"{address!r} names no figure",
                "Take an address from `croftbook show jar-cost --json`",
            )
        return projection.why(self.state(as_of, known_at), key, field)

    def history(
        self, *, kind: str | None = None, item: str | None = None, newest_first: bool = True
    ) -> list[HistoryRow]:
        """Return the events, each with its entry, state and one readable line."""
        rows = [row for chunk in self.log.read() for row in chunk]
        root: dict[str, str] = {}
        newest: dict[str, str] = {}
        for row in rows:
            named = row[9] or (
                decode_stored(row[2], row[3], row[10])["id"] if row[2] == "struck" else None
            )
            root[row[1]] = root.get(named, named) if named else row[1]
            newest[root[row[1]]] = row[1]
        kind_at = {row[1]: row[2] for row in rows}
        wanted = self.catalogue().key(item) if item else None
        out = []
        for row in rows:
            body = decode_stored(row[2], row[3], row[10], seq=row[0])
            if (kind and row[2] != kind) or (wanted and not self._names(body, wanted)):
                continue
            last = newest[root[row[1]]]
            state = (
                "holds"
                if last == row[1]
                else "struck"
                if kind_at[last] == "struck"
                else "corrected"
            )
            out.append(
                HistoryRow(
                    row[0],
                    row[1],
                    root[row[1]],
                    row[2],
                    row[4],
                    row[6],
                    row[8],
                    state,
                    tell(row[2], body),
                )
            )
        return out[::-1] if newest_first else out

    def _names(self, value: Any, key: str) -> bool:
        if isinstance(value, dict):
            return any(
                (
                    name in ("item", "makes", "crop")
                    and isinstance(part, str)
                    and self.catalogue().key(part) == key
                )
                or self._names(part, key)
                for name, part in value.items()
            )
        return isinstance(value, list) and any(self._names(part, key) for part in value)

    # -- files --------------------------------------------------------------------------

    def import_file(
        self,
        path: str | os.PathLike[str],
        *,
        answers: Answers | None = None,
        mapping: str | os.PathLike[str] | None = None,
        encoding: str = "utf-8",
        dates: str | None = None,
        keep_good: bool = False,
        dry_run: bool = False,
        progress: Callable[[int], None] | None = None,
    ) -> Imported:
        """Import JSON Lines or CSV (by the file's ending), all or nothing unless `keep_good`.

        Raises
        ------
        InputError
            When the file cannot be read at all.
        """
        from ledger.door.csvfile import csv_lines, read_map

        file = Path(path)
        if not file.is_file():
            raise InputError("file", f"there is no file {str(path)!r}", "Check its name")
        lines: Iterator[tuple[int, int, Any]]
        if file.suffix.lower() in (".csv", ".tsv", ".txt") or mapping is not None:
            lines = csv_lines(
                file,
                encoding=encoding,
                dates=dates,
                mapping=read_map(Path(mapping)) if mapping else None,
            )
        else:
            lines = json_lines(file)
        return self.import_events(
            lines, answers=answers, keep_good=keep_good, dry_run=dry_run, progress=progress
        )

    def import_events(
        self,
        lines: Iterator[tuple[int, int, Any]],
        *,
        answers: Answers | None = None,
        keep_good: bool = False,
        dry_run: bool = False,
        progress: Callable[[int], None] | None = None,
    ) -> Imported:
        """Import events given as (number, bytes so far, dict or bytes)."""
        answers = answers or Answers(importing=True)
        answers.importing = True
        catalogue = Catalogue()
        return import_lines(
            self.log,
            catalogue,
            lines,
            answers,
            keep_good=keep_good,
            dry_run=dry_run,
            progress=progress,
        )

    def export_file(
        self, path: str | os.PathLike[str], *, progress: Callable[[int], None] | None = None
    ) -> int:
        """Write every event as JSON Lines, with its head kept beside the file; return how many.

        Raises
        ------
        InputError
            When the file cannot be written.
        """
        import msgspec

        target = Path(path)
        part = target.with_name(target.name + ".part")
        written = 0
        head = Head(0, "")
        try:
            with part.open("wb") as file:
                for chunk in self.log.read():
                    for row in chunk:
                        file.write(msgspec.json.encode(_exported(row), order="sorted") + b"\n")
                    written += len(chunk)
                    head = Head(chunk[-1][0], chunk[-1][11])
                    if progress is not None:
                        progress(len(chunk))
            part.replace(target)
        except OSError as error:
            part.unlink(missing_ok=True)
            raise InputError(
                "file", f"{target} cannot be written ({error.strerror})", "Name another place"
            ) from None
        keep_heads(target, {self.log.household: head})
        return written

    def check(
        self,
        *,
        head: str | os.PathLike[str] | None = None,
        progress: Callable[[int], None] | None = None,
    ) -> Checked:
        """Verify the chain and that what came in is what went out and what is there."""
        kept = read_heads(head).get(self.log.household) if head is not None else None
        chain = verify(self.log, head=kept)
        unbalanced = (
            self.state(as_of="9999-12-31", progress=progress).conservation()
            if chain.first_bad is None
            else []
        )
        return Checked(chain, unbalanced)

    def backup(self, target: str | os.PathLike[str], *, progress: Any = None) -> Any:
        """Copy the book while it is in use, and read the copy back."""
        return backup(self.log, Path(target), progress=progress)


def _exported(row: tuple[Any, ...]) -> dict[str, Any]:
    import msgspec

    seq, id_, kind, v, on, at, recorded_at, typed_at, by, replaces, body, hash_ = row
    event = {
        "seq": seq, "id": id_, "kind": kind, "v": v, "on": on, "at": at, "recorded_at": recorded_at,
        "typed_at": typed_at, "by": by, "replaces": replaces, "body": msgspec.Raw(body.encode()), "hash": hash_,
    }  # fmt: skip
    return {name: value for name, value in event.items() if value is not None}


def _projection(name: str) -> Projection:
    from ledger.projections import PROJECTIONS

    if name not in list(PROJECTIONS):
        raise NotFound(
            "name", f"there is no question {name!r}", f"Ask one of: {', '.join(PROJECTIONS)}"
        )
    return PROJECTIONS[name]


def _iso(day: str) -> str:
    try:
        return dt.date.fromisoformat(day).isoformat()
    except ValueError:
        raise InputError("as_of", f"{day!r} is not a day", "Write it like 2026-09-02") from None


def _moment(text: str | None) -> str | None:
    """Return a moment as the log writes it; a day alone means its end, UTC."""
    if text is None:
        return None
    try:
        if len(text) == 10:
            day = dt.date.fromisoformat(text)
            return clock.stamp(
                dt.datetime(day.year, day.month, day.day, 23, 59, 59, 999_999, tzinfo=dt.UTC)
            )
        moment = dt.datetime.fromisoformat(text)
    except ValueError:
        raise InputError(
            "known_at",
            f"{text!r} is not a moment",
            "Write it like 2026-09-02 or 2026-09-02T18:00:00Z",
        ) from None
    return clock.stamp(moment if moment.tzinfo else moment.replace(tzinfo=dt.UTC))
