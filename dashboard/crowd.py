"""Who is let near, by address: how many connections, how many requests, and who gives way to whom."""

from __future__ import annotations

import time
from collections import OrderedDict, defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field
from enum import IntEnum

__all__ = ["Crowd", "Pace", "Standing", "Visit"]


class Standing(IntEnum):
    """What a connection is doing; the lower, the sooner it gives way."""

    ARRIVING = 0
    """It has not yet sent a whole request, or waits between two, and nobody known uses it."""
    WAITING = 1
    """A stranger's request that waits for its turn."""
    KNOWN = 2
    """Between two requests of somebody known."""
    WORKING = 3
    """Its request is being answered: it never gives way."""


@dataclass(eq=False)
class Visit:
    """One connection.

    Parameters
    ----------
    network : str
        What stands for its address.
    close : callable
        Ends it.
    since : float
        When it came, or began what it is doing now.
    """

    network: str
    close: Callable[[], None]
    since: float
    standing: Standing = Standing.ARRIVING
    is_known: bool = False


@dataclass
class Crowd:
    """Every connection of a server. Used by its one loop only.

    Parameters
    ----------
    most : int
        Connections in all.
    most_each : int
        Connections of one address.
    exempt : frozenset of str
        Addresses that stand for many, as a proxy does: only `most` holds for them.
    now : callable
        A clock in seconds.
    """

    most: int = 400
    most_each: int = 64
    exempt: frozenset[str] = frozenset()
    now: Callable[[], float] = time.monotonic
    turned_away: int = 0
    _by: dict[str, dict[Visit, None]] = field(default_factory=lambda: defaultdict(dict))
    _count: int = 0

    def enter(self, network: str, close: Callable[[], None]) -> Visit | None:
        """Return a new connection's visit, None where there is no room for it.

        Where there are too many, the one that has been idle or half said for the longest gives way, of
        the same address, or of the one that has most: whoever holds connections open loses them, and
        a new request is heard.
        """
        own = self._by.get(network, {})
        full = network not in self.exempt and len(own) >= self.most_each
        if full and not self._give_way(own):
            self.turned_away += 1
            return None
        if self._count >= self.most:
            most_first = sorted(self._by.values(), key=len, reverse=True)
            if not any(self._give_way(one) for one in most_first):
                self.turned_away += 1
                return None
        visit = Visit(network, close, self.now())
        self._by[network][visit] = None
        self._count += 1
        return visit

    def leave(self, visit: Visit) -> None:
        """Take a closed connection off the list; once is enough."""
        own = self._by.get(visit.network, {})
        if own.pop(visit, self) is None:
            self._count -= 1
        if not own:
            self._by.pop(visit.network, None)

    def now_is(self, visit: Visit, standing: Standing) -> None:
        """Say what a connection does from now on."""
        visit.standing, visit.since = standing, self.now()

    def count(self, network: str | None = None) -> int:
        """Return how many connections there are, in all or of one address."""
        return self._count if network is None else len(self._by.get(network, ()))

    def _give_way(self, among: dict[Visit, None]) -> bool:
        ready = [one for one in among if one.standing is not Standing.WORKING]
        if not ready:
            return False
        first = min(ready, key=lambda one: (one.standing, one.since))
        self.leave(first)
        first.close()
        return True


class Pace:
    """How often each address may do something: so many a second, after a first few at once.

    Parameters
    ----------
    each_s : float
        How many a second.
    at_once : int
        How many before that.
    now : callable
        A clock in seconds.
    """

    def __init__(
        self,
        each_s: float,
        at_once: int,
        now: Callable[[], float] = time.monotonic,
        most: int = 10_000,
    ) -> None:
        self._gap, self._ahead, self._now, self._most = 1 / each_s, at_once / each_s, now, most
        self._next: OrderedDict[str, float] = OrderedDict()

    def wait_s(self, network: str) -> float:
        """Return how long the next of an address has to wait, and count it."""
        now = self._now()
        at = max(self._next.pop(network, now), now) + self._gap
        self._next[network] = at
        while len(self._next) > self._most:
            self._next.popitem(last=False)
        return max(0.0, at - now - self._ahead)

    def is_over(self, network: str) -> bool:
        """Return whether an address has used up what it may; count it where not."""
        now = self._now()
        at = max(self._next.get(network, now), now) + self._gap
        if at - now > self._ahead:
            return True
        self._next[network] = at
        self._next.move_to_end(network)
        while len(self._next) > self._most:
            self._next.popitem(last=False)
        return False
