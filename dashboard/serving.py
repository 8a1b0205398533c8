"""Listening: a production server in threads, opened on a book, stopped without losing a write."""

from __future__ import annotations

import hashlib
import logging
import os
import signal
import sys
import threading
import urllib.error
import urllib.request
import webbrowser
from pathlib import Path
from typing import Any

import click
from platformdirs import user_config_path

from dashboard.gate import Gate, Keeper
from ledger.book import Book, default_path
from ledger.errors import LedgerError

__all__ = ["keeper_of", "serve"]

_THREADS = 8
_WAIT_S = 3.0
"""How long a form waits for somebody else who writes, before it says so and tries again."""


def keeper_of(where: str) -> Keeper:
    """Return the keeper of a book's passphrase, in the user's settings folder."""
    name = hashlib.sha256(str(where).encode()).hexdigest()[:16]
    return Keeper(user_config_path("croftbook", appauthor=False) / f"gate-{name}.json")


def serve(
    where: str | None = None,
    *,
    port: int = 8050,
    lan: bool = False,
    no_browser: bool = False,
    check_only: bool = False,
    set_passphrase: bool = False,
    household: str = "home",
) -> None:
    """Open the dashboard on a book and listen until stopped.

    Parameters
    ----------
    where : str, optional
        The book's path or URL; default as `Book.open`.
    port : int
    lan : bool
        Listen on the network; needs the household's passphrase.
    no_browser : bool
        Do not open a browser.
    check_only : bool
        Ask a running dashboard whether it is well, and exit.
    set_passphrase : bool
        Ask for a new passphrase of the household, and exit.
    household : str

    Raises
    ------
    click.ClickException
        When nothing can be served: the port is taken, there is no passphrase.
    """
    if check_only:
        _check(port)
        return
    kept = keeper_of(_named(where))
    if set_passphrase:
        ask_passphrase(kept)
        click.echo("The passphrase is set; whoever was in has to say the new one.", err=True)
        return
    keeper = _ready(kept) if lan else None
    gate = Gate(keeper, Gate.names_here() if lan else ())
    try:
        book = Book.open(where, household, wait=_WAIT_S)
    except LedgerError as error:
        raise click.ClickException(str(error)) from None
    from dashboard.app import make_app

    app = make_app(book, gate=gate)
    app.data.watch.start()
    host = "0.0.0.0" if lan else "127.0.0.1"
    _listen(app, book, host, port, opens=not no_browser)


def _named(where: str | None) -> str:
    chosen = str(where or os.environ.get("CROFTBOOK") or default_path())
    return chosen if "://" in chosen else str(Path(chosen).resolve())


def _ready(keeper: Keeper) -> Keeper:
    """Return the keeper with a passphrase set; at a terminal it is asked for."""
    if keeper.is_set:
        return keeper
    if not sys.stdin.isatty():
        raise click.ClickException(
            "to listen on the network a passphrase is needed. Set one at a terminal: "
            "croftbook serve --set-passphrase"
        )
    ask_passphrase(keeper)
    return keeper


def ask_passphrase(keeper: Keeper) -> None:
    """Ask for a new passphrase, twice, and store its hash."""
    while True:
        said = click.prompt(
            "A passphrase for the household", hide_input=True, confirmation_prompt=True, err=True
        )
        try:
            keeper.set(said)
            return
        except LedgerError as error:
            click.echo(str(error), err=True)


def _check(port: int) -> None:
    try:
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/health", timeout=5) as answer:
            click.echo(answer.read().decode().strip())
    except (urllib.error.URLError, OSError) as error:
        raise click.ClickException(f"nothing is served on port {port}: {error}") from None


def _stop(_signal: int, _frame: Any) -> None:
    """Stop as Ctrl-C does: a service manager asks so."""
    raise KeyboardInterrupt


def _listen(app: Any, book: Book, host: str, port: int, *, opens: bool) -> None:
    from waitress.server import create_server

    # A page asks for several things at once; that some wait a moment is nothing to tell a person.
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    try:
        server = create_server(app.server, host=host, port=port, threads=_THREADS, ident=None)
    except OSError as error:
        raise click.ClickException(
            f"port {port} cannot be had ({error.strerror}). Name another: --port {port + 1}"
        ) from None
    address = f"http://127.0.0.1:{port}"
    click.echo(
        f"Croftbook is open at {address}" + (" and on the network" if host == "0.0.0.0" else ""),
        err=True,
    )
    click.echo("Stop it with Ctrl-C.", err=True)
    signal.signal(signal.SIGTERM, _stop)
    if opens:
        threading.Timer(0.5, webbrowser.open, [address]).start()
    try:
        server.run()
    except KeyboardInterrupt:
        pass
    finally:
        server.task_dispatcher.shutdown(cancel_pending=False, timeout=10)
        server.close()
        book.close()
        click.echo("Closed; everything written down is kept.", err=True)
