"""Real pages in a real browser: a server a book, one chromium a run, and what went wrong on a page."""

from __future__ import annotations

import contextlib
import datetime as dt
import re
import shutil
import uuid
from dataclasses import dataclass, field
from pathlib import Path

import pytest

import seed_demo
from ledger import Book
from ledger.log import NewEvent

pytestmark = pytest.mark.browser
playwright = pytest.importorskip("playwright.sync_api")

NAMES = ("chromium-headless-shell", "chromium", "chromium-browser")
CHROMIUM = next(filter(None, map(shutil.which, NAMES)), None)
"""Chromium without its windows where there is one: the same engine for two thirds of the processor's time."""
FLAGS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking",
    "--no-first-run", "--disable-component-update", "--disable-sync",
    "--renderer-process-limit=1",  # pages are opened one after the other: none needs a process begun anew
    # suggestions below the address bar are pages of their own, drawn for every page that is opened:
    # most of what opening one costs; the others are off in playwright, whose list this takes the place of
    "--disable-features=WebUIOmniboxPopup,WebUIOmniboxAimPopup,AimEnabled,HttpsUpgrades,MediaRouter,"
    "OptimizationHints,PaintHolding,ThirdPartyStoragePartitioning",
]  # fmt: skip
UNTIL = dt.date(2026, 10, 1)
COPIES = 14
"""Times the three years of the sample household, one after the other: a book of forty years."""
_UUID = re.compile(r"[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}")


def pytest_collection_modifyitems(items):
    for item in items:
        if "tests/browser" in str(item.path):
            item.add_marker(pytest.mark.browser)
            if CHROMIUM is None:
                item.add_marker(pytest.mark.skip(reason="no chromium on this machine"))


@dataclass
class Served:
    """A book with its dashboard listening."""

    book: Book
    address: str
    server: object


@pytest.fixture(autouse=True)
def own_ticks(monkeypatch, tmp_path):
    """A data folder of a test's own: copies of one book share the ticks of its list, in every run at once."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))


@pytest.fixture(scope="session")
def serve():
    """Return a context manager that serves a book in threads, as `croftbook serve` does."""
    from dashboard.app import make_app
    from dashboard.listening import Listening

    @contextlib.contextmanager
    def served(book, **options):
        app = make_app(book, **options)
        server = Listening(app.server, options.get("gate")).start()
        yield Served(book, f"http://127.0.0.1:{server.port}", server)
        server.close()

    return served


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory):
    path = tmp_path_factory.mktemp("demo") / "demo.sqlite"
    with Book.open(path) as book:
        seed_demo.build(book, until=UNTIL)
    return path


def copied(path, folder):
    """Return an own copy of a closed book's file."""
    target = Path(folder) / "book.sqlite"
    shutil.copy(path, target)
    return Book.open(target)


@pytest.fixture(scope="session")
def demo(serve, demo_file, tmp_path_factory):
    """The sample household, only read by tests."""
    with copied(demo_file, tmp_path_factory.mktemp("read")) as book, serve(book) as served:
        yield served


@pytest.fixture
def own_demo(serve, demo_file, tmp_path):
    """The sample household, to write into."""
    with copied(demo_file, tmp_path) as book, serve(book) as served:
        yield served


@pytest.fixture(scope="session")
def empty(serve, tmp_path_factory):
    path = tmp_path_factory.mktemp("empty") / "book.sqlite"
    with Book.open(path) as book, serve(book) as served:
        yield served


@pytest.fixture
def own_empty(serve, tmp_path):
    with Book.open(tmp_path / "book.sqlite") as book, serve(book) as served:
        yield served


def shifted(row, copy):
    """Return a stored row as an event so many times three years earlier, with ids of its own."""
    days = dt.timedelta(days=1096 * (COPIES - 1 - copy))

    def own(text):
        return _UUID.sub(lambda m: str(uuid.uuid5(uuid.UUID(m[0]), str(copy))), text)

    on = (dt.date.fromisoformat(row[4]) - days).isoformat()
    moment = dt.datetime.fromisoformat(row[6].replace("Z", "+00:00")) - days
    return NewEvent(
        id=own(row[1]), kind=row[2], v=row[3], on=on, body=own(row[10]), at=row[5], by=row[8],
        replaces=own(row[9]) if row[9] else None,
        recorded_at=moment.strftime("%Y-%m-%dT%H:%M:%S.%fZ"),
    )  # fmt: skip


