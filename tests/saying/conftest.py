"""What the book knows, for every sentence."""

from __future__ import annotations

import pytest
from click.testing import CliRunner
from saying.kitchen_said import TODAY, filled

from ledger.cli._root import root
from ledger.saying.known import Known


@pytest.fixture(scope="session")
def known(tmp_path_factory) -> Known:
    """Return what a small book knows."""
    book = filled(tmp_path_factory.mktemp("said") / "book.sqlite")
    return Known(book.catalogue(), TODAY, book.log)


@pytest.fixture(scope="session")
def known_in_euros(tmp_path_factory) -> Known:
    """Return what the same book knows, kept in euros."""
    book = filled(tmp_path_factory.mktemp("said") / "euros.sqlite")
    book.write("setting_changed", {"name": "currency", "value": "EUR"})
    return Known(book.catalogue(), TODAY, book.log)


@pytest.fixture
def place(tmp_path, fixed_day):
    return str(tmp_path / "book.sqlite")


@pytest.fixture
def run(place):
    """Run a command off a terminal."""

    def call(*words, keys=None):
        return CliRunner().invoke(root, [*words, "--book", place], input=keys or "")

    return call
