"""The first load of a page: how many bytes, which scripts, and what can be read before any of them has run."""

from __future__ import annotations

import re

import pytest
from browser_tools import axe, first_load, live, settled

MOST = 250_000
"""Bytes over the network for the first page of a phone that was never here, with every picture."""
PATHS = ("/", "/shelf", "/write", "/write?kind=bought", "/jar-cost", "/season")
LINE = '[id=\'{"field":"lines","part":"box","row":0}\']'
SHAPE = """() => [...document.querySelectorAll("#page *")].filter((one) => one.offsetParent && !one.closest("details:not([open]) > :not(summary)"))
    .map((one) => [one.tagName, one.id, Math.round(one.getBoundingClientRect().top + scrollY), Math.round(one.getBoundingClientRect().height)])"""


@pytest.fixture
def phone(chromium):
    context = chromium.new_context(viewport={"width": 390, "height": 844}, reduced_motion="reduce")
    context.set_default_timeout(60_000)
    yield context
    context.close()


@pytest.mark.parametrize("path", PATHS)
def test_a_first_load_is_small_and_brings_no_library(path, demo, phone):
    came = first_load(phone, demo.address + path)
    assert sum(size for _, size in came) < MOST, came
    scripts = [url for url, _ in came if re.search(r"[.]js($|[?])", url)]
    assert len(scripts) == 1, scripts  # neither a component library nor the charting script
    assert [url for url, _ in came if url.startswith("/_dash-component-suites")] == []


def held(page, pattern):
    """Hold back what is asked for, until the function that is returned is called."""
    waiting = []

    def hold(route):
        waiting.append(route)

    page.route(re.compile(pattern), hold)

    def let_go():
        for route in waiting:
            route.continue_()
        page.unroute(re.compile(pattern))

    return let_go


def looks_set(page):
    """Wait for the style sheet and the serif."""
    page.wait_for_function("() => getComputedStyle(document.body).getPropertyValue('--paper')")
    page.evaluate("() => document.fonts.ready")
    page.wait_for_timeout(100)


@pytest.mark.parametrize("path", ["/", "/shelf", "/write?kind=put_up", "/next-season"])
def test_a_page_is_read_before_its_scripts_and_nothing_moves(path, demo, phone):
    """What is drawn first is what the scripts draw: same elements, same places, same heights."""
    page, wrong = phone.new_page(), []
    page.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: wrong.append(str(error)))
    let_go = held(page, r"dash-renderer")
    page.goto(demo.address + path, wait_until="commit")
    page.wait_for_selector("#drawn #page h1")
    looks_set(page)
    first, title = page.evaluate(SHAPE), page.title()
    here = page.locator(".bar [aria-current]").inner_text()
    assert axe(page) == []
    let_go()
    live(page)
    settled(page)
    page.wait_for_timeout(100)
    then = [one for one in page.evaluate(SHAPE) if "happened-read" not in one[1]]
    assert [one for one in first if "happened-read" not in one[1]] == then
    assert page.title() == title
    assert page.locator(".bar [aria-current]").inner_text() == here
    twice = page.evaluate(
        "() => { const ids = [...document.querySelectorAll('[id]')].map((one) => one.id); return ids.length - new Set(ids).size; }"
    )
    assert twice == 0
    assert wrong == []


def test_what_is_typed_and_tapped_before_the_scripts_is_not_lost(own_empty, phone):
    page = phone.new_page()
    let_go = held(page, r"dash-renderer")
    page.goto(own_empty.address + "/write?kind=harvested", wait_until="commit")
    page.wait_for_selector("#drawn #form-write")
    page.fill(LINE, "31 lb plums")
    page.locator("#drawn summary", has_text="More about this line").first.click()
    page.fill("#form-by", "Ada")
    page.click("#form-write")
    let_go()
    page.wait_for_selector("#form-said >> text=picked 31 lb plums")
    (row,) = own_empty.book.history(kind="harvested")
    assert (row.line, row.by) == ("picked 31 lb plums", "Ada")


def test_an_earlier_moment_is_not_shown_as_today(own_empty, phone):
    book = own_empty.book
    book.write("harvested", {"item": "plum", "amount": "9 lb"}, on="2026-06-01")
    page = phone.new_page()
    moment = "{as_of: '2026-05-01', known_at: null}"
    page.add_init_script(f"sessionStorage.setItem('moment', JSON.stringify({moment}))")
    let_go = held(page, r"dash-renderer")
    page.goto(own_empty.address + "/shelf", wait_until="commit")
    page.wait_for_selector("#drawn", state="attached")
    assert page.locator("#drawn").is_hidden()
    let_go()
    page.wait_for_selector("text=What had happened by")
    assert "plum" not in page.inner_text("#page")


def test_dark_from_the_first_paint(demo, chromium):
    """A device that is dark and was never here sees no light page, not for a moment."""
    context = chromium.new_context(viewport={"width": 390, "height": 844}, color_scheme="dark")
    page = context.new_page()
    let_go = held(page, r"dash-renderer")
    page.goto(demo.address + "/", wait_until="commit")
    page.wait_for_selector("#drawn #page h1")
    paper = "() => getComputedStyle(document.body).backgroundColor"
    assert page.evaluate(paper) == "rgb(17, 24, 21)"
    let_go()
    live(page)
    settled(page)
    assert page.evaluate(paper) == "rgb(17, 24, 21)"
    assert page.evaluate("() => window.dash_component_api.getLayout('scheme').props.data") == "dark"
    context.close()
