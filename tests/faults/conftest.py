"""Events to put into a book that something happens to."""

from __future__ import annotations

import os
import shutil
import tempfile
import uuid
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from faults_tools import tell

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


@pytest.fixture(scope="module")
def server():
    """A server of this module's own, whose stopping disturbs nobody; its folder and address."""
    if not os.environ.get("CROFTBOOK_TEST_POSTGRES"):
        pytest.skip("CROFTBOOK_TEST_POSTGRES names no server (tests/run.sh starts one)")
    above = Path(tempfile.mkdtemp(prefix="croftbook-stops-"))
    above.chmod(0o755)
    folder = above / "postgres"
    yield folder, tell("start", folder)
    tell("stop", folder)
    shutil.rmtree(above)
