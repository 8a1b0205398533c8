"""The one script of a first load: React, Dash's renderer and elements, and the scripts of `dashboard/assets`.

One file is one answer to wait for, and packs better than ten. Of Dash's libraries only what pages
need is in it: assets/alive.js has the few components of its core library that they use, and fetches
that library itself where a picture is explored. The dialect of scripts is that of browsers since 2020.
"""

from __future__ import annotations

import hashlib
from functools import cache
from importlib.metadata import version
from importlib.resources import files
from pathlib import Path
from typing import Any

import flask
from dash import _dash_renderer, html

__all__ = ["ASSETS", "SCRIPT", "add_bundle", "library", "script", "script_link"]

ASSETS = Path(__file__).with_name("assets")
SCRIPT = "/assets/pages.dash-renderer.js"
"""Dash looks for its renderer by this name in the first answer."""
_SUITES = "/_dash-component-suites/dash/"
_BEGINS = "var renderer=new DashRenderer();croftAhead.begins();"
_LIBRARY = (
    "deps/polyfill@7.12.1.min.js", "dcc/dash_core_components-shared.js", "dcc/dash_core_components.js",
)  # fmt: skip
"""What a picture to explore needs beside the charting script, in the order in which it runs."""


def _listed(some: Any) -> list[str]:
    """Return paths in Dash's package of what a list of resources loads at once."""
    out: list[str] = []
    for one in some:
        paths = one.get("relative_package_path", [])
        paths = paths["prod"] if isinstance(paths, dict) else paths
        if not one.get("dynamic") and not one.get("async"):
            out += [paths] if isinstance(paths, str) else paths
    return out


@cache
def script() -> bytes:
    """Return the script."""
    dash = files("dash")
    begin = [
        path for path in _listed(_dash_renderer._js_dist_dependencies) if "polyfill" not in path
    ]
    parts = [dash.joinpath(path).read_text("utf-8") for path in [*begin, *_listed(html._js_dist)]]
    parts += [path.read_text("utf-8") for path in sorted(ASSETS.glob("*.js"))]
    parts += [dash.joinpath(path).read_text("utf-8") for path in _listed(_dash_renderer._js_dist)]
    return "\n;".join([*parts, _BEGINS]).encode()


@cache
def script_link() -> str:
    """Return the address of the script under its version."""
    return f"{SCRIPT}?v={int(hashlib.sha256(script()).hexdigest()[:12], 16)}"


def library() -> list[str]:
    """Return the addresses of Dash's core library under its version."""
    return [f"{_SUITES}{path}?v={version('dash')}" for path in _LIBRARY]


def add_bundle(server: flask.Flask) -> None:
    """Add the route of the script."""

    @server.get(SCRIPT)
    def pages() -> Any:
        return flask.Response(script(), mimetype="text/javascript")
