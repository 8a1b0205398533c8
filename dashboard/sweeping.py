"""When memory is looked through for what refers to itself: while nobody waits for an answer.

A book of forty years is a million objects. Walked again and again while a page is drawn, as Python does
by itself, they took a fifth of the page. Moments of a book refer to themselves, so somebody must look.
"""

from __future__ import annotations

import asyncio
import gc

__all__ = ["Sweeper"]

_SELDOM = (100_000, 20, 20)
"""Thresholds of `gc.set_threshold`: what is looked through while answers are made."""
_REST_S = 2.0
"""So long after the last answer it is quiet enough."""
_MOST = 64
"""Answers after which it is done even where it is never quiet."""


class Sweeper:
    """Sweeps once after each while of answers."""

    def __init__(self) -> None:
        gc.set_threshold(*_SELDOM)
        self._waiting = 0
        self._answers = 0
        self._rest: asyncio.TimerHandle | None = None

    def asked(self) -> None:
        """Note that somebody waits."""
        self._waiting += 1
        if self._rest is not None:
            self._rest.cancel()
            self._rest = None

    def answered(self, loop: asyncio.AbstractEventLoop) -> None:
        """Note that somebody has the answer."""
        self._waiting -= 1
        self._answers += 1
        if self._answers >= _MOST:
            self.sweep()
        elif not self._waiting:
            self._rest = loop.call_later(_REST_S, self.sweep)

    def sweep(self) -> None:
        """Let go of what nothing refers to but itself."""
        self._rest, self._answers = None, 0
        gc.collect()
