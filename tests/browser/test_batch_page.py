"""The form of a batch on a phone: published values beside what was done, danger first, lines made when wanted."""

from __future__ import annotations

import pytest
from browser_tools import axe, settled

RECIPE = "/write?kind=put_up&recipe=plain+tomato+sauce"
MOST_PX = 1120
"""Height at 390 px from a recipe; the drawing of the page that was agreed on has 944, without the caution."""
HEIGHT = "() => document.documentElement.scrollHeight"


def box(page, name):
    return page.locator(f"""[id='{{"field":"{name}","part":"box","row":0}}']""")


def test_from_a_recipe_it_is_short_and_only_a_tap_says_how_it_was_done(demo, open_page):
    page = open_page(demo, RECIPE)
    settled(page)
    assert page.evaluate(HEIGHT) <= MOST_PX
    done = ("minutes", "psi", "headspace", "acid")
    assert [box(page, name).input_value() for name in done] == [""] * 4
    printed = page.inner_text("#batch-pub-minutes")
    page.locator("[data-just]").first.tap()
    page.wait_for_function(
        "(one) => document.querySelector(one).value", arg="[data-steps] ~ .box .in"
    )
    assert box(page, "minutes").input_value() == printed
    page.get_by_role("button", name="Minutes, one less").tap()
    page.wait_for_function(
        "([one, n]) => document.querySelector(one).value === n",
        arg=["[data-steps] ~ .box .in", str(int(printed) - 1)],
    )
    assert page.inner_text("#batch-pub-minutes") == printed
    assert page.wrong == []


@pytest.mark.parametrize("width", [390, 1280])
def test_danger_stands_first_with_its_remedies(width, demo, open_page):
    page = open_page(demo, "/write?kind=put_up", width=width)
    settled(page)
    box(page, "makes").fill("green beans")
    box(page, "used").fill("14 lb green beans")
    box(page, "made").fill("7 quart jars")
    box(page, "method").select_option("boiling water")
    page.wait_for_selector("#batch-danger .danger >> text=within 2 hours")
    settled(page)
    assert page.locator("#form-write").inner_text() == "Write it down, marked Do not eat"
    assert page.locator("#batch-just .button").count() == 0
    top = page.locator("#batch-danger").bounding_box()["y"]
    assert top < page.locator(".step").first.bounding_box()["y"]
    assert page.locator(".same").is_hidden()  # nothing stands above it
    assert axe(page) == []
    page.get_by_role("button", name="They go to the fridge").click()
    page.wait_for_function("() => !document.querySelector('#batch-danger .danger')")
    assert box(page, "made").input_value() == "7 quart jars fridge"
    assert page.locator("#form-write").inner_text() == "Write it down"
    assert page.wrong == []


def test_a_line_is_made_when_it_is_wanted(demo, open_page):
    page = open_page(demo, "/write?kind=bought")
    settled(page)
    lines = page.locator("#rows-lines > .row")
    assert lines.count() == 1
    assert page.get_by_role("button", name="Another: What and how much").is_hidden()
    box(page, "lines").fill("10 lb sugar")
    page.get_by_role("button", name="Another: What and how much").click()
    page.wait_for_function("() => document.activeElement.id.includes('\"row\":1')")
    assert lines.count() == 2
    assert page.wrong == []
