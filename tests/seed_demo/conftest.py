from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from freezegun import freeze_time

import seed_demo

UNTIL = dt.date(2026, 11, 1)


@pytest.fixture(scope="session")
def until() -> dt.date:
    return UNTIL


@pytest.fixture(scope="session")
def told() -> list[dict[str, Any]]:
    return list(seed_demo.events(UNTIL))


@pytest.fixture(scope="session")
def demo_book(tmp_path_factory: pytest.TempPathFactory) -> Any:
    from ledger import Book

    with Book.open(tmp_path_factory.mktemp("demo") / "book.sqlite") as book:
        with freeze_time("2026-11-01 12:00"):
            seed_demo.build(book, UNTIL)
        yield book
