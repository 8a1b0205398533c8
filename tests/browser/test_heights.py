"""How long the answer pages are on a phone of 390 px: none grows past the drawing that it was made from.

Ceilings are the heights of the drawn pages and a tenth, px. What a page has to show beyond its drawing is named
here with the reason, and is not a matter of taste: a warning, or a figure that the drawing left out.
"""

from __future__ import annotations

import pytest
from browser_tools import axe, settled, shot

from ledger.published import GRAVE

DRAWN = {
    "/jar-cost": 1454,
    "/our-table": 902,
    "/know-how": 1515,
    "/season": 1696,
    "/next-season": 1720,
    "/stocking-up": 1481,
    "/worth-it": 1268,
    "/as-published": 1344,
    "/history": 1502,
    "/labels": 879,
    "/more": 1059,
    "/shelf": 1451,
    "/winter?asks=one_page": 1768,
}
"""Height of the page as it was drawn, px at 390."""
MORE = {
    "/shelf": (190, "the danger's card stands first, with its jars, its remedy and the signs of botulism in full"),
    "/winter?asks=one_page": (430, "what to throw away after a power cut, and who asks a doctor, never fold; drawn names stand whole"),
    "/as-published": (190, "what was put up under pressure as nothing published has it is said before all else"),
    "/labels": (90, "that squares made on this computer lead nowhere else is said where they are printed"),
}  # fmt: skip
"""What stands on a page beyond its drawing: so many px, and why."""
LISTS = {"/touched?of=sugar": 2.5, "/search?of=plum": 2.5, "/search?of=sugar": 2.5}
"""Long lists of a common thing, in screens of 844 px."""


def height(page):
    settled(page)
    return page.evaluate("document.documentElement.scrollHeight")


@pytest.mark.parametrize("path", DRAWN)
def test_page_is_no_longer_than_it_was_drawn(demo, open_page, path):
    page = open_page(demo, path)
    more, _ = MORE.get(path, (0, ""))
    assert height(page) <= DRAWN[path] * 1.1 + more
    answer = page.locator("#page .answer, #page .leaf-sheet, #page .qs, #page .dayg").first
    assert answer.bounding_box()["y"] < 844 * 0.7
    folded = page.locator("#page details:not([open]) :is(.danger, [role=alert], .caution.grave)")
    assert folded.count() == 0


@pytest.mark.parametrize("path", LISTS)
def test_a_long_list_is_folded_and_opens_whole(demo, open_page, path):
    page = open_page(demo, path)
    assert height(page) <= LISTS[path] * 844
    more = page.locator("#page .rows-left, #page .all-rows a, #page .tools a").first
    before = page.evaluate("document.querySelectorAll('#page tr, #page li').length")
    more.click()
    page.wait_for_function(
        "before => document.querySelectorAll('#page tr, #page li').length > before", arg=before
    )
    assert page.wrong == []


def test_what_is_grave_stands_first_in_a_long_list(own_demo, open_page):
    """A jar in danger among what there is of a common thing: first of its group, and on the page."""
    from ledger import Answers

    yes = Answers(yes=True)
    own_demo.book.write(
        "harvested", item="green bean", amount="20 lb", on="2026-08-01", answers=yes
    )
    body = {"makes": "canned green bean", "method": "boiling water", "minutes": "180",
            "used": [{"item": "green bean", "amount": "14 lb"}],
            "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}]}  # fmt: skip
    own_demo.book.write("put_up", body, on="2026-08-01", answers=yes)
    page = open_page(own_demo, "/touched?of=green+bean")
    settled(page)
    first = page.locator("[data-table*=there] tbody tr").first
    assert first.locator(".mark-grave").is_visible()
    assert page.locator(".caution >> text=emergency").is_visible()


FORTY_YEARS = {"/": 1180, "/shelf": 1260}
"""How high the card of danger may be on a phone with more than twenty batches in danger, px: it was 1,848 a batch by itself."""


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("path", FORTY_YEARS)
def test_many_batches_in_danger_are_few_cards_and_none_folds(path, width, forty_years, open_page):
    page = open_page(forty_years, path, width=width)
    settled(page)
    card = page.locator("#page .danger")
    assert card.count() == 1
    in_danger = {
        row["standing_batch"]
        for row in forty_years.book.show("shelf").records()
        if row["standing"] in GRAVE
    }
    assert len(in_danger) > 12
    ways = page.evaluate(
        "[...document.querySelectorAll('#page .danger a')].map(one => new URL(one.href).searchParams.get('batch'))"
    )
    assert in_danger == {one for one in ways if one}
    assert card.locator("li").count() < len(in_danger) / 3
    assert card.locator("details").count() == 0
    assert "%" not in card.inner_text()
    if width == 390:
        assert card.bounding_box()["height"] <= FORTY_YEARS[path]
        assert page.locator("#page .danger a").first.bounding_box()["height"] >= 44
    shot(page, f"forty-{path.strip('/') or 'today'}-{width}", full_page=path == "/")
    assert axe(page) == []
    assert page.wrong == []
