"""Fixtures of the pages' tests: a page of one's own book, its figures opened, and a book behind the gate."""

from __future__ import annotations

import copy

import page_tools
import pytest
from argon2 import PasswordHasher
from danger_tools import AGAINST, YES
from door_tools import WORDS
from gate_tools import PHONE
from page_tools import text_of

from dashboard.app import make_app
from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.gate import Devices, Gate, Keeper
from ledger import Book


class Drawn(page_tools.Drawn):
    """A page as it was drawn, also in parts."""

    def of(self, kind, **props):
        """Return the components of a kind (``Table``) with these properties."""
        return [
            one
            for one in self.all(kind)
            if all(getattr(one, name, None) == value for name, value in props.items())
        ]

    def section(self, title):
        """Return the part of the page under a title."""
        for one in self.all("Section"):
            head = one.children[0]
            name = head.children[0] if getattr(head, "className", None) == "head" else head
            if getattr(name, "children", None) == title:
                part = copy.copy(self)
                part.parts, part.text = [one], text_of(one)
                return part
        raise AssertionError(f"no section {title!r} in {self.text[:500]}")


@pytest.fixture(autouse=True, scope="session")
def recommended_hasher():
    """Hash passphrases at the least cost; the recommended one is given to whoever asks for it."""
    kept = Keeper.hasher
    with pytest.MonkeyPatch.context() as patch:
        least = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
        patch.setattr(Keeper, "hasher", least)
        yield kept


@pytest.fixture
def page(book):
    """Return a function that draws an address of the book's pages."""
    data = Data(book)

    def draw(path, search="", scheme="light", **moment):
        return Drawn(ask_of(data, path, search, moment or None, scheme))

    return draw


@pytest.fixture
def opens():
    """Return a function that opens every figure of a page; it gives how many there are."""

    def check(drawn):
        ask, figures = drawn.ask, drawn.figures()
        for text, address, field in figures:
            node = ask.data.why(address, field, ask.moment)
            assert node.value is not None, (text, address, field)
        return len(figures)

    return check


@pytest.fixture(scope="session")
def demo(demo_file):
    """The sample household, only read, behind the pages' door."""
    with Book.open(demo_file) as book:
        yield Data(book)


@pytest.fixture
def keeper(tmp_path):
    """The passphrase of a household, set."""
    keeper = Keeper(tmp_path / "gate.json")
    keeper.set(WORDS)
    return keeper


@pytest.fixture
def devices(tmp_path):
    """The sessions of a household's devices, none so far."""
    devices = Devices(tmp_path / "data" / "devices.sqlite")
    yield devices
    devices.close()


@pytest.fixture
def gate(keeper, devices):
    """A gate that answers under one more name."""
    return Gate(keeper, devices, ["kitchen.local"])


@pytest.fixture
def open_book(tmp_path):
    """An empty book, open behind the gate."""
    with Book.open(tmp_path / "book.sqlite") as book:
        yield book


@pytest.fixture
def app(open_book, gate):
    """The pages behind the gate."""
    return make_app(open_book, gate=gate)


@pytest.fixture
def client(app):
    """A browser before the gate, not signed in."""
    return app.server.test_client()


@pytest.fixture
def signed_in(app):
    """Return a function that gives one more browser, signed in."""

    def start(agent=PHONE, passphrase=WORDS, **more):
        client = app.server.test_client()
        said = {"passphrase": passphrase}
        answer = client.post("/enter", data=said, headers={"User-Agent": agent}, **more)
        assert answer.status_code == 303, answer.text
        return client

    return start


@pytest.fixture(params=["en", "de"])
def kitchen(book, fixed_day, request):
    """Beans that stand against every published process: the book, its language, the batch."""
    book.write("setting_changed", name="language", value=request.param, on="2026-01-01")
    book.write("harvested", item="green bean", amount="30 lb", on="2026-09-10")
    batch = book.write("put_up", AGAINST, on="2026-09-12", answers=YES).event.id
    return Data(book), request.param, batch
