"""Search as one types, and the page to explore: the charting script comes only there, a brush comes nearer."""

from __future__ import annotations

import pytest
from browser_tools import axe, settled, shot
from playwright.sync_api import TimeoutError as Late


@pytest.mark.parametrize(("width", "scheme"), [(390, "light"), (1280, "dark")])
def test_search_finds_names_pages_and_notes(demo, open_page, width, scheme):
    page = open_page(demo, "/", width=width, scheme=scheme)
    page.locator("a[href='/search']").first.click()
    page.wait_for_selector("#page input")
    page.locator("#page input").fill("mill lane")
    page.wait_for_selector("#page .names >> text=shop or neighbour")
    page.wait_for_selector("#page .entries li")
    settled(page)
    assert page.evaluate("document.activeElement.matches('#page input')")
    shot(page, f"search-{width}-{scheme}", full_page=True)
    assert axe(page) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.locator("#page input").fill("worth it")
    page.wait_for_selector("#page a[href='/worth-it']")
    page.locator("#page input").fill("no such word")
    page.wait_for_selector("text=Nothing in the book has")
    assert page.wrong == []


def test_a_closer_look_loads_its_script_alone_and_is_brushed(demo, open_page):
    page = open_page(demo, "/search", width=1280)
    asked = []
    page.on("request", lambda r: asked.append(r.url) if "plotly.min.js" in r.url else None)
    settled(page)
    assert asked == []
    page.goto(demo.address + "/look-closer")
    page.wait_for_selector("#picture-weeks .rangeslider-container")
    page.wait_for_selector("#picture-stock .rangeslider-container")
    settled(page)
    assert len(asked) >= 1
    shot(page, "closer-1280", full_page=True)
    read = "JSON.stringify(document.querySelector('#picture-stock .js-plotly-plot').layout.xaxis.range)"
    before = page.evaluate(read)
    box = page.locator("#picture-stock .nsewdrag").first.bounding_box()
    middle = box["y"] + box["height"] / 2
    page.mouse.move(box["x"] + box["width"] * 0.3, middle)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] * 0.6, middle + 2, steps=8)
    page.mouse.up()
    page.wait_for_function(f"{read} !== {before!r}")
    for n in range(
        100
    ):  # the mouse let go: wherever it is over the drawing, the nearest day is said
        page.mouse.move(box["x"] + box["width"] * (0.4 + n % 2 / 100), middle)
        try:
            page.wait_for_selector("#picture-stock .hoverlayer text", timeout=600)
        except Late:  # it was being drawn anew, and did not hear the mouse
            continue
        break
    assert page.query_selector("#picture-stock .hoverlayer text")
    assert axe(page) == []
    assert page.wrong == []
