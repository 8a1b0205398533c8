"""The door in a real browser: signing in, devices, trust and failures looked at; what was typed stays whatever fails."""

from __future__ import annotations

import functools
import re

import pytest
from browser_tools import READ_MS, axe, settled, shot

from dashboard.gate import Devices, Gate, Keeper
from dashboard.gate.certificate import Certificate
from ledger.errors import BookUnreachable

WORDS = "seven plums in a row"
BOX = "#rows-lines > .row:nth-child(1) input >> nth=0"
SAID = "#failed:not(:empty)"
WIRE = re.compile("_dash-update-component")


@pytest.fixture
def keeper(tmp_path):
    keeper = Keeper(tmp_path / "gate.json")
    keeper.set(WORDS)
    return keeper


@pytest.fixture
def guarded(own_book, serve, keeper, tmp_path):
    """An empty book behind its passphrase."""
    devices = Devices(tmp_path / "devices.sqlite")
    tls = Certificate.kept(tmp_path / "tls", {"localhost", "127.0.0.1"})
    gate = Gate(keeper, devices, fingerprint=tls.fingerprint, authority=tls.authority)
    with serve(own_book, gate=gate) as served:
        yield served
    devices.close()


@pytest.fixture
def own_book(tmp_path):
    from ledger import Book

    with Book.open(tmp_path / "book.sqlite") as book:
        yield book


@pytest.fixture
def visit(chromium):
    """Return a function that gives a page of a browser that has never been here."""
    contexts = []

    def start(address, *, width=390, scheme="light"):
        context = chromium.new_context(
            viewport={"width": width, "height": 844 if width < 800 else 900},
            reduced_motion="reduce",
        )
        context.add_cookies([{"name": "scheme", "value": scheme, "url": address}])
        context.set_default_timeout(60_000)
        contexts.append(context)
        return context.new_page()

    yield start
    for context in contexts:
        context.close()


def sign_in(page, served):
    page.goto(served.address + "/enter")
    page.get_by_label("passphrase").or_(page.locator("#passphrase")).first.fill(WORDS)
    page.click("button[type=submit]")
    page.wait_for_selector("#page h1")


def looked_at(page, name):
    shot(page, f"door-{name}", full_page=True)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), (
        "it scrolls sideways"
    )
    assert axe(page) == []


@pytest.mark.parametrize(
    ("language", "width", "scheme"),
    [
        ("en", 390, "light"),
        ("en", 1280, "dark"),
        ("de", 390, "light"),
    ],  # where long words stick out
)
def test_pages_of_the_door(own_book, guarded, visit, language, width, scheme):
    own_book.write("setting_changed", name="language", value=language, on="2026-09-02")
    page, name = visit(guarded.address, width=width, scheme=scheme), f"{language}-{width}"
    page.goto(guarded.address + "/shelf")
    assert page.url.endswith("/enter")
    looked_at(page, f"enter-{name}")
    page.fill("#passphrase", "plums in a row")
    page.click("button[type=submit]")
    page.wait_for_selector("#said")
    looked_at(page, f"wrong-{name}")
    page.goto(guarded.address + "/trust")
    assert page.locator("ol").count() == 3
    looked_at(page, f"trust-{name}")
    page.wait_for_timeout(1500)  # after one wrong try, whoever comes from there waits a second
    sign_in(visit(guarded.address), guarded)
    sign_in(page, guarded)
    page.goto(guarded.address + "/devices")
    assert page.locator(".device-list li").count() == 2
    looked_at(page, f"devices-{name}")
    page.goto(guarded.address + "/trust/nothing", wait_until="load")
    page.goto(guarded.address + "/assets/none.png")
    looked_at(page, f"lost-{name}")
    page.goto(guarded.address.replace("127.0.0.1", "localhost") + "/health")
    assert "alive" in page.inner_text("body")


def test_signing_out_another_device_and_itself(guarded, visit):
    mine, other = visit(guarded.address), visit(guarded.address)
    sign_in(mine, guarded)
    sign_in(other, guarded)
    mine.goto(guarded.address + "/more")
    mine.get_by_role("link", name="Devices", exact=True).click()
    mine.get_by_role("button", name="Sign out Linux, Chrome").click()
    mine.wait_for_function("() => document.querySelectorAll('.device-list li').length === 1")
    other.wait_for_url("**/enter")  # within a few seconds, by itself
    mine.get_by_role("button", name="Sign out", exact=True).click()
    mine.wait_for_url("**/enter")
    mine.go_back()
    mine.goto(guarded.address + "/shelf")
    assert mine.url.endswith("/enter")


