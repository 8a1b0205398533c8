"""One file a page, each with a `PAGE`; a new page is that file and one line here."""

from __future__ import annotations

from dashboard.pages import (
    as_published,
    beds,
    begin,
    came_true,
    closer,
    history,
    jar,
    jar_cost,
    know_how,
    labels,
    more,
    next_season,
    our_table,
    search,
    season,
    shelf,
    shopping,
    stocking_up,
    today,
    touched,
    winter,
    worth_it,
    write_down,
)
from dashboard.pages._page import KNOWN, Page

__all__ = ["PAGES", "Page", "page_at"]

PAGES: tuple[Page, ...] = tuple(
    module.PAGE
    for module in (
        today,
        write_down,
        shelf,
        shopping,
        jar_cost,
        our_table,
        know_how,
        season,
        next_season,
        beds,
        stocking_up,
        winter,
        worth_it,
        came_true,
        closer,
        as_published,
        touched,
        labels,
        jar,
        history,
        search,
        begin,
        more,
    )
)
"""Every page, in the order of the menu."""
KNOWN.extend(PAGES)


def page_at(path: str | None) -> Page | None:
    """Return the page at an address, or None."""
    wanted = (path or "/").rstrip("/") or "/"
    return next((page for page in PAGES if page.path == wanted), None)
