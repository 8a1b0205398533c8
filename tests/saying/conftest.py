"""What the book knows, for every sentence."""

from __future__ import annotations

import pytest
from saying.kitchen_said import TODAY, filled

from ledger.saying.known import Known


@pytest.fixture(scope="session")
def known(tmp_path_factory) -> Known:
    """Return what a small book knows."""
    book = filled(tmp_path_factory.mktemp("said") / "book.sqlite")
    return Known(book.catalogue(), TODAY, book.log)
