"""Twice as large: German at twice the text, and a phone at twice its zoom; no page is wider than the phone."""

from __future__ import annotations

import pytest
from browser_tools import live

from dashboard.pages import PAGES

LARGE = "() => { document.documentElement.style.fontSize = '200%'; }"
WIDE = """() => {
  const room = window.innerWidth, out = [];
  const texts = document.createTreeWalker(document.getElementById("page"), NodeFilter.SHOW_TEXT);
  for (let node = texts.nextNode(); node; node = texts.nextNode()) {
    const range = document.createRange();
    range.selectNode(node);
    let at = node.parentElement;
    while (at && !/auto|scroll|hidden/.test(getComputedStyle(at).overflowX)) at = at.parentElement;
    if (!at && [...range.getClientRects()].some((one) => one.right > room + 1)) out.push(node.data.slice(0, 40));
  }
  return [document.documentElement.scrollWidth - room, out];
}"""


@pytest.fixture
def german(own_demo):
    own_demo.book.write("setting_changed", name="language", value="de")
    return own_demo


def test_no_page_is_wider_than_the_phone_at_twice_the_text_or_zoom(german, open_page):
    """At twice its zoom a phone of 390 px has 195; tables and chips scroll within their own row."""
    page = open_page(german)
    wide = {}
    for one in PAGES:
        page.goto(german.address + one.path)
        live(page)
        page.evaluate(LARGE)
        over, texts = page.evaluate(WIDE)
        page.evaluate("() => { document.documentElement.style.fontSize = ''; }")
        page.set_viewport_size({"width": 195, "height": 422})
        zoomed = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
        page.set_viewport_size({"width": 390, "height": 844})
        if over > 0 or texts or zoomed > 0:
            wide[one.name] = over, texts, zoomed
    assert wide == {}
