"""A first evening on a phone: a few answers, a list of what is there, one thing that happened, its answer opened."""

from __future__ import annotations

import pytest
from browser_tools import READ_MS, axe, settled

from dashboard.app import make_app
from dashboard.gate import Gate
from dashboard.listening import Listening
from dashboard.sample import Sample
from ledger import Book


def kinds(book):
    return [row.kind for row in book.history() if row.kind != "item_described"][::-1]


def test_from_an_empty_book_to_the_first_figure(own_empty, open_page):
    page = open_page(own_empty, "/")
    settled(page)
    assert axe(page) == []
    page.fill("#house-people", "5")
    page.get_by_role("button", name="Kilos, litres").tap()
    page.fill("#house-altitude", "800")
    page.get_by_role("button", name="Weighted").tap()
    page.tap("#house-write")
    page.wait_for_selector("#happened-text")
    assert kinds(own_empty.book) == ["setting_changed"] * 4
    page.fill("#happened-text", "12 quart jars tomato sauce\n10 kg flour, 5 kg sugar\n3 dozen eggs")
    page.wait_for_selector(".read")
    page.wait_for_timeout(READ_MS)
    assert axe(page) == []
    page.tap("#happened-write")
    page.wait_for_selector("text=Write down one thing that happened.")
    page.wait_for_timeout(READ_MS)
    page.fill("#happened-text", "picked 14 kg plums")
    page.wait_for_selector(".read")
    page.tap("#happened-write")
    page.wait_for_selector("text=Your first answer")
    assert kinds(own_empty.book)[4:] == ["counted", "harvested"]
    page.tap(".answer .opens")
    page.wait_for_selector("#why-shown >> text=14 kg")
    page.keyboard.press("Escape")
    page.wait_for_selector(".mantine-Drawer-content", state="detached")
    assert page.evaluate("document.documentElement.scrollWidth") == 390
    assert axe(page) == []
    assert page.wrong == []


def test_every_question_may_be_skipped_and_comes_back_under_settings(own_empty, open_page):
    page = open_page(own_empty, "/")
    settled(page)
    page.tap("text=Skip this")
    page.wait_for_selector("text=Now what is in the house")
    page.tap("text=Skip this")
    page.wait_for_selector("text=Write down one thing that happened.")
    assert own_empty.book.history() == []
    page.goto(own_empty.address + "/settings")
    page.fill("#house-people", "6")
    page.tap("#house-write")
    page.wait_for_selector("#said .written")
    assert own_empty.book.catalogue().setting("people") == "6"
    page.tap("text=Count it by a list")
    page.wait_for_selector("#happened-text")
    assert page.wrong == []


@pytest.fixture
def beside(tmp_path):
    """An empty book whose server opens the invented household beside it."""
    book, gate = Book.open(tmp_path / "own.sqlite"), Gate()
    sample = Sample(make_app, gate)
    server = Listening(make_app(book, gate=gate, sample=sample).server, gate).start()
    sample.of = server.port
    yield book, f"http://127.0.0.1:{server.port}"
    sample.close()
    server.close()
    book.close()


def test_the_sample_is_named_as_such_keeps_apart_and_leads_back(beside, chromium):
    book, address = beside
    context = chromium.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    context.set_default_timeout(120_000)
    page = context.new_page()
    page.goto(address)
    page.tap("text=Open the invented household")
    page.wait_for_selector(".line.sample >> text=An invented household")
    assert not page.url.startswith(address)
    settled(page)
    assert axe(page) == []
    page.fill("#happened-text", "picked 3 lb plums")
    page.wait_for_selector(".read")
    page.tap("#happened-write")
    page.wait_for_selector("#said .written")
    assert book.log.position() == 0
    page.tap("text=Back to your book")
    page.wait_for_selector("text=A new book.")
    assert page.locator(".line.sample").count() == 0
    context.close()
