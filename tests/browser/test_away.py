"""Away from the house, in a browser whose network is cut between every two steps: nothing lost, nothing twice."""

from __future__ import annotations

import pytest
from browser_tools import READ_MS, axe, shot
from wires import Wire

from dashboard.data import Data
from dashboard.errands import Errands
from ledger import Answers

BOX = "#rows-lines > .row:nth-child(1) input >> nth=0"
KEPT = """async (paths) => {
  const there = (await (await caches.open('croftbook-answers')).keys()).map((one) => new URL(one.url).searchParams.get('at'));
  const shell = (await (await caches.open('croftbook-shell')).keys()).length;
  return shell === 3 && paths.every((one) => there.includes(one));
}"""
AGAIN_MS = 600
"""What is written sooner after an answer counts as the second tap of two."""
WAITS = "#waiting > .waiting-head"


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
        context = chromium.new_context(
            viewport={"width": 390, "height": 844},
            has_touch=True,
            reduced_motion="reduce",
            **options,
        )
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
    page.wait_for_function("() => navigator.serviceWorker.controller")
    for _ in range(300):
        if page.evaluate(KEPT, list(paths)):
            return
        page.wait_for_timeout(100)
    raise AssertionError(f"not kept: {paths}")


def entries(served, kind="harvested"):
    """Return the entries of a kind that hold, in the order in which they were written down."""
    rows = [row for row in served.book.history(kind=kind) if row.state == "holds"]
    return sorted(rows, key=lambda row: row.seq)


def write(page, text):
    """Fill the form and write; wait until this phone keeps the entry, or the house has it."""
    page.locator(BOX).fill(text)
    page.wait_for_timeout(AGAIN_MS)
    page.press("#form-write", "Enter")  # a key, as a thumb's place is inert for long after a write
    page.wait_for_selector("#form-said .written")
    page.wait_for_function("() => !document.querySelector('#rows-lines input').value")


def test_pages_open_and_entries_wait_and_are_written_once(own_demo, wired, phone):
    before = len(entries(own_demo))
    wire = wired(own_demo)
    page = phone(wire.address)
    opened(page, wire.address + "/")
    kept(page, "/", "/shelf", "/write", "/shopping")
    opened(page, wire.address + "/write?kind=harvested")
    kept(page, "/write?kind=harvested")
    wire.set("cut")
    for path, name in (
        ("/", "Today"),
        ("/shelf", "Shelf"),
        ("/write", "Write"),
        ("/shopping", ""),
    ):
        opened(page, wire.address + path)
        assert name in page.inner_text("#page h1"), path
        assert "kept on this phone" in page.inner_text(".kept-note")
    page.goto(wire.address + "/worth-it")
    page.wait_for_selector("#page h1")
    assert "not kept on this phone" in page.inner_text("#page h1")
    opened(page, wire.address + "/write?kind=harvested")
    for text in ("31 lb plums", "7 lb quinces"):
        write(page, text)
        assert page.locator("#form-said .waits").count() == 1
    assert "No signal. 2 entries wait on this phone." in page.inner_text(WAITS)
    shot(page, "away-waits-390")
    assert axe(page) == []
    page.reload()
    page.wait_for_selector(WAITS)
    assert len(entries(own_demo)) == before
    wire.set("open")
    page.wait_for_selector(".waiting-news li >> nth=1")
    assert page.locator(WAITS).count() == 0
    said = ["picked 31 lb plum", "picked 7 lb quinces"]
    assert [row.line for row in entries(own_demo)][-2:] == said
    assert len(entries(own_demo)) == before + 2
    shot(page, "away-sent-390")
    page.reload()
    page.wait_for_timeout(4000)
    assert len(entries(own_demo)) == before + 2


