"""The dashboard in a real browser against the least that Dash could do: printed ratios of one run.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_dashboard_ratio.py``. Nothing is
asserted of times, only that what was timed was there. CROFTBOOK_BENCH_ROUNDS (3) is how often each
page is opened; the bare page and ours are opened in turn, so that others who share the machine
disturb both alike.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import os
import statistics
import time
import urllib.request

import pytest
from browser.conftest import CHROMIUM
from dash import Dash, Input, Output, dcc, html

from dashboard.pages import PAGES

pytestmark = [
    pytest.mark.benchmark,
    pytest.mark.timeout(1800),
    pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine"),
]

ROUNDS = int(os.environ.get("CROFTBOOK_BENCH_ROUNDS", "3"))
DRAWN = [page for page in PAGES if page.has_pictures or page.path == "/"]
PHONE = {"viewport": {"width": 390, "height": 844}, "reduced_motion": "reduce"}
SLOW = {
    "latency": 40,
    "downloadThroughput": 10e6 / 8,
    "uploadThroughput": 5e6 / 8,
    "offline": False,
}
"""A phone at the edge of the house's radio: 10 Mbit/s, 40 ms. Our own choice."""

WATCH = """
window.drawnAt = 0;
new MutationObserver((some) => {
  if (some.some((m) => m.target.closest && m.target.closest("#page"))) window.drawnAt = performance.now();
}).observe(document, {childList: true, subtree: true});
"""
"""Keeps when something was last drawn on the page, counted from when it was asked for."""

FETCHED = """() => performance.getEntriesByType("resource")
  .filter((e) => /[.]js($|[?])/.test(e.name)).map((e) => [e.name, e.transferSize, e.encodedBodySize])"""

CHANGED = """(sent) => new Promise((done) => {
  const began = performance.now();
  const seen = new MutationObserver(() => {
    seen.disconnect();
    requestAnimationFrame(() => done(performance.now() - began));
  });
  seen.observe(document.querySelector("#page"), {childList: true, subtree: true, characterData: true});
  window.dash_clientside.set_props("seen", {data: sent});
})"""
"""Says that the log has grown, as the page itself does, and waits until the page has changed."""


def told(name, ratio, reach, more=""):
    print(f"\n{name}: {ratio:.2f} (reach for {reach}) {more}")


@pytest.fixture(scope="module")
def bare():
    """An empty Dash page with one figure, and one callback that answers with a paragraph."""
    from dashboard.listening import Listening

    app = Dash("bare")
    days = [f"2026-{month:02}-01" for month in range(1, 13)]
    figure = {"data": [{"type": "bar", "x": days, "y": list(range(12))}], "layout": {"height": 380}}
    app.layout = html.Div(
        [
            dcc.Store(id="seen", data=0),
            html.Div([html.H1("Bare"), dcc.Graph(figure=figure), html.Div(id="out")], id="page"),
        ]
    )

    @app.callback(Output("out", "children"), Input("seen", "data"))
    def answer(seen):
        return html.P(f"position {seen}")

    server = Listening(app.server).start()
    yield f"http://127.0.0.1:{server.port}/"
    server.close()


@contextlib.contextmanager
def phone(chromium):
    """Yield a phone that has never been here."""
    context = chromium.new_context(**PHONE)
    context.set_default_timeout(60_000)
    context.add_init_script(WATCH)
    try:
        yield context
    finally:
        context.close()


@contextlib.contextmanager
def opened(context, address, *, has_pictures=True, slow=False):
    """Yield a page drawn to its last figure, and the milliseconds that it took."""
    page = context.new_page()
    if slow:
        session = context.new_cdp_session(page)
        session.send("Network.enable")
        session.send("Network.emulateNetworkConditions", SLOW)
    page.goto(address)
    page.wait_for_selector("#page .main-svg" if has_pictures else "#page h1", state="attached")
    page.wait_for_load_state("networkidle")
    charts = page.locator("#page .js-plotly-plot").count()
    assert page.locator("#page .dash-graph").count() == charts
    try:
        yield page, page.evaluate("window.drawnAt")
    finally:
        page.close()


def took(context, address, **how):
    with opened(context, address, **how) as (_, ms):
        assert ms > 0
        return ms


def pages_against_bare(served, chromium, bare, *, entry_before):
    """Return, for each page, the median ratio of a first visit to that of the bare page."""
    ratios = {page.name: [] for page in DRAWN}
    for page in DRAWN:  # what is asked is worked out once, as on any day but the first
        with phone(chromium) as one:
            took(one, served.address + page.path, has_pictures=page.has_pictures)
    for _ in range(ROUNDS):
        for page in DRAWN:
            if entry_before:
                plum = {"item": "plum", "amount": "3 lb"}
                served.book.write("harvested", plum, on=dt.date(2026, 9, 2))
            with phone(chromium) as one:
                base = took(one, bare)
            with phone(chromium) as one:
                ours = took(one, served.address + page.path, has_pictures=page.has_pictures)
            ratios[page.name].append(ours / base)
    return {name: statistics.median(some) for name, some in ratios.items()}


