"""What tests of pages share: waiting until a page is drawn, axe, and where pictures of pages go."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

__all__ = ["READ_MS", "SHOTS", "axe", "first_load", "live", "settled"]

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


def live(page):
    """Wait until a page is alive: its scripts have taken over what the first answer had drawn."""
    page.wait_for_function(
        "() => document.getElementById('main')?.dataset.address && !document.getElementById('drawn')"
    )


def first_load(context, address):
    """Return what came over the network for a page that was never seen: address without host, bytes.

    The bytes are those of each answer as sent, head and body, as the browser's own protocol says
    when an answer is whole (``Network.loadingFinished``); what is asked every three seconds is left out.
    """
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Network.enable")
    asked, came = {}, []
    session.on(
        "Network.requestWillBeSent",
        lambda said: asked.__setitem__(said["requestId"], said["request"]["url"]),
    )
    session.on(
        "Network.loadingFinished",
        lambda said: came.append((asked.get(said["requestId"], ""), said["encodedDataLength"])),
    )
    page.goto(address)
    settled(page)
    live(page)
    page.close()
    host = "/".join(address.split("/")[:3])
    return [
        (url.removeprefix(host), size)
        for url, size in came
        if url.startswith(host) and not url.endswith("/position")
    ]
