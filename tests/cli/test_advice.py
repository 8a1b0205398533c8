"""Commands that the program tells people to type are commands that it has."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import click
import pytest

import ledger
from ledger.cli._root import root

ROOT = Path(ledger.__file__).parent
_SAID = re.compile(r"`croftbook ([^`\n]+)`")


def advised():
    """Return every command between back quotes in the program's texts."""
    for path in sorted([*ROOT.rglob("*.py"), *ROOT.rglob("*.ftl")]):
        for text in _SAID.findall(path.read_text()):
            if re.match(r"[A-Z{]|show ([A-Z]|\{)", text):  # any command, or any question
                continue
            yield pytest.param(
                text.replace('\\"', '"'), id=f"{path.parent.name}/{path.stem}: {text}"
            )


@pytest.mark.parametrize("text", list(advised()))
def test_advised_commands_have_their_options(text):
    words = shlex.split(re.sub(r"\{[^}]*\}", "x", text).rstrip("\\"))
    command = root
    context = click.Context(root)
    while isinstance(command, click.Group) and words and not words[0].startswith("-"):
        command = command.get_command(context, words[0])
        assert command is not None, words
        words = words[1:]
    names = {name for param in command.params for name in param.opts}
    said = {word for word in words if word.startswith("--")}
    assert said <= names | {"--help"}
