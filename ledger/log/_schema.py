"""The tables, their triggers, and the recorded steps that lay them out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

__all__ = ["APPLICATION_ID", "EVENTS", "LAYOUT", "NEWEST", "STEPS", "TRIGGERS", "TYPES", "Step"]


class Column(NamedTuple):
    """A column of a table: its name, what it holds, and whether it has to."""

    name: str
    type: str = "text"
    needed: bool = True

    @property
    def quoted(self) -> str:
        """The name as SQL has it: two of them are words of its own."""
        return f'"{self.name}"'


EVENTS = (
    Column("household"),
    Column("seq", "whole"),
    Column("id"),
    Column("kind"),
    Column("v", "small"),
    Column("on"),
    Column("at", needed=False),
    Column("recorded_at"),
    Column("typed_at", needed=False),
    Column("by", needed=False),
    Column("replaces", needed=False),
    Column("body"),
    Column("hash"),
)
"""The columns of the table of events, in order."""

LAYOUT = (Column("step", "small"), Column("name"), Column("done_at"))
"""The columns of the table of the layout's steps."""

TYPES = {
    "sqlite": {"text": "TEXT", "whole": "INTEGER", "small": "INTEGER"},
    "postgresql": {"text": "TEXT", "whole": "BIGINT", "small": "INTEGER"},
}
"""What the databases call the types."""

_KEYS = ("PRIMARY KEY (household, seq)", "UNIQUE (household, id)")

# What a bad insert undoes on SQLite is the whole transaction, not only the statement: harsher,
# and a fifth faster for every good one, as no statement has to be prepared to be undone alone.
_UNDONE = " ON CONFLICT ROLLBACK"


def _table(name: str, columns: tuple[Column, ...], keys: tuple[str, ...], of: str, how: str) -> str:
    """Return the statement that makes a table; `how` is what becomes of a row that breaks a rule."""
    rows = [
        f"{one.quoted} {TYPES[of][one.type]}{f' NOT NULL{how}' if one.needed else ''}"
        for one in columns
    ]
    inside = ",\n    ".join([*rows, *(f"{key}{how}" for key in keys)])
    return f"CREATE TABLE {name} (\n    {inside}\n)"


_SQLITE_TABLES = (
    _table("book_layout", LAYOUT, ("PRIMARY KEY (step)",), "sqlite", "") + " STRICT",
    # Clustered by (household, seq): one tree less to write, and reads run in order.
    _table("events", EVENTS, _KEYS, "sqlite", _UNDONE) + " WITHOUT ROWID, STRICT",
)
_POSTGRES_TABLES = (
    _table("book_layout", LAYOUT, ("PRIMARY KEY (step)",), "postgresql", ""),
    _table("events", EVENTS, _KEYS, "postgresql", ""),
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
    sqlite: tuple[str, ...] = ()
    postgresql: tuple[str, ...] = ()

    def statements(self, dialect: str) -> tuple[str, ...]:
        """Return the SQL of this step for a database, in order."""
        return self.sqlite if dialect == "sqlite" else self.postgresql


STEPS = (
    Step(
        1,
        "events that are only ever added",
        (*_SQLITE_TABLES, *_SQLITE_TRIGGERS, f"PRAGMA application_id = {APPLICATION_ID}"),
        (*_POSTGRES_TABLES, *_POSTGRES_TRIGGERS),
    ),
)
NEWEST = STEPS[-1].number
