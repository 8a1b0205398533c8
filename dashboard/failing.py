"""Answers that are none: what is said when a request fails, in the household's language."""

from __future__ import annotations

import logging
from typing import Any

import flask
from dash.exceptions import DashException
from werkzeug.exceptions import HTTPException

from dashboard.ask import words_of
from dashboard.data import Data
from dashboard.plain import refusal
from ledger.errors import BookUnreachable, LedgerError

__all__ = ["say_failures"]

_log = logging.getLogger("croftbook.dashboard")
_AGAIN_S = 5
_AGAIN = """const ms = Number(document.currentScript.dataset.ms);
setInterval(() => fetch("/position").then((answer) => answer.ok && location.reload(), () => {}), ms);
"""
"""Loads a page anew once the book can be read again, and not before: whoever reads it is not disturbed."""


def say_failures(server: flask.Flask, data: Data) -> None:
    """Answer every failure with a page of the program's own, or with a sentence for a script."""

    @server.get("/again.js")
    def again() -> Any:
        return flask.Response(_AGAIN, mimetype="text/javascript")

    @server.errorhandler(BookUnreachable)
    def away(error: BookUnreachable) -> Any:
        _log.warning("%s", error)
        words = words_of(data)
        return refusal(
            words,
            words("failing.away"),
            words("failing.away_text"),
            503,
            again_s=_AGAIN_S,
            home=False,
        )

    @server.errorhandler(LedgerError)
    def refused(error: LedgerError) -> Any:
        words = words_of(data)
        return refusal(words, words("shell.trouble"), words.refusal(error), 500)

    @server.errorhandler(HTTPException)
    def http(error: HTTPException) -> Any:
        words, status = words_of(data), error.code or 500
        if status < 400:  # a redirect
            return error
        known = f"failing.{status}"
        text = words(known) if words.has(known) else words("failing.other", status=status)
        answer = refusal(words, words("shell.trouble"), text, status)
        for name, value in error.get_headers():
            if name in ("Allow", "Retry-After"):
                answer.headers[name] = value
        return answer

    @server.errorhandler(Exception)
    def failed(error: Exception) -> Any:
        if isinstance(error, DashException) or not _is_a_pages_request():
            _log.info("%s", error)
            words = words_of(data)
            return refusal(words, words("shell.trouble"), words("failing.400"), 400)
        _log.exception("%s %s", flask.request.method, flask.request.path)
        words = words_of(data)
        return refusal(words, words("shell.trouble"), words("shell.failed"), 500)


def _is_a_pages_request() -> bool:
    """Return whether a request to the callbacks has the shape that a page of ours sends."""
    if not flask.request.path.endswith("_dash-update-component"):
        return True
    body = flask.request.get_json(silent=True)
    if not isinstance(body, dict) or not isinstance(body.get("output"), str):
        return False
    shapes = {"inputs": list, "changedPropIds": list, "outputs": (dict, list)}
    return all(isinstance(body.get(name), shape) for name, shape in shapes.items())
