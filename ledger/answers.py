"""What an answer is made of that replay already knows: the assumptions it rests on."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Assumption"]


@dataclass(frozen=True)
class Assumption:
    """Something a figure rests on, in words, with the events that it comes from.

    One that stands first is a caution: it is shown before the answer and apart from it.
    """

    id: str
    text: str
    events: tuple[str, ...] = ()
    stands_first: bool = False
