"""Several households in one PostgreSQL: whose book a database user keeps, and how it may write.

The SQL that makes the users is in docs/sharing.md, and for workers of a circle in docs/circle.md; the
keeper of the database runs it.
"""

from __future__ import annotations

from typing import Any

from ledger.errors import BookError, InputError
from ledger.messages import Code, Message, Typed, sentence

__all__ = ["check_role", "may_copy"]


def check_role(raw: Any, household: str) -> None:
    """See that a database user asks for the household whose book it keeps, or that agreed to it.

    The database itself shows nobody another's events; without this, another's name would open as
    an empty book.

    Raises
    ------
    InputError
        It keeps another household's book, or reads for a circle to which this one did not agree.
    BookError
        It keeps nobody's.
    """
    is_limited = _value(
        raw,
        "SELECT row_security_active(to_regclass('events')) AND to_regclass('book_members') IS NOT NULL",
    )
    if not is_limited:
        return
    if not _value(raw, _MAY_ASK):
        _check_worker(raw, household)
        return
    user, own = raw.execute(
        "SELECT current_user, (SELECT household FROM book_members WHERE role = current_user)"
    ).fetchone()
    if own is None:
        raise BookError(sentence("refusal-user-keeps-none", user=Code(user)))
    if own != household:
        raise InputError(
            "household",
            Message.of(
                "refusal-user-keeps-other",
                user=Code(user),
                own=Typed(own),
                name=Code(own),
                household=Typed(household),
            ),
        )


_MAY_ASK = "SELECT has_table_privilege('book_members', 'SELECT')"
_MAY_SEE = (
    "SELECT to_regclass('circle_consents') IS NOT NULL "
    "AND has_table_privilege(to_regclass('circle_consents'), 'SELECT')"
)


def _check_worker(raw: Any, household: str) -> None:
    user = _value(raw, "SELECT current_user")
    agreed = "SELECT count(*) FROM circle_consents WHERE household = %s AND worker = current_user"
    if not _value(raw, _MAY_SEE):
        raise BookError(sentence("refusal-user-reads-none", user=Code(user)))
    if not _value(raw, agreed, household):
        raise InputError(
            "household",
            Message.of("refusal-not-agreed", household=Typed(household), user=Code(user)),
        )


def _value(raw: Any, statement: str, *values: str) -> Any:
    return raw.execute(statement, values or None).fetchone()[0]


def may_copy(raw: Any) -> bool:
    """Return whether a driver's connection may write by COPY: row-level security refuses that."""
    return not raw.execute("SELECT row_security_active('events')").fetchone()[0]
