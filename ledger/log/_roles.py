"""Several households in one PostgreSQL: whose book a database user keeps, and how it may write.

The SQL that makes the users is in docs/sharing.md; the keeper of the database runs it.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy.engine import Connection

from ledger.errors import BookError, InputError

__all__ = ["check_role", "may_copy"]


def check_role(connection: Connection, household: str) -> None:
    """See that a database user asks for the household whose book it keeps.

    The database itself shows nobody another's events; without this, another's name would open as
    an empty book.

    Raises
    ------
    InputError
        It keeps another household's book.
    BookError
        It keeps nobody's.
    """
    if connection.dialect.name != "postgresql":
        return
    is_limited = connection.exec_driver_sql(
        "SELECT row_security_active(to_regclass('events')) AND to_regclass('book_members') IS NOT NULL"
    ).scalar()
    if not is_limited:
        return
    user, own = connection.exec_driver_sql(
        "SELECT current_user, (SELECT household FROM book_members WHERE role = current_user)"
    ).one()
    if own is None:
        raise BookError(
            f"The database user {user} keeps nobody's book here. Ask whoever keeps the database to "
            "add it to book_members"
        )
    if own != household:
        raise InputError(
            "household",
            f"the database user {user} keeps the book of {own!r}, not of {household!r}",
            f"Add --household {own}",
        )


def may_copy(raw: Any) -> bool:
    """Return whether a driver's connection may write by COPY: row-level security refuses that."""
    return not raw.execute("SELECT row_security_active('events')").fetchone()[0]
