"""The terminal, and how ids are cut for it."""

from __future__ import annotations

import re
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.console import Console

__all__ = ["ID", "console_of", "short"]

ID = 8
"""So many characters name an entry."""
_UUID = re.compile(r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}")


def console_of(*, markup: bool = True) -> Console:
    """Return the console; without `markup` brackets in a text are brackets."""
    from rich.console import Console

    return Console(
        file=sys.stdout, highlight=False, soft_wrap=False, markup=markup, emoji=False,
        width=None if sys.stdout.isatty() else 80,
    )  # fmt: skip


def short(address: str) -> str:
    """Return an address with each id cut to what names it, as `croftbook why` takes it."""
    return _UUID.sub(lambda id_: id_[0][:ID], address)
