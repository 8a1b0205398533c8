"""The store on a server: PostgreSQL, by SQLAlchemy's engine and psycopg's COPY."""

from __future__ import annotations

import contextlib
import hashlib
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

from ledger.extras import extra_needed
from ledger.log._holder import present
from ledger.log._place import Place
from ledger.log._protocol import Row
from ledger.log._roles import check_role, may_copy
from ledger.log._statements import Statements

with extra_needed("postgres", "book", "a book on PostgreSQL"):
    import psycopg
    from sqlalchemy import Engine, create_engine, text

__all__ = ["PostgresStore"]

_FEW = 20
"""Rows below which COPY costs more than it saves."""

# One number for all books: laying out happens once in a book's life.
_LAYOUT_LOCK = 0x43424F4B00000000


class PostgresStore:
    """A schema on a server, see :class:`ledger.log._protocol.Store`.

    Parameters
    ----------
    place : Place
    wait : float
        Seconds to wait for another writer.
    """

    dialect = "postgresql"
    streams = True

    def __init__(self, place: Place, *, wait: float) -> None:
        assert place.url is not None
        self.place = place
        self._wait = wait
        self._engine: Engine = create_engine(
            place.url,
            # What the server would set by default may be a stricter level, in which a read made
            # after the lock still sees the book as it was before.
            isolation_level="READ COMMITTED",
            pool_pre_ping=True,
            connect_args={"connect_timeout": max(2, int(wait)), "application_name": "croftbook"},
            max_overflow=-1,
        )
        # Reads begin nothing: each is one statement, and so one moment of the book.
        self._reading = self._engine.execution_options(isolation_level="AUTOCOMMIT")
        self.sql = Statements("postgresql", self._written)
        self._keys: dict[str, int] = {}

    def _written(self, statement: str) -> str:
        return str(text(statement).compile(self._engine))

    @contextlib.contextmanager
    def reading(self) -> Iterator[Any]:
        """Give a connection on which each statement is committed by itself."""
        with self._reading.connect() as connection:
            yield connection.connection.driver_connection

    @contextlib.contextmanager
    def transaction(self) -> Iterator[Any]:
        """Give a connection in a transaction."""
        with self._engine.begin() as connection:
            yield connection.connection.driver_connection

    @contextlib.contextmanager
    def hold(self, raw: Any, household: str, what: str) -> Iterator[None]:
        """Hold the household's advisory lock to the end of the transaction."""
        me = present(what)
        label = f"croftbook {what}, process {me['pid']}, {me['user']} on {me['host']}"
        raw.execute(
            "SELECT set_config('application_name', %s, true), set_config('lock_timeout', %s, true)",
            (label.encode("ascii", "replace").decode()[:63], f"{max(1, int(self._wait * 1000))}ms"),
        )
        raw.execute("SELECT pg_advisory_xact_lock(%s)", (self._key(raw, household),))
        yield

    def _key(self, raw: Any, household: str) -> int:
        if household not in self._keys:
            schema = raw.execute("SELECT current_schema()").fetchone()[0]
            digest = hashlib.sha256(f"croftbook\0{schema}\0{household}".encode()).digest()
            self._keys[household] = int.from_bytes(digest[:8], "big", signed=True)
        return self._keys[household]

    def held_by(self, household: str) -> str:
        """Return who holds the household's lock, as the server knows it."""
        key = self._keys.get(household)
        if key is None:
            return ""
        with contextlib.suppress(Exception), self.reading() as raw:
            row = raw.execute(
                "SELECT a.application_name, a.usename, a.pid, a.xact_start FROM pg_locks l "
                "JOIN pg_stat_activity a ON a.pid = l.pid WHERE l.locktype = 'advisory' "
                "AND l.granted AND l.classid::bigint = %s AND l.objid::bigint = %s",
                ((key >> 32) & 0xFFFFFFFF, key & 0xFFFFFFFF),
            ).fetchone()
            if row:
                return f"{row[0]} (database user {row[1]}, backend {row[2]}, since {row[3]})"
        return ""

    def ready(self) -> None:
        """Do nothing: a server is always ready."""

    def settle(self) -> None:
        """Do nothing: the server sees to its own files."""

    def close(self) -> None:
        """Close the connections."""
        self._engine.dispose()

    # Append

    def append(self, raw: Any, rows: Sequence[Row]) -> None:
        """Append rows that are all new, by COPY where that is allowed and worth it."""
        if len(rows) < _FEW:
            raw.cursor().executemany(self.sql.insert, rows)
        elif not may_copy(raw):
            raw.execute(self.sql.insert_all, [list(one) for one in zip(*rows, strict=True)])
        else:
            self._copied(raw, (rows,))

    def take_in(self, raw: Any, parts: Iterable[Sequence[Row]]) -> bool:
        """Send rows on by COPY; the unique key says where one is there already."""
        if not may_copy(raw):
            return False
        try:
            with raw.transaction():
                self._copied(raw, parts)
        except psycopg.errors.UniqueViolation:
            return False
        return True

    def _copied(self, raw: Any, parts: Iterable[Sequence[Row]]) -> None:
        with raw.cursor() as cursor, cursor.copy(self.sql.copy) as copy:
            for rows in parts:
                for row in rows:
                    copy.write_row(row)

    # The layout and its guards

    def lock_layout(self, raw: Any) -> None:
        """Wait for whoever else lays a book out on this server."""
        raw.execute(f"SELECT pg_advisory_xact_lock({_LAYOUT_LOCK})")

    def tables(self, raw: Any) -> set[str]:
        """Return the names in the schema, but for those of extensions."""
        found = raw.execute(
            "SELECT c.relname FROM pg_class c WHERE c.relnamespace = "
            "(SELECT oid FROM pg_namespace WHERE nspname = current_schema()) "
            "AND c.relkind IN ('r', 'v', 'm', 'p', 'f') AND NOT EXISTS "
            "(SELECT 1 FROM pg_depend d WHERE d.objid = c.oid AND d.deptype = 'e')"
        )
        return {row[0] for row in found}

    def columns(self, raw: Any, table: str) -> list[tuple[str, str]]:
        """Return the columns of a table."""
        found = raw.execute(
            "SELECT attname, upper(format_type(atttypid, NULL)) FROM pg_attribute "
            f"WHERE attrelid = '{table}'::regclass AND attnum > 0 AND NOT attisdropped "
            "ORDER BY attnum"
        )
        return [(row[0], row[1]) for row in found]

    def guards(self, raw: Any) -> dict[str, str]:
        """Return "" for each trigger that is enabled always, as it should be, and "off" for others."""
        found = raw.execute(
            "SELECT tgname, tgenabled FROM pg_trigger WHERE tgrelid = 'events'::regclass "
            "AND NOT tgisinternal"
        )
        return {row[0]: "" if str(row[1]).strip("b'") == "A" else "off" for row in found}

    def set_guard(self, raw: Any, statement: str, there: str | None) -> None:
        """Set a trigger or a function anew."""
        if there is not None:
            raw.execute(f"DROP TRIGGER {there} ON events")
        raw.execute(statement.replace("CREATE FUNCTION", "CREATE OR REPLACE FUNCTION"))

    def may_open(self, household: str) -> None:
        """See that the database user asks for the household whose book it keeps."""
        with self.reading() as raw:
            check_role(raw, household)

    # Check and backup

    def damage(self, raw: Any, most: int) -> list[str]:
        """Return nothing: a server's pages are for whoever keeps it to check."""
        return []

    def unique_keys(self, raw: Any) -> list[list[str]]:
        """Return the columns of each valid unique index."""
        rows = raw.execute(
            "SELECT array(SELECT a.attname::text FROM unnest(i.indkey::int[]) WITH ORDINALITY k(n, o) "
            "JOIN pg_attribute a ON a.attrelid = i.indrelid AND a.attnum = k.n ORDER BY k.o) "
            "FROM pg_index i WHERE i.indrelid = 'events'::regclass AND i.indisunique AND i.indisvalid"
        )
        return [list(row[0]) for row in rows]

    def copy_to(self, target: Path, progress: Callable[[int, int], None] | None) -> bool:
        """Return False: a backup is a file of one household's rows."""
        return False
