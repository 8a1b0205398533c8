"""The first load on a slow phone: bytes of each answer, when a page can be read, when a form is ready.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_slow_phone.py``. Nothing is asserted
of times. CROFTBOOK_BENCH_ROUNDS (5) is how often each page is opened, by a browser that never was there.
"""

from __future__ import annotations

import os
import statistics

import pytest
from browser.browser_tools import first_load, live, settled
from browser.conftest import CHROMIUM

pytestmark = [
    pytest.mark.benchmark,
    pytest.mark.timeout(1800),
    pytest.mark.skipif(CHROMIUM is None, reason="no chromium on this machine"),
]

ROUNDS = int(os.environ.get("CROFTBOOK_BENCH_ROUNDS", "5"))
PHONE = {"viewport": {"width": 390, "height": 844}, "reduced_motion": "reduce"}
SLOW = {
    "latency": 562.5,
    "downloadThroughput": 1.6e6 * 0.9 / 8,
    "uploadThroughput": 750e3 * 0.9 / 8,
    "offline": False,
}
"""What chromium's own developer tools call slow 4G: 562.5 ms to each answer, 1.44 Mbit/s down, 675 kbit/s up."""
QUARTER = {"rate": 4}
"""The processor takes four times as long."""
WATCH = """(() => {
  const look = () => {
    const head = document.querySelector("#page h1");
    const isStyled = () => getComputedStyle(document.documentElement).getPropertyValue("--paper");
    if (!window.readAt && head && head.offsetParent && isStyled()) window.readAt = performance.now();
    const main = document.getElementById("main");
    if (!window.liveAt && main && main.dataset.address && !document.getElementById("drawn")) window.liveAt = performance.now();
    if (!window.liveAt) requestAnimationFrame(look);
  };
  look();
})()"""
"""Keeps when the page's head stood there in its colours, and when the page took what is typed and tapped."""


def test_bytes_of_each_answer(demo, chromium):
    for path in ("/", "/shelf", "/write", "/write?kind=harvested", "/jar-cost", "/season"):
        context = chromium.new_context(**PHONE)
        came = first_load(context, demo.address + path)
        context.close()
        print(f"\n{path}: {sum(size for _, size in came) / 1000:.1f} kB in {len(came)} answers")
        for url, size in sorted(came, key=lambda one: -one[1]):
            print(f"  {size:>8,}  {url.partition('?')[0] or '/'}")
        assert came


def opened(chromium, address, slow=True):
    """Return the milliseconds until a page was read, and until it was alive."""
    context = chromium.new_context(**PHONE)
    context.set_default_timeout(60_000)
    page = context.new_page()
    if slow:
        session = context.new_cdp_session(page)
        session.send("Network.enable")
        session.send("Network.emulateNetworkConditions", SLOW)
        session.send("Emulation.setCPUThrottlingRate", QUARTER)
    page.add_init_script(WATCH)
    page.goto(address, wait_until="commit")
    page.wait_for_function("() => window.readAt && window.liveAt")
    found = page.evaluate("() => [window.readAt, window.liveAt]")
    context.close()
    return found


@pytest.mark.parametrize("path", ["/", "/shelf", "/write", "/write?kind=harvested"])
def test_slow_phone(path, demo, chromium):
    opened(chromium, demo.address + path, slow=False)  # what is asked is worked out once
    some = [opened(chromium, demo.address + path) for _ in range(ROUNDS)]
    for name, times in zip(("read", "alive"), zip(*some, strict=True), strict=True):
        print(
            f"\n{path} {name}: median {statistics.median(times):.0f} ms, least {min(times):.0f} ms"
        )
        assert min(times) > 0


def test_second_visit_without_the_house(own_demo, chromium):
    context = chromium.new_context(**PHONE)
    context.set_default_timeout(60_000)
    page = context.new_page()
    page.goto(own_demo.address + "/")
    settled(page)
    page.wait_for_function("() => navigator.serviceWorker.controller")
    kept = "async () => (await (await caches.open('croftbook-answers')).keys()).length > 3 && (await (await caches.open('croftbook-shell')).keys()).length === 3"
    for _ in range(300):
        if page.evaluate(kept):
            break
        page.wait_for_timeout(100)
    own_demo.server.close()
    page.add_init_script(WATCH)
    page.goto(own_demo.address + "/")
    live(page)
    read = page.evaluate("() => window.readAt")
    sent = page.evaluate(
        "() => performance.getEntriesByType('resource').reduce((sum, one) => sum + one.transferSize, 0)"
    )
    print(
        f"\nsecond visit without the house: read after {read:.0f} ms, {sent} bytes over the network"
    )
    assert "kept on this phone" in page.inner_text(".kept-note")
    context.close()
