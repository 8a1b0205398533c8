"""The head of every book, kept on each commit in the user's data folder and compared at opening.

A chain alone cannot show that its tail was cut off, that all of it was written anew, or that the
file is empty and was not. A head kept in a place of its own can.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from ledger import clock
from ledger.files import whole_file
from ledger.log._chain import Head
from ledger.log._place import Place
from ledger.log._private import make_file, make_folder

__all__ = ["Keeper", "Kept"]


@dataclass(frozen=True)
class Kept:
    """One household's head as it was kept.

    Parameters
    ----------
    head : Head
        The last event committed from here.
    at : str
        When, RFC 3339 in UTC.
    first : str
        Hash of the book's first event: copies of one book have it in common.
    coming : Head, optional
        The head that a restore was about to bring: it may have been stopped before or after.
    """

    head: Head
    at: str
    first: str = ""
    coming: Head | None = None


@dataclass
class _Page:
    """The content of a head file."""

    households: dict[str, Kept] = field(default_factory=dict)
    gone: dict[str, Kept] = field(default_factory=dict)
    is_damaged: bool = False


class Keeper:
    """Keeps the heads of one place's households.

    Parameters
    ----------
    place : Place
        The book's file or database.
    """

    def __init__(self, place: Place) -> None:
        self.name = str(place.path.absolute().resolve()) if place.path else str(place)
        digest = hashlib.sha256(self.name.encode("utf-8", "surrogateescape")).hexdigest()
        self._file_name = f"{digest[:32]}.json"

    @property
    def file(self) -> Path:
        """Where the heads are kept."""
        return _folder() / self._file_name

    def read(self) -> dict[str, Kept] | None:
        """Return what is kept, by household; None where the file is damaged."""
        page = self._page()
        return None if page.is_damaged else page.households

    def gone(self) -> dict[str, Kept]:
        """Return the heads of a book that stood here and is gone, by household."""
        return self._page().gone

    def keep(self, household: str, head: Head, first: str) -> None:
        """Keep a head, unless a later one is kept already.

        Where the folder cannot be written to, the head stays behind the book, which does no harm.
        """
        with contextlib.suppress(OSError), self._alone():
            page = self._page()
            before = page.households.get(household)
            is_older = before is not None and before.head.seq >= head.seq and not before.coming
            if page.is_damaged or is_older:
                return
            page.households[household] = Kept(head, clock.stamp(), first)
            self._write(page)

    def accept(self, heads: Mapping[str, tuple[Head, str]]) -> None:
        """Keep these heads and first hashes from now on, whatever was kept of any household.

        Raises
        ------
        OSError
            The folder cannot be written to.
        """
        with self._alone():
            at = clock.stamp()
            self._write(
                _Page({name: Kept(head, at, first) for name, (head, first) in heads.items()})
            )

    def expect(self, heads: Mapping[str, Head]) -> None:
        """Note the heads that a restore is about to bring, beside those that hold until then.

        Raises
        ------
        OSError
            The folder cannot be written to.
        """
        with self._alone():
            page = self._page()
            page.is_damaged = False
            for name, coming in heads.items():
                old = page.households.get(name, Kept(Head(0, ""), clock.stamp()))
                page.households[name] = Kept(old.head, old.at, old.first, coming)
            self._write(page)

    def begin_anew(self) -> None:
        """Note that the book which stood here is gone, as a new one begins in its place."""
        with contextlib.suppress(OSError), self._alone():
            page = self._page()
            gone = {name: kept for name, kept in page.households.items() if kept.head.seq}
            if gone:
                self._write(_Page({}, gone))

    def forget(self) -> None:
        """Let go of every head of this place, as its owner says that a book is to begin anew."""
        with contextlib.suppress(OSError), self._alone():
            self.file.unlink(missing_ok=True)

    @contextlib.contextmanager
    def _alone(self) -> Iterator[None]:
        """Hold off every other program that keeps this book's head."""
        make_folder(_folder())
        lock = self.file.with_suffix(".lock")
        make_file(lock)
        with open(lock, "rb") as held:
            with contextlib.suppress(ImportError):  # where there is none, the later write holds
                import fcntl

                fcntl.flock(held, fcntl.LOCK_EX)
            yield

    def _page(self) -> _Page:
        return _read(self.file)[0]

    def _write(self, page: _Page) -> None:
        content: dict[str, Any] = {
            "book": self.name,
            "households": {name: _plain(kept) for name, kept in page.households.items()},
            "gone": {name: _plain(kept) for name, kept in page.gone.items()},
        }
        content["sum"] = _sum(content)
        with whole_file(self.file) as file:
            file.write(json.dumps(content, indent=1).encode("ascii") + b"\n")


def _folder() -> Path:
    from platformdirs import user_data_path

    return user_data_path("croftbook", appauthor=False) / "heads"


def _plain(kept: Kept) -> dict[str, Any]:
    plain: dict[str, Any] = {
        "seq": kept.head.seq, "hash": kept.head.hash, "at": kept.at, "first": kept.first,
    }  # fmt: skip
    if kept.coming is not None:
        plain["coming"] = [kept.coming.seq, kept.coming.hash]
    return plain


def _sum(content: dict[str, Any]) -> str:
    text = json.dumps({k: v for k, v in content.items() if k != "sum"}, sort_keys=True)
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def _read(path: Path) -> tuple[_Page, str]:
    """Return what a head file holds, and of which book; a flipped bit in it does not go unseen."""
    try:
        raw = path.read_bytes()
    except OSError:
        return _Page(), ""
    try:
        content = json.loads(raw.decode("ascii"))
        if content["sum"] != _sum(content):
            return _Page(is_damaged=True), ""
        households, gone = (
            {name: _kept(one) for name, one in content[part].items()}
            for part in ("households", "gone")
        )
        return _Page(households, gone), content["book"]
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return _Page(is_damaged=True), ""


def _kept(one: dict[str, Any]) -> Kept:
    coming = Head(*one["coming"]) if "coming" in one else None
    return Kept(Head(one["seq"], one["hash"]), one["at"], one["first"], coming)