@pytest.fixture(scope="session")
def forty_years(serve, demo_file, tmp_path_factory):
    """A book of forty years: the sample household's three, again and again."""
    with Book.open(demo_file) as demo_book:
        rows = [row for chunk in demo_book.log.read() for row in chunk]
    with Book.open(tmp_path_factory.mktemp("forty") / "book.sqlite") as book:
        with book.log.writing("import") as tx:
            for copy in range(COPIES):
                tx.append_many(shifted(row, copy) for row in rows)
        with serve(book) as served:
            yield served


@pytest.fixture(scope="session")
def chromium():
    from playwright.sync_api import sync_playwright

    with sync_playwright() as run:
        browser = run.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()


@dataclass
class Wrong:
    """What a browser complained of; apart, that a script fetched early waits to be used."""

    said: list[str] = field(default_factory=list)
    early: list[str] = field(default_factory=list)

    def heard(self, message):
        if message.type in ("error", "warning") or "WARN" in message.text:
            # a slow machine takes more than the browser's few seconds to draw a picture
            (self.early if "was preloaded" in message.text else self.said).append(message.text)

    def watch(self, page, address):
        page.on("console", self.heard)
        page.on("pageerror", lambda e: self.said.append(str(e)))
        page.on(
            "request",
            lambda r: (
                self.said.append(f"asked outside: {r.url}")
                if not r.url.startswith((address, "data:", "blob:"))
                else None
            ),
        )


SAVES = "Object.defineProperty(navigator.connection, 'saveData', { value: true })"
"""A phone that saves data asks for no page ahead: that is looked at in test_away, on phones of its own."""


@dataclass
class Devices:
    """Phones and desks that tests share one after the other: scripts are read and kept once a run."""

    browser: object
    _held: dict[tuple[int, str], object] = field(default_factory=dict)
    _used: list[tuple[object, str]] = field(default_factory=list)

    def page(self, address, width, scheme):
        """Return a new page of the device of this width and scheme."""
        if (width, scheme) not in self._held:
            context = self.browser.new_context(
                viewport={"width": width, "height": 844 if width < 800 else 900},
                has_touch=width < 800, accept_downloads=True, reduced_motion="reduce",
            )  # fmt: skip
            context.set_default_timeout(60_000)
            context.add_init_script(SAVES)
            self._held[width, scheme] = context
        context = self._held[width, scheme]
        context.add_cookies([{"name": "scheme", "value": scheme, "url": address}])
        self._used.append((context, address))
        return context.new_page()

    def clean(self):
        """Close every page, and forget what was typed and what waits; scripts stay."""
        for context in {id(context): context for context, _ in self._used}.values():
            context.set_offline(False)
            last, *others = context.pages or [context.new_page()]
            for page in others:
                page.close()
            last.goto("about:blank")  # what a page keeps when it is left is forgotten with the rest
            session = context.new_cdp_session(last)
            for address in {address for of, address in self._used if of is context}:
                session.send(
                    "Storage.clearDataForOrigin",
                    {"origin": address, "storageTypes": "local_storage,indexeddb"},
                )
            context.clear_cookies()
            last.close()
        self._used.clear()


@pytest.fixture(scope="session")
def devices(chromium):
    return Devices(chromium)


@pytest.fixture
def open_page(devices):
    """Return a function that opens an address at a width, and what went wrong there."""

    def start(served, path="/", *, width=390, scheme="light"):
        page, wrong = devices.page(served.address, width, scheme), Wrong()
        wrong.watch(page, served.address)
        page.goto(served.address + path)
        page.wait_for_selector("#page h1")
        page.wrong, page.early = wrong.said, wrong.early
        return page

    yield start
    devices.clean()
