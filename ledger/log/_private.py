"""Files and folders for their owner alone: what a household writes is nobody else's to read."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

__all__ = ["make_file", "make_folder", "synced", "why_not"]

FILE, FOLDER = 0o600, 0o700


def make_folder(path: Path) -> None:
    """Make a folder, and those above it that are missing, each for its owner alone."""
    missing = []
    while not path.exists():
        missing.append(path)
        path = path.parent
    for folder in reversed(missing):
        with contextlib.suppress(FileExistsError):
            folder.mkdir(FOLDER)


def make_file(path: Path, *, anew: bool = False) -> None:
    """Make an empty file for its owner alone; one that is there keeps its content and mode.

    Raises
    ------
    FileExistsError
        With `anew`, where it is there already.
    """
    how = os.O_CREAT | os.O_WRONLY | (os.O_EXCL if anew else 0)
    os.close(os.open(path, how, FILE))


def synced(folder: Path) -> None:
    """See that names made or changed in a folder outlast a power cut, where that can be asked for."""
    with contextlib.suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)


def why_not(error: OSError) -> str:
    """Return why the system refused, in words; a full disk is called full."""
    import errno

    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return "the disk is full"
    return (error.strerror or str(error)).lower()
