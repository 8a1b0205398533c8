"""Files written whole: a reader finds all of a file or the one before it, never a part."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path
from typing import IO

__all__ = ["whole_file"]

_OWNER, _ANYBODY = 0o600, 0o666


@contextlib.contextmanager
def whole_file(place: Path, *, private: bool = True, synced: bool = False) -> Iterator[IO[bytes]]:
    """Yield a file to write into, which takes its place when the block ends; if it fails, nothing does.

    Parameters
    ----------
    place : Path
        In a folder that is there.
    private : bool
        Its owner alone may read it; else whoever the system lets.
    synced : bool
        It is on the disk before it takes its place, so that it outlasts a power cut.

    Raises
    ------
    OSError
        When it cannot be written; what stood there stays.
    """
    part = place.with_name(f".{place.name}.{os.getpid()}.{os.urandom(4).hex()}")
    mode = _OWNER if private else _ANYBODY
    try:
        with os.fdopen(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
            yield file
            if synced:
                file.flush()
                os.fsync(file.fileno())
        os.replace(part, place)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(part)
        raise
