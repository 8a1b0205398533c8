"""The door over the wire: half-sent, slow, large and odd requests, a proxy, and who gives way to whom."""

from __future__ import annotations

import contextlib
import json
import socket
import time

import pytest
from door_tools import ENTER, FORM, WORDS, Browser, answered, doors, get, post, raw, status

from dashboard import listening
from dashboard.app import make_app
from dashboard.crowd import Crowd, Pace, Standing
from dashboard.listening import Listening


@pytest.fixture
def door(book, tmp_path):
    with doors(book, tmp_path) as start:
        yield start


# Holding and hammering


def test_half_sent_requests_do_not_stop_answers(door):
    server = door()
    held = [raw(server.port, b"GET / HTTP/1.1\r\nHost: localhost\r\nX-") for _ in range(150)]
    family = Browser(server.port)
    assert family.sign_in() == 303
    for _ in range(20):
        assert family.ask("GET", "/position") == (200, b'{"position":0}\n')
    assert server.crowd.count("127.0.0.1") <= server.crowd.most_each
    for one in held:
        one.close()
    family.close()


def test_half_sent_bodies_do_not_stop_answers(door):
    server = door()
    family = Browser(server.port)
    family.sign_in()
    head = b"POST /enter HTTP/1.1\r\nHost: localhost\r\nContent-Length: 9000\r\n\r\npassphrase="
    held = [raw(server.port, head) for _ in range(150)]
    for _ in range(20):
        assert family.ask("GET", "/position")[0] == 200
    for one in held:
        one.close()
    family.close()


def test_book_open_on_this_machine_alone_is_answered_too(book):
    server = Listening(make_app(book).server).start()
    held = [raw(server.port, b"GET / HTTP/1.1\r\nHost: loc") for _ in range(150)]
    here = Browser(server.port)
    for _ in range(20):
        assert here.ask("GET", "/position")[0] == 200
    for one in held:
        one.close()
    here.close()
    server.close()


def test_headers_that_never_end_are_cut_off(door, monkeypatch):
    monkeypatch.setattr(listening, "_HEADER_S", 1.0)
    server = door()
    with contextlib.closing(raw(server.port, b"GET / HTTP/1.1\r\n")) as one:
        began = time.monotonic()
        with contextlib.suppress(OSError):
            while time.monotonic() - began < 20:  # a byte now and then does not help
                one.sendall(b"X")
                time.sleep(0.2)
        assert time.monotonic() - began < 15


def test_bodies_that_never_end_are_cut_off(door, monkeypatch):
    monkeypatch.setattr(listening, "_BODY_S", 1.0)
    server = door()
    head = b"POST /enter HTTP/1.1\r\nHost: localhost\r\nContent-Length: 9000\r\n\r\n"
    with contextlib.closing(raw(server.port, head)) as one:
        began = time.monotonic()
        with contextlib.suppress(OSError):
            while time.monotonic() - began < 20:
                one.sendall(b"p")
                time.sleep(0.2)
        assert time.monotonic() - began < 15


def test_sizes_are_limited(door):
    server = door()
    line, _, _ = answered(server.port, get("/enter", "X-Long: " + "x" * 60_000 + "\r\n"))
    assert status(line) in (0, 400, 431)
    head = (
        f"POST /enter HTTP/1.1\r\nHost: localhost\r\n{FORM}Content-Length: 20000\r\n\r\n".encode()
    )
    assert status(answered(server.port, head)[0]) == 413  # at once: nothing of it is read
    chunks = b"POST /enter HTTP/1.1\r\nHost: localhost\r\nTransfer-Encoding: chunked\r\n\r\n"
    chunks += b"4000\r\n" + b"x" * 0x4000 + b"\r\n4000\r\n" + b"x" * 0x4000 + b"\r\n0\r\n\r\n"
    assert status(answered(server.port, chunks)[0]) in (0, 400)
    family = Browser(server.port)
    family.sign_in()
    long = json.dumps({"output": "x" * 100_000}).encode()
    assert (
        family.ask("POST", "/_dash-update-component", long, **{"Content-Type": "application/json"})[
            0
        ]
        != 413
    )
    with contextlib.suppress(ConnectionError):
        assert family.ask("POST", "/_dash-update-component", b"x" * 2_000_001)[0] == 413
    family.close()


