"""Nothing typed is lost: Back, a reload, a closed browser, a server that stops; begun anew only on purpose."""

from __future__ import annotations

import subprocess
import sys
import tempfile

from test_away import kept

FORM = "/write?kind=bought"
PAID = '[id=\'{"field":"paid","part":"box","row":0}\']'
LINE = '[id=\'{{"field":"lines","part":"box","row":{}}}\']'


def typed(page):
    """Type into boxes of every sort: a line, one that was hidden, a number beside it, another day."""
    page.wait_for_selector("#form-write")
    page.wait_for_timeout(300)
    page.fill(LINE.format(0), "10 lb sugar")
    page.fill(PAID, "7.90")
    page.get_by_role("button", name="Another: What and how much").click()
    page.fill(LINE.format(1), "24 lids")
    page.get_by_text("Other day").click()
    page.fill('[id=\'{"field":"day","part":"box","row":0}\']', "2026-09-01")
    page.wait_for_timeout(200)


def is_back(page):
    page.wait_for_selector(".draft-note")
    page.wait_for_function(
        "(one) => document.querySelector(one).value === '10 lb sugar'", arg=LINE.format(0)
    )
    assert page.input_value(PAID) == "7.90"
    assert page.locator(LINE.format(1)).is_visible()
    assert page.input_value(LINE.format(1)) == "24 lids"
    assert page.get_by_label("Which day").first.input_value() == "2026-09-01"


def test_back_reload_and_beginning_anew(empty, open_page):
    page = open_page(empty, FORM)
    typed(page)
    page.reload()
    is_back(page)
    page.goto(empty.address + "/shelf")
    page.wait_for_selector("#page h1")
    page.go_back()
    is_back(page)
    page.evaluate("document.querySelector('a[href=\"/write\"]').click()")
    page.wait_for_selector("#happened-text")
    page.locator(".draft-note a").click()  # begun, and said so where one begins
    is_back(page)
    page.get_by_role("button", name="Begin anew").click()
    page.wait_for_function("(one) => !document.querySelector(one).value", arg=LINE.format(0))
    assert page.input_value(PAID) == ""
    page.reload()
    page.wait_for_selector("#form-write")
    page.wait_for_timeout(600)
    assert page.locator(".draft-note").count() == 0
    assert page.input_value(LINE.format(0)) == ""
    assert empty.book.log.position() == 0
    assert page.wrong == []


def test_written_down_it_does_not_come_back(own_empty, open_page):
    page = open_page(own_empty, FORM)
    typed(page)
    page.fill('[id=\'{"field":"paid","part":"box","row":1}\']', "6")
    page.click("#form-write")
    page.wait_for_selector("#form-said .written")
    page.wait_for_timeout(600)
    page.reload()
    page.wait_for_selector("#form-write")
    page.wait_for_timeout(600)
    assert page.locator(".draft-note").count() == 0
    assert page.input_value(LINE.format(0)) == ""
    assert len(own_empty.book.history(kind="bought")) == 1


def test_a_closed_browser(own_empty):
    """In a process of its own: one thread drives one browser at a time."""
    script = (
        "import sys; sys.path[:0] = sys.argv[3:]\n"
        "from playwright.sync_api import sync_playwright\n"
        "from conftest import CHROMIUM, FLAGS\n"
        "from test_drafts import FORM, typed, is_back\n"
        "with sync_playwright() as run:\n"
        "    for act in (typed, is_back):\n"
        "        it = run.chromium.launch_persistent_context(sys.argv[1], executable_path=CHROMIUM, args=FLAGS)\n"
        "        page = it.new_page()\n"
        "        page.goto(sys.argv[2] + FORM)\n"
        "        act(page)\n"
        "        it.close()\n"
    )
    with tempfile.TemporaryDirectory() as profile:
        done = subprocess.run(
            [sys.executable, "-c", script, profile, own_empty.address, *sys.path],
            capture_output=True,
            text=True,
            timeout=120,
            check=False,
        )
    assert done.returncode == 0, done.stderr[-2000:]


def test_a_server_that_stops_while_one_types(own_empty, open_page):
    page = open_page(own_empty, FORM)
    kept(page, FORM)
    own_empty.server.close()
    typed(page)
    page.wait_for_selector("#away:not(:empty)")
    page.reload()
    is_back(page)
