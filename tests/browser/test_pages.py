"""Every page on the sample, an empty book and a book of forty years: both widths, both schemes."""

from __future__ import annotations

import pytest
from browser_tools import axe, settled, shot

from dashboard.pages import PAGES

PATHS = [page.path for page in PAGES] + ["/write?kind=harvested", "/write?kind=put_up"]
LONG = ("/", "/shelf", "/jar-cost", "/our-table", "/season", "/history")
"""Pages that grow with the book: these are looked at with forty years of it, too."""
CASES = [
    *((which, path) for which in ("demo", "empty") for path in PATHS),
    *(("forty_years", path) for path in LONG),
]
PHONE, DESK = (390, 844), (1280, 900)
FOLLOWED = """() => [...document.querySelectorAll('.js-plotly-plot .main-svg')].every(drawn =>
    Math.abs(drawn.getBoundingClientRect().width - drawn.closest('.picture').clientWidth) < 2)"""
"""Every picture is as wide as the place it has: it follows the page a moment later."""


@pytest.mark.parametrize(("which", "path"), CASES)
def test_page_is_whole(which, path, request, open_page):
    page = open_page(request.getfixturevalue(which), path)
    settled(page)
    check(page, which, path, PHONE, "light")
    assert small_targets(page) == []
    check(page, which, path, DESK, "light", axed=False)  # colours were looked at, shapes come below
    page.click("#change-scheme")
    page.wait_for_selector("body.dark")
    settled(page)
    check(page, which, path, DESK, "dark")
    check(page, which, path, PHONE, "dark", axed=False)
    assert page.wrong == []
    assert not page.early or page.query_selector(".js-plotly-plot")
    assert "not right" not in page.inner_text("#page")


def check(page, which, path, size, scheme, *, axed=True):
    """Hold a page to a width and a scheme: nothing sticks out, axe finds nothing; keep a picture."""
    width, height = size
    page.set_viewport_size({"width": width, "height": height})
    page.wait_for_function(FOLLOWED)
    name = path.strip("/").replace("?", "_").replace("=", "-") or "today"
    shot(page, f"{which}_{name}_{width}_{scheme}")
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= width, f"{wide} px of content at {width}"
    assert not axed or axe(page) == []


def small_targets(page):
    """Return what is too low for a thumb, or too narrow to type into; links in a sentence are as high as it."""
    return page.evaluate(
        """() => [...document.querySelectorAll('button, a, input, select, textarea, summary, [role=tab], [role=radio]')]
        .filter(e => e.offsetParent && !e.closest('.skip, figcaption, li, p, td, th'))
        .map(e => [e, e.getBoundingClientRect()])
        .filter(([e, at]) => at.height > 1 && (at.height < 42.5 || (e.matches('.in') && at.width < 44)))
        .map(([e, at]) => [e.outerHTML.slice(0, 120), Math.round(at.width), Math.round(at.height)])"""
    )
