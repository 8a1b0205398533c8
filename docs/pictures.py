"""Draw the pictures of the README, or sheets of every page, in a headless browser.

python docs/pictures.py                    the README's three pictures
python docs/pictures.py --beside FOLDER    every page beside the drawing it was made from

FOLDER holds the drawings as ``today.html``, ``shelf.html``, ...; a page without one stands alone. A
sheet a page is kept in ``.out``; ``--page season`` draws one, ``--dark`` the dark ones.
"""

from __future__ import annotations

import argparse
import base64
import shutil
import sys
import tempfile
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import sync_playwright

import seed_demo
from dashboard.app import make_app
from dashboard.listening import Listening
from ledger import Book

if TYPE_CHECKING:
    from playwright.sync_api import Page

FOLDER = Path(__file__).with_name("pictures")
SHEETS = FOLDER.parents[1] / ".out"
"""Sheets are looked at, and kept in no commit."""
WANTED = (("today", "/"), ("shelf", "/shelf"), ("season", "/season"))
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--no-first-run",
]
PAGES = (
    ("/", "today"), ("/write", "write-down"), ("/write?kind=bought", "receipt"),
    ("/write?kind=put_up", "batch"), ("/shelf", "shelf"), ("/shopping", ""), ("/jar-cost", "jar-cost"),
    ("/our-table", "our-table"), ("/know-how", "know-how"), ("/season", "season"),
    ("/next-season", "next-season"), ("/beds", ""), ("/stocking-up", "stocking-up"),
    ("/winter", "winter-page"), ("/worth-it", "worth-it"), ("/came-true", ""), ("/look-closer", ""),
    ("/as-published", "as-published"), ("/touched?of=sugar", ""), ("/labels", "labels"), ("/jar", ""),
    ("/history", "history"), ("/search?of=plum", ""), ("/settings", ""), ("/more", "ask"),
)  # fmt: skip
"""Each page with the name of its drawing; none where nothing was drawn before it was built."""
SIZES = {"phone": (390, 844, 300), "desk": (1280, 900, 640)}
"""Width and height of a window, and the width of its picture on a sheet, in pixels."""
TALLEST = 2600
"""So much of a long page is shown, in pixels of the page."""
SHEET = """<style>
body { margin: 0; padding: 12px; font: 13px sans-serif; background: #8a8f8a; color: #000;
  display: inline-flex; gap: 10px; align-items: start; }
figure { margin: 0; } figcaption { font-weight: bold; }
img, span { display: block; } span { padding: 8px; width: 120px; }
</style>"""
SETTLED = """() => document.fonts.status === "loaded" && !document.querySelector("[aria-busy=true]")
  && [...document.images].every((one) => one.complete)"""


def main() -> int:
    """Build the sample household, open the pages and keep what is seen; return the exit status."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--beside", type=Path, metavar="FOLDER", help="where the drawings are")
    parser.add_argument("--page", action="append", metavar="NAME", help="only this one's sheet")
    parser.add_argument("--dark", action="store_true", help="sheets of the dark pages")
    asked = parser.parse_args()
    chromium = shutil.which("chromium")
    if chromium is None:
        sys.stderr.write("chromium is not installed; the tests' script installs it\n")
        return 1
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, Book.open(Path(folder) / "demo.sqlite") as book:
        seed_demo.build(book)  # until today, as a reader would
        server = Listening(make_app(book).server).start()
        address = f"http://127.0.0.1:{server.port}"
        with sync_playwright() as run:
            browser = run.chromium.launch(executable_path=chromium, args=FLAGS)
            context = browser.new_context(reduced_motion="reduce", service_workers="block")
            context.set_default_timeout(300_000)  # a busy machine is slow, not broken
            page = context.new_page()
            if asked.beside is None:
                for name, path in WANTED:
                    opened(page, address + path)
                    page.set_viewport_size({"width": 390, "height": 1180})
                    page.screenshot(path=FOLDER / f"{name}.png")
            else:
                sheets(page, address, asked)
            browser.close()
        server.close()
    return 0


def opened(page: Page, address: str) -> None:
    """Open an address as a phone would, and wait until it is drawn."""
    page.set_viewport_size(dict(zip(("width", "height"), SIZES["phone"], strict=False)))
    page.goto(address, wait_until="load")
    page.wait_for_selector("h1")
    page.wait_for_function(SETTLED)
    page.wait_for_timeout(800)  # what is alive takes the drawn one's place


def looked(page: Page, address: str) -> dict[str, bytes]:
    """Return what is seen of a page as jpeg, by size: opened once, and widened."""
    opened(page, address)
    seen = {}
    for size, (width, height, _) in SIZES.items():
        page.set_viewport_size({"width": width, "height": height})
        page.wait_for_timeout(500)  # pictures follow the page a moment later
        tall = min(page.evaluate("() => document.documentElement.scrollHeight"), TALLEST)
        page.set_viewport_size({"width": width, "height": max(tall, height)})
        page.wait_for_timeout(300)
        seen[size] = page.screenshot(type="jpeg", quality=70)
    return seen


def sheets(page: Page, address: str, asked: argparse.Namespace) -> None:
    """Keep a sheet a page: as it is, and beside it as it was drawn, on the phone and at the desk.

    Each is written as soon as it is made, so that one can be looked at while the next is drawn.
    """
    SHEETS.mkdir(exist_ok=True)
    page.emulate_media(color_scheme="dark" if asked.dark else "light")
    for path, drawn in PAGES:
        name = drawn or path.strip("/").partition("?")[0]
        if asked.page and name not in asked.page:
            continue
        ours = looked(page, address + path)
        drawing = (asked.beside / f"{drawn}.html").resolve()
        theirs = looked(page, drawing.as_uri()) if drawn and drawing.is_file() else {}
        page.goto("about:blank")
        page.set_viewport_size({"width": 2000, "height": 1000})
        figures = "".join(
            f"<figure><figcaption>{escape(path)}, {who}, {size}</figcaption>"
            f"{_image(of[size], SIZES[size][2]) if of else '<span>no drawing</span>'}</figure>"
            for size in SIZES
            for who, of in (("built", ours), ("drawn", theirs))
        )
        page.set_content(SHEET + figures)
        page.wait_for_function(SETTLED)
        target = SHEETS / f"{name}{'-dark' if asked.dark else ''}.png"
        page.locator("body").screenshot(path=target)
        sys.stdout.write(f"{target.name}\n")
        sys.stdout.flush()


def _image(seen: bytes, width: int) -> str:
    data = base64.b64encode(seen).decode()
    return f'<img src="data:image/jpeg;base64,{data}" width="{width}" alt="">'


if __name__ == "__main__":
    sys.exit(main())
