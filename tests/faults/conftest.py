"""Events to put into a book that something happens to."""

from __future__ import annotations

import uuid
from collections.abc import Callable
from typing import Any

import pytest

from ledger.log import NewEvent


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
