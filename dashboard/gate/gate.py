"""What every request passes: the name it asks for, where it comes from, and who is signed in."""

from __future__ import annotations

import contextlib
import ipaddress
import socket
from collections.abc import Iterable, Mapping
from http.cookies import CookieError, SimpleCookie
from typing import Any
from urllib.parse import urlsplit

import flask

from dashboard.ask import words_of
from dashboard.data import Data
from dashboard.gate.devices import Devices, SignedIn
from dashboard.gate.passphrase import Keeper
from dashboard.gate.waits import Waits
from dashboard.look import FONT, SHEET
from dashboard.plain import refusal

__all__ = ["Gate"]

_OWN = ("localhost", "127.0.0.1", "::1")
_OPEN = (
    "/enter", "/trust", "/trust/croftbook.crt", "/assets/croft.css", SHEET, FONT, "/health",
)  # fmt: skip
_SESSION, _DEVICE = "croftbook", "croftbook-device"
_SESSION_S, _DEVICE_S = 30 * 86_400, 400 * 86_400
MOST_BYTES = 2_000_000
"""Most bytes that a request may bring."""


class Gate:
    """Guards every route of a server, those of callbacks and scripts among them.

    Parameters
    ----------
    keeper : Keeper, optional
        With one, a session is needed; without, only this machine can ask (the server listens there).
    devices : Devices, optional
        Where sessions are kept; needed with a keeper.
    names : iterable of str
        Host names and addresses that may be asked for besides this machine's own.
    fingerprint : str
        Of the certificate that the household is asked to trust; empty without TLS of our own.
    authority : bytes
        That certificate, PEM.
    """

    def __init__(
        self,
        keeper: Keeper | None = None,
        devices: Devices | None = None,
        names: Iterable[str] = (),
        *,
        fingerprint: str = "",
        authority: bytes = b"",
    ) -> None:
        if (keeper is None) != (devices is None):
            raise ValueError("a passphrase needs a place for its sessions")
        self.keeper, self.devices, self.waits = keeper, devices, Waits()
        self.names = {*_OWN, *(name.lower() for name in names)}
        self.fingerprint, self.authority = fingerprint, authority

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
        from dashboard.gate.entrance import add_entrance

        self._data = data
        server.config["MAX_CONTENT_LENGTH"] = MOST_BYTES
        server.before_request(self._check)
        add_entrance(server, data, self)

    def _check(self) -> Any:
        if not self.is_name_known(flask.request.host):
            words = words_of(self._data)
            text = words("failing.name", name=flask.request.host[:200])
            return refusal(words, words("shell.trouble"), text, 403, home=False)
        if flask.request.method not in ("GET", "HEAD", "OPTIONS") and not self._is_own_page():
            words = words_of(self._data)
            return refusal(words, words("shell.trouble"), words("failing.elsewhere"), 403)
        if self.keeper is None or flask.request.path in _OPEN or self.device_in() is not None:
            return None
        if flask.request.method == "GET" and "text/html" in flask.request.headers.get("Accept", ""):
            return flask.redirect("/enter")
        words = words_of(self._data)
        return refusal(words, words("shell.trouble"), words("failing.401"), 401, home=False)

    # Who it is

    def device_in(self) -> int | None:
        """Return the device that this request's session belongs to, None without one."""
        assert self.keeper is not None
        assert self.devices is not None
        if "device_in" not in flask.g:
            secure = flask.request.is_secure
            said = flask.request.cookies.get(_named(_SESSION, secure=secure))
            flask.g.device_in = self.devices.signed_in(said, self.keeper.stamp)
        return flask.g.device_in

    def is_known(self, headers: Mapping[str, str], *, secure: bool) -> bool:
        """Return whether a request comes from a device that knows, or once knew, the passphrase.

        Asked by the server before it finds a thread for a request: strangers wait for each other.
        """
        if self.keeper is None or self.devices is None:
            return True
        try:
            cookies = SimpleCookie(headers.get("Cookie", ""))
        except CookieError:
            return False
        session, device = (cookies.get(_named(one, secure=secure)) for one in (_SESSION, _DEVICE))
        if session and self.devices.signed_in(session.value, self.keeper.stamp) is not None:
            return True
        return bool(device and self.devices.known(device.value) is not None)

    def known_device(self) -> int | None:
        """Return the number of the device that asks, None for a stranger."""
        assert self.devices is not None
        secure = flask.request.is_secure
        return self.devices.known(flask.request.cookies.get(_named(_DEVICE, secure=secure)))

    def device_secret(self) -> str | None:
        """Return what the device that asks is known by."""
        return flask.request.cookies.get(_named(_DEVICE, secure=flask.request.is_secure))

    def give(self, answer: Any, signed: SignedIn) -> None:
        """Hand a browser its session, and what it is known by later."""
        secure = flask.request.is_secure
        for name, value, stays in (
            (_SESSION, signed.session, _SESSION_S),
            (_DEVICE, signed.device, _DEVICE_S),
        ):
            answer.set_cookie(
                _named(name, secure=secure), value, max_age=stays, path="/", secure=secure,
                httponly=True, samesite="Strict",
            )  # fmt: skip

    def take(self, answer: Any) -> None:
        """End the session of this request, here and in the browser."""
        assert self.devices is not None
        secure = flask.request.is_secure
        name = _named(_SESSION, secure=secure)
        self.devices.leave(flask.request.cookies.get(name))
        answer.delete_cookie(name, path="/", secure=secure, httponly=True, samesite="Strict")

    # Where it comes from

    def is_name_known(self, host: str) -> bool:
        """Return whether a Host header names this server."""
        if "@" in host:
            return False
        try:
            name = (urlsplit(f"//{host}").hostname or "").lower()
        except ValueError:
            return False
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
        try:
            return urlsplit(origin).netloc == flask.request.host
        except ValueError:
            return False


def _named(name: str, *, secure: bool) -> str:
    """Return a cookie's name; over TLS one that no other page of the network can set (RFC 6265bis)."""
    return f"__Host-{name}" if secure else name
