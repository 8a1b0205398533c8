"""Kept heads: where each household's log ended, in a small file beside a copy of the book.

A chain alone cannot show that its tail was cut off, or that all of it was written anew. A head
kept elsewhere can.
"""

from __future__ import annotations

import contextlib
import json
import os
from collections.abc import Mapping
from pathlib import Path

from ledger import clock
from ledger.errors import BookReadOnly, InputError
from ledger.files import whole_file
from ledger.log._chain import Head
from ledger.log._private import why_not
from ledger.messages import Code, Message, sentence

__all__ = ["head_file", "keep_heads", "read_heads"]


def head_file(path: str | os.PathLike[str]) -> Path:
    """Return where the heads of the file `path` are kept: ``<path>.head``."""
    path = Path(path)
    return path.with_name(path.name + ".head")


def keep_heads(path: str | os.PathLike[str], heads: Mapping[str, Head]) -> Path:
    """Write the heads that go with the file `path` beside it, and return where.

    The content is JSON, ``{household: {"seq": ..., "hash": ..., "at": ...}}``. Heads of other
    households that stand there already are kept.

    Raises
    ------
    BookReadOnly
        The folder cannot be written to.
    """
    target = head_file(path)
    noted: dict[str, object] = {}
    with contextlib.suppress(OSError, ValueError):
        before = json.loads(target.read_text("utf-8"))
        noted = before if isinstance(before, dict) else {}
    at = clock.stamp()
    for household, head in heads.items():
        noted[household] = {"seq": head.seq, "hash": head.hash, "at": at}
    text = json.dumps(noted, ensure_ascii=False, indent=1, sort_keys=True) + "\n"
    try:
        with whole_file(target, synced=True) as file:
            file.write(text.encode())
    except OSError as error:
        raise BookReadOnly(
            sentence("refusal-not-written", target=Code(str(target)), why=Code(why_not(error)))
        ) from error
    return target


def read_heads(path: str | os.PathLike[str]) -> dict[str, Head]:
    """Return the heads that a head file holds, by household.

    Parameters
    ----------
    path : str or path
        The head file itself, or the file that it goes with.

    Raises
    ------
    InputError
        There is no such file, or it holds something else.
    """
    path = Path(path)
    if not path.name.endswith(".head"):
        path = head_file(path)
    try:
        noted = json.loads(path.read_text("utf-8"))
        return {
            str(household): Head(int(head["seq"]), str(head["hash"]))
            for household, head in noted.items()
        }
    except FileNotFoundError as error:
        raise InputError(
            "head",
            Message.of("refusal-no-file", path=Code(str(path))),
            Message.of("refusal-head-file"),
        ) from error
    except (OSError, ValueError, KeyError, TypeError, AttributeError) as error:
        raise InputError("head", Message.of("refusal-no-heads", path=Code(str(path)))) from error
