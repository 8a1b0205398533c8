"""The server: requests are read whole before a thread is found for them, and strangers wait aside."""

from __future__ import annotations

import asyncio
import contextlib
import ipaddress
import logging
import socket
import ssl
import threading
from collections.abc import Callable, Collection
from concurrent.futures import ThreadPoolExecutor
from typing import Any

from tornado.httpserver import HTTPServer
from tornado.httputil import (
    HTTPHeaders,
    HTTPMessageDelegate,
    HTTPServerRequest,
    RequestStartLine,
    ResponseStartLine,
)
from tornado.iostream import IOStream, SSLIOStream
from tornado.netutil import ssl_wrap_socket
from tornado.wsgi import WSGIContainer

from dashboard.crowd import Crowd, Pace, Standing, Visit
from dashboard.gate import Gate
from dashboard.gate.gate import MOST_BYTES
from dashboard.gate.waits import network_of
from dashboard.sweeping import Sweeper

__all__ = ["Listening"]

_log = logging.getLogger("croftbook.server")
_THREADS, _STRANGERS_THREADS = 8, 1
_HEADER_S, _BODY_S = 15.0, 30.0
_HEADER_BYTES, _STRANGERS_BYTES = 32_768, 16_384
_REQUESTS_EACH_S, _REQUESTS_AT_ONCE = 10.0, 40
_CONNECTIONS_EACH_S, _CONNECTIONS_AT_ONCE = 100.0, 300
_STOP_S = 10.0
_QUEUED = 512
_TLS_HELLO = b"\x16"
"""The first byte of a TLS connection: a handshake record (RFC 8446, 5.1)."""


class Listening:
    """A WSGI application listening on a port.

    Parameters
    ----------
    app : callable
        WSGI application.
    gate : Gate, optional
        Tells who is known; strangers share one thread, and each address of theirs waits its turn.
    host : str
    port : int
        0 takes a free one.
    tls : ssl.SSLContext, optional
    behind : collection of str
        Addresses of proxies whose X-Forwarded-For and X-Forwarded-Proto are believed.

    Attributes
    ----------
    port : int
    crowd : Crowd

    Raises
    ------
    OSError
        When the port cannot be had.
    """

    def __init__(
        self,
        app: Callable[..., Any],
        gate: Gate | None = None,
        *,
        host: str = "127.0.0.1",
        port: int = 0,
        tls: ssl.SSLContext | None = None,
        behind: Collection[str] = (),
    ) -> None:
        self.app, self.gate, self.tls = app, gate or Gate(), tls
        self.behind = frozenset(str(ipaddress.ip_address(one)) for one in behind)
        self.crowd = Crowd(exempt=self.behind)
        self._socket = socket.create_server((host, port), backlog=_QUEUED)
        self._socket.setblocking(False)
        self.port: int = self._socket.getsockname()[1]
        self._loop: asyncio.AbstractEventLoop | None = None
        self._stop: asyncio.Event | None = None
        self._is_up = threading.Event()
        self._is_asked_to_stop = False
        self._thread: threading.Thread | None = None

    def run(self) -> None:
        """Listen until `stop` is called, then finish what was begun."""
        # A request that nobody well-meaning sends is not worth a line each.
        for name in ("tornado.access", "tornado.general"):
            logging.getLogger(name).setLevel(logging.CRITICAL)
        asyncio.run(self._serve())

    def start(self) -> Listening:
        """Listen in a thread of its own; returns when it does."""
        self._thread = threading.Thread(target=self.run, daemon=True)
        self._thread.start()
        self._is_up.wait(10)
        return self

    def stop(self) -> None:
        """Ask it to stop; safe in a signal handler and from any thread."""
        self._is_asked_to_stop = True
        if self._loop is not None and self._stop is not None:
            with contextlib.suppress(RuntimeError):  # it has stopped meanwhile
                self._loop.call_soon_threadsafe(self._stop.set)

    def close(self) -> None:
        """Stop it and wait until it has."""
        self.stop()
        if self._thread is not None:
            self._thread.join(_STOP_S + 5)

    async def _serve(self) -> None:
        self._loop, self._stop = asyncio.get_running_loop(), asyncio.Event()
        doorway = Doorway(self)
        doorway.add_socket(self._socket)
        self._is_up.set()
        if not self._is_asked_to_stop:
            await self._stop.wait()
        doorway.stop()
        await doorway.finish()


