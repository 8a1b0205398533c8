"""The page of a release in a real browser: to the class, to the public, and a household's own."""

from __future__ import annotations

import pytest
from browser_tools import axe, shot

from ledger.circle import Circle
from ledger.circle.beside import own_figures
from ledger.circle.page import page_of
from seed_demo import circle as sample


@pytest.fixture(scope="module")
def pages(tmp_path_factory):
    """Return the pages of a class and of one of its households, and of a county where noise can be drawn."""
    folder = tmp_path_factory.mktemp("circles")
    out = {}
    for name, many in (("class", 60), ("county", 500)):
        circle = Circle.begin(folder / name, sample.call_for(2026))
        (folder / "all").write_bytes(b"".join(sample.sheets(circle.call, circle.cards(many))))
        circle.gather([folder / "all"])
        if name == "county":
            pytest.importorskip("opendp", reason="OpenDP is not installed")
        told = circle.tell(private=name == "county")
        out[name] = page_of(told)
        if name == "class":
            own = own_figures(told, circle.call, circle.held()[0].figures, "5")
            out["ours"] = page_of(told, own)
    for name, text in out.items():
        (folder / f"{name}.html").write_text(text, "utf-8")
    return folder


@pytest.mark.parametrize("name", ["class", "county", "ours"])
def test_page_is_whole_and_nothing_is_found(chromium, pages, name):
    context = chromium.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    said, asked = [], []
    page.on("console", lambda message: said.append(message.text))
    page.on("request", lambda request: asked.append(request.url))
    page.goto((pages / f"{name}.html").as_uri())
    # axe is a script of the test's own, which the page's policy would keep out
    bare = context.new_page()
    bare.set_content((pages / f"{name}.html").read_text("utf-8").replace("http-equiv", "data-was"))
    for width, scheme in ((390, "light"), (1280, "light"), (1280, "dark"), (390, "dark")):
        for one in (page, bare):
            one.set_viewport_size({"width": width, "height": 844})
            one.emulate_media(color_scheme=scheme)
        shot(page, f"circle-{name}-{width}-{scheme}", full_page=True)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        assert axe(bare) == []
    assert said == []
    assert len(asked) == 1
    context.close()
