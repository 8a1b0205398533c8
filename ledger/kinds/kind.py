"""What a kind is: one description from which commands, forms, replay, schemas and docs are made."""

from __future__ import annotations

import typing
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any

import msgspec

from ledger.kinds.parts import Measured, Struct
from ledger.kinds.resolving import Resolve, as_typed

if TYPE_CHECKING:
    from ledger.messages import Message

__all__ = [
    "BATCH",
    "BOUGHT",
    "GROWN",
    "ORIGINS",
    "ROLES",
    "SUPPLIED",
    "Form",
    "Kind",
    "Origin",
    "Phase",
]

Body = dict[str, Any]

ORIGINS = ("grown", "foraged", "given", "bought", "found", "unrecorded", "batch")
"""Where a lot came from; `batch` lots take theirs from what went into them."""

SUPPLIED = ("lines", "made", "left")
"""The lists of bodies that bring something in. Replay keeps their places: add at the end."""

ROLES = ("seed", "used", "fuel", "lids", "ate", "lines")
"""The lists that take something out, in the order in which those of one entry are reckoned (rule 4)."""


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
class Origin:
    """Where what a list brings in came from.

    Parameters
    ----------
    name : str
        One of `ORIGINS`.
    by_how : mapping of str to str
        Another origin where the body's `how` says so: ``{"forage": "foraged"}``.
    """

    name: str
    by_how: Mapping[str, str] = field(default_factory=dict)


GROWN, BOUGHT, BATCH = Origin("grown"), Origin("bought"), Origin("batch")


@dataclass(frozen=True)
class Form:
    """How a kind's form is laid out.

    Parameters
    ----------
    first : tuple of str
        Fields that are always in sight, in their order, lists of lines among them. The others wait
        behind `more`.
    in_row : tuple of str
        Fields of one line that stand beside it.
    as_line : str or None
        A pair of ``item`` and ``amount`` of the body that is typed as one line under this name.
    most : int
        Lines at most; a shopping trip has more of them than a picking.
    steps : tuple of (name, fields)
        Steps that the fields in sight are parted into, each folded when it is filled already.
    icon : str
        The mark that entries of the kind bear.
    common : int or None
        Place among the buttons of what is written most; None for the others.
    """

    first: tuple[str, ...]
    in_row: tuple[str, ...] = ()
    as_line: str | None = None
    most: int = 12
    steps: tuple[tuple[str, tuple[str, ...]], ...] = ()
    icon: str = "write"
    common: int | None = None


@dataclass(frozen=True, kw_only=True)
class Kind:
    """One kind of event, whole: what lacks a part here does not import.

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
    supplies : mapping of str to Origin
        The body's list whose lines bring something in, one of `SUPPLIED`, and where it came from.
    draws : tuple of str
        The body's lists whose lines take something out, of `ROLES`.
    resolve : callable
        ``resolve(body, resolver)`` gives a checked typed body as it is stored, items and amounts
        resolved; `ledger.kinds.resolving` has what kinds share, and `as_typed` for bodies without
        lines.
    words : tuple of str
        Fields that stand on the command line without an option's name, in their order. ``line`` is an
        item and its amount in one word; a list takes any number of words.
    typed : tuple of str
        Examples of the command, without the program's name.
    example : dict
        A body as typed.
    tell : callable
        ``tell(body)`` gives the event as one readable line, in English.
    form : Form or None
        Its form's order; None where no form writes it.
    v : int
        Newest body version; a new kind begins with 1.
    upcasters : mapping of int to callable
        ``upcasters[1]`` turns a body of version 1 into one of version 2, on plain dicts.
    start_phase : int, optional
        Place within the day of one that says ``when: start``.
    reads : int
        Oldest version whose stored form replay reads as it is.
    says : callable, optional
        ``says(body)`` gives the line of `tell` as a message, ``told-…``, which any language can say;
        without it the line is English in all of them.

    Raises
    ------
    TypeError
        Where two parts of the description do not go together.
    """

    name: str
    command: str
    title: str
    summary: str
    body: type[Struct]
    phase: int
    supplies: Mapping[str, Origin]
    draws: tuple[str, ...]
    resolve: Resolve
    words: tuple[str, ...]
    typed: tuple[str, ...]
    example: Body
    tell: Callable[[Body], str]
    form: Form | None
    v: int = 1
    upcasters: Mapping[int, Callable[[Body], Body]] = field(default_factory=dict)
    start_phase: int | None = None
    reads: int = 1
    says: Callable[[Body], Message] | None = None

    def __post_init__(self) -> None:
        problem = next(self._problems(), None)
        if problem is not None:
            raise TypeError(f"the kind {self.name!r}: {problem}")

    def _problems(self) -> Iterator[str]:
        """Yield what does not go together, the first of which stops the import."""
        names = set(self.body.__struct_encode_fields__)  # at hand; `fields` reads every type
        if len(self.supplies) > 1 or not set(self.supplies) <= names & set(SUPPLIED):
            yield f"it supplies one list of its body, named as in {SUPPLIED}"
        origins = [one for o in self.supplies.values() for one in (o.name, *o.by_how.values())]
        if not set(origins) <= set(ORIGINS):
            yield f"what it supplies comes from one of {ORIGINS}"
        if not set(self.draws) <= names & set(ROLES):
            yield f"it draws on lists of its body, named as in {ROLES}"
        if not set(self.words) <= names | {"line"}:
            yield f"its words are fields of the body, not {self.words}"
        if self.form is not None and not set(self.form.first) <= names | {self.form.as_line}:
            yield f"its form shows fields of the body, not {self.form.first}"
        if self.resolve is as_typed and (self.lists or self.supplies or self.draws):
            yield "its lines hold amounts, which `resolve` brings to whole units"
        if not self.typed or any(one.split(" ")[0] != self.command for one in self.typed):
            yield "its examples begin with its command"
        if set(self.upcasters) != set(range(1, self.v)):
            yield "each older version has an upcaster"

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

    @cached_property
    def lists(self) -> tuple[str, ...]:
        """Names of the body's lists of measured lines, whose lines carry numbers."""
        hints = typing.get_type_hints(self.body)
        return tuple(f.encode_name for f in self.fields if _has_measured_list(hints[f.name]))

    @cached_property
    def row(self) -> str | None:
        """Where an item and an amount go that stand alone in a row, or None where one has no place."""
        if self.line is not None:
            return "lines"
        return next(iter(self.draws or self.lists), None)

    @cached_property
    def opening(self) -> str | None:
        """The list through which it may take from a jar that stands in danger, or None."""
        return next((name for name in self.draws if name != "seed"), None)


def _has_measured_list(hint: Any) -> bool:
    if typing.get_origin(hint) is list:
        inner = typing.get_args(hint)[0]
        return isinstance(inner, type) and issubclass(inner, Measured)
    return any(_has_measured_list(one) for one in typing.get_args(hint))
