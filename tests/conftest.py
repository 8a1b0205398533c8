"""Fixtures that several rooms share: a book of one's own, and a clock that stands still."""

from __future__ import annotations

import datetime as dt
import gc
import os
import sys

import freezegun
import pandas as pd  # imported before the clock is stopped: its C parts look at the real date class
import pytest
from freezegun import freeze_time
from hypothesis import settings

from ledger import Answers, Book

assert pd.__name__
# Nothing here asserts a time: a busy machine must not fail a property.
# The same examples each time, so that a change and not chance turns a run red; the nightly run explores.
settings.register_profile(
    "any machine", deadline=None, derandomize="CROFTBOOK_EXPLORE" not in os.environ
)
settings.load_profile("any machine")
# How long a test takes is told by a clock that goes on (--durations). The others tell no time.
freezegun.configure(
    extend_ignore_list=[
        "_pytest.timing", "_plotly_utils", "babel", "charset_normalizer", "jinja2", "narwhals", "numpy", "pandas",
        "plotly", "pydantic", "pygments", "scipy", "sqlalchemy",
    ]
)  # fmt: skip


class _WithClocks:
    """Stands for `sys` in freezegun, which goes through `modules` whenever the clock is stopped, thousands of times."""

    CLOCKS = frozenset(
        id(one)
        for name, one in vars(freezegun.api).items()
        if name.startswith(("real_", "fake_", "Fake")) and callable(one)
    )

    def __init__(self):
        self._all, self._with = 0, {}

    @property
    def modules(self):
        """Of all modules those that hold one of the clocks; looked for anew when another module is there."""
        now = sum(map(id, sys.modules.values()))
        if now != self._all:
            self._all, self._with = now, {k: m for k, m in sys.modules.items() if self._holds(m)}
        return self._with

    def _holds(self, module):
        return not self.CLOCKS.isdisjoint(map(id, list(getattr(module, "__dict__", {}).values())))


freezegun.api.sys = _WithClocks()
TODAY = "2026-11-01"


@pytest.fixture(autouse=True, scope="session")
def _nothing_old_is_swept():
    """What was imported and collected stays: the collector need not look through it again and again.

    And what is made it looks through as seldom as the command lets it: else it takes a fifth of the time of those
    tests that come before the first command.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(500_000, 20, 20)


@pytest.fixture(autouse=True, scope="session")
def _cache_of_ones_own(tmp_path_factory):
    """What is worked out and kept goes into a folder of this run."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture
def book(tmp_path):
    """An empty book in a folder of its own."""
    with Book.open(tmp_path / "book.sqlite") as opened:
        yield opened


@pytest.fixture
def fixed_day():
    """The day stands still: 1 November 2026, noon UTC."""
    with freeze_time(f"{TODAY} 12:00:00", tz_offset=0) as clock:
        yield clock


@pytest.fixture
def yes():
    """Answers that take what is offered."""
    return Answers(yes=True)


@pytest.fixture(scope="session", autouse=True)
def own_folders(tmp_path_factory):
    """Heads, settings and reports of the tests stay out of the user's own folders."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_DATA_HOME", str(tmp_path_factory.mktemp("data")))
        yield


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory):
    """The sample household's book to the day before `TODAY`, closed: to be copied, or only read."""
    import seed_demo

    path = tmp_path_factory.mktemp("demo") / "demo.sqlite"
    with freeze_time(f"{TODAY} 12:00:00"), Book.open(path) as book:
        seed_demo.build(book, dt.date.fromisoformat(TODAY))
    return path
