"""Settings: each holds from its day on, its first value before it too (the reckoning, rule 2)."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Hashable
from typing import Any, Generic, TypeVar

__all__ = ["Settings"]

Root = TypeVar("Root", bound=Hashable)


class Settings(Generic[Root]):
    """Changes by entry, and the value of each setting on a day.

    Days are days since 1970. Of one day the later time of day holds, then the later entry.
    """

    def __init__(self) -> None:
        self._changes: dict[Root, tuple[tuple[int, int], str, str] | None] = {}
        self._values: dict[str, tuple[list[int], list[str]]] = {}

    def __contains__(self, root: Root) -> bool:
        """Return whether an entry changes a setting, or did before it was struck."""
        return root in self._changes

    def take(self, root: Root, when: tuple[int, int], name: str, value: str) -> None:
        """Take in a change, or what a correction now says; `when` is its day and minute of the day."""
        old = self._changes.get(root)
        self._changes[root] = (when, name, value)
        for one in {name, old[1] if old else name}:
            self._values.pop(one, None)

    def strike(self, root: Root) -> None:
        """Forget a change that was taken back."""
        old = self._changes.get(root)
        if old is not None:
            self._changes[root] = None
            self._values.pop(old[1], None)

    def values(self, name: str) -> tuple[list[int], list[str]]:
        """Return the days from which each value of a setting holds, in order, and the values."""
        held = self._values.get(name)
        if held is None:
            said: list[Any] = [one for one in self._changes.values() if one and one[1] == name]
            said.sort(key=lambda one: one[0])  # stable: entries stand in the order of the log
            held = self._values[name] = ([one[0][0] for one in said], [one[2] for one in said])
        return held

    def on(self, name: str, day: int, default: str | None = None) -> str | None:
        """Return the value of a setting on a day."""
        days, values = self.values(name)
        return values[max(bisect_right(days, day) - 1, 0)] if days else default

    def days(self, name: str) -> list[int]:
        """Return the days from which each value of a setting holds, in order."""
        return list(self.values(name)[0])

    def newest(self, name: str, default: str | None = None) -> str | None:
        """Return the newest value of a setting."""
        values = self.values(name)[1]
        return values[-1] if values else default
