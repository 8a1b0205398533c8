"""What `say` does with a reading: asks what it leaves open, then writes it, all or nothing."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import click

from ledger.cli import _common
from ledger.cli._asking import Doubts
from ledger.cli._speech import say
from ledger.cli._speech import told as spoken
from ledger.door import Written
from ledger.errors import InputError, NeedsAnswer
from ledger.kinds import IN_HOUSE
from ledger.messages import Choice, Message, joined, sentence
from ledger.saying.asking import Question, Reading
from ledger.saying.echo import told
from ledger.saying.entries import entries_of
from ledger.saying.settled import Settled

if TYPE_CHECKING:
    from ledger.book import Book

__all__ = ["settle", "write_all"]

_NOTE, _OUT = "note", "out"
_TYPOS = frozenset({"much", "dear", "repeat", "slip_new", "became"})
"""Doubts that Enter alone never settles: what was typed may be the slip."""
_SAID_ONLY = frozenset({"became"})
"""Questions that no answer given in advance settles: what became of a jar that shows signs of spoilage."""


def settle(read: Callable[[Settled], Reading], settled: Settled, *, yes: bool) -> Reading:
    """Return a reading that nothing stands in the way of.

    Parameters
    ----------
    read : callable
        ``read(settled)`` reads the text anew, with the answers so far.
    yes : bool
        Take the answers offered; never an item made of words that found no place.

    Raises
    ------
    InputError
        Off a terminal, or with `yes` where no answer is offered: what is missing.
    """
    reading = read(settled)
    if yes:
        for _ in range(20):
            if not reading.blocks or not _take_offered(reading, settled):
                break
            reading = read(settled)
    if reading.blocks and (yes or not _common.at_terminal()):
        raise _missing(reading)
    told_once = False
    while reading.blocks:
        if not told_once:
            for line in told(reading):
                click.echo(spoken(line), err=True)
            told_once = True
        _ask_one(reading, settled)
        reading = read(settled)
    return reading


def _take_offered(reading: Reading, settled: Settled) -> bool:
    """Take every answer offered; return whether there was any."""
    taken = False
    for one in reading.questions:
        is_given = one.waits or one.key in settled.answers or not one.options
        if is_given or one.code in _SAID_ONLY:
            continue
        if one.options[0].startswith("new:") and not _is_safe(one):
            continue
        settled.answers[one.key] = str(one.options[0])
        taken = True
    for key in reading.left_keys:
        if key not in settled.answers:
            settled.answers[key] = _NOTE if key not in reading.unhappened else _OUT
            taken = True
    return taken


def _is_safe(one: Question) -> bool:
    """Return whether a new name may be taken unasked: one word, or a kind of what is known."""
    name = one.options[0].removeprefix("new:").strip()
    return len(name.split()) == 1 or any(name.endswith(f" {known}") for known in one.options[1:])


def _missing(reading: Reading) -> InputError:
    """Return the refusal off a terminal: what to add to the words."""
    asked = [one.text for one in reading.questions if not one.waits]
    left = [sentence("refusal-no-place", words=one) for one in reading.left_over]
    hint = [reading.hint] if reading.hint else []
    found = joined(" ", [*hint, *asked, *left]) or Message.of("refusal-nothing-said")
    if left and not asked:
        note = Choice("yes" if reading.entries else "no")
        return InputError("", found, Message.of("refusal-say-otherwise", note=note))
    asks = [one for one in reading.questions if not one.waits]
    offered = left or any(one.options and one.code not in _SAID_ONLY for one in asks)
    return InputError("", found, Message.of("refusal-say-it" if offered else "refusal-say-all"))


def _ask_one(reading: Reading, settled: Settled) -> None:
    """Ask the first thing that stands in the way."""
    for one in reading.questions:
        if not one.waits:
            settled.answers[one.key] = _answer(spoken(one.text), one.options, _default(one))
            return
    key = next(key for key in reading.left_keys if key not in settled.answers)
    if key in reading.unhappened:
        _answer(say("cli-did-not-happen", words=key[1]), [], "yes")
        settled.answers[key] = _OUT
        return
    options = [say("cli-into-note"), say("cli-leave-out")]
    said = _answer(say("cli-no-place", words=key[1]), options, options[0])
    settled.answers[key] = _OUT if said == options[1] else _NOTE


def _default(one: Question) -> str | None:
    """Return what Enter takes, or None where it takes nothing."""
    if one.code in _TYPOS or not one.options or one.options[0].startswith("new:"):
        return None
    return one.options[0]


def _answer(text: str, options: list[str], default: str | None) -> str:
    """Ask at the terminal; a number picks an option, Enter the first where that is safe."""
    shown = "  ".join(f"{n}) {spoken(option)}" for n, option in enumerate(options, 1))
    said = ""
    while not said:
        said = click.prompt(
            f"{text} {shown}".rstrip(), default=default or "", show_default=False, err=True
        ).strip()
        if said.isdigit() and 1 <= int(said) <= len(options):
            said = options[int(said) - 1]
    return str(said)


def write_all(book: Book, reading: Reading, doubts: Doubts, by: str | None) -> list[Written]:
    """Write a reading's entries in one go, and remember other names first.

    Raises
    ------
    InputError, NeedsAnswer
        Nothing is written then.
    """
    entries = entries_of(book.catalogue(), reading, by=by)
    if not entries:
        return []
    for one in entries:
        if one.kind in IN_HOUSE:
            doubts.settle(lambda one=one: book.ask(one, doubts.answers, usual=False))  # type: ignore[misc]
    try:
        return doubts.settle(lambda: book.enter_all(entries, doubts.answers))
    except (InputError, NeedsAnswer):
        raise
