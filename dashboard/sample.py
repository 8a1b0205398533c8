"""The invented household beside a book: a book, a port and a browser's store of its own, so nothing can mix."""

from __future__ import annotations

import copy
import ssl
import tempfile
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import flask

from dashboard.gate import Gate

__all__ = ["Sample", "back"]


class Sample:
    """Builds the invented household when it is asked for first, and serves it until closed.

    Parameters
    ----------
    make : callable
        Makes the dashboard of a book, as `dashboard.app.make_app`.
    gate : Gate
        Who is let in: whoever is at the household's own book.
    host : str
    of : int
        Port of the household's own book.
    tls : ssl.SSLContext, optional
    """

    def __init__(
        self,
        make: Callable[..., Any],
        gate: Gate,
        *,
        host: str = "127.0.0.1",
        of: int = 0,
        tls: ssl.SSLContext | None = None,
    ) -> None:
        self._make = make
        self.gate, self.host, self.of, self.tls = gate, host, of, tls
        self._server: Any = None
        self._folder: tempfile.TemporaryDirectory[str] | None = None
        self._turn = threading.Lock()

    def add(self, server: flask.Flask) -> None:
        """Add the way to it; it takes some seconds the first time, while the household is invented."""

        @server.get("/sample")
        def sample() -> Any:
            return flask.redirect(f"{_at(self.port())}/", 302)

    def port(self) -> int:
        """Return its port; it is built where it is not there yet."""
        with self._turn:
            if self._server is None:
                self._server = self._start()
            return int(self._server.port)

    def _start(self) -> Any:
        import seed_demo
        from dashboard.listening import Listening
        from ledger.book import Book

        self._folder = tempfile.TemporaryDirectory(prefix="croftbook-sample-")
        book = Book.open(Path(self._folder.name) / "sample.sqlite")
        seed_demo.build(book, until=book.today())
        self._book = book
        gate = copy.copy(self.gate)  # the same sessions, and words of its own book
        app = self._make(book, gate=gate, sample_of=self.of)
        return Listening(app.server, gate, host=self.host, tls=self.tls).start()

    def close(self) -> None:
        """Stop serving it, and delete it."""
        with self._turn:
            if self._server is None:
                return
            self._server.close()
            self._book.close()
            self._server = None
            if self._folder is not None:
                self._folder.cleanup()


def back(port: int) -> str:
    """Return the address of the household's own book, from a request to the sample; empty where there is none."""
    return f"{_at(port)}/" if port else ""


def _at(port: int) -> str:
    """Return an address on this machine, named as the request named it."""
    asked = urlsplit(flask.request.host_url)
    name = asked.hostname or "127.0.0.1"
    return f"{asked.scheme}://{f'[{name}]' if ':' in name else name}:{port}"
