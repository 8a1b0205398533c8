"""How long to wait before the next try at the passphrase, for each device and each address."""

from __future__ import annotations

import ipaddress
import threading
import time
from collections import OrderedDict
from collections.abc import Callable

__all__ = ["Waits", "network_of"]

_LONGEST_S = 60.0
_FORGOTTEN_S = 3_600.0
_MOST = 10_000


def network_of(address: str | None) -> str:
    """Return what stands for an address: itself, or the /64 that one house has of IPv6 (RFC 6177)."""
    try:
        found = ipaddress.ip_address((address or "").partition("%")[0])
    except ValueError:
        return "elsewhere"
    if isinstance(found, ipaddress.IPv6Address):
        if found.ipv4_mapped is not None:
            return str(found.ipv4_mapped)
        return str(ipaddress.ip_network((found, 64), strict=False))
    return str(found)


class Waits:
    """Counts wrong tries by who tries; what a stranger does slows nobody else.

    Parameters
    ----------
    now : callable, optional
        A clock in seconds that never goes back.
    """

    def __init__(self, now: Callable[[], float] = time.monotonic) -> None:
        self._now = now
        self._turn = threading.Lock()
        self._kept: OrderedDict[str, tuple[int, float]] = OrderedDict()

    def begin(self, who: str) -> float:
        """Return 0 where a try may be looked at, else the seconds to wait.

        The try counts as wrong until `right` says otherwise, so that many at once are one.
        """
        with self._turn:
            now = self._now()
            wrong, not_before = self._kept.get(who, (0, 0.0))
            if not_before > now:
                return not_before - now
            wrong = 0 if now - not_before > _FORGOTTEN_S else wrong
            self._kept[who] = (wrong + 1, now + _after(wrong + 1))
            self._kept.move_to_end(who)
            while len(self._kept) > _MOST:
                self._kept.popitem(last=False)
            return 0.0

    def wrong(self, who: str) -> None:
        """Begin the wait of a try that was looked at and wrong: what the looking took does not count."""
        with self._turn:
            wrong, _ = self._kept.get(who, (1, 0.0))
            self._kept[who] = (wrong, self._now() + _after(wrong))

    def right(self, who: str) -> None:
        """Forget the wrong tries of somebody who then knew it."""
        with self._turn:
            self._kept.pop(who, None)


def _after(wrong: int) -> float:
    """Return the seconds to wait after so many wrong tries: 1, 1, 2, 4 and so on."""
    return min(2.0 ** min(max(0, wrong - 2), 10), _LONGEST_S)