def test_phone_is_put_out_by_a_changed_passphrase(guarded, keeper, visit):
    phone = visit(guarded.address)
    sign_in(phone, guarded)
    keeper.set("eight pears on a plate")
    phone.wait_for_url("**/enter")
    phone.fill("#passphrase", WORDS)
    phone.click("button[type=submit]")
    assert "not the passphrase" in phone.inner_text("#said")


def test_what_was_typed_stays_when_signed_out_and_is_written_after_signing_in(
    guarded, keeper, visit, own_book
):
    phone = visit(guarded.address)
    sign_in(phone, guarded)
    phone.goto(guarded.address + "/write?kind=harvested")
    settled(phone)
    phone.locator(BOX).fill("31 lb plums")
    keeper.set("eight pears on a plate")
    phone.wait_for_selector(SAID)
    assert "signed out" in phone.inner_text("#failed")
    assert "stays in its boxes" in phone.inner_text("#failed")
    looked_at(phone, "put-out-typed")
    phone.click("#form-write")
    phone.wait_for_timeout(1000)
    assert own_book.log.position() == 0
    with phone.context.expect_page() as opened:
        phone.locator("#failed a").click()
    opened.value.fill("#passphrase", "eight pears on a plate")
    opened.value.click("button[type=submit]")
    opened.value.wait_for_selector("#page h1")
    opened.value.close()
    phone.wait_for_function("() => !document.querySelector('#failed').textContent")
    assert phone.locator(BOX).input_value() == "31 lb plums"
    phone.wait_for_timeout(600)
    phone.click("#form-write")
    phone.wait_for_selector("#form-said .written")
    assert [row.line for row in own_book.history(kind="harvested")] == ["picked 31 lb plums"]


FAILURES = (
    (500, "worked out", '{"said": "This could not be worked out."}'),
    (403, "status 403", '{"said": "That did not work (status 403)."}'),
    (413, "more than an entry", "<html>a bare line</html>"),
    (502, "busy", "<html>a bare line</html>"),
)
"""Status, what the page says then, and the answer's body."""


def answered(status, body, route):
    route.fulfill(status=status, body=body)


def test_failure_clears_written_down_and_keeps_what_was_typed(own_empty, open_page):
    page = open_page(own_empty, "/write?kind=harvested")
    page.locator(BOX).fill("31 lb plums")
    page.click("#form-write")
    page.wait_for_selector("#form-said .written")
    for status, says, body in FAILURES:
        page.wait_for_timeout(READ_MS)
        page.locator(BOX).fill(f"{status} lb quinces")
        page.route(WIRE, functools.partial(answered, status, body))
        page.click("#form-write")
        page.wait_for_selector(SAID)
        assert says in page.inner_text("#failed")
        page.wait_for_function(
            "() => !document.querySelector('#form-said').textContent.includes('Written down')"
        )
        assert page.locator(BOX).input_value() == f"{status} lb quinces"
        looked_at(page, f"failed-{status}")
        page.unroute(WIRE)
        page.wait_for_timeout(600)
        page.click("#form-write")
        page.wait_for_selector("#form-said .written")
        assert page.inner_text("#failed") == ""
    assert {row.line for row in own_empty.book.history(kind="harvested")} == {
        "picked 31 lb plums", *(f"picked {status} lb quinces" for status, *_ in FAILURES),
    }  # fmt: skip


def test_book_that_cannot_be_reached_is_said_and_the_page_mends_itself(
    own_empty, open_page, monkeypatch
):
    book = own_empty.book
    book.write("setting_changed", name="language", value="de", on="2026-09-02")
    page = open_page(own_empty, "/shelf")
    reads, log = type(book.log).position, type(book.log)

    def away(*_args):
        raise BookUnreachable("postgresql://x cannot be reached")

    look = type(book).look
    monkeypatch.setattr(log, "position", away)
    monkeypatch.setattr(type(book), "look", away)
    page.wait_for_selector("#away:not(:empty)")
    assert "antwortet nicht" in page.inner_text("#away")
    fresh = page.context.new_page()
    fresh.goto(own_empty.address + "/shelf")
    assert "Das Buch ist nicht erreichbar" in fresh.inner_text("h1")
    looked_at(fresh, "away-de")
    monkeypatch.setattr(log, "position", reads)
    monkeypatch.setattr(type(book), "look", look)
    page.wait_for_function("() => !document.querySelector('#away').textContent")
    fresh.wait_for_selector("#page h1")
