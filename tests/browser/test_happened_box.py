"""What happened? Typed, read, asked, written and taken back in a browser; what is typed stays."""

from __future__ import annotations

import pytest
from browser_tools import axe, settled, shot

UNDO = "[id^='{\"undo\"']"
MODEST, PLAIN = 0.34, 0.24
"""Parts of a phone's height that the note on what was written may take: with a danger's line, and without."""
TWICE_MS = 700


def entries(served):
    return [row for row in served.book.history() if row.state == "holds" and row.kind != "struck"]


def test_said_read_written_and_undone(own_demo, open_page):
    before = len(entries(own_demo))
    page = open_page(own_demo, "/write")
    page.fill("#happened-text", "picked 3 lb plums and two dozen eggs")
    page.wait_for_selector(".read")
    page.wait_for_function("document.querySelector('#happened-write').textContent.includes('1')")
    page.click("#happened-write")
    page.wait_for_selector("#said .written")
    note, undo = page.locator("#said .written").bounding_box(), page.locator(UNDO).bounding_box()
    assert note["height"] <= 844 * PLAIN
    assert (
        undo["x"] + undo["width"] > 390 - 40
    )  # at the right end, away from the thumb's last place
    assert len(entries(own_demo)) == before + 1
    assert page.input_value("#happened-text") == ""
    page.click(UNDO)
    page.wait_for_selector("#said :text('Taken back')")
    assert len(entries(own_demo)) == before
    assert page.wrong == []


def test_a_chip_answers_and_the_text_survives_a_reload(own_demo, open_page):
    page = open_page(own_demo, "/write")
    page.fill("#happened-text", "picked 7 lb plums / 3 lb -")
    page.wait_for_selector(".read.ask .chip")
    page.reload()
    settled(page)
    page.wait_for_selector(".read.ask .chip")
    assert page.input_value("#happened-text") == "picked 7 lb plums / 3 lb -"
    page.click(".read.ask .chip >> nth=1")
    page.wait_for_selector(".read.ask", state="detached")
    page.click("#happened-write")
    page.wait_for_selector("#said .written")
    assert page.wrong == []


@pytest.mark.parametrize("width", [390, 1280])
def test_signs_of_spoilage_are_red_and_asked_before_they_are_written(width, own_demo, open_page):
    page = open_page(own_demo, "/write", width=width)
    before = len(entries(own_demo))
    page.fill("#happened-text", "ate a pint of tomato sauce, the lid was bulging")
    page.wait_for_selector("#happened-read > .danger[role=alert] >> text=poison centre")
    settled(page)
    shot(page, f"signs-{width}")
    assert axe(page) == []
    if page.locator("#happened-read .chip").count() == 0:
        page.click("#happened-write")
        page.wait_for_selector("#said .danger >> text=Do not taste")
    assert len(entries(own_demo)) == before
    assert page.wrong == []


BEANS = "put up 7 quarts green beans, water bath 40 min"


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("path", ["/", "/write"])
def test_danger_is_red_as_it_is_said_and_once_it_is_written(path, width, own_demo, open_page):
    """Before the button in the form's words, at the button by a conscious one, and first in the note after it."""
    page = open_page(own_demo, path, width=width)
    before = len(entries(own_demo))
    page.fill("#happened-text", BEANS)
    page.wait_for_selector("#happened-read > .danger[role=alert] >> text=within 2 hours")
    settled(page)
    danger = page.locator("#happened-read > .danger")
    assert danger.inner_text().startswith("CAUTION: green bean")
    button = page.locator("#happened-write")
    assert button.inner_text() == "Write it down, marked Do not eat"
    assert danger.bounding_box()["y"] < page.locator(".read").first.bounding_box()["y"]
    leaf = "getComputedStyle(document.documentElement).getPropertyValue('--leaf')"
    green = page.evaluate(f"(() => {{ const one = document.createElement('i'); one.style.background = {leaf}; document.body.append(one); const is = getComputedStyle(one).backgroundColor; one.remove(); return is; }})()")  # fmt: skip
    assert button.evaluate("one => getComputedStyle(one).backgroundColor") != green
    shot(page, f"box-danger-{path.strip('/') or 'today'}-{width}", full_page=True)
    assert axe(page) == []
    button.click()
    page.wait_for_selector("#said .danger")
    asked = page.locator("#said .danger").inner_text()
    assert "boxes" not in asked
    assert "Say so in the box" in asked
    assert len(entries(own_demo)) == before
    shot(page, f"box-asked-{path.strip('/') or 'today'}-{width}")
    page.wait_for_timeout(TWICE_MS)  # a second tap of a double one would write unread
    page.click("""[id^='{"settle"']""")
    page.wait_for_selector("#said .written")
    settled(page)
    assert len(entries(own_demo)) == before + 1
    first = page.locator("#said .written > *").first
    assert "marked" in first.get_attribute("class")
    assert "do not taste, discard" in first.inner_text()
    shot(page, f"box-written-{path.strip('/') or 'today'}-{width}")
    assert page.locator("#said .written").bounding_box()["height"] <= 844 * MODEST
    assert page.wrong == []


def test_a_chip_with_letters_beyond_ascii_answers(own_empty, open_page):
    own_empty.book.write("setting_changed", name="language", value="de", on="2026-01-01")
    page = open_page(own_empty, "/write")
    page.fill("#happened-text", "3 kg Möhrengrün Überraschung geerntet")
    page.wait_for_selector(".read.ask .chip")
    settled(page)
    page.click(".read.ask .chip >> nth=0")
    page.wait_for_selector(".read.ask", state="detached")
    page.wait_for_timeout(TWICE_MS)
    page.click("#happened-write")
    page.wait_for_selector("#said .written")
    assert "harvested" in [row.kind for row in entries(own_empty)]
    assert page.wrong == []
