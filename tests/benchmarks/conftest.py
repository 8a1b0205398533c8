"""The books, the servers and the browser of tests/browser, for what is measured in a browser."""

from __future__ import annotations

from browser.conftest import (  # noqa: F401 - fixtures, found here by their names
    chromium,
    demo,
    demo_file,
    forty_years,
    own_demo,
    serve,
)
