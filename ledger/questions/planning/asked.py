"""What is asked of next-season: wants and beds put otherwise, as typed and as an address holds them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any
from urllib.parse import quote, unquote

from ledger.amounts import parse_amount, parse_measure
from ledger.errors import InputError, NotFound
from ledger.messages import Code, Message, Names, Typed, fixed, sentence
from ledger.methods.beds import Aim

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["AIMS", "Asked", "asked_of", "from_address"]

AIMS: Mapping[str, Aim] = {"targets": "targets", "value": "shop value", "energy": "energy"}
"""What may be made as large as possible, by its word on the command line."""

_NONE = ("0", "none")


@dataclass(frozen=True)
class Asked:
    """What is asked.

    Attributes
    ----------
    wants : dict of int to (float, str)
        By item: how much is wanted a year instead (whole units), and that in words.
    beds : dict of str to float
        Ground of beds put otherwise (square metres).
    aim : {'targets', 'value', 'energy'}
    rotate : bool
    address : str
        What an address says of all this; empty for the plain question.
    """

    wants: dict[int, tuple[float, str]] = field(default_factory=dict)
    beds: dict[str, float] = field(default_factory=dict)
    aim: str = "targets"
    rotate: bool = False
    address: str = ""


def asked_of(
    state: State, want: str | Iterable[str] | None, beds: str | Iterable[str] | None,
    aim: str | None, rotate: bool,
) -> Asked:  # fmt: skip
    """Return what is asked, from options as typed.

    Parameters
    ----------
    want, beds : str or iterable of str, optional
        ``item=amount`` and ``bed=area``; several in one text are parted by semicolons.

    Raises
    ------
    InputError
        Naming the option and what would be right.
    NotFound
        When an item is not in the book.
    """
    if aim is not None and aim not in AIMS:
        raise InputError(
            "for", Message.of("refusal-no-aim", text=Typed(aim), names=Names(tuple(AIMS)))
        )
    wants, grounds = (
        _pairs(want, "want", "tomato sauce=80 quart jars"),
        _pairs(beds, "beds", "east bed=40 sq ft"),
    )
    says = [f"want={quote(f'{name}={text}', safe=' =')}" for name, text in wants]
    says += [f"beds={quote(f'{name}={text}', safe=' =')}" for name, text in grounds]
    says += [f"for={aim}"] if aim and aim != "targets" else []
    says += ["rotate"] if rotate else []
    return Asked(
        dict(_wanted(state, name, text) for name, text in wants),
        {name: _ground(text) for name, text in grounds},
        aim or "targets",
        bool(rotate),
        "/".join(says),
    )


def from_address(state: State, parts: list[str]) -> Asked:
    """Return what the parts of an address say (see `Asked.address`)."""
    given: dict[str, Any] = {"want": [], "beds": [], "for": None, "rotate": False}
    for part in parts:
        name, _, text = part.partition("=")
        if name in ("want", "beds"):
            given[name].append(unquote(text))
        elif name == "for":
            given["for"] = text
        elif name == "rotate":
            given["rotate"] = True
        else:
            raise NotFound("address", Message.of("refusal-says-nothing", text=Typed(part)))
    return asked_of(state, given["want"], given["beds"], given["for"], given["rotate"])


def _pairs(given: str | Iterable[str] | None, option: str, example: str) -> list[tuple[str, str]]:
    texts = [given] if isinstance(given, str) else list(given or ())
    out = []
    for text in (part.strip() for one in texts for part in one.split(";")):
        if not text:
            continue
        name, sign, amount = (part.strip() for part in text.rpartition("="))
        if not sign or not name or not amount:
            raise InputError(
                option,
                Message.of("refusal-no-name-and-amount", text=Typed(text), example=Code(example)),
            )
        out.append((name, amount))
    return out


_WORDS = ("mass", "volume", "count", "energy")
"""Measures that are words of ours; any other is a unit that is counted, as the household calls it."""


def _wanted(state: State, name: str, text: str) -> tuple[int, tuple[float, str]]:
    from ledger.items import near_misses

    facts = state.facts
    item = facts.find(name)
    if item is None:
        near = near_misses(name, facts.names)
        hint = (
            Message.of("refusal-did-you-mean", name=Typed(near[0]))
            if near
            else Message.of("refusal-name-item")
        )
        raise NotFound("want", Message.of("refusal-no-item-here", text=Typed(name)), hint)
    if text in _NONE:
        return item, (0.0, "none")
    measures = state.settings.newest("measures", "us") or "us"
    amount = parse_amount(text, measures=measures, zero=True)
    if amount.measure != facts.measure[item]:
        kept = facts.measure[item]
        like = {"mass": "40 lb", "volume": "80 quart jars", "count": "120"}.get(kept, "")
        raise InputError(
            "want",
            sentence(
                "refusal-kept-by",
                name=facts.names[item],
                kept=fixed(kept) if kept in _WORDS else kept,
                text=Typed(text),
                example=Code(like),
            ),
        )
    return item, (float(amount.whole), text)


def _ground(text: str) -> float:
    if text in _NONE:
        return 0.0
    return float(parse_measure(text, "area", "beds"))
