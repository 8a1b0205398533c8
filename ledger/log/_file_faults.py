"""What a database says of itself: pages, indexes, ids and triggers."""

from __future__ import annotations

from sqlalchemy.engine import Connection

from ledger.errors import BookDamaged
from ledger.log._layout import wrong_triggers
from ledger.log._store import Log

__all__ = ["file_faults"]

_MOST = 5
"""Faults told of each sort: a damaged page makes thousands of them."""


def file_faults(log: Log) -> list[str]:
    """Return what is wrong with the whole database, every household of it, a sentence each.

    Looked at: SQLite's own check of the file (pages, and indexes against rows), that each household
    has each id once and each is found by it, the key that sees to that, and the triggers. Reads the
    file once or twice from end to end.
    """
    found: list[str] = []
    looks = (_pages, _keys, _twice, _unfound, wrong_triggers)
    for look in looks:
        if look is _pages and not log.is_sqlite:
            continue
        try:
            with log._connected_for_check() as connection:
                found += look(connection)
        except BookDamaged as error:
            found.append(str(error))
            break  # the other looks would stumble over the same page
    return list(dict.fromkeys(found))


def _pages(connection: Connection) -> list[str]:
    rows = connection.exec_driver_sql(f"PRAGMA integrity_check({_MOST})").fetchall()
    found = [str(row[0]).replace("*** in database main ***", "").strip() for row in rows]
    return [] if found == ["ok"] else [f"The file is damaged: {'; '.join(found)}"]


def _keys(connection: Connection) -> list[str]:
    if connection.dialect.name == "sqlite":
        lists = connection.exec_driver_sql("PRAGMA index_list(events)").fetchall()
        unique = [row[1] for row in lists if row[2]]
        columns = [
            [one[2] for one in connection.exec_driver_sql(f'PRAGMA index_info("{name}")')]
            for name in unique
        ]
    else:
        rows = connection.exec_driver_sql(
            "SELECT array(SELECT a.attname::text FROM unnest(i.indkey::int[]) WITH ORDINALITY k(n, o) "
            "JOIN pg_attribute a ON a.attrelid = i.indrelid AND a.attnum = k.n ORDER BY k.o) "
            "FROM pg_index i WHERE i.indrelid = 'events'::regclass AND i.indisunique AND i.indisvalid"
        )
        columns = [list(row[0]) for row in rows]
    wanted = (["household", "seq"], ["household", "id"])
    gone = [" and ".join(key) for key in wanted if key not in columns]
    return [f"The key on {key} is missing, which keeps it unique" for key in gone]


def _twice(connection: Connection) -> list[str]:
    """Look for ids that stand twice, by the rows themselves and not by the key."""
    by = "+household, +id" if connection.dialect.name == "sqlite" else "household, id"
    rows = connection.exec_driver_sql(
        f"SELECT household, id, count(*) FROM events GROUP BY {by} HAVING count(*) > 1 "
        f"LIMIT {_MOST}"
    ).fetchall()
    return [f"The id {row[1]} of {row[0]} stands {row[2]} times" for row in rows]


def _unfound(connection: Connection) -> list[str]:
    """Look each event up by its id, as an arriving event is."""
    rows = connection.exec_driver_sql(
        "SELECT e.household, e.seq FROM events e WHERE NOT EXISTS (SELECT 1 FROM events f WHERE "
        f"f.household = e.household AND f.id = e.id AND f.seq = e.seq) LIMIT {_MOST}"
    ).fetchall()
    return [
        f"Event {row[1]} of {row[0]} is not found by its id: an index is damaged" for row in rows
    ]
