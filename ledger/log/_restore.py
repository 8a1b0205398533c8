"""Put a copy in a book's place: checked first, the old one set aside, all of it or nothing.

A copy is never laid over a book as a file. What it holds is written event by event into a new book,
each hash computed anew, and that book's pages then go into the file that is there in one
transaction of SQLite's own: programs that have it open see the change like any other.
"""

from __future__ import annotations

import contextlib
import shutil
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from ledger.errors import BookDamaged, BookError, BookReadOnly, InputError, LedgerError, NotABook
from ledger.log._chain import Head, StoredEvent
from ledger.log._exported import exported_events
from ledger.log._heads import head_file, read_heads
from ledger.log._install import into_database, into_file, partial_beside
from ledger.log._kept import Keeper
from ledger.log._open import has_book, open_log
from ledger.log._place import Place, check_file, find_place
from ledger.log._private import make_file, make_folder, why_not
from ledger.log._store import Log
from ledger.log._verify import verify
from ledger.messages import Code, Message, Names, Typed, sentence

__all__ = ["Restored", "restore"]

Progress = Callable[[int, int], None]


@dataclass
class Restored:
    """What a restore put in a book's place, or would put there.

    Attributes
    ----------
    heads : dict of str to Head
        Where each household's log ends now.
    aside : str
        Where the old book stands; "" where there was none.
    lost : dict of str to int
        Events of the old book, by household, that the copy does not hold: they are in `aside`.
    notes : list of str
        What is worth knowing.
    """

    heads: dict[str, Head]
    aside: str = ""
    lost: dict[str, int] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)


def restore(
    where: str,
    source: Path,
    household: str | None = None,
    *,
    dry_run: bool = False,
    wait: float = 30.0,
    progress: Progress | None = None,
) -> Restored:
    """Put a copy in a book's place.

    Parameters
    ----------
    where : str
        The book: a file, or a database's address.
    source : Path
        A backup, or an export as JSON Lines.
    household : str, optional
        Only this household's events; those of others stay as they are. Default: all that a backup
        holds, where the book is a file; ``home`` of an export or on a server.
    dry_run : bool
        Check the copy, say what would become of the book, and touch nothing.
    wait : float
        Seconds to wait for another writer.
    progress : callable, optional
        Called with events done and their number.

    Raises
    ------
    InputError
        There is no such file, it is the book itself, or its end is not the one kept beside it.
    BookDamaged
        The copy does not hold. The book is as it was.
    NotABook
        What is to be replaced is something else.
    BookReadOnly
        The book's place cannot be written to, or its disk is full.
    BookLocked
        Somebody wrote into the book for longer than `wait`.
    """
    place = find_place(where)
    _check_source(source, place)
    is_export = _is_export(source)
    if household is None and (is_export or place.path is None):
        household = "home"
    try:
        if place.path is None:
            with tempfile.TemporaryDirectory(prefix="croftbook-") as folder:
                copy = Path(folder) / "copy"
                done = _gathered(
                    place, source, copy, household, is_export=is_export, progress=progress
                )
                if not dry_run:
                    assert household is not None
                    done.aside = into_database(place, copy, household, wait)
                    _keep(place, done, copy)
            return done
        _refuse_something_else(place)
        if not dry_run:
            make_folder(place.path.parent)
        with _room(place.path, dry_run=dry_run) as copy:
            done = _gathered(place, source, copy, household, is_export=is_export, progress=progress)
            if not dry_run:
                keeper = Keeper(place)
                with contextlib.suppress(OSError):
                    keeper.expect(done.heads)
                firsts = _firsts(copy, done.heads)
                done.aside = into_file(copy, place.path, wait)
                with contextlib.suppress(OSError):
                    keeper.accept({name: (head, firsts[name]) for name, head in done.heads.items()})
    except OSError as error:
        raise BookReadOnly(
            sentence("refusal-not-restored-there", place=Code(str(place)), why=Code(why_not(error)))
        ) from error
    return done


@contextlib.contextmanager
def _room(path: Path, *, dry_run: bool) -> Iterator[Path]:
    """Give a place for the new book: beside the old one, or where nothing of a dry run stays."""
    if dry_run:
        with tempfile.TemporaryDirectory(prefix="croftbook-") as folder:
            yield Path(folder) / "copy"
    else:
        with partial_beside(path) as copy:
            yield copy


