"""The tables, their triggers, and the recorded steps that lay them out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import (
    BigInteger,
    Column,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    Table,
    Text,
    UniqueConstraint,
)
from sqlalchemy.engine.interfaces import Dialect
from sqlalchemy.schema import CreateTable
from sqlalchemy.types import TypeEngine

__all__ = ["APPLICATION_ID", "NEWEST", "STEPS", "TRIGGERS", "Step", "events", "layout"]

metadata = MetaData()
_whole = BigInteger().with_variant(Integer, "sqlite")

# What a bad insert undoes on SQLite is the whole transaction, not only the statement: harsher,
# and a fifth faster for every good one, as no statement has to be prepared to be undone alone.
_UNDONE = "ROLLBACK"


def _needed(name: str, type_: TypeEngine[Any]) -> Column[Any]:
    return Column(name, type_, nullable=False, sqlite_on_conflict_not_null=_UNDONE)


events = Table(
    "events",
    metadata,
    _needed("household", Text()),
    _needed("seq", _whole),
    _needed("id", Text()),
    _needed("kind", Text()),
    _needed("v", Integer()),
    _needed("on", Text()),
    Column("at", Text),
    _needed("recorded_at", Text()),
    Column("typed_at", Text),
    Column("by", Text),
    Column("replaces", Text),
    _needed("body", Text()),
    _needed("hash", Text()),
    PrimaryKeyConstraint("household", "seq", sqlite_on_conflict=_UNDONE),
    UniqueConstraint("household", "id", sqlite_on_conflict=_UNDONE),
    # Clustered by (household, seq): one tree less to write, and reads run in order.
    sqlite_with_rowid=False,
    sqlite_strict=True,
)

layout = Table(
    "book_layout",
    metadata,
    Column("step", Integer, primary_key=True, autoincrement=False),
    Column("name", Text, nullable=False),
    Column("done_at", Text, nullable=False),
    sqlite_strict=True,
)

_SQLITE_TRIGGERS = (
    """CREATE TRIGGER events_only_follow BEFORE INSERT ON events
WHEN NEW.seq IS NOT ifnull((SELECT seq FROM events WHERE household = NEW.household
                            ORDER BY seq DESC LIMIT 1), 0) + 1
BEGIN SELECT RAISE(ROLLBACK, 'croftbook: an event takes the next number'); END""",
    # Without this an INSERT OR REPLACE deletes the old row with no delete trigger asked.
    """CREATE TRIGGER events_only_once BEFORE INSERT ON events
WHEN EXISTS (SELECT 1 FROM events WHERE household = NEW.household AND id = NEW.id)
BEGIN SELECT RAISE(ROLLBACK, 'croftbook: this id is written already'); END""",
    """CREATE TRIGGER events_stay BEFORE UPDATE ON events
BEGIN SELECT RAISE(ABORT, 'croftbook: events are never changed'); END""",
    """CREATE TRIGGER events_remain BEFORE DELETE ON events
BEGIN SELECT RAISE(ABORT, 'croftbook: events are never deleted'); END""",
)

_POSTGRES_TRIGGERS = (
    """CREATE FUNCTION croftbook_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION 'croftbook: events are never changed or deleted';
END $$""",
    """CREATE TRIGGER events_stay BEFORE UPDATE OR DELETE OR TRUNCATE ON events
FOR EACH STATEMENT EXECUTE FUNCTION croftbook_refuse()""",
    # Once a statement, not once a row: COPY keeps its speed. Ids are held by the unique key,
    # as nothing here can replace a row.
    """CREATE FUNCTION croftbook_follow() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
    part record;
    before bigint;
BEGIN
    FOR part IN SELECT household, min(seq) AS low, max(seq) AS high, count(*) AS rows
                FROM added GROUP BY household LOOP
        EXECUTE 'SELECT coalesce(max(seq), 0) FROM ' || TG_RELID::regclass
                || ' WHERE household = $1 AND seq < $2'
            INTO before USING part.household, part.low;
        IF part.low <> before + 1 OR part.high - part.low + 1 <> part.rows THEN
            RAISE EXCEPTION 'croftbook: an event takes the next number';
        END IF;
        EXECUTE 'SELECT max(seq) FROM ' || TG_RELID::regclass || ' WHERE household = $1'
            INTO before USING part.household;
        IF part.high <> before THEN
            RAISE EXCEPTION 'croftbook: an event takes the next number';
        END IF;
    END LOOP;
    RETURN NULL;
END $$""",
    """CREATE TRIGGER events_only_follow AFTER INSERT ON events
REFERENCING NEW TABLE AS added FOR EACH STATEMENT EXECUTE FUNCTION croftbook_follow()""",
    # Also in a session that replays another's changes.
    "ALTER TABLE events ENABLE ALWAYS TRIGGER events_stay",
    "ALTER TABLE events ENABLE ALWAYS TRIGGER events_only_follow",
)

TRIGGERS = {"sqlite": _SQLITE_TRIGGERS, "postgresql": _POSTGRES_TRIGGERS}
"""What sees to it that events are only ever added, by database."""

APPLICATION_ID = 0x43424F4B
"""Marks a SQLite file as a book (the letters CBOK), for programs that tell files apart."""


@dataclass(frozen=True)
class Step:
    """One change of the layout; all of it happens in one transaction, or none."""

    number: int
    name: str
    tables: tuple[Table, ...] = ()
    sqlite: tuple[str, ...] = ()
    postgresql: tuple[str, ...] = ()

    def statements(self, dialect: Dialect) -> list[str]:
        """Return the SQL of this step in `dialect`, in order."""
        own = self.sqlite if dialect.name == "sqlite" else self.postgresql
        return [str(CreateTable(t).compile(dialect=dialect)) for t in self.tables] + list(own)


STEPS = (
    Step(
        1,
        "events that are only ever added",
        (layout, events),
        (*_SQLITE_TRIGGERS, f"PRAGMA application_id = {APPLICATION_ID}"),
        _POSTGRES_TRIGGERS,
    ),
)
NEWEST = STEPS[-1].number
