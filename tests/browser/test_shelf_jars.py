"""The shelf in a browser: what was counted in jars stands in jars from the first evening; marks have room at a desk."""

from __future__ import annotations

import pytest
from browser_tools import READ_MS, axe, settled, shot

from ledger import Answers

YES = Answers(yes=True)
LISTS = {
    "en": ("12 quart jars tomato sauce\n8 pint jars green beans\n6 half-pint jars plum jam",
           {"Tomato sauce": "12 quarts", "Green beans": "8 pints", "Plum jam": "6 half-pints"}),
    "de": ("12 Litergläser Tomatensoße\n8 Halblitergläser grüne Bohnen\n6 Quartgläser Pflaumenmus",
           {"Tomatensoße": "12", "Grüne Bohne": "8", "Pflaumenmus": "6"}),
}  # fmt: skip


@pytest.mark.parametrize("language", LISTS)
def test_a_first_evening_s_list_of_jars_stands_on_boards(language, own_empty, open_page):
    own_empty.book.write("setting_changed", name="language", value=language, on="2026-01-01")
    text, counts = LISTS[language]
    page = open_page(own_empty, "/?step=pantry")
    settled(page)
    page.fill("#happened-text", text)
    page.wait_for_selector(".read")
    settled(page)
    page.wait_for_timeout(READ_MS)
    page.tap("#happened-write")
    page.wait_for_selector("#said .written")
    page = open_page(own_empty, "/shelf")
    settled(page)
    boards = dict(
        zip(page.locator(".item .line1 b").all_inner_texts(), page.locator(".item .count").all_inner_texts(), strict=True)
    )  # fmt: skip
    assert {name: count.split()[0] for name, count in boards.items()} == {
        name: count.split()[0] for name, count in counts.items()
    }
    assert page.locator(".jars .jar:not(.key .jar)").count() >= 26
    shot(page, f"first-evening-shelf-{language}", full_page=True)
    if language == "en":
        assert boards == counts
    page.tap("[id^='{\"opens\"'] >> nth=0")  # a jar that a count found is opened by a tap, too
    page.wait_for_selector("#said .written")
    assert own_empty.book.history()[0].kind == "eaten"
    settled(page)
    page.wait_for_timeout(READ_MS)
    page.tap("[id^='{\"back\"'] >> nth=0")
    page.wait_for_function("() => document.querySelectorAll('.item').length === 3")
    settled(page)
    assert own_empty.book.history()[0].kind == "struck"
    assert page.wrong == []


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_mark_beside_no_jar_has_the_whole_line_at_a_desk(language, own_empty, open_page):
    book = own_empty.book
    book.write("setting_changed", name="language", value=language, on="2026-01-01")
    book.write("harvested", item="chicken", amount="30 lb", on="2026-10-01", answers=YES)
    body = {"makes": "chicken soup", "method": "pressure", "minutes": "90", "psi": "11", "gauge": "dial", "pack": "hot",
            "used": [{"item": "chicken", "amount": "10 lb"}, {"item": "dry pasta", "amount": "1 lb"}],
            "made": [{"jars": 5, "jar": "quart jar", "kept": "shelf"}, {"amount": "1 qt", "kept": "shelf"}]}  # fmt: skip
    book.write("put_up", body, on="2026-10-02", answers=YES)
    page = open_page(own_empty, "/shelf", width=1280)
    settled(page)
    mark = page.locator(".goods .mark").last.bounding_box()
    line = page.locator(".goods li:has(.mark)").last.bounding_box()
    assert mark["width"] > 0.95 * line["width"]
    goods = page.locator(".shelf > .desk").bounding_box()
    assert (
        goods["width"] > 900
    )  # no jars to open: nothing stands beside it, and it has all the room
    shot(page, f"desk-marks-{language}", full_page=True)
    assert axe(page) == []
    assert page.wrong == []
