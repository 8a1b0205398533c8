"""The user's folders: where a book is kept, and what is worked out from it and may be deleted."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from ledger.files import whole_file

__all__ = ["default_path", "folder", "kept_table", "made_by", "write_whole"]


_Out = TypeVar("_Out")


def default_path() -> Path:
    """Return where a book is kept when nobody says: a file in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("croftbook", appauthor=False) / "book.sqlite"


def folder(name: str) -> Path:
    """Return the folder of one sort of what is worked out and may be deleted."""
    from platformdirs import user_cache_path

    return user_cache_path("croftbook", appauthor=False) / name


@cache
def made_by() -> str:
    """Return a mark of the program that works answers out; another one works them out again."""
    import ledger

    root, mark = Path(ledger.__file__).parent, hashlib.sha256()
    for name, about in sorted(_sources(str(root))):
        mark.update(f"{name} {about.st_size} {about.st_mtime_ns}\n".encode())
    return mark.hexdigest()[:16]


def _sources(folder: str) -> Iterator[tuple[str, os.stat_result]]:
    """Yield what is beneath a folder and goes into an answer; by names, as each command waits for it."""
    with os.scandir(folder) as entries:
        for one in entries:
            if one.is_dir():
                yield from _sources(one.path)
            elif one.name.endswith((".py", ".csv", ".gz", ".txt")):
                yield one.path, one.stat()


def write_whole(place: Path, parts: Iterable[Any]) -> bool:
    """Write a file so that a reader finds all of it or the one before; whether it could be written.

    Only its owner reads it.
    """
    try:
        place.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        with whole_file(place) as file:
            for part in parts:
                file.write(part)
    except OSError:  # a folder that cannot be written, or a full disk
        return False
    return True


def kept_table(name: str, of: type[_Out], make: Callable[[], _Out]) -> _Out:
    """Return what is worked out from the program's own tables alone, kept from one start to the next.

    The file is believed only if it is whole and was written by this very program: its checksum is
    of both. Else the table is made, and kept anew where that is possible.

    Parameters
    ----------
    name : str
        Of the file.
    of : type
        What `make` gives: lists, tuples and texts.
    make : callable
    """
    import msgspec

    place = folder("tables") / name
    try:
        raw = place.read_bytes()
        if raw[:32] == _checked(raw[32:]):
            return msgspec.msgpack.decode(raw[32:], type=of)
    except (OSError, msgspec.MsgspecError):
        pass
    made = make()
    said = msgspec.msgpack.encode(made)
    write_whole(place, (_checked(said), said))
    return made


def _checked(said: bytes) -> bytes:
    return hashlib.sha256(made_by().encode() + said).digest()