def _keep(place: Place, done: Restored, copy: Path) -> None:
    keeper = Keeper(place)
    firsts = _firsts(copy, done.heads)
    with contextlib.suppress(OSError):
        kept = keeper.read() or {}
        keeper.accept(
            {name: (one.head, one.first) for name, one in kept.items()}
            | {name: (head, firsts[name]) for name, head in done.heads.items()}
        )


def _firsts(copy: Path, heads: dict[str, Head]) -> dict[str, str]:
    with open_log(copy, create=False, keeps_head=False) as log:
        return {name: log.for_household(name).hash_at(1) or "" for name in heads}


def _check_source(source: Path, place: Place) -> None:
    if not source.exists():
        raise InputError(
            "file",
            Message.of("refusal-no-file", path=Typed(str(source))),
            Message.of("refusal-backup-or-export"),
        )
    if not source.is_file():
        raise InputError(
            "file", Message.of("refusal-source-no-plain-file", source=Code(str(source)))
        )
    if place.path is not None and place.path.exists() and source.samefile(place.path):
        raise InputError(
            "file",
            Message.of("refusal-book-itself", path=Code(str(source))),
            Message.of("refusal-backup-or-export"),
        )


def _is_export(source: Path) -> bool:
    try:
        check_file(source)
    except NotABook:
        with source.open("rb") as file:
            start = file.read(64).lstrip(b"\xef\xbb\xbf \t\r\n")
        if not start.startswith(b"{"):
            raise InputError(
                "file", Message.of("refusal-no-backup-no-export", source=Code(str(source)))
            ) from None
        return True
    if not source.stat().st_size:
        raise InputError("file", Message.of("refusal-source-empty", source=Code(str(source))))
    return False


def _refuse_something_else(place: Place) -> None:
    """Refuse to replace a file that never was a book; a damaged one may look like anything."""
    assert place.path is not None
    if place.path.is_dir():
        raise NotABook(sentence("refusal-book-is-folder", path=Code(str(place.path))))
    if not place.path.exists() or not place.path.stat().st_size or Keeper(place).read() != {}:
        return
    check_file(place.path)


# Gathering: what the new book is to hold


def _gathered(
    place: Place, source: Path, copy: Path, household: str | None, *, is_export: bool, progress: Progress | None
) -> Restored:  # fmt: skip
    """Write all that is to hold into a new book at `copy`; return its heads and what they lack."""
    with contextlib.ExitStack() as stack:
        into = stack.enter_context(open_log(copy, household or "home", keeps_head=False))
        if is_export:
            assert household is not None
            done = _from_export(source, into.for_household(household), progress)
        else:
            done = _from_backup(source, into, household, progress)
        old = _old(place, stack)
        for name, head in done.heads.items():
            _compare(done, old, name, head)
        if old is not None and place.path is not None:
            _others(done, old, into, household)
    return done


def _from_export(source: Path, into: Log, progress: Progress | None) -> Restored:
    number = 0
    with into.writing("restore") as writing:
        for number, event in exported_events(source):
            try:
                writing.append_verbatim(event)
            except InputError as error:
                raise BookDamaged(
                    sentence(
                        "refusal-copy-line-not-taken",
                        source=Code(str(source)),
                        line=number,
                        why=error.problem,
                    )
                ) from error
            if progress is not None and number % 5_000 == 0:
                progress(number, number)
        head = writing.head
    if not number:
        raise InputError("file", Message.of("refusal-source-no-events", source=Code(str(source))))
    done = Restored({into.household: head})
    _against_its_head(done, source, {into.household: head}, alone=True)
    return done


def _from_backup(
    source: Path, into: Log, household: str | None, progress: Progress | None
) -> Restored:
    with tempfile.TemporaryDirectory(prefix="croftbook-") as folder:
        # Of its own copy: even reading a book in use may change the files beside it.
        own = Path(folder) / "source"
        for end in ("", "-wal"):
            beside = source.with_name(source.name + end)
            if beside.is_file():
                make_file(own.with_name(own.name + end))
                shutil.copyfile(beside, own.with_name(own.name + end))
        try:
            with open_log(own, create=False, keeps_head=False) as log:
                return _checked(log, source, into, household, progress)
        except BookDamaged as error:
            raise BookDamaged(_of_source(str(error), str(own), str(source))) from error
        except NotABook as error:
            raise InputError(
                "file", Message.of("refusal-no-backup-of-book", source=Code(str(source)))
            ) from error


