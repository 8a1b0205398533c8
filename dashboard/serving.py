"""Listening: a production server in threads, opened on a book, stopped without losing a write."""

from __future__ import annotations

import hashlib
import ipaddress
import logging
import os
import signal
import ssl
import sys
import threading
import time
import urllib.error
import urllib.request
import webbrowser
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import click
from platformdirs import user_config_path, user_data_path

from dashboard.gate import Devices, Gate, Keeper
from ledger.book import Book, default_path
from ledger.errors import LedgerError

__all__ = ["devices_of", "keeper_of", "serve"]

_DAY_S = 86400.0
_WAIT_S = 3.0
"""How long a form waits for somebody else who writes, before it says so and tries again."""


def keeper_of(where: str) -> Keeper:
    """Return the keeper of a book's passphrase, in the user's settings folder."""
    return Keeper(user_config_path("croftbook", appauthor=False) / f"gate-{_mark(where)}.json")


def devices_of(where: str) -> Devices:
    """Return the devices that use a book, a file in the user's data folder."""
    return Devices(user_data_path("croftbook", appauthor=False) / f"devices-{_mark(where)}.sqlite")


def _mark(where: str) -> str:
    return hashlib.sha256(str(where).encode()).hexdigest()[:16]


def serve(
    where: str | None = None,
    *,
    port: int = 8050,
    lan: bool = False,
    no_browser: bool = False,
    check_only: bool = False,
    set_passphrase: bool = False,
    household: str = "home",
    tls: bool = False,
    host_names: Sequence[str] = (),
    behind: Sequence[str] = (),
    is_sample: bool = False,
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
    tls : bool
        Encrypt, with a certificate of the household's own; made on first use.
    host_names : sequence of str
        Names that may be asked for besides this machine's own.
    behind : sequence of str
        Addresses of proxies that stand before this server and are believed.
    is_sample : bool
        The book is the invented household, which every page then says.

    Raises
    ------
    click.ClickException
        When nothing can be served: the port is taken, there is no passphrase.
    """
    if check_only:
        _check(port)
        return
    named = _named(where) if household == "home" else f"{_named(where)}\n{household}"
    kept, devices = keeper_of(named), devices_of(named)
    if set_passphrase:
        ask_passphrase(kept)
        devices.end_all()
        click.echo("The passphrase is set; every device has to sign in with the new one.", err=True)
        return
    if tls and not lan:
        raise click.ClickException("--tls goes with --lan: serve --lan --tls")
    host = "0.0.0.0" if lan else "127.0.0.1"
    proxies, names = _proxies(behind), [_host_name(one) for one in host_names]
    is_guarded = lan or bool(proxies)
    if is_guarded:
        _ready(kept)
        names += Gate.names_here() if lan else []
    certificate = _certificate(names) if tls else None
    gate = Gate(
        kept if is_guarded else None,
        devices if is_guarded else None,
        names,
        fingerprint=certificate.fingerprint if certificate else "",
        authority=certificate.authority if certificate else b"",
    )
    try:
        book = Book.open(where, household, wait=_WAIT_S)
    except LedgerError as error:
        raise click.ClickException(str(error)) from None
    from dashboard.app import make_app
    from dashboard.sample import Sample

    context = certificate.context() if certificate else None
    # behind a proxy nobody reaches a port beside this one
    sample = (
        None if is_sample or proxies else Sample(make_app, gate, host=host, of=port, tls=context)
    )
    app = make_app(book, gate=gate, sample=sample, sample_of=0 if is_sample else None)
    app.data.watch.start()
    if context:
        _daily(lambda: certificate.renew(context, _tls_names(names)))
    try:
        _listen(app, book, gate, host, port, certificate, context, proxies, opens=not no_browser)
    finally:
        if sample is not None:
            sample.close()


def _tls_names(names: Sequence[str]) -> set[str]:
    return {"localhost", "127.0.0.1", *names}


def _daily(work: Callable[[], object]) -> None:
    """Do something once a day, beside the server, for as long as it runs."""

    def days() -> None:
        while True:
            time.sleep(_DAY_S)
            try:
                work()
            except Exception:  # the pages go on; tomorrow comes
                logging.getLogger(__name__).exception("daily work")

    threading.Thread(target=days, daemon=True, name="daily work").start()


def _certificate(names: Sequence[str]) -> Any:
    from dashboard.gate.certificate import Certificate

    try:
        return Certificate.kept(
            user_data_path("croftbook", appauthor=False) / "tls", _tls_names(names)
        )
    except (OSError, ValueError) as error:
        raise click.ClickException(f"the certificate cannot be made: {error}") from None


def _proxies(behind: Sequence[str]) -> list[str]:
    try:
        return [str(ipaddress.ip_address(one.strip())) for one in behind]
    except ValueError as error:
        raise click.BadParameter(
            f"{error}. Give the proxy's address, as 127.0.0.1", param_hint="--behind"
        ) from None


def _host_name(text: str) -> str:
    """Return a host name as browsers send it.

    Raises
    ------
    click.BadParameter
        When it is none: a whole address, a port, a star.
    """
    name = text.strip().lower().rstrip(".")
    try:
        return str(ipaddress.ip_address(name.strip("[]")))
    except ValueError:
        pass
    labels = name.split(".")
    if len(name) > 253 or not all(
        0 < len(one) < 64 and one.replace("-", "a").replace("_", "a").isalnum() and one.isascii()
        for one in labels
    ):
        raise click.BadParameter(
            f"{text!r} is no host name. Give a name alone, as kitchen.local",
            param_hint="--host-name",
        )
    return name


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
    """Say whether a dashboard lives on a port, encrypted or not."""
    import http.client

    problem = ""
    for scheme in ("http", "https"):
        # what is asked is this machine itself, and only whether it lives: no certificate to compare
        ours = ssl._create_unverified_context() if scheme == "https" else None
        try:
            address = f"{scheme}://127.0.0.1:{port}/health"
            with urllib.request.urlopen(address, timeout=5, context=ours) as answer:
                click.echo(answer.read().decode().strip())
                return
        except (urllib.error.URLError, OSError, http.client.HTTPException) as error:
            problem = problem or str(error)
    raise click.ClickException(f"nothing is served on port {port}: {problem}")


def _listen(
    app: Any,
    book: Book,
    gate: Gate,
    host: str,
    port: int,
    certificate: Any,
    context: ssl.SSLContext | None,
    proxies: Sequence[str],
    *,
    opens: bool,
) -> None:
    from dashboard.listening import Listening
    from dashboard.static import pack_ahead

    try:
        server = Listening(app.server, gate, host=host, port=port, behind=proxies, tls=context)
    except OSError as error:
        raise click.ClickException(
            f"port {port} cannot be had ({error.strerror}). Name another: --port {port + 1}"
        ) from None
    address = f"{'https' if certificate else 'http'}://127.0.0.1:{port}"
    is_lan = host == "0.0.0.0"
    click.echo(
        f"Croftbook is open at {address}" + (" and on the network" if is_lan else ""), err=True
    )
    if is_lan:
        _say_network(gate, certificate, port)
    click.echo("Stop it with Ctrl-C.", err=True)
    for one in (signal.SIGTERM, signal.SIGINT):
        signal.signal(one, lambda *_: server.stop())
    threading.Thread(target=pack_ahead, daemon=True).start()
    if opens:
        threading.Timer(0.5, webbrowser.open, [address]).start()
    try:
        server.run()
    finally:
        book.close()
        if gate.devices is not None:
            gate.devices.close()
        click.echo("Closed; everything written down is kept.", err=True)


def _say_network(gate: Gate, certificate: Any, port: int) -> None:
    """Say under which names the network reaches this machine, and whether what is sent is encrypted."""
    scheme = "https" if certificate else "http"
    own = ("localhost", "127.0.0.1", "::1")
    names = [f"[{one}]" if ":" in one else one for one in sorted(gate.names) if one not in own]
    click.echo("Phones ask for one of:", err=True)
    for name in names:
        click.echo(f"  {scheme}://{name}:{port}", err=True)
    if not certificate:
        click.echo(
            "Not encrypted: the passphrase and the pages cross the network in the open. "
            "serve --lan --tls encrypts them.",
            err=True,
        )
        return
    made = (
        "A certificate was made for this household."
        if certificate.is_new
        else "The certificate is that of before."
    )
    click.echo(f"{made} Each phone trusts it once: {scheme}://ADDRESS:{port}/trust", err=True)
    click.echo(
        f"Its fingerprint (SHA-256), to compare on the phone:\n  {certificate.fingerprint}",
        err=True,
    )
