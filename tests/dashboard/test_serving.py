"""`croftbook serve` as a process of its own: it answers, refuses in one line, and stops without losing a write."""

from __future__ import annotations

import http.cookiejar
import json
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.request
import uuid
from dataclasses import dataclass
from pathlib import Path

import pytest

from ledger import Book
from ledger.cli import main

WORDS = "seven plums in a row"
BUSY = "Somebody else is writing into the book"
posix = pytest.mark.skipif(os.name != "posix", reason="signals are sent to a group of processes")


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def ready():
    """Give back the signals that whoever started the tests may have blocked or ignored."""
    os.setsid()
    for one in (signal.SIGINT, signal.SIGTERM):
        signal.signal(one, signal.SIG_DFL)
    signal.pthread_sigmask(signal.SIG_SETMASK, ())


@dataclass
class Running:
    process: subprocess.Popen
    port: int
    scheme: str = "http"

    def ask(self, path, data=None, timeout=10):
        kind = {"Content-Type": "application/json"} if data is not None else {}
        asked = urllib.request.Request(f"{self.scheme}://127.0.0.1:{self.port}{path}", data, kind)
        context = ssl._create_unverified_context() if self.scheme == "https" else None
        with urllib.request.urlopen(asked, timeout=timeout, context=context) as answer:
            return answer.read().decode()

    def up(self):
        for _ in range(300):
            if self.process.poll() is not None:
                raise AssertionError(self.process.communicate())
            try:
                return self.ask("/health", timeout=2)
            except (urllib.error.URLError, OSError):
                time.sleep(0.1)
        raise AssertionError("it does not answer")

    def stop(self, how):
        os.killpg(self.process.pid, how)
        out, err = self.process.communicate(timeout=60)
        return self.process.returncode, out, err


@pytest.fixture
def home(tmp_path):
    """An environment with every folder of the user's in a place of this test."""
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("XDG_", "CROFTBOOK"))}
    folders = {f"XDG_{one}_HOME": str(tmp_path / one.lower()) for one in ("CONFIG", "CACHE", "DATA", "STATE")}  # fmt: skip
    return {**kept, **folders, "HOME": str(tmp_path), "BROWSER": "false", "PYTHONPATH": str(Path(__file__).parents[2])}  # fmt: skip


@pytest.fixture
def path(tmp_path):
    return tmp_path / "book.sqlite"


def command(home, *words, **more):
    code = "import sys; from ledger.cli import main; sys.exit(main(sys.argv[1:]))"
    return [sys.executable, "-c", code, *words], {"env": home, "text": True, **more}


@pytest.fixture
def run(home, monkeypatch, capsys):
    """Return a function that runs a command here, with the folders of this test; its status, output and errors."""
    for name, value in home.items():
        if name.startswith("XDG_") or name in ("HOME", "BROWSER"):
            monkeypatch.setenv(name, value)

    def go(*words):
        capsys.readouterr()
        return main(words), *capsys.readouterr()

    return go


@pytest.fixture
def serve(home, path):
    running = []

    def start(*words, scheme="http"):
        port = free_port()
        line, options = command(
            home, "serve", "--book", str(path), "--port", str(port), "--no-browser", *words,
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE, preexec_fn=ready,
        )  # fmt: skip
        running.append(Running(subprocess.Popen(line, **options), port, scheme))
        running[-1].up()
        return running[-1]

    yield start
    for one in running:
        if one.process.poll() is None:
            os.killpg(one.process.pid, signal.SIGKILL)
            one.process.communicate()