def _of_source(text: str, own: str, source: str) -> str:
    """Return what is said of the copy that was read, as it is said of the file that it is of."""
    said = getattr(text, "says", None)
    if not isinstance(said, Message):
        return text.replace(own, source)
    named = {
        name: Code(one.text.replace(own, source)) if isinstance(one, Code) else one
        for name, one in said.parameters.items()
    }
    return sentence(said.id, **named)


def _checked(
    log: Log, source: Path, into: Log, household: str | None, progress: Progress | None
) -> Restored:
    names = log.households()
    if household is not None:
        if household not in names:
            raise InputError(
                "household",
                Message.of(
                    "refusal-source-no-household",
                    source=Code(str(source)),
                    household=Typed(household),
                    names=Names(tuple(names)) if names else None,
                ),
            )
        names = [household]
    if not names:
        raise InputError("file", Message.of("refusal-source-no-events", source=Code(str(source))))
    heads = {}
    for i, name in enumerate(names):
        of = log.for_household(name)
        report = verify(of, progress=progress, file=not i)
        if report.reasons:
            raise BookDamaged(sentence("refusal-copy-not-taken", why=report.reasons[0]))
        _append(of, into.for_household(name))
        heads[name] = report.head
    done = Restored(heads)
    _against_its_head(done, source, heads)
    return done


def _append(source: Log, into: Log) -> None:
    with into.writing("restore") as writing:
        for rows in source.read():
            for row in rows:
                writing.append_verbatim(StoredEvent(*row))


def _against_its_head(
    done: Restored, source: Path, heads: dict[str, Head], *, alone: bool = False
) -> None:
    """Hold a copy against the head that was written beside it."""
    if not head_file(source).is_file():
        done.notes.append(
            f"no head stands beside {source.name}, so nobody can tell whether its end is whole"
        )
        return
    noted = read_heads(source)
    for name, head in heads.items():
        kept = noted.get(name)
        if kept is None and alone and len(noted) == 1:
            (kept,) = noted.values()
        if kept is not None and kept != head:
            less = kept.seq - head.seq
            problem = Message.of(
                "refusal-file-ends",
                source=Code(str(source)),
                last=head.seq,
                kept=kept.seq,
                less=less if less > 0 else None,
            )
            raise InputError("file", problem, Message.of("refusal-cut-or-changed"))


# What becomes of the old one


def _old(place: Place, stack: contextlib.ExitStack) -> Log | None:
    """Return the book that is there, where it can be read at all."""
    with contextlib.suppress(LedgerError, OSError):
        if has_book(where := place.address):
            return stack.enter_context(open_log(where, create=False, keeps_head=False))
    return None


def _compare(done: Restored, old: Log | None, name: str, head: Head) -> None:
    """Note how many events of the old book the copy does not hold."""
    if old is None:
        return
    try:
        log = old.for_household(name)
        end = log.head()
        if end.seq > head.seq and log.hash_at(head.seq) == head.hash:
            done.lost[name] = end.seq - head.seq
        elif end.seq and (end.seq > head.seq or log.hash_at(end.seq) is None):
            done.notes.append(f"the book's {end.seq} events of {name} are others than the copy's")
        elif end.seq == head.seq and end != head:
            done.notes.append(f"the book's events of {name} are others than the copy's")
    except BookError:
        done.notes.append(f"the book's events of {name} cannot be read, and cannot be compared")


def _others(done: Restored, old: Log, into: Log, household: str | None) -> None:
    """Take the households over that are not restored, or note that they are only set aside."""
    try:
        others = [name for name in old.households() if name not in done.heads]
    except BookError:
        others = []
    for name in others:
        log = old.for_household(name)
        if household is None:
            done.lost[name] = log.position()
            continue
        try:
            _append(log, into.for_household(name))
        except (InputError, BookError) as error:
            raise BookDamaged(
                sentence("refusal-others-do-not-hold", name=name, why=str(error))
            ) from error
        done.heads[name] = log.head()
