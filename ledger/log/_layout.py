"""Whether a database is laid out as a book is: its tables, and the triggers that guard them."""

from __future__ import annotations

import re
from typing import Any

from sqlalchemy.engine import Connection

from ledger.log._schema import TRIGGERS, events

__all__ = ["has_tables_of_a_book", "mend", "wrong_triggers"]

_NAME = re.compile(r"CREATE TRIGGER (\w+)")
_MENT = "They keep events from being changed or deleted. "


def has_tables_of_a_book(connection: Connection) -> bool:
    """Return whether the table of events has the columns of a book, in their order."""
    if connection.dialect.name == "sqlite":
        kind = connection.exec_driver_sql(
            "SELECT type FROM sqlite_master WHERE name = 'events'"
        ).scalar()
        found = connection.exec_driver_sql("PRAGMA table_info(events)").fetchall()
        said = [(row[1], row[2].upper()) for row in found] if kind == "table" else []
        wanted = [(c.name, str(c.type.compile(connection.dialect)).upper()) for c in events.columns]
        return said == wanted
    found = connection.exec_driver_sql(
        "SELECT attname FROM pg_attribute WHERE attrelid = 'events'::regclass AND attnum > 0 "
        "AND NOT attisdropped ORDER BY attnum"
    ).fetchall()
    return [row[0] for row in found] == [c.name for c in events.columns]


def wrong_triggers(connection: Connection) -> list[str]:
    """Return what is wrong with the triggers of the table of events, a sentence each."""
    is_sqlite = connection.dialect.name == "sqlite"
    there = _sqlite_triggers(connection) if is_sqlite else _postgres_triggers(connection)
    wanted = _wanted("sqlite" if is_sqlite else "postgresql")
    gone = [name for name in wanted if name not in there]
    other = [name for name in wanted if name in there and there[name] not in ("", wanted[name])]
    more = [name for name in there if name not in wanted]
    wrong = []
    if gone:
        wrong.append(f"The book's guards are missing: {', '.join(gone)}. {_MENT}{_mended()}")
    if other:
        wrong.append(f"The book's guards were changed: {', '.join(other)}. {_MENT}{_mended()}")
    if more:
        wrong.append(
            f"The table of events has triggers that are no part of a book: {', '.join(more)}. "
            "Put a backup in the book's place with `croftbook restore FILE`"
        )
    return wrong


def _mended() -> str:
    return (
        "Where `croftbook check` finds the events whole, `croftbook check --accept` sets them anew"
    )


def _plain(sql: str) -> str:
    return " ".join(sql.split())


def _wanted(dialect: str) -> dict[str, str]:
    found = {}
    for statement in TRIGGERS[dialect]:
        match = _NAME.match(statement)
        if match:
            found[match[1]] = _plain(statement)
    return found


def _sqlite_triggers(connection: Connection) -> dict[str, str]:
    found = connection.exec_driver_sql(
        "SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'events'"
    )
    return {row[0]: _plain(row[1] or "?") for row in found}


def _postgres_triggers(connection: Connection) -> dict[str, str]:
    """Return triggers by name; "" stands for one that is enabled always, as it should be."""
    found = connection.exec_driver_sql(
        "SELECT tgname, tgenabled FROM pg_trigger WHERE tgrelid = 'events'::regclass "
        "AND NOT tgisinternal"
    )
    return {row[0]: "" if str(row[1]).strip("b'") == "A" else "off" for row in found}


def mend(connection: Connection) -> None:
    """Set missing or changed triggers anew, within a transaction."""
    is_sqlite = connection.dialect.name == "sqlite"
    there: dict[str, Any] = (
        _sqlite_triggers(connection) if is_sqlite else _postgres_triggers(connection)
    )
    for statement in TRIGGERS["sqlite" if is_sqlite else "postgresql"]:
        match = _NAME.match(statement)
        if is_sqlite:
            assert match is not None
            name = match[1]
            if there.get(name) == _plain(statement):
                continue
            if name in there:
                connection.exec_driver_sql(f"DROP TRIGGER {name}")
            connection.exec_driver_sql(statement)
        elif match is not None:
            if match[1] in there:
                connection.exec_driver_sql(f"DROP TRIGGER {match[1]} ON events")
            connection.exec_driver_sql(statement)
        else:
            anew = statement.replace("CREATE FUNCTION", "CREATE OR REPLACE FUNCTION")
            connection.exec_driver_sql(anew)
