"""A network between a phone and the house that tests cut, and slow down."""

from __future__ import annotations

import contextlib
import socket
import threading
import time

__all__ = ["Wire"]


class Wire:
    """The network between a phone and the house: open, cut, or deaf (what is asked arrives, no answer does).

    `slow` holds the seconds for which what is asked of an address waits before it goes on.
    """

    def __init__(self, port):
        self.to, self.how = port, "open"
        self.slow = {}
        self._at = socket.create_server(("127.0.0.1", 0))
        self.address = f"http://127.0.0.1:{self._at.getsockname()[1]}"
        self._open = set()
        self._stops = False
        threading.Thread(target=self._accept, daemon=True).start()

    def _accept(self):
        while not self._stops:
            try:
                phone, _ = self._at.accept()
            except OSError:
                return
            if self.how == "cut":
                phone.close()
                continue
            house = socket.create_connection(("127.0.0.1", self.to))
            self._open |= {phone, house}
            for a, b, is_answer in ((phone, house, False), (house, phone, True)):
                threading.Thread(target=self._pump, args=(a, b, is_answer), daemon=True).start()

    def _pump(self, a, b, is_answer):
        try:
            while part := a.recv(65536):
                if self.how == "cut":
                    break
                if self.how == "deaf" and is_answer:
                    break
                for path, wait in self.slow.items():
                    if part.startswith(f"GET {path}".encode()):
                        time.sleep(wait)
                b.sendall(part)
        except OSError:
            pass
        for one in (a, b):
            self._open.discard(one)
            with contextlib.suppress(OSError):
                one.shutdown(socket.SHUT_RDWR)
            one.close()

    def set(self, how):
        self.how = how
        if how == "cut":
            for one in list(self._open):
                with contextlib.suppress(OSError):
                    one.shutdown(socket.SHUT_RDWR)

    def close(self):
        self._stops = True
        self._at.close()
        self.set("cut")
