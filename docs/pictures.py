"""Draw the pictures of the README, and sheets of every page, in a headless browser.

python docs/pictures.py                    the README's three pictures
python docs/pictures.py --beside FOLDER    and every page beside the drawing it was made from

FOLDER holds the drawings as ``today.html``, ``shelf.html``, ...; a page without one stands alone.
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
SIZES = {"phone": (390, 1180, 195, 4), "desk": (1280, 900, 384, 2)}
"""Width and height of a page, its width on the sheet, and how many stand beside each other, in pixels."""
SCHEMES = ("light", "dark")
SHEET = """<style>
body { margin: 0; padding: 16px; font: 13px sans-serif; background: #8a8f8a; color: #000;
  display: inline-grid; grid-template-columns: repeat(%d, max-content); gap: 20px; }
figure { margin: 0; display: flex; gap: 6px; align-items: start; flex-wrap: wrap; width: %dpx; }
figcaption { width: 100%%; font-weight: bold; }
img, span { width: %dpx; } span { padding: 8px; box-sizing: border-box; }
</style>"""


def main() -> int:
    """Build the sample household, open the pages and keep what is seen; return the exit status."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", 1)[0])
    parser.add_argument("--beside", type=Path, metavar="FOLDER", help="where the drawings are")
    drawings = parser.parse_args().beside
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
            for name, path in WANTED:
                opened(page, address + path)
                page.screenshot(path=FOLDER / f"{name}.png")
            if drawings is not None:
                sheets(page, address, drawings)
            browser.close()
        server.close()
    return 0


def opened(page: Page, address: str) -> None:
    """Open an address as a phone would, and wait until it is drawn."""
    page.set_viewport_size({"width": SIZES["phone"][0], "height": SIZES["phone"][1]})
    page.goto(address)
    page.wait_for_selector("h1")
    page.wait_for_load_state("networkidle")
    page.wait_for_timeout(800)


def looked(page: Page, address: str, *, is_ours: bool) -> dict[tuple[str, str], bytes]:
    """Return what is seen of a page as jpeg, by size and scheme; a drawing follows the device's scheme."""
    page.emulate_media(color_scheme="light")
    opened(page, address)
    seen = {}
    for scheme in SCHEMES:
        if scheme == "dark" and is_ours:
            page.click("#change-scheme")
            page.wait_for_selector("body.dark")
        elif scheme == "dark":
            page.emulate_media(color_scheme="dark")
        for size, (width, height, _, _) in SIZES.items():
            page.set_viewport_size({"width": width, "height": height})
            page.wait_for_timeout(400)  # pictures follow the page a moment later
            seen[size, scheme] = page.screenshot(type="jpeg", quality=80)
    if is_ours:
        page.context.clear_cookies()  # the next page begins light
        page.evaluate("() => localStorage.clear()")
    return seen


def sheets(page: Page, address: str, drawings: Path) -> None:
    """Keep a sheet a size and scheme: every page, left as it is, right as it was drawn."""
    built = [looked(page, address + path, is_ours=True) for path, _ in PAGES]
    drawn = [
        looked(page, (drawings / f"{name}.html").resolve().as_uri(), is_ours=False) if name else {}
        for _, name in PAGES
    ]
    page.goto("about:blank")
    page.set_viewport_size({"width": 1800, "height": 1000})
    for size, (_, _, shown, columns) in SIZES.items():
        for scheme in SCHEMES:
            figures = "".join(
                f"<figure><figcaption>{escape(path)}</figcaption>{_image(ours[size, scheme])}"
                + (
                    _image(theirs[size, scheme])
                    if theirs
                    else "<span>built without a drawing</span>"
                )
                + "</figure>"
                for (path, _), ours, theirs in zip(PAGES, built, drawn, strict=True)
            )
            page.set_content(SHEET % (columns, 2 * shown + 6, shown) + figures)
            page.wait_for_function("() => [...document.images].every((one) => one.complete)")
            target = FOLDER / f"pages-{size}-{scheme}.jpg"
            page.locator("body").screenshot(path=target, type="jpeg", quality=60)


def _image(seen: bytes) -> str:
    return f'<img src="data:image/jpeg;base64,{base64.b64encode(seen).decode()}" alt="">'


if __name__ == "__main__":
    sys.exit(main())
