"""The stores that the contract is held against, each with a bare connection beside it."""

from __future__ import annotations

import contextlib
import os
import sqlite3
import uuid
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

from ledger.log import Log, open_log


@dataclass
class Store:
    """One empty place for a book."""

    name: str
    address: str
    opened: list[Log] = field(default_factory=list)

    def open(self, household: str = "home", **options: Any) -> Log:
        log = open_log(self.address, household, **options)
        self.opened.append(log)
        return log

    @contextlib.contextmanager
    def bare(self) -> Iterator[Any]:
        """Yield a plain driver connection, as somebody with a SQL prompt would have."""
        if self.name == "sqlite":
            with contextlib.closing(sqlite3.connect(self.address)) as raw:
                yield raw
                raw.commit()
            return
        import psycopg

        with psycopg.connect(self.address.replace("+psycopg", "")) as raw:
            yield raw

    def run(self, statement: str) -> list[tuple[Any, ...]]:
        with self.bare() as raw:
            cursor = raw.execute(statement)
            return cursor.fetchall() if cursor.description else []


@pytest.fixture(params=["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    if request.param == "sqlite":
        found = Store("sqlite", str(tmp_path / "book.db"))
        yield found
        for log in found.opened:
            log.close()
        return
    url = os.environ.get("CROFTBOOK_TEST_POSTGRES")
    if not url:
        pytest.skip("CROFTBOOK_TEST_POSTGRES names no server (tests/run.sh starts one)")
    import psycopg

    schema = f"t_{uuid.uuid4().hex}"
    plain = url.replace("+psycopg", "")
    with psycopg.connect(plain, autocommit=True) as admin:
        admin.execute(f"CREATE SCHEMA {schema}")
        found = Store("postgres", f"{url}?options=-csearch_path%3D{schema}")
        yield found
        for log in found.opened:
            log.close()
        admin.execute(f"DROP SCHEMA {schema} CASCADE")


@pytest.fixture
def log(store: Store) -> Log:
    return store.open()