class Doorway(HTTPServer):
    """Connections as they come: counted, read in bounded time and size, and sent to their lane."""

    def initialize(self, listening: Listening) -> None:  # type: ignore[override]
        """Prepare the lanes (the library calls this in place of a constructor)."""
        super().initialize(
            lambda _request: None,
            ssl_options=listening.tls,
            max_header_size=_HEADER_BYTES,
            max_body_size=MOST_BYTES,
            max_buffer_size=MOST_BYTES + _HEADER_BYTES,
            idle_connection_timeout=_HEADER_S,
            body_timeout=_BODY_S,
        )
        self.gate, self.crowd, self.behind = listening.gate, listening.crowd, listening.behind
        self.connecting = Pace(_CONNECTIONS_EACH_S, _CONNECTIONS_AT_ONCE)
        self.requesting = Pace(_REQUESTS_EACH_S, _REQUESTS_AT_ONCE)
        self.pools = [
            ThreadPoolExecutor(_THREADS, "known"),
            ThreadPoolExecutor(_STRANGERS_THREADS, "stranger"),
        ]
        self.known, self.strangers = (WSGIContainer(listening.app, pool) for pool in self.pools)
        self.visits: dict[object, Visit] = {}
        self.working: set[asyncio.Task[None]] = set()
        self.sweeper = Sweeper()

    async def finish(self) -> None:
        """Answer what was begun, then close."""
        if self.working:
            await asyncio.wait(self.working, timeout=_STOP_S)
        await self.close_all_connections()
        for pool in self.pools:
            pool.shutdown(wait=False, cancel_futures=True)

    # Connections

    def _handle_connection(self, connection: socket.socket, address: Any) -> None:
        """Take a connection that was accepted (in place of the library's)."""
        network = network_of(address[0])
        is_exempt = network in self.behind
        if not is_exempt and self.connecting.is_over(network):
            connection.close()
            return
        visit = self.crowd.enter(network, connection.close)
        if visit is None:
            connection.close()
        elif self.ssl_options is None:
            self._begin(IOStream(connection, **self._limits()), address, visit)
        else:
            task = asyncio.get_running_loop().create_task(self._greet(connection, address, visit))
            cancel = visit.close = task.cancel

            def ended(_task: Any) -> None:  # also where it was cancelled before it began
                if visit.close == cancel:
                    self.crowd.leave(visit)
                    connection.close()

            task.add_done_callback(ended)

    def _limits(self) -> dict[str, Any]:
        return {"max_buffer_size": self.max_buffer_size, "read_chunk_size": self.read_chunk_size}

    async def _greet(self, connection: socket.socket, address: Any, visit: Visit) -> None:
        """Speak TLS with whoever does, and send whoever does not to the address that does."""
        loop = asyncio.get_running_loop()
        said = loop.create_future()
        loop.add_reader(connection, lambda: said.done() or said.set_result(None))
        try:
            try:
                await asyncio.wait_for(said, _HEADER_S)
            finally:
                loop.remove_reader(connection)
            first = connection.recv(1, socket.MSG_PEEK)
            stream: IOStream
            if first == _TLS_HELLO:
                assert self.ssl_options is not None
                wrapped = ssl_wrap_socket(
                    connection, self.ssl_options, server_side=True, do_handshake_on_connect=False
                )
                stream = SSLIOStream(wrapped, **self._limits())
            else:
                stream = IOStream(connection, **self._limits())
            self._begin(stream, address, visit)
        except (OSError, TimeoutError):
            pass  # it went away, said nothing, or spoke something else: closed by whoever began this

    def _begin(self, stream: IOStream, address: Any, visit: Visit) -> None:
        visit.close = stream.close
        self.handle_stream(stream, address)
        for one in self._connections:  # the library keeps the connection that it just made in a set
            if one.stream is stream:
                self.visits[one] = visit
                break

    def on_close(self, server_conn: Any) -> None:
        """Note that a connection is gone."""
        super().on_close(server_conn)
        visit = self.visits.pop(server_conn, None)
        if visit is not None:
            self.crowd.leave(visit)

    # Requests

    def start_request(self, server_conn: Any, request_conn: Any) -> HTTPMessageDelegate:
        """Return what reads the next request of a connection."""
        return _Arriving(self, server_conn, request_conn)

    def is_known(self, request: HTTPServerRequest) -> bool:
        """Return whether a request comes from somebody who knows the passphrase."""
        try:
            return self.gate.is_known(request.headers, secure=request.protocol == "https")
        except Exception:  # the file of sessions cannot be read: nobody is known
            _log.exception("who is known could not be read")
            return False

    def take(self, request: HTTPServerRequest, visit: Visit, *, known: bool) -> None:
        """Answer a request that came in whole."""
        self.crowd.now_is(visit, Standing.WORKING if known else Standing.WAITING)
        self.sweeper.asked()
        visit.is_known |= known
        task = asyncio.get_running_loop().create_task(self._answer(request, visit, known=known))
        self.working.add(task)
        task.add_done_callback(self.working.discard)

    async def _answer(self, request: HTTPServerRequest, visit: Visit, *, known: bool) -> None:
        connection: Any = request.connection
        try:
            if not known:
                wait = self.requesting.wait_s(network_of(request.remote_ip))
                if wait > 0:
                    await asyncio.sleep(wait)
                if connection.stream.closed():
                    return
                self.crowd.now_is(visit, Standing.WORKING)
            await (self.known if known else self.strangers).handle_request(request)
        except Exception as error:
            if not connection.stream.closed():
                _log.error("%s %s", request.method, request.path, exc_info=error)
            connection.stream.close()
        finally:
            self.crowd.now_is(visit, Standing.KNOWN if visit.is_known else Standing.ARRIVING)
            self.sweeper.answered(asyncio.get_running_loop())


