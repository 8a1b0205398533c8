"""What an answer is made of that replay already knows: the assumptions it rests on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

__all__ = ["Assumption", "ReadLater"]


class ReadLater(Sequence[str]):
    """Ids that are read when somebody asks: a table names none of the thousands behind an answer.

    Parameters
    ----------
    read : callable
        Gives the ids.
    """

    def __init__(self, read: Callable[[], Iterable[str]]) -> None:
        self._read = read

    @cached_property
    def _ids(self) -> tuple[str, ...]:
        return tuple(self._read())

    def __len__(self) -> int:
        return len(self._ids)

    def __getitem__(self, at):  # type: ignore[no-untyped-def]  # of a number or a slice
        return self._ids[at]

    def __eq__(self, other: object) -> bool:
        return self._ids == (tuple(other) if isinstance(other, Sequence) else other)

    def __hash__(self) -> int:
        return hash(self._ids)


@dataclass(frozen=True)
class Assumption:
    """Something a figure rests on, in words, with the events that it comes from.

    One that stands first is a caution: it is shown before the answer and apart from it.
    """

    id: str
    text: str
    events: Sequence[str] = ()
    stands_first: bool = False
