"""Opening figures, looking at another moment, saving and printing, going by keyboard alone."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from browser_tools import settled

UNFOLD = "document.querySelectorAll('#page details').forEach(one => one.open = true)"


def test_every_figure_of_a_page_opens_its_arithmetic(demo, open_page):
    page = open_page(demo, "/jar-cost", width=1280)
    settled(page)
    page.evaluate(UNFOLD)
    figures = page.locator("#page .opens")
    assert figures.count() > 20
    for i in range(0, figures.count(), 7):
        shown = figures.nth(i).inner_text().split(":")[-1].strip().lstrip("+").replace("$", "")
        figures.nth(i).click()
        first = page.locator("#why-shown .why-tree > li").first
        first.wait_for()
        assert shown in first.inner_text().split("\n")[0].replace("$", "")
        page.keyboard.press("Escape")
        page.wait_for_selector("#why-shown", state="hidden")
    assert page.wrong == []


def test_arithmetic_leads_to_its_events(demo, open_page):
    page = open_page(demo, "/jar-cost?item=tomato+sauce", width=1280)
    settled(page)
    page.locator("#page .bill tbody .opens").nth(1).click()
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
    assert first.inner_text().startswith(f"{said} on the table: ")
    assert page.evaluate("document.querySelector('.panel').scrollTop") == 0
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
    page.get_by_text("See the book as it stood on a day").click()
    page.get_by_role("slider", name="Happened by").focus()
    page.keyboard.press("ArrowLeft")
    page.wait_for_selector("text=What had happened by")
    page.get_by_role("link", name="Shelf", exact=True).click()
    page.wait_for_selector("h1:has-text('Shelf')")
    page.wait_for_selector("#page >> text=plum")
    assert "pear" not in page.text_content("#page").lower()
    page.get_by_role("button", name="Back to now").click()
    page.wait_for_function("() => document.querySelector('#page').textContent.includes('pear')")
    assert page.wrong == []


def saved(page, link):
    """Return the rows of a CSV that a link of the page saves."""
    with page.expect_download() as waiting:
        link.click()
    text = Path(waiting.value.path()).read_text("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text)))


def test_table_is_saved_as_csv(demo, open_page):
    page = open_page(demo, "/shelf")
    page.get_by_text("Each by itself, and how long it lasts").click()
    table, frame = page.locator("[data-table=shelf]"), demo.book.show("shelf").frame
    rows = saved(page, table.get_by_role("link", name="Every figure (CSV)"))
    assert list(rows[0]) == list(frame.columns)
    assert [row["item"] for row in rows] == list(frame["item"])
    shown = saved(page, table.get_by_role("link", name="Save as CSV"))
    heads = [one.strip() for one in table.locator("thead th").all_text_contents()]
    assert list(shown[0]) == heads
    assert len(shown) == len(rows)
    said = [row[heads[0]] for row in shown]  # a lot with a mark says it behind its name
    assert all(text.startswith(item) for text, item in zip(said, frame["item"], strict=True))
    assert (
        "to check yourself"
        in said[list(frame["item"]).index("dill pickle")].split("dill pickle ")[1]
    )


def test_picture_is_saved_by_the_browser(demo, open_page):
    page = open_page(demo, "/look-closer", width=1280)
    page.wait_for_selector("#picture-stock .main-svg")
    figure = page.locator("figure:has(#picture-stock)")
    figure.get_by_text("The numbers in this picture").click()
    for kind, head in (("PNG", b"\x89PNG"), ("SVG", b"<svg")):
        with page.expect_download() as waiting:
            figure.get_by_role("button", name=f"Save as {kind}").click()
        assert Path(waiting.value.path()).read_bytes().startswith(head)
    assert page.wrong == []


def test_drawing_is_saved_as_it_is_seen(demo, open_page):
    page = open_page(demo, "/jar-cost", width=1280)
    drawn = page.locator("[data-drawing=jar-cost]")
    drawn.get_by_text("The numbers").click()
    with page.expect_download() as waiting:
        drawn.get_by_role("link", name="Save as SVG").click()
    assert waiting.value.suggested_filename == "jar-cost.svg"
    text = Path(waiting.value.path()).read_text("utf-8")
    assert text.startswith("<svg")
    ours = page.locator(".answer .own").inner_text().split(":")[-1].strip()
    assert ours in text
    assert page.wrong == []


def test_page_prints_on_a4_and_letter(demo, open_page):
    page = open_page(demo, "/jar-cost", width=1280)
    settled(page)
    for paper in ("A4", "Letter"):
        assert page.pdf(format=paper).startswith(b"%PDF")
    page.emulate_media(media="print")
    assert page.locator(".bar").is_hidden()
    assert page.locator(".side").is_hidden()
    assert page.locator(".tools").first.is_hidden()
    drawn = page.locator("[data-drawing=jar-cost] img >> visible=true")
    assert drawn.count() == 1
    assert drawn.evaluate("one => one.complete && one.naturalWidth > 0")
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
    chosen, answer = "#page .strip a[aria-current=true]", page.inner_text("#page .answer")
    before = page.inner_text(chosen)
    assert before != "Plum butter"
    page.get_by_role("link", name="Plum butter", exact=True).first.click()
    page.wait_for_url("**item=plum+butter**")
    page.wait_for_selector(f"{chosen}:has-text('Plum butter')")
    assert page.inner_text("#page .answer") != answer
    page.go_back()
    page.wait_for_selector(f"{chosen}:has-text('{before}')")
    assert page.inner_text("#page .answer") == answer