class _Arriving(HTTPMessageDelegate):
    """One request while it comes in."""

    def __init__(self, doorway: Doorway, server_conn: Any, request_conn: Any) -> None:
        self.doorway, self.server_conn, self.connection = doorway, server_conn, request_conn
        self.body = bytearray()
        self.known = False
        self.request: HTTPServerRequest | None = None

    def headers_received(
        self, start_line: RequestStartLine | ResponseStartLine, headers: HTTPHeaders
    ) -> None:
        """Look at the headers: where it comes from, who it is, how much it may bring."""
        assert isinstance(start_line, RequestStartLine)
        for name in [one for one in headers if "_" in one]:
            del headers[name]  # to an application it would be the same name as one with hyphens
        self.request = HTTPServerRequest(
            connection=self.connection, start_line=start_line, headers=headers
        )
        self._believe_proxy(self.request)
        doorway = self.doorway
        if doorway.ssl_options is not None and self.request.protocol != "https":
            self._send_over(self.request)
            return
        self.known = doorway.is_known(self.request)
        most = MOST_BYTES if self.known else _STRANGERS_BYTES
        self.connection.set_max_body_size(most)
        said = headers.get("Content-Length", "")
        if said.isdecimal() and int(said[:20]) > most:
            self._end(413, "Content Too Large", b'{"said": "413"}')

    def _believe_proxy(self, request: HTTPServerRequest) -> None:
        """Take address and scheme from a proxy that is trusted, from nobody else."""
        headers = request.headers
        if str(request.remote_ip) in self.doorway.behind:
            said = headers.get("X-Forwarded-For", "").rpartition(",")[2].strip()
            with contextlib.suppress(ValueError):
                request.remote_ip = str(ipaddress.ip_address(said))
            scheme = headers.get("X-Forwarded-Proto", "").rpartition(",")[2].strip().lower()
            request.protocol = scheme if scheme in ("http", "https") else request.protocol
        for name in ("X-Forwarded-For", "X-Forwarded-Proto", "X-Forwarded-Host"):
            headers.pop(name, None)

    def _send_over(self, request: HTTPServerRequest) -> None:
        """Send a browser that came without TLS to the address with it."""
        if self.doorway.gate.is_name_known(request.host):
            self._end(
                308, "Permanent Redirect", b"", Location=f"https://{request.host}{request.uri}"
            )
        else:
            self._end(403, "Forbidden", b"")

    def _end(self, status: int, reason: str, body: bytes, **headers: str) -> None:
        sent = HTTPHeaders({"Content-Length": str(len(body)), "Connection": "close", **headers})
        sent["Content-Type"] = "application/json"
        self.connection.write_headers(ResponseStartLine("HTTP/1.1", status, reason), sent, body)
        self.connection.finish()
        self.request = None

    def data_received(self, chunk: bytes) -> None:
        """Keep a part of the body."""
        self.body += chunk

    def finish(self) -> None:
        """Hand on a request that is whole."""
        visit = self.doorway.visits.get(self.server_conn)
        if self.request is None or visit is None:
            return
        self.request.body = bytes(self.body)
        self.doorway.take(self.request, visit, known=self.known)

    def on_connection_close(self) -> None:
        """Forget what came of a request that broke off."""
        self.body.clear()
