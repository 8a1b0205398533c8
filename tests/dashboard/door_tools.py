"""What tests of the door share: requests byte by byte, and a family that uses its pages meanwhile."""

from __future__ import annotations

import contextlib
import http.client
import socket
import statistics
import threading
import time
from urllib.parse import urlencode

from dashboard.app import make_app
from dashboard.gate import Devices, Gate, Keeper
from dashboard.listening import Listening

WORDS = "seven plums in a row"


def served(book, folder, *, names=(), **options):
    """Return a server in front of a book, behind the passphrase; close it and its gate's devices."""
    keeper = Keeper(folder / "gate.json")
    if not keeper.is_set:
        keeper.set(WORDS)
    gate = Gate(keeper, Devices(folder / "devices.sqlite"), names)
    return Listening(make_app(book, gate=gate).server, gate, **options).start()


@contextlib.contextmanager
def doors(book, folder):
    """Give a function that starts servers as `served` does; all are closed in the end."""
    running = []

    def start(**options):
        running.append(served(book, folder, **options))
        return running[-1]

    try:
        yield start
    finally:
        for one in running:
            one.close()
            one.gate.devices.close()


def raw(port, sent=b"", source="127.0.0.1", timeout=10):
    """Return a socket on which something was sent."""
    found = socket.create_connection(("127.0.0.1", port), timeout, source_address=(source, 0))
    if sent:
        found.sendall(sent)
    return found


def answered(port, sent, **options):
    """Return the first line, the headers' text and the body of what comes back to some bytes."""
    with contextlib.closing(raw(port, sent, **options)) as one:
        got = b""
        with contextlib.suppress(ConnectionError, TimeoutError):
            while part := one.recv(65536):
                got += part
                if is_whole(got):
                    break
    head, _, body = got.partition(b"\r\n\r\n")
    line, _, headers = head.decode("latin-1").partition("\r\n")
    return line, headers, body


def is_whole(got):
    head, end, body = got.partition(b"\r\n\r\n")
    for line in head.lower().split(b"\r\n"):
        if line.startswith(b"content-length:"):
            return bool(end) and len(body) >= int(line.partition(b":")[2])
    return False


def get(path, headers=""):
    return f"GET {path} HTTP/1.1\r\nHost: localhost\r\n{headers}\r\n".encode()


def post(path, body, headers=""):
    said = (
        f"POST {path} HTTP/1.1\r\nHost: localhost\r\nContent-Length: {len(body)}\r\n{headers}\r\n"
    )
    return said.encode() + body


FORM = "Content-Type: application/x-www-form-urlencoded\r\n"
ENTER = post("/enter", b"passphrase=plums", FORM)


def status(line):
    """Return the status of an answer's first line, 0 where none came."""
    return int(line.split(" ")[1]) if line else 0


class Browser:
    """A browser of the family's: keeps its connection and its cookies."""

    def __init__(self, port, source="127.0.0.1"):
        self.port, self.source, self.cookies, self.connection = port, source, {}, None

    def ask(self, method, path, body=None, **headers):
        """Return status and body; a connection that was closed while idle is opened anew, as browsers do."""
        for last in (False, True):
            if self.connection is None:
                self.connection = http.client.HTTPConnection(
                    "127.0.0.1", self.port, timeout=30, source_address=(self.source, 0)
                )
            cookie = {"Cookie": "; ".join(f"{k}={v}" for k, v in self.cookies.items())}
            try:
                self.connection.request(
                    method, path, body, {**(cookie if self.cookies else {}), **headers}
                )
                answer = self.connection.getresponse()
                said = answer.read()
            except (ConnectionError, http.client.HTTPException):
                self.close()
                if last:
                    raise
                continue
            for value in answer.msg.get_all("Set-Cookie") or ():
                name, _, rest = value.partition("=")
                self.cookies[name] = rest.partition(";")[0]
            return answer.status, said
        raise AssertionError

    def sign_in(self, passphrase=WORDS):
        form = {
            "Content-Type": "application/x-www-form-urlencoded",
            "User-Agent": "Firefox on Linux",
        }
        return self.ask("POST", "/enter", urlencode({"passphrase": passphrase}), **form)[0]

    def close(self):
        if self.connection is not None:
            self.connection.close()
            self.connection = None


@contextlib.contextmanager
def meanwhile(*jobs):
    """Run jobs, each called over and over with nothing, in threads until the block ends; count their rounds."""
    ends, rounds = threading.Event(), [0] * len(jobs)

    def run(n, job):
        while not ends.is_set():
            with contextlib.suppress(OSError, http.client.HTTPException):
                job()
            rounds[n] += 1

    threads = [
        threading.Thread(target=run, args=(n, job), daemon=True) for n, job in enumerate(jobs)
    ]
    for thread in threads:
        thread.start()
    try:
        yield rounds
    finally:
        ends.set()
        for thread in threads:
            thread.join(40)


def times(browser, requests, rounds):
    """Return how long each request took, in seconds, by request; each has to succeed."""
    took = {path: [] for _, path, *_ in requests}
    for _ in range(rounds):
        for method, path, *more in requests:
            began = time.perf_counter()
            status, _ = browser.ask(method, path, *more)
            took[path].append(time.perf_counter() - began)
            assert status == 200, (path, status)
    return {path: statistics.median(some) for path, some in took.items()}
