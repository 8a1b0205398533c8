"""What happened? Typed, read, asked, written and taken back in a browser; what is typed stays."""

from __future__ import annotations

from browser_tools import settled

UNDO = "[id^='{\"undo\"']"


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
