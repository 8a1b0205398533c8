"""A message: an id, and the parameters that it is about.

A parameter says by its type what it is, so that each language can bend, order and quote it. A plain
``str`` is what the household wrote, and that alone: it stays as it was written and never chooses a
variant, as a bed may well be called "none".
"""

from __future__ import annotations

import msgspec

__all__ = [
    "Amount",
    "Choice",
    "Code",
    "Day",
    "Link",
    "Measured",
    "Message",
    "Money",
    "Names",
    "Parameter",
    "Row",
    "Typed",
]


class _Parameter(msgspec.Struct, frozen=True, tag=True):
    """A parameter with a type of its own; as JSON, ``type`` tells which."""


class Amount(_Parameter, frozen=True):
    """An amount: numbers with their units, the largest first, ``7 lb 3 oz``.

    Parameters
    ----------
    pairs : tuple of (float, str)
        The number and the name of its unit, as ``unit-…`` has it: ``(7, "lb")``.
    """

    pairs: tuple[tuple[float, str], ...]


class Money(_Parameter, frozen=True):
    """An amount of money in a currency, by its three letters (ISO 4217)."""

    value: float
    currency: str


class Day(_Parameter, frozen=True):
    """A day, ``2026-09-02``."""

    iso: str


class Code(_Parameter, frozen=True):
    """What is typed as it stands in every language: a command, an option, a file."""

    text: str


class Link(_Parameter, frozen=True):
    """The address of a figure, as ``croftbook why`` takes it."""

    address: str


class Typed(_Parameter, frozen=True):
    """What somebody typed and is told of, between the language's quotation marks.

    What cannot be printed is shown by its number, so that a terminal never obeys it.
    """

    text: str


class Names(_Parameter, frozen=True):
    """Several names or texts in a row; those beyond `most` are counted.

    Parameters
    ----------
    items : tuple of str or _Parameter
    most : int
        How many are named; 0: all.
    """

    items: tuple[str | Code | Typed | Day | Amount | Measured | Message | Row, ...]
    most: int = 0


class Measured(_Parameter, frozen=True):
    """An amount as the household's measures write it, ``7 lb 3 oz``: only its digits are the language's."""

    text: str


class Price(_Parameter, frozen=True):
    """Money as it was written down, ``7.90``; which currency it is, the household's settings say."""

    text: str


class Row(_Parameter, frozen=True):
    """Texts one after another, with the same marks between them in every language.

    Parameters
    ----------
    items : tuple of str or _Parameter
    between : str
        Marks and spaces: ``". "``, ``"; "``.
    opens : bool
        Whether it begins with a capital.
    """

    items: tuple[
        int
        | float
        | str
        | Code
        | Typed
        | Day
        | Amount
        | Measured
        | Money
        | Message
        | Names
        | Price
        | Row
        | None,
        ...,
    ]
    between: str = " "
    opens: bool = False


class Choice(_Parameter, frozen=True):
    """A word of ours that chooses a variant: ``Choice("hot")``."""

    word: str


class Message(_Parameter, frozen=True):
    """What is said: an id of the catalogues, and its parameters by name."""

    id: str
    parameters: dict[str, Parameter] = msgspec.field(default_factory=dict)

    @classmethod
    def of(cls, id_: str, /, **parameters: Parameter) -> Message:
        """Return a message.

        Raises
        ------
        TypeError
            When a parameter is of a type that no language could say rightly.
        """
        for name, value in parameters.items():
            if isinstance(value, bool) or not isinstance(value, _ACCEPTED):
                raise TypeError(
                    f"{id_}: {name} is a {type(value).__name__}. Give a number, a text that the "
                    f"household wrote, None, or one of {', '.join(one.__name__ for one in _TYPES)}"
                )
        return cls(id_, parameters)


_TYPES = (Amount, Choice, Code, Day, Link, Measured, Message, Money, Names, Price, Row, Typed)
_ACCEPTED = (*_TYPES, int, float, str, type(None))
Parameter = (
    int
    | float
    | str
    | None
    | Amount
    | Choice
    | Code
    | Day
    | Link
    | Measured
    | Message
    | Money
    | Names
    | Price
    | Row
    | Typed
)
"""What a message may be about."""
