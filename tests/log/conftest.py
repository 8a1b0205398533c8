"""A book in a file of its own, and events to put into it."""

from __future__ import annotations

import uuid
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from ledger.log import Log, NewEvent, open_log


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "book.db"


@pytest.fixture
def log(path: Path) -> Iterator[Log]:
    with open_log(path) as found:
        yield found


@pytest.fixture
def event() -> Callable[..., NewEvent]:
    def make(**fields: Any) -> NewEvent:
        given = {
            "id": str(uuid.uuid4()),
            "kind": "harvested",
            "v": 1,
            "on": "2026-09-02",
            "body": '{"item":"plum"}',
        }
        return NewEvent(**{**given, **fields})

    return make