@pytest.mark.parametrize("entry_before", [False, True], ids=["kept", "after an entry"])
@pytest.mark.parametrize(("which", "reach"), [("own_demo", "2"), ("forty_years", "3")])
def test_pages_against_a_bare_page(which, reach, entry_before, request, chromium, bare):
    served = request.getfixturevalue(which)
    found = pages_against_bare(served, chromium, bare, entry_before=entry_before)
    drawn = [found[page.name] for page in DRAWN if page.has_pictures]
    name = f"{which} ({served.book.log.position():,} events), "
    name += "each page just after an entry" if entry_before else "answers kept"
    each = ", ".join(f"{page} {ratio:.2f}" for page, ratio in found.items())
    told(f"{name}, page drawn / bare page, median", statistics.median(drawn), reach, each)


def script_bytes(page):
    """Return bytes of script that came over the network, by address without its version."""
    return {name.rpartition("/")[2]: sent for name, sent, _ in page.evaluate(FETCHED)}


def test_bytes_of_script(demo, chromium):
    with phone(chromium) as one, opened(one, demo.address + "/", has_pictures=False) as (page, _):
        before = sum(script_bytes(page).values())
    with phone(chromium) as one:
        with opened(one, demo.address + "/jar-cost") as (page, _):
            first = script_bytes(page)
        with opened(one, demo.address + "/jar-cost") as (page, _):
            second = script_bytes(page)
    assert any("plotly" in name for name in first)
    assert set(first) == set(second)
    told("script before the first chart, kB", before / 1000, "700")
    told("script with the chart, kB", sum(first.values()) / 1000, "2000")
    told("script on the second visit, bytes", sum(second.values()), "0")


@pytest.mark.parametrize("slow", [False, True], ids=["this machine", "10 Mbit/s"])
def test_second_visit_against_the_first(slow, demo, chromium):
    ratios = []
    for _ in range(ROUNDS):
        with phone(chromium) as one:
            first, second, third = (
                took(one, demo.address + "/jar-cost", slow=slow) for _ in range(3)
            )
        ratios.append((second / first, third / first))
    two, three = (statistics.median(some) for some in zip(*ratios, strict=True))
    over = "over 10 Mbit/s and 40 ms" if slow else "over the machine itself"
    told(f"time to chart, second visit / first, {over}", two, "0.5", f"third {three:.2f}")


def visited(address):
    """Ask for a page without a browser: what is asked for the first time is worked out once."""
    with urllib.request.urlopen(address, timeout=900) as answer:
        assert answer.status == 200
        answer.read()


def spread(some):
    return f"{statistics.median(some):.0f} ({min(some):.0f} to {max(some):.0f})"


@pytest.mark.parametrize(("which", "reach"), [("own_demo", "10"), ("forty_years", "8")])
@pytest.mark.parametrize("name", ["today", "shelf", "jar_cost"])
def test_figure_after_an_entry_against_a_bare_callback(name, which, reach, request, chromium, bare):
    """From the moment at which a page hears of an entry till its changed figures are drawn.

    Beside each wait stands the processor's time of this process, which is the server's and the
    test's own, but not the browser's.
    """
    served = request.getfixturevalue(which)
    plum = {"item": "plum", "amount": "3 lb"}
    page = next(page for page in PAGES if page.name == name)
    visited(served.address + page.path)
    base, ours, worked = [], [], []
    with (
        phone(chromium) as one,
        phone(chromium) as other,
        opened(one, bare) as (blank, _),
        opened(other, served.address + page.path, has_pictures=page.has_pictures) as (p, _),
    ):
        for n in range(2 * ROUNDS + 1):
            base.append(blank.evaluate(CHANGED, n + 1))
            written = served.book.write("harvested", plum, on=dt.date(2026, 9, 2))
            began = time.process_time()
            ours.append(p.evaluate(CHANGED, written.event.seq))
            worked.append((time.process_time() - began) * 1000)
    base, ours, worked = base[1:], ours[1:], worked[1:]
    ratios = [mine / statistics.median(base) for mine in ours]
    more = f"(least {min(ratios):.1f}, most {max(ratios):.1f} in {len(ratios)} rounds; bare "
    more += f"{spread(base)} ms, ours {spread(ours)} ms, of processor {spread(worked)} ms)"
    told(f"{which}: {name} after an entry / bare callback", statistics.median(ratios), reach, more)
    assert min(ours) > 0
