"""A lock that is had in the order in which it was asked for."""

from __future__ import annotations

import threading
from collections import deque

__all__ = ["Turns"]


class Turns:
    """A lock whose waiting threads get it first come, first served.

    Of a :class:`threading.Lock` a thread that lets go and asks again at once mostly gets it again,
    as those who wait have first to wake up; here it is handed to the one who waited longest.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._waiting: deque[threading.Lock] = deque()
        self._is_taken = False

    def acquire(self, timeout: float) -> bool:
        """Return whether the turn came within `timeout` seconds."""
        with self._lock:
            if not self._is_taken:
                self._is_taken = True
                return True
            mine = threading.Lock()
            mine.acquire()
            self._waiting.append(mine)
        try:
            if mine.acquire(timeout=timeout):
                return True
        except BaseException:  # Ctrl-C: nobody is left to let go of a turn that just came
            if not self._has_left(mine):
                self.release()
            raise
        return not self._has_left(mine)

    def _has_left(self, mine: threading.Lock) -> bool:
        """Leave the row; return False where the turn was handed over meanwhile."""
        with self._lock:
            if mine not in self._waiting:
                return False
            self._waiting.remove(mine)
            return True

    def release(self) -> None:
        """Hand the turn to the one who waited longest, if anybody waits."""
        with self._lock:
            if self._waiting:
                self._waiting.popleft().release()
            else:
                self._is_taken = False