def write_form(served, text, id):
    """Write a form as a browser does, through the callback of its button."""
    boxes = [{"field": "lines", "part": "box", "row": 0}]
    wires = json.loads(served.ask("/_dash-dependencies"))
    wire = next(one for one in wires if "form-said.children" in one["output"])
    state = {
        "form-kind": "harvested", "form-id": id, "form-replaces": None, "form-accepted": [], "form-when": "today",
        "form-by": "Ada",
    }  # fmt: skip
    many = {
        "id": [{"id": one, "property": "id", "value": one} for one in boxes],
        "value": [{"id": one, "property": "value", "value": text} for one in boxes],
    }
    outputs = [
        {"id": "form-said", "property": "children"},
        [{"id": one, "property": "error"} for one in boxes],
        [{"id": one, "property": "value"} for one in boxes],
        {"id": "form-id", "property": "data"},
        {"id": "form-accepted", "property": "data"},
        {"id": "form-replaces", "property": "data"},
    ]
    states = [
        many[one["property"]] if one["id"].startswith("{") else {**one, "value": state[one["id"]]}
        for one in wire["state"]
    ]
    body = {
        "output": wire["output"], "outputs": outputs, "state": states, "changedPropIds": ["form-write.n_clicks"],
        "inputs": [{"id": "form-write", "property": "n_clicks", "value": 1}, []],
    }  # fmt: skip
    return served.ask("/_dash-update-component", json.dumps(body).encode())


def picked(path):
    with Book.open(path) as book:
        assert book.check().is_whole
        return [row.line for row in book.history(kind="harvested")]


@posix
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM], ids=["ctrl-c", "terminate"])
def test_stops_cleanly_and_a_write_sent_just_before_is_kept(serve, path, how):
    served = serve()
    assert "Written down" in write_form(served, "31 lb plums", str(uuid.uuid4()))
    status, out, err = served.stop(how)
    assert status == 0, err
    assert out == ""
    assert f"Croftbook is open at http://127.0.0.1:{served.port}" in err
    assert err.strip().endswith("Closed; everything written down is kept.")
    assert "Traceback" not in err
    assert picked(path) == ["picked 31 lb plums"]
    assert not list(path.parent.glob("book.sqlite-wal"))  # closed, not cut off


@posix
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM], ids=["ctrl-c", "terminate"])
def test_every_write_that_was_answered_is_kept(serve, path, how):
    """Four phones write without a pause while it is stopped: what they were told holds."""
    served, told, faults = serve(), [], []

    def phone(n):
        for i in range(200):
            id, said = str(uuid.uuid4()), BUSY
            try:
                while (
                    BUSY in said
                ):  # nothing was written; as the page does, the same is tried again
                    said = write_form(served, f"{i + 1} lb plum{n}", id)
            except (urllib.error.URLError, OSError):
                return  # it has stopped
            if "Written down" in said:
                told.append(f"picked {i + 1} lb plum{n}")
            elif "Is that right" not in said:
                faults.append(said)

    phones = [threading.Thread(target=phone, args=(name,)) for name in ("fig", "oat", "rye", "yew")]
    for one in phones:
        one.start()
    while len(told) < 12 and any(one.is_alive() for one in phones):
        time.sleep(0.02)
    status, _, err = served.stop(how)
    for one in phones:
        one.join()
    assert status == 0, err
    assert "Traceback" not in err
    assert faults == []
    assert len(told) >= 12
    kept = picked(path)
    assert set(told) <= set(kept)
    assert len(set(kept)) == len(kept)  # what was tried again was written once


@posix
def test_check_says_well_and_what_is_not_there(serve, run):
    served = serve()
    assert run("serve", "--check", "--port", str(served.port)) == (0, '{"status":"alive"}\n', "")
    served.stop(signal.SIGINT)
    status, _, err = run("serve", "--check", "--port", str(served.port))
    assert status == 1
    assert f"nothing is served on port {served.port}" in err
    assert len(err.splitlines()) == 1


@posix
def test_port_that_is_taken_is_refused(serve, run, path):
    served = serve()
    status, _, err = run("serve", "--book", str(path), "--port", str(served.port), "--no-browser")
    assert status == 1
    assert f"port {served.port} cannot be had" in err
    assert "--port" in err
    assert len(err.splitlines()) == 1
    assert "alive" in served.ask("/health")  # the first goes on


