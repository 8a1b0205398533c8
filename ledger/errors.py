"""What can go wrong, as one tree.

::

    LedgerError
    +-- InputError (ValueError)          what was typed cannot be written down: field, found, wanted
    |   +-- UnknownUnit                  a unit nobody taught the program
    |   +-- NotFound (LookupError)       an id, item, recipe or figure that is not in the book
    +-- NeedsAnswer (ValueError)         something doubtful: ask, or pass the answer along
    +-- BookError (RuntimeError)         the book as a file or database
    |   +-- BookLocked                   somebody else is writing, and for long
    |   +-- BookDamaged                  the chain or a row does not hold
    |   +-- BookReadOnly                 it cannot be written to
    |   +-- BookUnreachable              its database does not answer
    |   +-- NotABook                     the file is something else
    |   +-- NewerBook                    written by a newer program
    +-- UnknownKind (LookupError)        a stored event of a kind this program does not know
    +-- NewerEvent (ValueError)          a stored body of a version this program does not know
    +-- TooLarge (OverflowError)         totals beyond what whole-number amounts can hold

Every error keeps its parts as attributes and says what to do next. The command ends with
status 2 for an InputError or NeedsAnswer, and for a place that is no book this program can write
in (NotABook, NewerBook, BookReadOnly); with 1 for the others.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ledger.messages import Message

__all__ = [
    "BookDamaged",
    "BookError",
    "BookLocked",
    "BookReadOnly",
    "BookUnreachable",
    "InputError",
    "LedgerError",
    "NeedsAnswer",
    "NewerBook",
    "NewerEvent",
    "NotABook",
    "NotFound",
    "TooLarge",
    "UnknownKind",
    "UnknownUnit",
]


DANGER = "danger"
"""The doubt that only an answer of its own settles: ``--knowingly``, never ``--yes``."""


class LedgerError(Exception):
    """Anything this package refuses.

    ``str(error)`` is English; where it was raised with a `Sentence`, it is that sentence, and can be
    said in another language.
    """

    def __str__(self) -> str:
        first = self.args[0] if len(self.args) == 1 else None
        return first if isinstance(first, str) else super().__str__()


class InputError(LedgerError, ValueError):
    """What was typed cannot be written down.

    Parameters
    ----------
    field : str
        The field in the user's words, ``"made[0].jars"`` or ``"amount"``.
    problem : Message or str
        What was wrong with it, with what was found; a text is a `Sentence`.
    wanted : Message or str
        What would be right; default: the ``wanted`` of the message.
    beside : str
        The line that it is about, said in brackets.
    """

    def __init__(
        self, field: str, problem: Message | str, wanted: Message | str = "", beside: str = ""
    ) -> None:
        super().__init__(field, problem, wanted, beside)
        self.field = field
        self.beside = beside
        self._problem = problem
        self._wanted = wanted

    @property
    def message(self) -> Message | None:
        """What was wrong, as a message; None where it is none alone."""
        said: Any = getattr(self._problem, "says", self._problem)
        return said if hasattr(said, "id") else None

    @property
    def right(self) -> Message | None:
        """What would be right, as a message; None where nothing is said of it, or with the problem."""
        said: Any = getattr(self._wanted, "says", self._wanted)
        return said if hasattr(said, "id") else None

    @property
    def problem(self) -> str:
        """What was wrong, in English; a `Sentence` where it can be said in another language."""
        from ledger.messages import joined

        text = _sentence(self._problem)
        return joined("", (text, " (", self.beside, ")")) if self.beside else text

    @property
    def wanted(self) -> str:
        """What would be right, in English; a `Sentence` where it can be said in another language."""
        own = "" if self.message is None else _sentence(self.message, "wanted")
        return _sentence(self._wanted) or own

    def parts(
        self, language: str = "en", told: Callable[[str], str] | None = None
    ) -> tuple[str, str]:
        """Return what was wrong and what would be right, in a language.

        Parameters
        ----------
        told : callable, optional
            Says a text in it, where somebody else says a part of it; default: what a `Sentence` says.
        """
        own = "" if self.message is None else _said(self.message, language, "wanted")
        tell = told or partial(_worded, language)
        problem, wanted = (
            (tell(one) if one else one) if isinstance(one, str) else _said(one, language)
            for one in (self._problem, self._wanted)
        )
        return (f"{problem} ({tell(self.beside)})" if self.beside else problem), wanted or own

    def says(self, id_: str) -> bool:
        """Return whether it is the refusal of that id."""
        return self.message is not None and self.message.id == id_

    def at(self, field: str, *, beside: str = "", wanted: Message | str = "") -> InputError:
        """Return the same refusal of another field."""
        return type(self)(field, self._problem, wanted or self._wanted, beside or self.beside)

    def __str__(self) -> str:
        from ledger.messages import joined

        text, wanted = self.problem, self.wanted
        text = joined("", (f"{self.field}: ", text)) if self.field else text
        end = "" if text.endswith(("?", ".")) else "."
        return joined("", (text, f"{end} ", wanted)) if wanted else text


def _sentence(said: Message | str, attribute: str = "") -> str:
    """Return a message, or what it says beside, as a text that can be said; "" where it says none."""
    if isinstance(said, str):
        return said
    from ledger.messages import Message, Sentence, speaker

    spoken = speaker("en")
    if not spoken.has(said.id, attribute):
        return ""
    id_ = f"{said.id}.{attribute}" if attribute else said.id
    return Sentence(spoken.text(said, attribute), Message(id_, said.parameters))


def _worded(language: str, text: str) -> str:
    from ledger.messages import worded

    return worded(text, language)


def _said(message: Message, language: str, attribute: str = "") -> str:
    """Return a message in a language; of an attribute that it has not, nothing."""
    from ledger.messages import speaker

    spoken = speaker(language)
    return spoken.text(message, attribute) if spoken.has(message.id, attribute) else ""


class UnknownUnit(InputError):
    """A unit that is not in the list of accepted spellings."""


class NotFound(InputError, LookupError):
    """An id, item, recipe or figure that the book does not hold."""


class NeedsAnswer(LedgerError, ValueError):
    """Something doubtful that a person has to answer before it is written.

    Parameters
    ----------
    code : str
        Which doubt: ``near-miss``, ``jar-fraction``, ``thousands``, ``absurd``, ``future``, ``lot``,
        ``mass-balance``, ``count-contradicted``, ``slip``, ``unit``, ``clock``, ``cans``, ``open-standing``,
        ``danger``.
    field : str
        The field in the user's words.
    question : str
        The question, ending with a question mark.
    offered : str
        The answer that ``--yes`` takes (of a danger: ``--knowingly``), as a short phrase.
    about : str
        The batch in danger that it is about, or the lot that did not seal.
    """

    def __init__(
        self, code: str, field: str, question: str, offered: str = "", about: str = ""
    ) -> None:
        super().__init__(code, field, question, offered, about)
        self.code = code
        self.field = field
        self.question = question
        self.offered = offered
        self.about = about

    def __str__(self) -> str:
        text = f"{self.field}: {self.question}" if self.field else self.question
        said = "--knowingly" if self.code == DANGER else "--yes"
        return f"{text} ({said} takes: {self.offered})" if self.offered else text


class BookError(LedgerError, RuntimeError):
    """The book as a file or a database."""


class BookLocked(BookError):
    """Somebody else has been writing for longer than this program waits."""


class BookDamaged(BookError):
    """The chain, a row or a head does not hold."""


class BookReadOnly(BookError):
    """The book cannot be written to: permissions, or a full disk."""


class BookUnreachable(BookError):
    """The database that keeps the book does not answer; it may do so again later."""


class NotABook(BookError):
    """The file or database holds something else."""


class NewerBook(BookError):
    """The book was laid out by a newer version of the program."""


class UnknownKind(LedgerError, LookupError):
    """A stored event of a kind this program does not know."""

    def __init__(self, kind: str, seq: int | None = None, known: tuple[str, ...] = ()) -> None:
        super().__init__(kind, seq, known)
        self.kind, self.seq, self.known = kind, seq, known

    def __str__(self) -> str:
        from ledger.messages import Typed, sentence

        return sentence("refusal-unknown-kind", seq=self.seq, kind=Typed(self.kind))


class NewerEvent(LedgerError, ValueError):
    """A stored body of a version that this program does not know yet."""

    def __init__(self, kind: str, v: int, newest: int, seq: int | None = None) -> None:
        super().__init__(kind, v, newest, seq)
        self.kind, self.v, self.newest, self.seq = kind, v, newest, seq

    def __str__(self) -> str:
        from ledger.messages import Code, sentence

        return sentence(
            "refusal-newer-event",
            seq=self.seq,
            kind=Code(self.kind),
            version=self.v,
            newest=self.newest,
        )


class TooLarge(LedgerError, OverflowError):
    """The total of one item is beyond 2**62 whole units."""

    def __init__(self, item: str, total: Any = None) -> None:
        super().__init__(item, total)
        self.item, self.total = item, total

    def __str__(self) -> str:
        from ledger.messages import Typed, sentence

        return sentence("refusal-total-too-large", item=Typed(self.item))
