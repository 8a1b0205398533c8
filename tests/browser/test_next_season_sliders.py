"""Next season's sliders in a browser: an address that is clean, a key that moves a want, beds that follow."""

from __future__ import annotations

import re
from urllib.parse import parse_qs, urlsplit

from browser_tools import settled

SLIDER = 'input[type="range"][aria-label^="tomato sauce"]'


PLAN, WANTED, PLANTS = (
    "More of the plan", "All that is wanted, and what the beds are to bring", "Plants, and the chance of falling short",
)  # fmt: skip


def unfold(page, *titles):
    """Open folded parts that are not open."""
    for title in titles:
        head = page.locator(f"summary:text-is('{title}')").first
        if not head.evaluate("one => one.parentElement.open"):
            head.click()


def asked(page):
    return parse_qs(urlsplit(page.url).query)


def drawn(page):
    """Return how many pounds of tomato are needed, as the table says."""
    row = "table.records tr:has(th:text-is('tomato')) [data-field='needed_g.likely']"
    return page.locator(row).first.text_content()


def test_opening_writes_nothing_into_the_address(demo, open_page):
    page = open_page(demo, "/next-season")
    settled(page)
    assert asked(page) == {}
    assert page.wrong == []


def test_key_moves_a_want_and_the_plan_follows(demo, open_page):
    page = open_page(demo, "/next-season")
    settled(page)
    unfold(page, PLAN, WANTED, PLANTS)
    before, usual = drawn(page), int(page.input_value(SLIDER))
    page.focus(SLIDER)
    for step in (1, 2, 3):  # the focus stays where it was, though the page is drawn anew
        page.wait_for_selector(f"{SLIDER}:focus")
        page.keyboard.press("ArrowRight")
        page.wait_for_url(re.compile(rf"want%3Atomato\+sauce={usual + step}\b"))
        page.wait_for_selector(f"text={usual + step} quart jars")
    assert asked(page) == {"want:tomato sauce": [str(usual + 3)]}
    assert drawn(page) != before
    page.get_by_role("link", name="Back to what is wanted").click()
    page.wait_for_url(re.compile(r"/next-season$"))
    page.wait_for_selector(f"text={usual} quart jars", state="attached")
    assert drawn(page) == before
    assert page.wrong == []


def test_address_that_was_kept_draws_the_same_plan(demo, open_page):
    page = open_page(demo, "/next-season?want%3Atomato+sauce=90&rotate=yes", width=1280)
    settled(page)
    assert page.input_value(SLIDER) == "90"
    assert asked(page) == {"want:tomato sauce": ["90"], "rotate": ["yes"]}
    unfold(page, PLANTS)
    page.locator("[data-field='chance_short']").first.click()
    page.wait_for_selector("#why-shown .why-tree")
    assert page.wrong == []


def test_number_box_is_written_and_the_plan_follows(demo, open_page):
    page = open_page(demo, "/stocking-up")
    settled(page)
    assert asked(page) == {}
    unfold(page, "What if money is short, prices rise, the shop shuts?")
    box = page.get_by_label("Extra money a trip")
    box.fill("twenty")
    box.press("Enter")
    page.wait_for_selector("text=is not a number")
    box = page.get_by_label("Extra money a trip")
    box.fill("20")
    box.press("Enter")
    page.wait_for_selector("text=The plan, trip by trip")
    assert asked(page) == {"budget": ["20"]}
    assert page.wrong == []