def test_strangers_requests_wait_and_the_familys_do_not(door, monkeypatch):
    monkeypatch.setattr(listening, "_REQUESTS_EACH_S", 4.0)
    monkeypatch.setattr(listening, "_REQUESTS_AT_ONCE", 2)
    server = door()
    family = Browser(server.port)
    assert family.sign_in() == 303
    began = time.monotonic()
    waiting = [raw(server.port, get("/enter"), source="127.0.0.2") for _ in range(8)]
    assert family.ask("GET", "/position")[0] == 200
    was_first = time.monotonic() - began
    for one in waiting:
        assert b"200" in one.recv(100)
        one.close()
    assert time.monotonic() - began > was_first
    assert time.monotonic() - began > 1
    family.close()


def test_stranger_who_hammers_waits_alone(door):
    """One guesses from 127.0.0.66; a new phone of the family's at another address signs in meanwhile."""
    server = door()
    said = [status(answered(server.port, ENTER, source="127.0.0.66")[0]) for _ in range(10)]
    assert set(said) == {401, 429}
    assert said.count(429) > said.count(401)
    new = Browser(server.port, source="127.0.0.7")
    assert new.sign_in() == 303
    new.close()


# What is odd


@pytest.mark.parametrize(
    "sent",
    [
        b"\r\n\r\n", b"GET\r\n\r\n", b"GET / HTTP/9.9\r\nHost: localhost\r\n\r\n", b"\x00\x01\x02\r\n\r\n",
        b"GET / HTTP/1.1\r\n\r\n", b"GET / HTTP/1.1\r\nHost: localhost\r\nHost: evil.example\r\n\r\n",
        b"POST /enter HTTP/1.1\r\nHost: localhost\r\nContent-Length: -1\r\n\r\n",
        b"POST /enter HTTP/1.1\r\nHost: localhost\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\nhello",
        b"POST /enter HTTP/1.1\r\nHost: localhost\r\nContent-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n",
        b"GET http://evil.example/position HTTP/1.1\r\nHost: localhost\r\n\r\n",
        b"GET //evil.example/position HTTP/1.1\r\nHost: localhost\r\n\r\n",
        b"GET /../../etc/passwd HTTP/1.1\r\nHost: localhost\r\n\r\n",
        b"GET /assets/..%2f..%2fpyproject.toml HTTP/1.1\r\nHost: localhost\r\n\r\n",
        b"GET /%00 HTTP/1.1\r\nHost: localhost\r\n\r\n", b"TRACE / HTTP/1.1\r\nHost: localhost\r\n\r\n",
        b"CONNECT evil.example:443 HTTP/1.1\r\nHost: localhost\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: localhost\r\nCookie: \xff\xfe=\x80; croftbook=\xff\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: local\xffhost\r\n\r\n", b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n",
    ],
)  # fmt: skip
def test_odd_requests_open_nothing_and_break_nothing(door, sent):
    server = door()
    line, headers, body = answered(server.port, sent, timeout=3)
    assert status(line) in (0, 302, 308, 400, 401, 403, 404, 405), line
    assert b"position" not in body
    assert b"root:" not in body
    assert b"Traceback" not in body
    assert "evil.example" not in headers
    assert status(answered(server.port, get("/health"))[0]) == 200


def test_no_answer_names_the_library_or_its_version(door):
    server = door()
    for sent in (get("/health"), get("/nowhere"), ENTER):
        _, headers, _ = answered(server.port, sent)
        assert "Server: croftbook" in headers
        assert "ornado" not in headers


# A proxy


def proxied(*more):
    return get("/enter", "".join(f"{line}\r\n" for line in more))


