"""Opening figures, looking at another moment, saving and printing, going by keyboard alone."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from browser_tools import settled


def test_every_figure_of_a_page_opens_its_arithmetic(demo, open_page):
    page = open_page(demo, "/jar-cost", width=1280)
    settled(page)
    figures = page.locator("#page .opens")
    assert figures.count() > 20
    for i in range(0, figures.count(), 7):
        shown = figures.nth(i).inner_text().split(":")[-1].strip()
        figures.nth(i).click()
        first = page.locator("#why-shown .why-tree > li").first
        first.wait_for()
        assert shown in first.inner_text().split("\n")[0]
        page.keyboard.press("Escape")
        page.wait_for_selector("#why-shown", state="hidden")
    assert page.wrong == []


def test_arithmetic_leads_to_its_events(demo, open_page):
    page = open_page(demo, "/jar-cost?item=tomato+sauce", width=1280)
    settled(page)
    page.locator("#page tbody .opens").nth(1).click()
    page.wait_for_selector("#why-shown .why-tree")
    page.evaluate("document.querySelectorAll('#why-shown details').forEach(d => d.open = true)")
    page.locator("#why-shown a").first.click()
    page.wait_for_selector("text=1 of ")
    assert "/history?find=" in page.url
    page.wait_for_selector("#why-shown", state="hidden")  # the entry is seen, not the panel over it


def test_arithmetic_leads_to_that_of_its_parts(demo, open_page):
    """What a tree names as asked by a command opens in the panel, from its top."""
    page = open_page(demo, "/our-table")
    settled(page)
    page.locator("#page .opens").first.click()
    first = page.locator("#why-shown .why-tree > li").first
    first.wait_for()
    whole = first.inner_text()
    part = page.locator("#why-shown .opens").first
    said = part.evaluate("one => one.dataset.why.split('/').pop()")
    part.click()
    page.wait_for_function(
        "whole => document.querySelector('#why-shown li').innerText !== whole", arg=whole
    )
    assert first.inner_text().startswith(f"{said}, eaten")
    assert page.evaluate("document.querySelector('.mantine-Drawer-content').scrollTop") == 0
    assert page.wrong == []


def test_keyboard_alone_reaches_and_opens(demo, open_page):
    page = open_page(demo, "/jar-cost", width=1280)
    settled(page)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.classList.contains('opens')"):
            break
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline != "none"
    page.keyboard.press("Enter")
    page.wait_for_selector("#why-shown .why-tree")
    page.keyboard.press("Escape")
    page.wait_for_selector("#why-shown", state="hidden")
    assert page.evaluate("document.activeElement.classList.contains('opens')")


def test_moment_is_obeyed_by_every_page(own_empty, open_page):
    book = own_empty.book
    book.write("harvested", {"item": "plum", "amount": "9 lb"}, on="2026-06-01")
    book.write("harvested", {"item": "pear", "amount": "4 lb"}, on=book.today().isoformat())
    page = open_page(own_empty, "/history")
    page.get_by_role("slider", name="Happened by").focus()
    page.keyboard.press("ArrowLeft")
    page.wait_for_selector("text=What had happened by")
    page.get_by_role("link", name="Shelf", exact=True).click()
    page.wait_for_selector("h1:has-text('Shelf')")
    page.wait_for_selector("#page >> text=plum")
    assert "pear" not in page.inner_text("#page")
    page.get_by_role("button", name="Back to now").click()
    page.wait_for_selector("text=pear")
    assert page.wrong == []


def test_table_is_saved_as_csv(demo, open_page):
    page = open_page(demo, "/shelf")
    page.get_by_text("Every lot, and how long it lasts").click()
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Save as CSV").first.click()
    text = Path(waiting.value.path()).read_text("utf-8")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert len(rows) == len(demo.book.show("shelf").frame)
    assert {row["item"] for row in rows} == set(demo.book.show("shelf").frame["item"])


def test_picture_is_saved_by_the_browser(demo, open_page):
    page = open_page(demo, "/jar-cost", width=1280)
    page.wait_for_selector("#picture-jar-cost .main-svg")
    for kind, head in (("PNG", b"\x89PNG"), ("SVG", b"<svg")):
        with page.expect_download() as waiting:
            page.get_by_role("button", name=f"Save as {kind}").first.click()
        assert Path(waiting.value.path()).read_bytes().startswith(head)
    assert page.wrong == []


def test_page_prints_on_a4_and_letter(demo, open_page):
    page = open_page(demo, "/jar-cost", width=1280)
    page.wait_for_selector("#picture-jar-cost .main-svg")
    for paper in ("A4", "Letter"):
        assert page.pdf(format=paper).startswith(b"%PDF")
    page.emulate_media(media="print")
    assert page.locator(".bar").is_hidden()
    assert page.locator(".side").is_hidden()
    assert page.locator(".tools").first.is_hidden()
    colour = page.evaluate("getComputedStyle(document.body).color")
    assert colour == "rgb(0, 0, 0)"


def test_language_chosen_elsewhere_arrives_with_the_next_page_whole(own_empty, open_page):
    page = open_page(own_empty, "/shelf")
    settled(page)
    own_empty.book.write("setting_changed", name="language", value="de")
    page.wait_for_selector("nav >> text=Vorrat")
    assert page.inner_text("h1") == "Vorrat"
    assert page.evaluate("document.documentElement.lang") == "de"
    assert page.wrong == []


def test_choice_stands_in_the_address_and_back_undoes_it(demo, open_page):
    page = open_page(demo, "/jar-cost", width=1280)
    settled(page)
    before = page.inner_text("#page h2 >> nth=0")
    page.get_by_label("What was put up").first.click()
    page.get_by_role("option", name="plum butter", exact=True).click()
    page.wait_for_url("**item=plum+butter**")
    page.wait_for_selector("#page h2:has-text('plum butter')")
    page.go_back()
    page.wait_for_selector(f"#page h2:has-text('{before}')")
