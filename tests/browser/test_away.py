"""Away from the house, in a browser whose network is cut between every two steps: nothing lost, nothing twice."""

from __future__ import annotations

import socket
import threading

import pytest
from browser_tools import SHOTS, axe

BOX = "#rows-lines > .row:nth-child(1) input >> nth=0"
WAITS = "#waiting .waiting-head"


class Wire:
    """The network between a phone and the house: open, cut, or deaf (what is asked arrives, no answer does)."""

    def __init__(self, port):
        self.to, self.how = port, "open"
        self._at = socket.create_server(("127.0.0.1", 0))
        self.address = f"http://127.0.0.1:{self._at.getsockname()[1]}"
        self._open = set()
        self._stops = False
        threading.Thread(target=self._accept, daemon=True).start()

    def _accept(self):
        while not self._stops:
            try:
                phone, _ = self._at.accept()
            except OSError:
                return
            if self.how == "cut":
                phone.close()
                continue
            house = socket.create_connection(("127.0.0.1", self.to))
            self._open |= {phone, house}
            for a, b, is_answer in ((phone, house, False), (house, phone, True)):
                threading.Thread(target=self._pump, args=(a, b, is_answer), daemon=True).start()

    def _pump(self, a, b, is_answer):
        try:
            while part := a.recv(65536):
                if self.how == "cut":
                    break
                if self.how == "deaf" and is_answer:
                    break
                b.sendall(part)
        except OSError:
            pass
        for one in (a, b):
            self._open.discard(one)
            try:
                one.shutdown(socket.SHUT_RDWR)
            except OSError:
                pass
            one.close()

    def set(self, how):
        self.how = how
        if how == "cut":
            for one in list(self._open):
                try:
                    one.shutdown(socket.SHUT_RDWR)
                except OSError:
                    pass

    def close(self):
        self._stops = True
        self._at.close()
        self.set("cut")


@pytest.fixture
def wired():
    """Return a function that lays a network of its own before a served book."""
    laid = []

    def lay(served):
        laid.append(Wire(served.server.port))
        return laid[-1]

    yield lay
    for one in laid:
        one.close()


@pytest.fixture
def phone(chromium):
    """Return a function that gives a browser of its own at an address."""
    contexts = []

    def start(address, **options):
        context = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True, reduced_motion="reduce", **options)
        context.add_cookies([{"name": "scheme", "value": "light", "url": address}])
        context.set_default_timeout(30_000)
        contexts.append(context)
        return context.new_page()

    yield start
    for one in contexts:
        one.close()


def opened(page, address):
    page.goto(address)
    page.wait_for_selector("#page h1")


def kept(page, *paths):
    """Wait until this phone keeps the pages named, and its worker stands before them."""
    page.wait_for_function("navigator.serviceWorker.controller")
    page.wait_for_function(
        """async (paths) => {
          const there = (await (await caches.open('croftbook-answers')).keys()).map((one) => new URL(one.url).searchParams.get('at'));
          const shell = (await (await caches.open('croftbook-shell')).keys()).length;
          return shell === 3 && paths.every((one) => there.includes(one));
        }""",
        arg=list(paths),
    )


def away(page):
    page.wait_for_function("() => document.getElementById('away')?.textContent || document.querySelector('.kept-note')")


def lines(served, kind="harvested"):
    return sorted(row.line for row in served.book.history(kind=kind) if row.state == "holds")


def test_pages_open_and_entries_wait_and_are_written_once(own_demo, wired, phone):
    before = lines(own_demo)
    wire = wired(own_demo)
    page = phone(wire.address)
    opened(page, wire.address + "/")
    kept(page, "/", "/shelf", "/write", "/stocking-up")
    opened(page, wire.address + "/write?kind=harvested")
    kept(page, "/write?kind=harvested")
    wire.set("cut")
    for path, name in (("/", "Today"), ("/shelf", "Shelf"), ("/write", "Write"), ("/stocking-up", "")):
        opened(page, wire.address + path)
        assert name in page.inner_text("#page h1"), path
        assert "kept on this phone" in page.inner_text(".kept-note")
    page.goto(wire.address + "/worth-it")
    page.wait_for_selector("#page h1")
    assert "not kept on this phone" in page.inner_text("#page h1")
    opened(page, wire.address + "/write?kind=harvested")
    for text in ("31 lb plums", "7 lb quinces"):
        page.locator(BOX).fill(text)
        page.wait_for_timeout(700)
        page.click("#form-write")
        page.wait_for_selector("#form-said .waits")
        page.wait_for_function("(box) => !document.querySelector('#rows-lines input').value")
    assert "No signal. 2 entries wait on this phone." in page.inner_text(WAITS)
    SHOTS.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=SHOTS / "away-waits-390.png")
    assert axe(page) == []
    page.reload()
    page.wait_for_selector(WAITS)
    assert lines(own_demo) == before
    wire.set("open")
    page.wait_for_selector(".waiting-news >> nth=1")
    assert page.locator(WAITS).count() == 0
    assert lines(own_demo) == sorted([*before, "picked 31 lb plums", "picked 7 lb quinces"])
    page.screenshot(path=SHOTS / "away-sent-390.png")
    page.reload()
    page.wait_for_timeout(4000)
    assert lines(own_demo) == sorted([*before, "picked 31 lb plums", "picked 7 lb quinces"])
