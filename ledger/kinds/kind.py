"""What a kind is: one description from which commands, forms, schemas and docs are made."""

from __future__ import annotations

import typing
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import msgspec

from ledger.kinds.parts import Struct

__all__ = ["Kind", "Phase"]

Body = dict[str, Any]


class Phase:
    """The order of kinds within one day (the reckoning, rule 2)."""

    FACTS = 0
    COUNT_START = 1
    SUPPLY = 2
    BATCH = 3
    MEAL = 4
    DISCARD = 5
    COUNT_END = 6


@dataclass(frozen=True)
class Kind:
    """One kind of event.

    Parameters
    ----------
    name : str
        The literal string that is stored, in the past tense.
    command : str
        The verb that writes it.
    title, summary : str
        What a form and the help call it.
    body : type
        The body of the newest version; its fields say label, help and example.
    phase : int
        Place within the day, see `Phase`.
    start_phase : int, optional
        Place within the day of one that says ``when: start``.
    supplies, draws : tuple of str
        Names of the body's lists whose lines bring something in or take something out.
    tell : callable
        ``tell(body)`` gives the event as one readable line.
    example : dict
        A body as typed.
    v : int
        Newest body version.
    upcasters : mapping of int to callable
        ``upcasters[1]`` turns a body of version 1 into one of version 2, on plain dicts.
    reads : int
        Oldest version whose stored form replay reads as it is.
    """

    name: str
    command: str
    title: str
    summary: str
    body: type[Struct]
    phase: int
    tell: Callable[[Body], str]
    example: Body
    supplies: tuple[str, ...] = ()
    draws: tuple[str, ...] = ()
    start_phase: int | None = None
    v: int = 1
    upcasters: Mapping[int, Callable[[Body], Body]] = field(default_factory=dict)
    reads: int = 1

    @cached_property
    def fields(self) -> tuple[msgspec.structs.FieldInfo, ...]:
        """The body's fields in order."""
        return msgspec.structs.fields(self.body)

    @cached_property
    def writer(self) -> str:
        """What whoever writes it down is called: `by`, but where that is a field of the body."""
        return "person" if any(one.encode_name == "by" for one in self.fields) else "by"

    @cached_property
    def line(self) -> type[Struct] | None:
        """The struct of the body's `lines`, or None."""
        hint: Any = typing.get_type_hints(self.body).get("lines")
        return typing.get_args(hint)[0] if hint else None

    @cached_property
    def line_names(self) -> frozenset[str]:
        """Names of the fields of one line that may stand directly in the body."""
        if self.line is None:
            return frozenset()
        own = {f.encode_name for f in self.fields}
        return frozenset(f.encode_name for f in msgspec.structs.fields(self.line)) - own
