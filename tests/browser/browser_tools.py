"""What tests of pages share: waiting until a page is drawn, axe, and where pictures of pages go."""

from __future__ import annotations

import os
from pathlib import Path

__all__ = ["READ_MS", "axe", "first_load", "live", "settled", "shot"]

SHOTS = os.environ.get("CROFTBOOK_SHOTS")
"""Folder for pictures of every page that was looked at; none are taken where none is named, for they check nothing."""

READ_MS = 2200
"""The place of a button that wrote listens again after two seconds."""


QUIET = """() => {
  const store = window.dash_stores && window.dash_stores[0], main = document.getElementById("main");
  if (!store || !main || !main.dataset.address || document.getElementById("drawn") || !document.querySelector("#page h1")) return false;
  const { stored, completed, ...under } = store.getState().callbacks;
  const graphs = [...document.querySelectorAll("#page .dash-graph")].every((one) => one.querySelector(".main-svg"));
  const isQuiet = graphs && Object.values(under).every((some) => !some.length) && document.fonts.status === "loaded" && [...document.images].every((one) => one.complete);
  window.quietFor = isQuiet ? (window.quietFor || 0) + 1 : 0;
  return window.quietFor > 3;
}"""
"""No callback is asked for or answered, every picture is there, for four frames: what one answer asks for anew
begins within the next."""


def settled(page):
    """Wait until a page is drawn to its end, and nothing that it asked for is under way."""
    page.evaluate("() => { window.quietFor = 0; }")
    page.wait_for_function(QUIET)


def shot(page, name, **options):
    """Keep a picture of a page, where pictures are wanted (``CROFTBOOK_SHOTS``)."""
    if SHOTS:
        Path(SHOTS).mkdir(parents=True, exist_ok=True)
        page.screenshot(path=Path(SHOTS) / f"{name}.png", **options)


def axe(page):
    """Return what axe finds wrong on a page, each with the element it means.

    Only that comes back from the browser: all that is in order was most of what was sent.
    """
    from axe_playwright_python.base import AXE_SCRIPT

    if not page.evaluate("() => Boolean(window.axe)"):
        page.evaluate(AXE_SCRIPT)
    return page.evaluate(
        """async () => (await axe.run({resultTypes: ["violations"]})).violations
        .flatMap((one) => one.nodes.slice(0, 3).map((node) => [one.id, node.html.slice(0, 200)]))"""
    )


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
