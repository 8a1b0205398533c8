"""Attackers of the door as a process of their own: ``door_attack.py PORT SECONDS hammer|hold|flood SOURCE``; ends by itself.

hammer: eight threads guess the passphrase without a pause. hold: 150 connections with half-sent requests, a byte each now
and then, opened anew when cut off. flood: connections opened and closed without a pause. Each says how often at its end.
"""

from __future__ import annotations

import contextlib
import socket
import sys
import threading
import time

GUESS = b"POST /enter HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 16\r\n\r\npassphrase=plums"
HELD = 150


def connected(port, source):
    return socket.create_connection(("127.0.0.1", port), 20, source_address=(source, 0))


def hammer(port, source, ends):
    done = 0
    while time.monotonic() < ends:
        with contextlib.suppress(OSError), contextlib.closing(connected(port, source)) as one:
            while time.monotonic() < ends:
                one.sendall(GUESS)
                if not one.recv(65536):
                    break
                done += 1
    return done


def hold(port, source, ends):
    held, done = [], 0
    while time.monotonic() < ends:
        while len(held) < HELD:
            with contextlib.suppress(OSError):
                held.append(connected(port, source))
                held[-1].sendall(b"GET / HTTP/1.1\r\nHost: localhost\r\nX-")
                done += 1
        still = []
        for one in held:
            try:
                one.sendall(b"y")
                still.append(one)
            except OSError:
                one.close()
        held = still
        time.sleep(0.2)
    return done


def flood(port, source, ends):
    done = 0
    while time.monotonic() < ends:
        with contextlib.suppress(OSError):
            connected(port, source).close()
            done += 1
    return done


def main(port, seconds, how, source):
    ends, counts = time.monotonic() + float(seconds), []
    job, many = {"hammer": (hammer, 8), "hold": (hold, 1), "flood": (flood, 1)}[how]
    threads = [
        threading.Thread(target=lambda: counts.append(job(int(port), source, ends)))
        for _ in range(many)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    print(how, sum(counts))


if __name__ == "__main__":
    main(*sys.argv[1:])
