"""What every request passes: the name it asks for, where it comes from, and who is in."""

from __future__ import annotations

import contextlib
import datetime as dt
import ipaddress
import secrets
import socket
from collections.abc import Iterable
from typing import Any
from urllib.parse import urlsplit

import flask

from dashboard.ask import words_of
from dashboard.data import Data
from dashboard.gate.passphrase import Keeper

__all__ = ["Gate"]

_OWN = ("localhost", "127.0.0.1", "::1")
_OPEN = ("/enter", "/assets/croft.css", "/health")
_STAYS = dt.timedelta(days=30)


class Gate:
    """Guards every route of a server, those of callbacks and scripts among them.

    Parameters
    ----------
    keeper : Keeper, optional
        With one, a session is needed; without, only this machine can ask (the server listens there).
    names : iterable of str
        Host names and addresses that may be asked for besides this machine's own.
    """

    def __init__(self, keeper: Keeper | None = None, names: Iterable[str] = ()) -> None:
        self.keeper = keeper
        self.names = {*_OWN, *(name.lower() for name in names)}

    @staticmethod
    def names_here() -> set[str]:
        """Return the names and addresses under which the network reaches this machine."""
        name = socket.gethostname()
        found = {name, f"{name}.local"}
        with contextlib.suppress(OSError):
            found |= {str(one[4][0]) for one in socket.getaddrinfo(name, None)}
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
            try:
                probe.connect(("192.0.2.1", 9))  # RFC 5737: nothing is sent, the route is asked
                found.add(probe.getsockname()[0])
            except OSError:
                pass
        return {one.lower() for one in found}

    def guard(self, server: flask.Flask, data: Data) -> None:
        """Put the gate before every route."""
        server.secret_key = self.keeper.key() if self.keeper else secrets.token_hex(32)
        server.config.update(
            SESSION_COOKIE_NAME="croftbook",
            SESSION_COOKIE_HTTPONLY=True,
            SESSION_COOKIE_SAMESITE="Strict",
            PERMANENT_SESSION_LIFETIME=_STAYS,
            MAX_CONTENT_LENGTH=2_000_000,
        )
        server.before_request(self._check)
        if self.keeper is not None:
            self._add_entrance(server, data)

    def _check(self) -> Any:
        if not self._is_name_known(flask.request.host):
            return _refused("This book is not kept under that name.", 403)
        if flask.request.method not in ("GET", "HEAD", "OPTIONS") and not self._is_own_page():
            return _refused("That did not come from a page of this book.", 403)
        if self.keeper is None or flask.request.path in _OPEN or flask.session.get("in"):
            return None
        if flask.request.method == "GET" and "text/html" in flask.request.headers.get("Accept", ""):
            return flask.redirect("/enter")
        return _refused("The passphrase is needed.", 401)

    def _is_name_known(self, host: str) -> bool:
        name = (urlsplit(f"//{host}").hostname or "").lower()
        with contextlib.suppress(ValueError):
            name = str(ipaddress.ip_address(name))
        return name in self.names

    def _is_own_page(self) -> bool:
        """Return whether a writing request comes from a page of this very server.

        A browser says where a request comes from in Origin; programs that are no browser send none,
        and have no cookie of anybody's to misuse.
        """
        origin = flask.request.headers.get("Origin")
        if origin is None:
            return flask.request.headers.get("Sec-Fetch-Site", "same-origin") == "same-origin"
        return urlsplit(origin).netloc == flask.request.host

    def _add_entrance(self, server: flask.Flask, data: Data) -> None:
        keeper = self.keeper
        assert keeper is not None

        @server.route("/enter", methods=["GET", "POST"])
        def enter() -> Any:
            words, said = words_of(data), ""
            if flask.request.method == "POST":
                wait = keeper.wait_s()
                if wait > 0:
                    said = words("gate.wait", n=int(wait) + 1)
                elif keeper.fits(flask.request.form.get("passphrase", "")):
                    flask.session.permanent = True
                    flask.session["in"] = True
                    return flask.redirect("/")
                else:
                    said = words("gate.wrong")
            page = flask.render_template_string(_ENTRANCE, words=words, said=said)
            return flask.Response(page, 401 if said else 200)

        @server.post("/leave")
        def leave() -> Any:
            flask.session.clear()
            return flask.redirect("/enter")


def _refused(text: str, status: int) -> flask.Response:
    return flask.Response(f"{text}\n", status, mimetype="text/plain")


_ENTRANCE = """<!DOCTYPE html>
<html lang="{{ words.language }}"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{ words("shell.name") }}</title><link rel="stylesheet" href="/assets/croft.css"></head>
<body><main class="entrance"><h1>{{ words("shell.name") }}</h1>
<form method="post" action="/enter">
<label for="passphrase">{{ words("gate.passphrase") }}</label>
<input id="passphrase" name="passphrase" type="password" autocomplete="current-password" autofocus required
 {% if said %}aria-describedby="said" aria-invalid="true"{% endif %}>
{% if said %}<p id="said" role="alert">{{ said }}</p>{% endif %}
<button class="button" type="submit">{{ words("gate.enter") }}</button>
</form></main></body></html>
"""
