"""The user's folders: where a book is kept, and what is worked out from it and may be deleted."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

from ledger.files import whole_file

__all__ = ["default_path", "folder", "made_by", "write_whole"]


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
