"""What tests of pages share: waiting until a page is drawn, axe, and where pictures of pages go."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

__all__ = ["READ_MS", "SHOTS", "axe", "settled"]

SHOTS = Path(os.environ.get("CROFTBOOK_SHOTS", Path(tempfile.gettempdir()) / "croftbook-shots"))
"""Pictures of every page that was looked at."""

READ_MS = 2200
"""The place of a button that wrote listens again after two seconds."""


def settled(page):
    """Wait until a page is drawn: no spinner of ours is used, so nothing may be under way."""
    page.wait_for_load_state("networkidle")
    page.wait_for_selector("#page h1")


def axe(page):
    """Return what axe finds wrong on a page, each with the element it means."""
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page).response
    return [
        (one["id"], node["html"][:200]) for one in found["violations"] for node in one["nodes"][:3]
    ]