def test_a_proxy_is_believed_only_where_it_is_named(door):
    forged = "X-Forwarded-For: 10.0.0.5", "X-Forwarded-Proto: https"
    server = door()
    assert b"in the open" in answered(server.port, proxied(*forged))[2]  # it was not over TLS
    for n in range(5):
        line = answered(
            server.port, post("/enter", b"passphrase=x", f"{FORM}X-Forwarded-For: 10.0.0.{n}\r\n")
        )[0]
    assert status(line) == 429  # another address each time does not help
    behind = door(behind=["127.0.0.1"], names=["croft.example.org"])
    assert b"in the open" not in answered(behind.port, proxied(*forged))[2]
    assert b"in the open" in answered(behind.port, proxied(*forged), source="127.0.0.9")[2]
    assert b"in the open" in answered(behind.port, proxied("X_Forwarded_Proto: https"))[2]


def test_behind_a_proxy_addresses_are_those_it_names(door):
    server = door(behind=["127.0.0.1"])

    def guess(address, text="x"):
        said = f"{FORM}X-Forwarded-For: 203.0.113.9, {address}\r\nX-Forwarded-Proto: https\r\n"
        return answered(server.port, post("/enter", f"passphrase={text}".encode(), said))

    for _ in range(4):
        line = guess("198.51.100.7")[0]
    assert status(line) == 429
    line, headers, _ = guess("198.51.100.8", WORDS.replace(" ", "+"))
    assert status(line) == 303
    assert "__Host-croftbook=" in headers
    assert "Secure" in headers
    assert [one.address for one in server.gate.devices.all(server.gate.keeper.stamp)] == [
        "198.51.100.8"
    ]


def test_behind_a_proxy_half_sent_requests_do_not_stop_answers(door):
    server = door(behind=["127.0.0.1"])
    held = [raw(server.port, b"GET / HTTP/1.1\r\n") for _ in range(server.crowd.most + 50)]
    family = Browser(server.port)
    assert family.sign_in() == 303
    assert family.ask("GET", "/position")[0] == 200
    assert server.crowd.count() <= server.crowd.most
    for one in held:
        one.close()
    family.close()


# Who gives way to whom


def test_the_longest_idle_stranger_gives_way_first():
    now, closed = [0.0], []
    crowd = Crowd(most=4, most_each=3, now=lambda: now[0])

    def come(network, name):
        now[0] += 1
        return crowd.enter(network, lambda: closed.append(name))

    first, second, third = come("a", "1"), come("a", "2"), come("a", "3")
    crowd.now_is(first, Standing.WORKING)
    crowd.now_is(second, Standing.KNOWN)
    assert come("a", "4") is not None
    assert closed == ["3"]
    crowd.leave(third)  # closing tells again; it counts once
    assert crowd.count("a") == crowd.count() == 3
    assert come("b", "5") is not None
    assert come("b", "6") is not None  # all are there: of the address with most, 4 gives way
    assert closed == ["3", "4"]
    for visit in list(crowd._by["a"]):
        crowd.now_is(visit, Standing.WORKING)
    crowd.now_is(come("a", "7"), Standing.WORKING)
    assert come("a", "8") is None  # all three at work: none gives way
    assert crowd.turned_away == 1


def test_pace_lets_a_few_by_at_once_and_then_so_many_a_second():
    now = [0.0]
    pace = Pace(10, 5, lambda: now[0])
    said = [round(pace.wait_s("a"), 3) for _ in range(8)]
    assert said == [0, 0, 0, 0, 0, 0.1, 0.2, 0.3]
    assert pace.wait_s("b") == 0
    now[0] += 10
    assert pace.wait_s("a") == 0
    assert [pace.is_over("c") for _ in range(7)] == [False] * 5 + [True] * 2
    for n in range(20_000):
        pace.wait_s(str(n))
    assert len(pace._next) <= 10_000


def test_port_that_is_taken_cannot_be_had(book):
    with socket.create_server(("127.0.0.1", 0)) as taken, pytest.raises(OSError, match="in use"):
        Listening(make_app(book).server, port=taken.getsockname()[1])
