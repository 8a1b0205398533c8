"""Resolving at the door: what a kind may ask of it, and what kinds share.

A kind says how its body is resolved, and the door knows the book: so the door hands a `Resolver` in,
and no kind imports the door. The arrow from the door to the kinds stays the only one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Protocol

from ledger.amounts import Amount, is_counted
from ledger.errors import InputError, NeedsAnswer
from ledger.items import ItemFacts
from ledger.messages import Day, Message

__all__ = [
    "MOST",
    "Body",
    "Resolve",
    "Resolver",
    "above_zero",
    "as_typed",
    "currency",
    "first_measure",
    "join",
    "line_fields",
    "needs",
    "not_after",
    "several_lines",
]

Body = dict[str, Any]

MOST = 1 << 60
"""Whole units beyond which a line is refused; totals may reach 2^62."""


class Doubts(Protocol):
    """How doubts are settled (`ledger.door.Answers`)."""

    spoken: bool

    def settle(self, doubt: NeedsAnswer) -> None:
        """Return when the doubt may pass; raise it otherwise."""

    def note(self, text: str) -> None:
        """Note what was taken or assumed."""


class Row(Protocol):
    """A row of the food table that a name plainly says."""

    @property
    def food(self) -> str:
        """Its id."""


class Known(Protocol):
    """What the book knows (`ledger.known.Catalogue`)."""

    @property
    def lids_of(self) -> Mapping[str, str]:
        """The lids last used with a jar, by the jar's key."""

    def setting(self, name: str, on: str | None = None, default: str | None = None) -> str | None:
        """Return a setting as it holds on a day."""

    def facts(self, name: str) -> ItemFacts | None:
        """Return what is known of an item, or None."""

    def name(self, name: str) -> str:
        """Return an item's name as the book first spelled it."""

    def names(self) -> list[str]:
        """Return every item's name."""

    def jars_of(self, name: str) -> set[str]:
        """Return which jars an item has been put up in."""


class Resolver(Protocol):
    """The lines of one event while it is written down (`ledger.door.lines.Lines`).

    Attributes
    ----------
    on : str
        The event's day, ISO 8601.
    measures : str
        ``us``, ``uk`` or ``metric``: what the bare word pint means.
    comma : bool
        Whether ``12,5`` is twelve and a half in the book's language.
    """

    on: str
    measures: str
    comma: bool

    @property
    def catalogue(self) -> Known:
        """What the book knows."""

    @property
    def answers(self) -> Doubts:
        """How doubts are settled."""

    def facts(self, name: str) -> ItemFacts | None:
        """Return what is known of an item, counting what this event describes."""

    def item(
        self,
        name: str,
        use: str,
        field: str,
        measure: str | None = None,
        *,
        jarred: bool = False,
    ) -> tuple[str, ItemFacts]:
        """Return an item's name as the book spells it and what is known of it."""

    def plain(self, name: str) -> Row | None:
        """Return the food-table row that a name plainly says."""

    def amount(self, text: str, field: str, *, zero: bool = False) -> Amount:
        """Return an amount as understood; the error names `field`."""

    def line(self, line: Body, field: str, *, use: str = "food", zero: bool = False) -> Body:
        """Return a line as stored, but for its number."""

    def carried(self, line: Body, field: str, *, zero: bool = False) -> Body:
        """Return a line that brings its whole amount, after looking whether it can be so."""

    def measured(self, amount: Amount, name: str, facts: ItemFacts, field: str) -> Body:
        """Return an amount as said: ``whole``, ``measure``, ``per`` and ``times``."""

    def jars(self, made: Body, name: str, facts: ItemFacts, field: str) -> Body:
        """Return the whole amount in some jars of what a batch makes."""


Resolve = Callable[[Body, Resolver], Body]


def as_typed(body: Body, lines: Resolver) -> Body:
    """Return a body that is stored as it was typed: no item or amount in it needs the book."""
    return body


def needs(several: list[Any], name: str, wanted: Message) -> None:
    """Refuse an empty list, and say what would be right.

    Raises
    ------
    InputError
    """
    if not several:
        raise InputError(name, Message.of("refusal-empty"), wanted)


def currency(lines: Resolver) -> str:
    """Return the book's currency on the day of the event."""
    return lines.catalogue.setting("currency", lines.on, "USD") or "USD"


def above_zero(line: Body, name: str, field: str) -> None:
    """Refuse a number of uses or years that is 0.

    Raises
    ------
    InputError
    """
    if name in line and float(line[name]) <= 0:
        raise InputError(
            field, Message.of("refusal-zero"), Message.of("refusal-how-many-of-name", name=name)
        )


def not_after(day: str, field: str, on: str | None) -> None:
    """Refuse a day that was still to come on the day of the event.

    Raises
    ------
    InputError
    """
    if on is not None and day > on:
        raise InputError(
            field,
            Message.of("refusal-day-after", day=Day(day), on=Day(on)),
            Message.of("refusal-day-that-was"),
        )


def join(field: str, name: str) -> str:
    """Return the field `name` of a line in the user's words: alone where the line stands alone."""
    return f"{field}.{name}" if field else name


def first_measure(amount: Amount) -> str:
    """Return the measure of an item that was first said so: mass, of what comes in counted units."""
    return "mass" if is_counted(amount.unit) else amount.measure


def several_lines(
    several: list[Body], name: str, lines: Resolver, use: str = "food", *, zero: bool = False
) -> list[Body]:
    """Return the lines of one list of a body as they are stored."""
    return [
        lines.line(line, field, use=use, zero=zero)
        for line, field in zip(several, line_fields(several, name), strict=True)
    ]


def line_fields(several: list[Body], name: str) -> list[str]:
    """Return what each line is called in a refusal: one that stands alone goes without a name."""
    if name == "lines" and len(several) == 1:
        return [""]
    return [f"{name}[{i}]" for i in range(len(several))]
