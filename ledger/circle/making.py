"""What a worker does: open a book, reckon the figures of its sheet, and give those back and nothing else."""

from __future__ import annotations

import gc
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.metadata import version
from typing import Any

from ledger.errors import BookLocked, BookUnreachable, InputError, LedgerError

__all__ = ["Made", "make_all", "program"]


@dataclass(frozen=True)
class Made:
    """The figures of one book, or why there are none.

    Attributes
    ----------
    line : int
    figures : dict of str to int or None, or None
    head : (int, str)
        Where the book ended when it was read.
    problem : str
    again : bool
        Whether a later try may do better.
    blank : bool
        Whether the season is not written down at all.
    """

    line: int
    figures: dict[str, int | None] | None
    head: tuple[int, str] = (0, "")
    problem: str = ""
    again: bool = False
    blank: bool = False


def program() -> str:
    """Return the version of this program: workers of another one are refused."""
    return version("croftbook")


def make_all(jobs: Sequence[tuple[int, str, str]], call: dict[str, Any]) -> list[Made]:
    """Return the figures of several books.

    Parameters
    ----------
    jobs : sequence of (line, book, household)
    call : dict
        The call as its file holds it.
    """
    import msgspec

    from ledger.circle.call import Call

    asked = msgspec.convert(call, Call)
    out = [_make(line, book, household, asked) for line, book, household in jobs]
    gc.collect()  # once a task: once a book would cost as much as the book
    return out


def _make(line: int, where: str, household: str, call: Any) -> Made:
    from ledger.book import Book
    from ledger.circle.reckon import figures_of

    try:
        with Book.open(where, household, create=False) as book:
            head = book.look()  # what is written meanwhile is for the next time
            return Made(line, figures_of(book, call), (head.seq, head.hash))
    except (BookLocked, BookUnreachable) as error:
        return Made(line, None, problem=str(error), again=True)
    except InputError as error:
        return Made(line, None, problem=str(error), blank=error.field == "book")
    except LedgerError as error:
        return Made(line, None, problem=str(error))
    except Exception as error:  # one book that cannot be reckoned must not stop the others
        return Made(line, None, problem=f"could not be reckoned ({type(error).__name__})")
