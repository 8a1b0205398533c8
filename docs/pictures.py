"""Draw the pictures of the README: the sample household's pages in a headless browser.

python docs/pictures.py
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

import seed_demo
from dashboard.app import make_app
from dashboard.listening import Listening
from ledger import Book

FOLDER = Path(__file__).with_name("pictures")
WANTED = (
    ("today", "/", 390, 1180),
    ("shelf", "/shelf", 390, 1180),
    ("season", "/season", 390, 1180),
)
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--no-first-run",
]


def main() -> int:
    """Build the sample household, open the pages and keep what is seen; return the exit status."""
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
            for name, path, width, height in WANTED:
                page = browser.new_page(viewport={"width": width, "height": height})
                page.goto(address + path)
                page.wait_for_selector("#page h1")
                page.wait_for_load_state("networkidle")
                page.wait_for_timeout(800)
                page.screenshot(path=FOLDER / f"{name}.png")
            browser.close()
        server.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