def test_network_without_a_passphrase_is_refused(run, path):
    port = str(free_port())
    status, _, err = run("serve", "--book", str(path), "--port", port, "--lan", "--no-browser")
    assert status == 1
    assert "a passphrase is needed" in err
    assert "--set-passphrase" in err
    assert len(err.splitlines()) == 1


@pytest.fixture
def passphrase(path, home, monkeypatch):
    """Set the passphrase of the served book, as another program would."""
    for name, folder in home.items():
        if name.startswith("XDG_"):
            monkeypatch.setenv(name, folder)
    from dashboard.serving import keeper_of

    keeper = keeper_of(str(path.resolve()))
    keeper.set(WORDS)
    return keeper


def signed_in(served):
    jar = http.cookiejar.CookieJar()
    browser = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(jar))
    browser.open(
        f"http://127.0.0.1:{served.port}/enter", f"passphrase={WORDS}".encode(), timeout=20
    ).close()
    return browser


@posix
def test_network_with_a_passphrase_is_closed_without_it(serve, passphrase, tmp_path):
    served = serve("--lan")
    with pytest.raises(urllib.error.HTTPError) as refused:
        served.ask("/position")
    assert refused.value.code == 401
    refused.value.close()
    assert "cross the network in the open" in served.ask("/enter")
    phone = signed_in(served)
    position = f"http://127.0.0.1:{served.port}/position"
    with phone.open(position, timeout=10) as answer:
        assert answer.read() == b'{"position":0}\n'
    (file,) = (tmp_path / "data" / "croftbook").glob("devices-*.sqlite")
    assert file.stat().st_mode & 0o777 == 0o600
    passphrase.set("eight pears on a plate")  # the server goes on, and every phone is out
    with pytest.raises(urllib.error.HTTPError) as put_out:
        phone.open(position, timeout=10)
    assert put_out.value.code == 401
    put_out.value.close()
    status, _, err = served.stop(signal.SIGINT)
    assert status == 0
    assert "and on the network" in err
    assert "Not encrypted" in err


@posix
def test_with_tls_the_fingerprint_is_said_and_the_certificate_holds(
    serve, passphrase, tmp_path, run
):
    served = serve("--lan", "--tls", "--host-name", "kitchen.local", scheme="https")
    assert run("serve", "--check", "--port", str(served.port))[:2] == (0, '{"status":"alive"}\n')
    authority = tmp_path / "data" / "croftbook" / "tls" / "authority.pem"
    assert authority.stat().st_mode & 0o777 == 0o600
    context = ssl.create_default_context(
        cadata=authority.read_text().partition("-----BEGIN PRIVATE")[0]
    )
    address = f"https://localhost:{served.port}/trust"
    with urllib.request.urlopen(address, timeout=20, context=context) as answer:
        page = answer.read().decode()
    status, _, err = served.stop(signal.SIGTERM)
    assert status == 0
    (said,) = re.findall(r"(?:[0-9A-F]{2}:){31}[0-9A-F]{2}", err)
    assert said in page.replace("<wbr>", "")
    assert "A certificate was made for this household" in err
    assert f"https://kitchen.local:{served.port}" in err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--tls"], "--tls goes with --lan"),
        (["--lan", "--host-name", "http://kitchen.local:80/"], "is no host name"),
        (["--behind", "a proxy"], "Give the proxy's address"),
        (["--behind", "127.0.0.1"], "a passphrase is needed"),
    ],
)
def test_options_that_cannot_be_are_refused_in_a_line(run, path, words, says):
    port = str(free_port())
    status, _, err = run("serve", "--book", str(path), "--port", port, "--no-browser", *words)
    assert status in (1, 2)
    assert says in err
    assert len(err.splitlines()) == 1


def test_book_that_is_none_is_refused_in_a_line(run, tmp_path):
    (tmp_path / "letter.txt").write_text("dear aunt")
    status, _, err = run("serve", "--book", str(tmp_path / "letter.txt"), "--no-browser", "--port", str(free_port()))  # fmt: skip
    assert status in (1, 2)
    assert "letter.txt" in err
    assert len(err.splitlines()) == 1
