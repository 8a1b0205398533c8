"""What a phone needs to keep the pages and the entries: manifest, sign, worker, and where a queue goes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import flask

from dashboard.ask import words_of
from dashboard.away.queue import MOST, Waiting, read_waiting, send
from dashboard.away.sign import SIZES, drawn
from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.words import Words
from ledger.errors import BookError

__all__ = ["add_away", "head_links"]

_HERE = Path(__file__).parent
_DAY = "public, max-age=86400"
_PAPER = {"light": "#f2f5ec", "dark": "#111815"}
_SHORTCUTS = (("write", "/write"), ("shelf", "/shelf"), ("shopping", "/shopping"))


def head_links(scheme: str) -> str:
    """Return what a page's head says of the sign and of installing."""
    return (
        '<link rel="icon" type="image/svg+xml" href="/sign.svg">'
        '<link rel="apple-touch-icon" href="/sign/sign-touch.png">'
        '<link rel="manifest" href="/croftbook.webmanifest">'
        f'<meta name="theme-color" content="{_PAPER[scheme]}">'
    )


def add_away(server: flask.Flask, data: Data) -> None:
    """Add the routes."""

    @server.get("/croftbook.webmanifest")
    def manifest() -> Any:
        answer = flask.jsonify(_manifest(words_of(data)))
        answer.mimetype = "application/manifest+json"
        return answer

    @server.get("/worker.js")
    def worker() -> Any:
        text = (_HERE / "worker.js").read_text("utf-8")
        answer = flask.Response(text, mimetype="text/javascript")
        answer.headers["Cache-Control"] = "no-cache"
        return answer

    @server.get("/sign.svg")
    def sign() -> Any:
        return _kept(flask.Response(drawn(), mimetype="image/svg+xml"))

    @server.get("/sign/<name>")
    def picture(name: str) -> Any:
        if name not in SIZES:
            flask.abort(404)
        return _kept(flask.Response((_HERE / "sign" / name).read_bytes(), mimetype="image/png"))

    @server.post("/waiting")
    def waiting() -> Any:
        ask = ask_of(data, "/write")
        try:
            entries = read_waiting(flask.request.get_data())
        except ValueError:
            answer = flask.jsonify({"said": ask.words("failing.400")})
            answer.status_code = 400
            return answer
        done, busy = _sent(ask, entries)
        return {"done": done, "busy": busy, "position": data.mark()}


def _sent(ask: Any, entries: list[Waiting]) -> tuple[list[dict[str, Any]], str]:
    """Send entries in their order, up to the first that stays open.

    Raises
    ------
    BookError
        When not even the first could be tried: said as any page says it.
    """
    done: list[dict[str, Any]] = []
    for one in entries[:MOST]:
        try:
            done.append(send(ask, one))
        except BookError as error:
            if not done:
                raise
            return done, ask.words.refusal(error)
        if done[-1]["state"] in ("asks", "refused"):
            break
    return done, ""


def _kept(answer: flask.Response) -> flask.Response:
    answer.headers["Cache-Control"] = _DAY
    return answer


def _manifest(words: Words) -> dict[str, Any]:
    """Return the application's manifest (W3C, Web Application Manifest)."""
    plain = [
        {"src": f"/sign/{name}", "sizes": f"{side}x{side}", "type": "image/png", "purpose": "any"}
        for name, (side, _) in SIZES.items()
        if name not in ("sign-mask.png", "sign-touch.png")
    ]
    side, _ = SIZES["sign-mask.png"]
    mask = {
        "src": "/sign/sign-mask.png", "sizes": f"{side}x{side}", "type": "image/png", "purpose": "maskable",
    }  # fmt: skip
    icon = [{"src": "/sign/sign-192.png", "sizes": "192x192", "type": "image/png"}]
    return {
        "id": "/",
        "name": words("shell.name"),
        "short_name": words("shell.name"),
        "description": words("away.described"),
        "lang": words.language,
        "start_url": "/",
        "scope": "/",
        "display": "standalone",
        "background_color": _PAPER["light"],
        "theme_color": _PAPER["light"],
        "icons": [*plain, mask],
        "shortcuts": [
            {"name": words(f"nav.{name}"), "url": path, "icons": icon} for name, path in _SHORTCUTS
        ],
    }
