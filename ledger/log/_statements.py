"""The few statements that the log runs, stated once for both databases. None changes a row."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from ledger.log._chain import BARE, COLUMNS
from ledger.log._schema import EVENTS, TYPES

__all__ = ["Statement", "Statements"]

_READ = ", ".join(f'"{name}"' for name in COLUMNS)
_BARE = ", ".join(f'"{name}"' for name in BARE)
_NAMES = ", ".join(one.quoted for one in EVENTS)
_OF = "FROM events WHERE household = :household"
_SPAN = f"{_OF} AND seq > :after AND seq <= :upto"
_PAGED = "ORDER BY seq LIMIT :rows"


@dataclass(frozen=True)
class Statement:
    """A statement with parameters by name, as its database's driver takes them."""

    text: str

    def run(self, raw: Any, **values: Any) -> Any:
        """Run it on a driver's connection; return the driver's cursor."""
        return raw.execute(self.text, values)


_SHARED = {
    "head": f"SELECT seq, hash, recorded_at {_OF} ORDER BY seq DESC LIMIT 1",
    "hash_at": f"SELECT hash {_OF} AND seq = :seq",
    "kinds": f"SELECT kind, v, min(seq) {_OF} AND seq > :after GROUP BY kind, v ORDER BY min(seq)",
    "last": f"SELECT max(seq) {_OF}",
    "page": f"SELECT {_READ} {_SPAN} {_PAGED}",
    "page_bare": f"SELECT {_BARE} {_SPAN} {_PAGED}",
    "page_later": f"SELECT {_READ} {_SPAN} AND (replaces IS NOT NULL OR kind = 'struck') {_PAGED}",
    "mentioning": f"SELECT {_READ} {_OF} AND kind = :kind "
    "AND (\"on\" = :on OR body LIKE '%' || :text || '%') ORDER BY seq",
    "one": f"SELECT {_READ} {_OF} AND id = :id",
    "ids": f"SELECT id {_OF} AND id >= :low AND id < :high ORDER BY id",
    "written": f"SELECT id, recorded_at {_SPAN} ORDER BY seq",
    "unfound": "SELECT e.household, e.seq FROM events AS e WHERE NOT EXISTS (SELECT 1 FROM events "
    "AS f WHERE f.household = e.household AND f.id = e.id AND f.seq = e.seq) LIMIT :most",
    "step_done": "INSERT INTO book_layout (step, name, done_at) VALUES (:step, :name, :done_at)",
    "households": "SELECT min(household) FROM events WHERE household > :household",
}

# The events with any of many ids, one look into the unique key for each. Left to themselves the
# planners may read the whole household for each list of ids. One cannot but look up a number that
# it needs for each row, the other does not see through OFFSET.
_OWN = {
    "sqlite": {
        "page_of": f"SELECT {_READ} {_SPAN} AND kind IN (SELECT value FROM json_each(:kinds)) "
        f"{_PAGED}",
        "numbered": f"SELECT {_READ} {_OF} AND seq IN (SELECT value FROM json_each(:numbers)) "
        "ORDER BY seq",
        "known": f"SELECT {_READ} {_OF} AND seq IN (SELECT (SELECT other.seq FROM events AS other "
        "WHERE other.household = :household AND other.id = wanted.value) "
        "FROM json_each(:ids) AS wanted)",
        "numbers": "SELECT wanted.value, (SELECT seq FROM events "
        "WHERE household = :household AND id = wanted.value) FROM json_each(:ids) AS wanted",
        "twice": "SELECT household, id, count(*) FROM events GROUP BY +household, +id "
        "HAVING count(*) > 1 LIMIT :most",
    },
    "postgresql": {
        "page_of": f"SELECT {_READ} {_SPAN} AND kind = ANY(CAST(:kinds AS TEXT[])) {_PAGED}",
        "numbered": f"SELECT {_READ} {_OF} AND seq = ANY(CAST(:numbers AS BIGINT[])) ORDER BY seq",
        "known": f"SELECT {_READ} FROM (SELECT unnest(CAST(:ids AS TEXT[])) AS wanted) AS each "
        f"JOIN LATERAL (SELECT * {_OF} AND id = wanted OFFSET 0) AS found ON true",
        "numbers": "SELECT wanted, found.seq FROM (SELECT unnest(CAST(:ids AS TEXT[])) AS wanted) AS each "
        f"LEFT JOIN LATERAL (SELECT seq {_OF} AND id = wanted OFFSET 0) AS found ON true",
        "twice": "SELECT household, id, count(*) FROM events GROUP BY household, id "
        "HAVING count(*) > 1 LIMIT :most",
    },
}


class Statements:
    """Every statement of the log, for one of the databases.

    Parameters
    ----------
    dialect : {'sqlite', 'postgresql'}
    written : callable, optional
        Brings a text with parameters as ``:name`` into the form that the driver takes.
    """

    head: Statement
    hash_at: Statement
    kinds: Statement
    last: Statement
    page: Statement
    page_bare: Statement
    page_later: Statement
    page_of: Statement
    numbered: Statement
    mentioning: Statement
    one: Statement
    ids: Statement
    written: Statement
    numbers: Statement
    households: Statement
    known: Statement
    step_done: Statement
    twice: Statement
    unfound: Statement

    def __init__(self, dialect: str, written: Callable[[str], str] = str) -> None:
        for name, text in (_SHARED | _OWN[dialect]).items():
            setattr(self, name, Statement(written(text)))
        each = ", ".join("?" if dialect == "sqlite" else "%s" for _ in EVENTS)
        self.insert = f"INSERT INTO events ({_NAMES}) VALUES ({each})"
        self.copy = f"COPY events ({_NAMES}) FROM STDIN"
        # One statement for many rows where COPY is not allowed: its triggers run once.
        arrays = ", ".join(f"%s::{TYPES[dialect][one.type]}[]" for one in EVENTS)
        self.insert_all = f"INSERT INTO events ({_NAMES}) SELECT * FROM unnest({arrays})"
