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
    from playwright.sync_api import Browser

FOLDER = Path(__file__).with_name("pictures")
WANTED = (("today", "/"), ("shelf", "/shelf"), ("season", "/season"))
README_SIZE = (390, 1180)
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
SIZES = {"phone": (390, 1100, 195, 3), "desk": (1280, 900, 384, 2)}
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
            for name, path in WANTED:
                seen = looked(browser, [address + path], README_SIZE, "light", "png")[0]
                (FOLDER / f"{name}.png").write_bytes(seen)
            if drawings is not None:
                for size in SIZES:
                    for scheme in SCHEMES:
                        sheet(browser, address, drawings, size, scheme)
            browser.close()
        server.close()
    return 0


def looked(
    browser: Browser, addresses: list[str], size: tuple[int, int], scheme: str, kind: str
) -> list[bytes]:
    """Return what is seen of pages at a width and height (pixels), light or dark, as png or jpeg."""
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]}, color_scheme=scheme, reduced_motion="reduce"
    )
    context.set_default_timeout(300_000)  # a busy machine is slow, not broken
    page = context.new_page()
    seen = []
    for address in addresses:
        if address.startswith("http"):
            context.add_cookies([{"name": "scheme", "value": scheme, "url": address}])
        page.goto(address)
        page.wait_for_selector("h1")
        page.wait_for_load_state("networkidle")
        page.wait_for_timeout(800)
        seen.append(page.screenshot(type=kind))
    context.close()
    return seen


def sheet(browser: Browser, address: str, drawings: Path, size: str, scheme: str) -> None:
    """Keep one sheet: every page at a size and scheme, left as it is, right as it was drawn."""
    width, height, shown, columns = SIZES[size]
    built = looked(browser, [address + path for path, _ in PAGES], (width, height), scheme, "jpeg")
    names = [name for _, name in PAGES if name]
    files = [(drawings / f"{name}.html").resolve().as_uri() for name in names]
    drawn = dict(zip(names, looked(browser, files, (width, height), scheme, "jpeg"), strict=True))
    figures = "".join(
        f"<figure><figcaption>{escape(path)}</figcaption>{_image(seen)}"
        + (_image(drawn[name]) if name else "<span>built without a drawing</span>")
        + "</figure>"
        for (path, name), seen in zip(PAGES, built, strict=True)
    )
    page = browser.new_page(viewport={"width": 1800, "height": 1000})
    page.set_content(SHEET % (columns, 2 * shown + 6, shown) + figures)
    page.wait_for_function("() => [...document.images].every((one) => one.complete)")
    page.locator("body").screenshot(
        path=FOLDER / f"pages-{size}-{scheme}.jpg", type="jpeg", quality=60
    )
    page.close()


def _image(seen: bytes) -> str:
    return f'<img src="data:image/jpeg;base64,{base64.b64encode(seen).decode()}" alt="">'


if __name__ == "__main__":
    sys.exit(main())
