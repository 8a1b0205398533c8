"""Printed labels are read back: each square by a decoder (ISO/IEC 18004), each sheet one page."""

from __future__ import annotations

import io
import re

import pytest
import zxingcpp
from browser_tools import settled
from PIL import Image


def squares(page):
    """Return what a decoder reads on a page as it would be printed, two dots a CSS pixel."""
    page.emulate_media(media="print")
    shot = page.screenshot(full_page=True, scale="device")
    image = Image.open(io.BytesIO(shot)).convert("L")
    image = image.resize((image.width * 2, image.height * 2))
    return [one.text for one in zxingcpp.read_barcodes(image)]


def test_every_square_leads_to_its_own_jar(demo, open_page):
    page = open_page(demo, "/labels?sheet=a4", width=1280)
    settled(page)
    labels = page.locator(".label-sheet .label-code b").all_text_contents()
    assert len(labels) > 21
    read = squares(page)
    assert len(set(read)) == len(labels)
    assert {re.search(r"label=(.*)", one)[1] for one in read} == set(labels)
    page.emulate_media(media="screen")
    address = read[0].removeprefix(demo.address)
    phone = open_page(demo, address)
    settled(phone)
    label = re.search(r"label=(.*)", address)[1]
    assert label in phone.inner_text("#page section")
    phone.click("#page section .tools a >> nth=0")
    phone.wait_for_url("**/write?kind=eaten**")
    assert phone.wrong == []


STOCK_MM = {
    "a4": (210, 297, 3, 7, 63.5, 38.1), "a4-24": (210, 297, 3, 8, 70, 37), "a4-14": (210, 297, 2, 7, 99.1, 38.1),
    "letter": (215.9, 279.4, 2, 5, 101.6, 50.8), "letter-14": (215.9, 279.4, 2, 7, 101.6, 33.9),
    "letter-30": (215.9, 279.4, 3, 10, 66.7, 25.4),
}  # fmt: skip
"""Paper, labels beside and below each other, a label: mm, typed from packages of label sheets (common practice, no source)."""
TEXT_CUT = """labels => labels.filter(one => [...one.querySelectorAll('b, span, img')].some(part => {
    const inner = part.getBoundingClientRect(), outer = one.getBoundingClientRect();
    return inner.bottom > outer.bottom + .5 || inner.right > outer.right + .5; })).map(one => one.innerText)"""


@pytest.mark.parametrize("sheet", STOCK_MM)
def test_each_sheet_is_one_page_and_each_label_lies_where_it_is_stuck(demo, open_page, sheet):
    """A label lies in its place to a tenth of a millimetre, its square is read, and nothing of it is cut."""
    wide, high, across, down, label_wide, label_high = STOCK_MM[sheet]
    page = open_page(demo, f"/labels?sheet={sheet}&first=2", width=1280)
    settled(page)
    sheets = page.locator(".label-sheet").count()
    assert f"{sheets} sheets" in page.inner_text(".answer") or sheets == 1
    pdf = page.pdf(prefer_css_page_size=True)
    sizes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)", pdf)
    assert len(sizes) == sheets
    assert {(round(float(w) * 25.4 / 72), round(float(h) * 25.4 / 72)) for w, h in sizes} == {
        (round(wide), round(high))
    }
    page.emulate_media(media="print")
    labels = page.locator(".label-sheet >> nth=0 >> .jar-label")
    lie = labels.evaluate_all(
        """all => { const at = all[0].parentElement.getBoundingClientRect();
        return all.map(one => one.getBoundingClientRect()).map(one =>
            [one.left - at.left, one.top - at.top, one.width, one.height].map(px => px * 25.4 / 96)); }"""
    )
    assert len(lie) == min(across * down, len(lie))
    beside, below = (wide - across * label_wide) / 2, (high - down * label_high) / 2
    gap = lie[1][0] - lie[0][0] - label_wide
    assert lie[0][:2] == pytest.approx([beside - gap * (across - 1) / 2, below], abs=0.1)
    for n, (left, top, own_wide, own_high) in enumerate(lie):
        assert left == pytest.approx(lie[0][0] + n % across * (label_wide + gap), abs=0.1)
        assert top == pytest.approx(below + n // across * label_high, abs=0.1)
        assert (own_wide, own_high) == pytest.approx((label_wide, label_high), abs=0.1)
    assert lie[across - 1][0] + label_wide <= wide + 0.1
    assert labels.evaluate_all(TEXT_CUT) == []
    letters = page.locator(".label-sheet .label-code b").all_text_contents()
    read = [re.search(r"label=(.*)", one)[1] for one in squares(page)]
    assert sorted(read) == sorted(letters)


def test_a_phone_shows_one_label_a_batch_and_prints_them_all(demo, open_page):
    page = open_page(demo, "/labels")
    settled(page)
    looks = page.locator(".label-looks > li:has(.jar-label)")
    assert looks.count() == 1 or looks.count() == len(set(looks.all_inner_texts()))
    assert page.locator(".label-sheet").first.is_hidden()
    page.get_by_text("First free place").click()
    page.locator(".places-of a", has_text="3").first.click()
    page.wait_for_url("**first=3**")
    page.wait_for_selector("text=Begins at place 3")
    page.emulate_media(media="print")
    assert page.locator(".label-sheet").first.is_visible()
    assert page.locator(".label-looks").is_hidden()
    assert page.locator(".jar-label.free").count() == 2
    assert page.wrong == []
