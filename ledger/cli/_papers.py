"""Papers of a circle: where a file of ours may stand, its figures as a table, and the last line in JSON."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

import click

from ledger.cli import _speech
from ledger.errors import InputError
from ledger.files import whole_file
from ledger.messages import Code, Message, sentence

__all__ = ["check_place", "last_line", "plain", "print_rows", "write_paper"]

_OURS = (
    b'{"call":',
    b'{"format": "croftbook release',
    b"<!DOCTYPE html><!-- croftbook",
    b"figure,product,method,crop",
)
_HEADS = (
    "circle-head-figure",
    "circle-head-yours",
    "circle-head-low",
    "circle-head-middle",
    "circle-head-high",
    "circle-head-households",
)


def last_line(**said: Any) -> None:
    """Print what was done as the last line of the output, in JSON."""
    click.echo(json.dumps(said, ensure_ascii=False))


def check_place(path: Path) -> None:
    """Refuse a place where a file of ours cannot stand: only one of the same kind is replaced.

    Raises
    ------
    InputError
    """
    begins = path.read_bytes()[:40] if path.is_file() else b""
    if path.is_dir() or (path.exists() and begins and not begins.startswith(_OURS)):
        raise InputError("out", Message.of("refusal-file-not-ours", file=Code(str(path))))
    if not path.parent.is_dir():
        raise InputError("out", Message.of("refusal-no-folder", folder=Code(str(path.parent))))


def write_paper(path: Path, content: bytes) -> None:
    """Write a file whole or not at all, for its owner alone.

    Raises
    ------
    InputError
        Something else stands there.
    """
    check_place(path)
    with whole_file(path) as file:
        file.write(content)


def plain(text: str) -> Any:
    from rich.text import Text

    return Text(text)


def print_rows(rows: list[dict[str, Any]], said: Callable[[str], str], *, with_own: bool) -> None:
    """Print a release's figures as a table of at most 80 columns off a terminal."""
    import sys

    from rich.console import Console
    from rich.table import Table

    width = None if sys.stdout.isatty() else 80
    console = Console(file=sys.stdout, highlight=False, width=width)
    table = Table(box=None, padding=(0, 2, 0, 0))
    for head in _HEADS:
        if with_own or head != "circle-head-yours":
            justify: Literal["left", "right"] = "left" if head == _HEADS[0] else "right"
            table.add_column(_speech.say(head), overflow="fold", justify=justify)
    for row in rows:
        name = f"{row['subject']}: {said(row['label'])}" if row["subject"] else said(row["label"])
        own = [said(row["own"] or sentence("circle-not-known"))] if with_own else []
        values = [said(row[name]) if row[name] else "-" for name in ("low", "middle", "high")]
        many = said(row["many"] if row["middle"] else row["withheld"])
        table.add_row(*(plain(one) for one in (name, *own, *values, many)))
    console.print(table)
