"""Scripts and styles: compressed once, kept on disk, and kept by the browser under their version."""

from __future__ import annotations

import hashlib
import re
from importlib.metadata import version

import brotli
import flask
from platformdirs import user_cache_path

from dashboard.bundle import ASSETS, script
from dashboard.look import sheet
from ledger.files import whole_file

__all__ = [
    "ASSETS",
    "charting_script",
    "drawing_part",
    "keep_compressed",
    "pack_ahead",
    "parts_version",
]

_YEAR = "public, max-age=31536000, immutable"
_PREFIX = "/_dash-component-suites/"
_LARGE = 2_000_000
_FINGERPRINT = re.compile(r"\.v\w+m\d+\.")


def charting_script() -> str:
    """Return the address of the charting script under its version.

    The library asks for it without one; assets/croft.js makes it ask here (see the page's head).
    """
    return f"{_PREFIX}plotly/package_data/plotly.min.js?v={version('plotly')}"


def parts_version() -> str:
    """Return what assets/croft.js puts behind the address of a part that a library loads when wanted."""
    return f"?v={version('dash')}"


def drawing_part() -> str:
    """Return the address of the part that draws with the charting script."""
    return f"{_PREFIX}dash/dcc/async-graph.js{parts_version()}"


def _is_versioned() -> bool:
    """Return whether the address asked for changes with what it gives."""
    asked = flask.request
    return bool({"v", "m"} & set(asked.args)) or _FINGERPRINT.search(asked.path) is not None


def keep_compressed(server: flask.Flask) -> None:
    """Serve libraries' scripts from a copy that was compressed once.

    The charting script is 4.8 MB; compressing it anew for each phone would take longer than sending
    it. A copy that cannot be kept (no space, no right) is made in memory and sent all the same.
    """
    memory: dict[str, bytes] = {}

    @server.after_request
    def compress(response: flask.Response) -> flask.Response:
        path = flask.request.path
        is_script = path.startswith((_PREFIX, "/assets/")) and response.status_code == 200
        is_packed = (
            response.mimetype == "font/woff2"
        )  # it is brotli in itself: again would be longer
        if (
            not is_script
            or is_packed
            or "br" not in flask.request.headers.get("Accept-Encoding", "")
        ):
            return _small(response) if not is_script else _cached(response)
        response.direct_passthrough = False
        raw = response.get_data()
        key = _key(raw)
        if key not in memory:
            memory[key] = _stored(key, raw)
        response.set_data(memory[key])
        response.headers["Content-Encoding"] = "br"
        response.headers["Vary"] = "Accept-Encoding"
        return _cached(response)


def pack_ahead() -> None:
    """Compress what every first load needs, where it is not kept yet: else the first phone waits for it."""
    for raw in (script(), sheet().encode()):
        _stored(_key(raw), raw)


def _key(raw: bytes) -> str:
    return hashlib.sha256(raw).hexdigest()[:32]


def _cached(response: flask.Response) -> flask.Response:
    response.headers["Cache-Control"] = _YEAR if _is_versioned() else "no-cache"
    return response


def _small(response: flask.Response) -> flask.Response:
    """Compress an answer lightly where that pays."""
    if (
        "br" in flask.request.headers.get("Accept-Encoding", "")
        and not response.direct_passthrough
        and response.content_type.startswith(("application/json", "text/"))
        and (response.content_length or 0) > 1500
    ):
        response.set_data(brotli.compress(response.get_data(), quality=5))
        response.headers["Content-Encoding"] = "br"
        response.headers["Vary"] = "Accept-Encoding"
    return response


def _stored(key: str, raw: bytes) -> bytes:
    folder = user_cache_path("croftbook", appauthor=False) / "scripts"
    file = folder / f"{key}.br"
    try:
        return file.read_bytes()
    except OSError:
        # at the highest quality the charting script would take half a minute for a thirtieth less
        packed = brotli.compress(raw, quality=11 if len(raw) < _LARGE else 9)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with whole_file(file) as part:
            part.write(packed)
    except OSError:
        pass  # it is kept in memory then
    return packed