def test_cut_between_every_two_steps_nothing_is_lost_or_twice(own_empty, wired, phone):
    """Every step once with the network open, cut and deaf before it: the answer of a written entry is lost, too."""
    wire = wired(own_empty)
    page = phone(wire.address)
    opened(page, wire.address + "/write?kind=harvested")
    kept(page, "/write?kind=harvested")
    said = []
    for n, (before, at_write, after) in enumerate(
        [
            ("open", "deaf", "open"),
            ("cut", "cut", "deaf"),
            ("deaf", "open", "cut"),
            ("open", "cut", "open"),
        ]
    ):
        wire.set(before)
        page.reload()
        page.wait_for_selector("#page h1")
        page.wait_for_selector("#form-write")
        said.append(f"{n + 3} lb pears")
        wire.set(at_write)
        write(page, said[-1])
        wire.set(after)
        page.wait_for_timeout(1500)
    wire.set("open")
    page.wait_for_function(
        "() => document.querySelector('#waiting') && !document.querySelector('#waiting > .waiting-head')"
    )
    assert [row.line for row in entries(own_empty)] == [f"picked {one}" for one in said]


def test_two_phones_with_queues_at_once(own_empty, wired, phone):
    wires = [wired(own_empty), wired(own_empty)]
    pages = [phone(one.address) for one in wires]
    for page, wire in zip(pages, wires, strict=True):
        opened(page, wire.address + "/write?kind=harvested")
        kept(page, "/write?kind=harvested")
        wire.set("cut")
    for n in range(3):
        for who, page in enumerate(pages):
            write(page, f"{10 * who + n + 1} lb beans")
    for wire in wires:
        wire.set("open")
    for page in pages:
        page.wait_for_selector(".waiting-news li >> nth=2")
        assert page.locator(WAITS).count() == 0
    written = [row.line for row in entries(own_empty)]
    assert len(written) == 6
    for who in (0, 1):  # each phone's own order is kept
        mine = [f"picked {10 * who + n} lb beans" for n in (1, 2, 3)]
        assert [line for line in written if line in mine] == mine


def test_what_was_said_waits_asks_and_is_written(own_demo, wired, phone):
    """Read only at the house: clear words are written, others asked about, and those behind wait in order."""
    wire = wired(own_demo)
    before = own_demo.book.log.position()
    page = phone(wire.address)
    opened(page, wire.address + "/write")
    kept(page, "/write")
    wire.set("cut")
    page.reload()
    page.wait_for_selector("#happened-text")
    for text in ("picked 3 lb plums", "picked 7 lb plums / 3 lb -", "picked 5 lb plums"):
        page.fill("#happened-text", text)
        page.wait_for_selector("#happened-read :text('read when the house')")
        page.wait_for_timeout(AGAIN_MS)
        page.press("#happened-write", "Enter")
        page.wait_for_selector("#said .waits")
        page.wait_for_function("() => !document.querySelector('#happened-text').value")
    assert own_demo.book.log.position() == before
    wire.set("open")
    page.wait_for_selector("#waiting .read-asked")
    assert (
        own_demo.book.log.position() == before + 1
    )  # the first; the third waits behind the second
    assert "another waits behind it" in page.inner_text(WAITS)
    shot(page, "away-asks-390")
    assert axe(page) == []
    page.click("#waiting .read-asked button >> nth=1")
    page.wait_for_function("() => !document.querySelector('#waiting > .waiting-head')")
    newest = [row.line for row in entries(own_demo)[-3:]]
    assert newest[0] == "picked 3 lb plum"
    assert newest[2] == "picked 5 lb plum"


def test_a_page_on_its_way_while_the_worker_comes_up_has_it_too(own_empty, wired, phone):
    wire = wired(own_empty)
    wire.slow = {"/worker.js": 0.3, "/write": 1.5}
    page = phone(wire.address)
    page.goto(wire.address + "/")
    opened(page, wire.address + "/write?kind=harvested")  # asked for before the worker stood
    kept(page, "/write?kind=harvested")


def test_refused_entry_goes_back_into_its_box(own_empty, wired, phone):
    wire = wired(own_empty)
    page = phone(wire.address)
    opened(page, wire.address + "/write?kind=harvested")
    kept(page, "/write?kind=harvested")
    wire.set("cut")
    write(page, "3 c plums")
    write(page, "4 lb pears")
    wire.set("open")
    page.wait_for_selector("#waiting .trouble")
    assert own_empty.book.log.position() == 0
    page.get_by_role("button", name="Back into its box").click()
    page.wait_for_selector(".draft-note")
    assert page.locator(BOX).input_value() == "3 c plums"
    write(page, "3 lb plums")
    page.wait_for_function("() => !document.querySelector('#waiting > .waiting-head')")
    assert sorted(row.line for row in entries(own_empty)) == [
        "picked 3 lb plums",
        "picked 4 lb pears",
    ]


