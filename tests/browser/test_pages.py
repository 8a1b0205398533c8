"""Every page on the sample, an empty book and a book of forty years: both widths, both schemes."""

from __future__ import annotations

import pytest
from browser_tools import SHOTS, axe, settled

from dashboard.pages import PAGES

PATHS = [page.path for page in PAGES] + ["/write?kind=harvested", "/write?kind=put_up"]
BOOKS = ("demo", "empty", "forty_years")


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("which", BOOKS)
def test_page_is_whole(which, path, request, open_page):
    served = request.getfixturevalue(which)
    page = open_page(served, path)
    for width, height in ((390, 844), (1280, 900)):
        page.set_viewport_size({"width": width, "height": height})
        settled(page)
        for scheme in ("light", "dark"):
            if page.evaluate("document.body.className") != scheme:
                page.click("#change-scheme")
                page.wait_for_selector(f"body.{scheme}")
                settled(page)
            shot(page, which, path, width, scheme)
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= width, f"{wide} px of content at {width}"
            assert axe(page) == []
        page.click("#change-scheme")
        page.wait_for_selector("body.light")
    assert page.wrong == []
    assert "not right" not in page.inner_text("#page")


def shot(page, which, path, width, scheme):
    SHOTS.mkdir(parents=True, exist_ok=True)
    name = path.strip("/").replace("?", "_").replace("=", "-") or "today"
    page.screenshot(path=SHOTS / f"{which}_{name}_{width}_{scheme}.png")


@pytest.mark.parametrize("path", PATHS)
def test_targets_are_large_enough_for_thumbs(path, demo, open_page):
    page = open_page(demo, path)
    settled(page)
    small = page.evaluate(
        """() => [...document.querySelectorAll('button, a, input, summary, [role=tab], [role=radio]')]
        .filter(e => e.offsetParent && !e.closest('.skip, figcaption, li, p, td, th'))
        .map(e => [e.outerHTML.slice(0, 120), Math.round(e.getBoundingClientRect().height)])
        .filter(([_, h]) => h > 1 && h < 43)"""
    )
    assert small == []
