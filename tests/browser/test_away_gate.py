"""Behind a passphrase: what waits outlives a session that ran out; answers leave the phone with whoever leaves."""

from __future__ import annotations

import pytest
from test_away import BOX, KEPT, WAITS, entries, kept, opened, write
from wires import Wire

from dashboard.gate import Devices, Gate, Keeper
from ledger import Book

WORDS = "seven plums in a row"
LEFT = """async () => {
  const names = await caches.keys();
  return names.filter((one) => one !== 'croftbook-scripts');
}"""


@pytest.fixture
def house(serve, tmp_path):
    """A guarded book, the network before it, and who keeps its passphrase."""
    keeper = Keeper(tmp_path / "gate.json")
    keeper.set(WORDS)
    devices = Devices(tmp_path / "devices.sqlite")
    with Book.open(tmp_path / "book.sqlite") as book:
        book.write("harvested", {"item": "plum", "amount": "31 lb"})
        with serve(book, gate=Gate(keeper, devices)) as served:
            wire = Wire(served.server.port)
            yield served, wire, keeper
            wire.close()
    devices.close()


@pytest.fixture
def page(chromium, house):
    context = chromium.new_context(viewport={"width": 390, "height": 844}, reduced_motion="reduce")
    context.add_cookies([{"name": "scheme", "value": "light", "url": house[1].address}])
    context.set_default_timeout(30_000)
    yield context.new_page()
    context.close()


def sign_in(page, wire, words=WORDS):
    page.goto(wire.address + "/enter")
    page.fill("#passphrase", words)
    page.click("button[type=submit]")
    page.wait_for_selector("#page h1")


def gone(page):
    for _ in range(100):
        if not page.evaluate(LEFT):
            return
        page.wait_for_timeout(100)
    raise AssertionError(page.evaluate(LEFT))


def test_a_passphrase_that_ran_out_keeps_the_queue_and_asks_to_sign_in(house, page):
    served, wire, keeper = house
    sign_in(page, wire)
    opened(page, wire.address + "/write?kind=harvested")
    kept(page, "/write?kind=harvested", "/shelf")
    wire.set("cut")
    write(page, "4 lb pears")
    page.locator(BOX).fill("half an entry")  # so that the page stays where it is
    keeper.set("eight pears on a plate")
    wire.set("open")
    page.wait_for_selector(f"{WAITS} >> text=Sign in, and what waits is written.")
    gone(page)
    assert len(entries(served)) == 1
    sign_in(page, wire, "eight pears on a plate")
    page.wait_for_selector("#waiting .waiting-news")
    assert [row.line for row in entries(served)] == ["picked 31 lb plum", "picked 4 lb pears"]
    page.goto(wire.address + "/write?kind=harvested")
    page.wait_for_selector(".draft-note")
    assert page.locator(BOX).input_value() == "half an entry"


def test_signing_out_takes_the_answers_off_the_phone_and_leaves_what_waits(house, page):
    served, wire, _ = house
    sign_in(page, wire)
    kept(page, "/", "/shelf", "/write")
    opened(page, wire.address + "/write?kind=harvested")
    kept(page, "/write?kind=harvested")
    wire.set("cut")
    write(page, "4 lb pears")
    wire.set("deaf")  # it reaches the house or not, nobody knows
    page.wait_for_timeout(500)
    wire.set("open")
    page.wait_for_selector("#waiting .waiting-news")
    page.goto(wire.address + "/devices")
    page.get_by_role("button", name="Sign out", exact=True).click()
    page.wait_for_url("**/enter")
    gone(page)
    wire.set("cut")
    with pytest.raises(Exception, match="ERR_"):
        page.goto(wire.address + "/shelf")
    assert len(entries(served)) == 2


def test_a_phone_put_out_by_another_forgets_when_it_hears_of_it(house, page):
    _, wire, keeper = house
    sign_in(page, wire)
    kept(page, "/", "/shelf", "/write")
    assert page.evaluate(KEPT, ["/shelf"])
    keeper.set("eight pears on a plate")
    page.wait_for_url("**/enter")
    gone(page)
    wire.set("cut")
    with pytest.raises(Exception, match="ERR_"):
        page.goto(wire.address + "/shelf")