def test_the_list_ticks_in_a_shop_without_signal(own_demo, wired, phone):
    wire = wired(own_demo)
    page = phone(wire.address)
    opened(page, wire.address + "/shopping")
    kept(page, "/shopping")
    first = page.locator("#page [role=checkbox]").first
    was = first.get_attribute("aria-checked")
    item = page.evaluate("JSON.parse(document.querySelector('#page [role=checkbox]').id).tick")
    wire.set("cut")
    page.wait_for_timeout(600)
    first.tap()
    other = "false" if was == "true" else "true"
    changed = f"() => document.querySelector('#page [role=checkbox]')?.getAttribute('aria-checked') === '{other}'"
    page.wait_for_function(changed)
    page.reload()
    page.wait_for_function(changed)
    assert page.locator(WAITS).count() == 0  # a tick is no entry
    wire.set("open")
    for _ in range(100):
        if (item in Errands.of(Data(own_demo.book)).ticked()) == (other == "true"):
            break
        page.wait_for_timeout(100)
    assert (item in Errands.of(Data(own_demo.book)).ticked()) == (other == "true")


OPENS = "#page [id^='{\"opens\"']"


def test_jars_opened_and_put_back_between_cuts_are_written_once_in_their_order(
    own_demo, wired, phone
):
    """Each tap once with the network open, cut and deaf: a tap whose answer was lost is not written again."""
    wire = wired(own_demo)
    page = phone(wire.address)
    opened(page, wire.address + "/shelf")
    kept(page, "/shelf")
    before = own_demo.book.log.position()
    taps = [
        ("opens", "deaf"),
        ("opens", "cut"),
        ("back", "cut"),
        ("opens", "open"),
        ("back", "deaf"),
    ]
    for what, how in taps:
        page.wait_for_selector(OPENS)
        page.wait_for_timeout(READ_MS)
        page.wait_for_load_state(
            "networkidle"
        )  # no drawing is under way, for which a tap would wait
        wire.set(how)
        board = page.locator(f"#page [id^='{{\"{what}\"']").last
        board.scroll_into_view_if_needed()
        board.press("Enter")
        page.wait_for_selector("#said .written", timeout=150_000)  # what waits is tried before
        wire.set("cut")
        page.wait_for_timeout(300)
        page.reload()  # the card goes with it, the tap stays
        page.wait_for_selector("#page h1")
    wire.set("open")
    page.wait_for_function(
        "() => document.querySelector('#waiting') && !document.querySelector('#waiting > .waiting-head')"
    )
    rows = [row for chunk in own_demo.book.log.read(after=before) for row in chunk]
    assert [row[2] for row in rows] == ["eaten", "eaten", "struck", "eaten", "struck"]
    assert len(entries(own_demo, "eaten")) - 1 == len(
        [
            row
            for row in own_demo.book.history(kind="eaten")
            if row.state == "holds" and row.seq <= before
        ]
    )


def test_a_jar_that_came_into_danger_meanwhile_is_not_opened_from_the_queue(
    own_empty, wired, phone
):
    book = own_empty.book
    yes = Answers(yes=True)
    book.write("received", item="green bean", amount="40 lb", how="gift", answers=yes)
    body = {"makes": "canned green bean", "method": "pressure", "minutes": "25", "psi": "11", "gauge": "dial",
            "pack": "hot", "headspace": "1 in", "used": [{"item": "green bean", "amount": "14 lb"}],
            "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}]}  # fmt: skip
    batch = book.write("put_up", body, answers=yes)
    wire = wired(own_empty)
    page = phone(wire.address)
    opened(page, wire.address + "/shelf")
    kept(page, "/shelf")
    wire.set("cut")
    page.locator(OPENS).first.press("Enter")
    page.wait_for_selector("#said .waits")
    made = {**body, "method": "boiling water", "minutes": "20", "psi": None, "gauge": None}
    worse = {key: value for key, value in made.items() if value is not None}
    book.write("put_up", worse, replaces=batch.event.id, answers=yes)
    wire.set("open")
    page.wait_for_selector("#waiting .trouble >> text=stand in danger")
    assert entries(own_empty, "eaten") == []
