"""Questions at a terminal: doubts and what is missing.

Off a terminal nothing is asked: the refusal says what to give.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, TypeVar

import click

from ledger.cli import _common
from ledger.cli._speech import ask, confirm, refused, say, told
from ledger.door import Answers
from ledger.door.texts import PARTS
from ledger.errors import InputError, NeedsAnswer
from ledger.kinds import Kind, check_typed
from ledger.kinds.bought import missing_paid
from ledger.kinds.describing import TYPED, Field
from ledger.messages import Code, Message, fixed, sentence

__all__ = ["Doubts", "ask_missing", "in_words"]

_Out = TypeVar("_Out")
_LINE = re.compile(r"(?P<list>\w+)\[(?P<n>\d+)\]\.(?P<name>\w+)$")


class Doubts:
    """Settles doubts between attempts, so that no book stays locked while a person thinks.

    Parameters
    ----------
    yes : bool
        Take the answer offered to every question.
    knowingly : bool
        Take from jars that stand in danger, too.

    Attributes
    ----------
    answers : Answers
        What the door is given: it knows what was answered so far, and raises every other doubt.
    """

    def __init__(self, *, yes: bool, knowingly: bool = False) -> None:
        self._said: dict[tuple[str, str, str], bool] = {}
        self.answers = Answers(
            ask=self._lookup if _common.at_terminal() else None, yes=yes, knowingly=knowingly
        )

    def _lookup(self, doubt: NeedsAnswer) -> bool:
        if _key(doubt) not in self._said:
            raise doubt
        return self._said[_key(doubt)]

    def settle(self, attempt: Callable[[], _Out]) -> _Out:
        """Return what an attempt gives once its doubts are answered, attempting it anew each time.

        Raises
        ------
        InputError, NeedsAnswer
            Off a terminal, or where the answer is no.
        """
        notes = len(self.answers.notes)
        while True:
            try:
                return attempt()
            except NeedsAnswer as doubt:
                if not _common.at_terminal() or _key(doubt) in self._said:
                    raise
                self._said[_key(doubt)] = _ask(doubt)
            del self.answers.notes[notes:]


def _key(doubt: NeedsAnswer) -> tuple[str, str, str]:
    return doubt.code, doubt.field, doubt.question


def _ask(doubt: NeedsAnswer) -> bool:
    offered = f" [{told(doubt.offered)}]" if doubt.offered else ""
    match = _LINE.fullmatch(doubt.field)
    name = match["name"] if match else doubt.field
    return confirm(f"{name}: {told(doubt.question)}{offered}")


def ask_missing(
    kind: Kind, body: dict[str, Any], fields: list[Field], read: Callable[[str, str], Any]
) -> dict[str, Any]:
    """Return a body that holds what is needed: asked for at a terminal, else refused.

    Parameters
    ----------
    kind, body, fields
        What is written, what was typed of it, and its options.
    read : callable
        ``read(name, text)`` gives a part of a body from a text.

    Raises
    ------
    InputError
        Naming what is wrong or missing.
    """
    choices = {field.name: field.choices for field in fields}
    asked = set()
    while True:
        try:
            check_typed(kind, body)
            check_paid(kind, body)
            return body
        except InputError as error:
            is_missing = error.says("refusal-missing")
            if not _common.at_terminal() or not (is_missing or error.field in asked):
                raise
            if not is_missing:
                click.echo(refused(error), err=True)
            asked.add(error.field)
            try:
                _fill(kind, body, error, choices, read)
            except InputError as bad:
                click.echo(refused(bad), err=True)


def check_paid(kind: Kind, body: dict[str, Any]) -> None:
    """Refuse a purchase that does not say what each line cost.

    Raises
    ------
    InputError
    """
    if kind.name != "bought":
        return
    lines = body.get("lines") or [body]
    for i, line in enumerate(lines):
        if line.get("paid") is None:
            raise missing_paid(f"lines[{i}].paid" if len(lines) > 1 else "paid")


def _fill(
    kind: Kind,
    body: dict[str, Any],
    error: InputError,
    choices: dict[str, tuple[str, ...]],
    read: Callable[[str, str], Any],
) -> None:
    """Ask for one missing field, and put it where it belongs."""
    match = _LINE.search(error.field)
    name = match["name"] if match else error.field.rsplit(".", 1)[-1]
    line = body[match["list"]][int(match["n"])] if match else _only_line(kind, body, name)
    if line is not None and "item" in line:
        click.echo(f"{line.get('amount', '')} {line['item']}".strip(), err=True)
    text = _prompt(name, error, choices.get(name, ()))
    if line is not None:
        line[name] = text
    elif name in PARTS:
        part = read(name, text)
        body[name] = part if name == "seed" else [part]
    elif name == "people" and kind.name == "practised":
        body[name] = [one.strip() for one in text.split(",")]
    else:
        body[name] = text


def _only_line(kind: Kind, body: dict[str, Any], name: str) -> dict[str, Any] | None:
    """Return the line that stands alone in a body, where a field is one of lines."""
    lines = body.get("lines", ())
    return lines[0] if len(lines) == 1 and name in kind.line_names else None


def in_words(
    error: InputError | NeedsAnswer, body: dict[str, Any], fields: list[Field]
) -> InputError | NeedsAnswer:
    """Return a refusal in the words of the command: ``paid: is missing (24 lids)``, and its option."""
    match = _LINE.fullmatch(error.field)
    name = match["name"] if match else error.field
    if isinstance(error, NeedsAnswer):
        return NeedsAnswer(error.code, name, error.question, error.offered)
    wanted: Message | str = ""
    if name in TYPED and error.right is not None and error.right.id == "refusal-for-example":
        what, typed = error.right.parameters["what"], Code(f'"{TYPED[name]}"')
        wanted = Message.of("refusal-for-example", what=what, example=typed)
    if error.says("refusal-missing") and name in {field.name for field in fields}:
        right, option = wanted or error.right or None, Code(f"--{name.replace('_', '-')}")
        wanted = Message.of("refusal-as-option", wanted=right, option=option)
    several = body.get(match["list"]) if match else None
    if match is None or not isinstance(several, list) or int(match["n"]) >= len(several):
        return error.at(error.field, wanted=wanted)
    line = several[int(match["n"])]
    said = f"{line.get('amount', '')} {line.get('item', '')}".strip()
    if not said or name in ("item", "amount"):
        said = sentence("cli-beside-line", n=int(match["n"]) + 1, said=said or None)
    return error.at(name, beside=said, wanted=wanted)


def _prompt(name: str, error: InputError, choices: tuple[str, ...]) -> str:
    label = name.replace("_", " ").capitalize()
    if choices:
        words = {told(fixed(one, name)): one for one in choices}
        said = ask(label, choices=tuple(words))
        return words.get(said, said)
    example = TYPED.get(name) or re.sub(r".*, for example ('?)([^\[{]+)\1$", r"\2", error.wanted)
    if example and example != error.wanted:
        label = say("cli-for-example", label=label, example=Code(example))
    return ask(label).strip()
