"""Printed labels are read back: each square by a decoder (ISO/IEC 18004), each sheet one page."""

from __future__ import annotations

import io
import re

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
    labels = page.locator(".label-code b").all_inner_texts()
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


def test_each_sheet_is_one_page_of_its_size(demo, open_page):
    for sheet, width, height in (("a4", 595, 842), ("letter", 612, 792)):
        page = open_page(demo, f"/labels?sheet={sheet}", width=1280)
        settled(page)
        sheets = page.locator(".label-sheet").count()
        pdf = page.pdf(prefer_css_page_size=True)
        sizes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)", pdf)
        assert len(sizes) == sheets
        assert {(round(float(w)), round(float(h))) for w, h in sizes} == {(width, height)}
        page.context.close()
