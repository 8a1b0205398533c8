"""Commands and options whose help is said in the language that is spoken.

``help=`` holds the id of a message, and metavars are words of ours; commands, options and what is typed
stay as they are in every language. Errors of use are said by their type, from their parts.
"""

from __future__ import annotations

import difflib
import re
import textwrap
from collections.abc import Callable, Sequence
from typing import Any

import click

from ledger.cli._speech import language, say, set_language
from ledger.messages import LANGUAGES, known_language

__all__ = [
    "Argument",
    "Command",
    "Group",
    "Misuse",
    "Option",
    "Refused",
    "argument",
    "command",
    "group",
    "language_option",
    "no_command",
    "no_language",
    "option",
]

_WORD = re.compile(r"[A-Z]+(?:[-_][A-Z]+)*|\bor\b")
_SHORT = 45
"""Letters of a command's line in the help of its group."""


class Misuse(click.UsageError):
    """Wrong use of a command, as a message.

    Parameters
    ----------
    id_ : str
        The message; it is said when it is shown.
    """

    def __init__(self, id_: str, ctx: click.Context | None = None, **parameters: Any) -> None:
        super().__init__(id_, ctx)
        self.id, self.parameters = id_, parameters

    def format_message(self) -> str:
        """Return the message in the language that is spoken."""
        return say(self.id, **self.parameters)


class Refused(click.ClickException):
    """What cannot be done, as a message; the command ends with status 1."""

    def __init__(self, id_: str, **parameters: Any) -> None:
        super().__init__(id_)
        self.id, self.parameters = id_, parameters

    def format_message(self) -> str:
        """Return the message in the language that is spoken."""
        return say(self.id, **self.parameters)


class Option(click.Option):
    """An option whose help is an id, or a text that was said already."""

    def get_help_record(self, ctx: click.Context) -> tuple[str, str] | None:
        """Return how the option is written, and what it is for."""
        if self.hidden:
            return None
        extra = self.get_help_extra(ctx)
        more = []
        if "default" in extra:
            more.append(say("usage-default", value=str(extra["default"])))
        if "range" in extra:
            more.append(str(extra["range"]))
        if "required" in extra:
            more.append(say("usage-required"))
        about = _said(self.help or "")
        about = f"{about}  [{'; '.join(more)}]" if more else about
        return self.get_help_spec(ctx), about

    def make_metavar(self, ctx: click.Context) -> str:
        """Return what stands for the value, in the language."""
        return _metavar(super().make_metavar(ctx))

    def type_cast_value(self, ctx: click.Context, value: Any) -> Any:
        """Return the value as its type reads it; an error keeps what was typed."""
        return _cast(super().type_cast_value, self, ctx, value)


class Argument(click.Argument):
    """A word without an option's name."""

    def make_metavar(self, ctx: click.Context) -> str:
        """Return what stands for the word, in the language."""
        return _metavar(super().make_metavar(ctx))

    def type_cast_value(self, ctx: click.Context, value: Any) -> Any:
        """Return the value as its type reads it; an error keeps what was typed."""
        return _cast(super().type_cast_value, self, ctx, value)


def _cast(cast: Callable[..., Any], param: click.Parameter, ctx: click.Context, value: Any) -> Any:
    try:
        return cast(ctx, value)
    except click.BadParameter as error:
        raise _Unfit(error.message, ctx, param, value) from None


class _Unfit(click.BadParameter):
    """A value that its option does not take, with the value."""

    def __init__(
        self, message: str, ctx: click.Context, param: click.Parameter, typed: Any
    ) -> None:
        super().__init__(message, ctx, param)
        self.typed = typed


class _Spoken:
    """What a command and a group have in common: help from the catalogues, and no English of click's."""

    help: str | None
    examples: Sequence[str]

    def get_params(self, ctx: click.Context) -> list[click.Parameter]:
        """Return the command's own options, and before the help that of the language."""
        own: list[click.Parameter] = super().get_params(ctx)  # type: ignore[misc]
        at = -1 if own and own[-1].name == "_click_default_help" else len(own)
        return own if _names(own, "language") else [*own[:at], language_option(), *own[at:]]

    def get_help_option(self, ctx: click.Context) -> click.Option | None:
        """Return ``--help`` with its line in the language."""
        found: click.Option | None = super().get_help_option(ctx)  # type: ignore[misc]
        if found is not None:
            found.help = say("usage-help")
        return found

    def format_usage(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the line that shows how the command is used."""
        pieces = self.collect_usage_pieces(ctx)  # type: ignore[attr-defined]
        prefix = f"{say('usage-usage')} "
        formatter.write_usage(ctx.command_path, _metavar(" ".join(pieces)), prefix=prefix)

    def format_help_text(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write what the command does, and examples of it."""
        text = self.long_help()
        if self.examples:
            several = sum(not one.startswith(" ") for one in self.examples) > 1
            title = say("usage-examples" if several else "usage-example")
            lines = "\n".join(f"  {_said(one)}" for one in self.examples)
            text = f"{text}\n\n\b\n{title}\n{lines}" if text else f"\b\n{title}\n{lines}"
        if text:
            formatter.write_paragraph()
            with formatter.indentation():
                formatter.write_text(text)

    def long_help(self) -> str:
        """Return what the command does, whole."""
        from ledger.messages.catalogue import speaker

        id_ = self.help or ""
        if id_.startswith("command-") and speaker(language()).has(id_, "long"):
            return say(id_, "long")
        text = _said(id_)
        return (
            f"{text[:1].upper()}{text[1:]}{'' if text.endswith(('.', '?')) else '.'}"
            if text
            else ""
        )

    def get_short_help_str(self, limit: int = _SHORT) -> str:
        """Return the command's line in the help of its group."""
        own: str | None = getattr(self, "short_help", None)
        if own:
            return _said(own)
        first = re.split(r"\.(?: |\n|$)", self.long_help(), maxsplit=1)[0]
        return textwrap.shorten(first, limit, placeholder="...")


class Command(_Spoken, click.Command):
    """A command.

    Parameters
    ----------
    help : str
        The id of a message; its ``long`` is the help, itself the line in a list. A text with a blank in
        it was said already.
    examples : sequence of str
        Lines to type, or ids of them.
    """

    def __init__(self, *args: Any, examples: Sequence[str] = (), **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.examples = examples

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the options."""
        _write_options(self, ctx, formatter)

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the command's words; too many are refused in our own words."""
        allowed, ctx.allow_extra_args = ctx.allow_extra_args, True
        rest = super().parse_args(ctx, args)
        ctx.allow_extra_args = allowed
        if rest and not allowed and not ctx.resilient_parsing:
            raise Misuse("usage-too-many", ctx, n=len(rest), words=" ".join(map(str, rest)))
        return rest


class Group(_Spoken, click.Group):
    """Commands under one name."""

    def __init__(self, *args: Any, examples: Sequence[str] = (), **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.examples = examples

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the options, and the commands below them."""
        _write_options(self, ctx, formatter)
        self.format_commands(ctx, formatter)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands with a line each."""
        names = self.list_commands(ctx)
        limit = formatter.width - 6 - max(map(len, names), default=0)
        rows = []
        for name in names:
            found = self.get_command(ctx, name)
            if found is not None and not found.hidden:
                rows.append((name, found.get_short_help_str(limit)))
        with formatter.section(say("usage-commands")):
            formatter.write_dl(rows)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Offer the nearest command for one that does not exist."""
        name = args[0] if args else ""
        if name and not name.startswith("-") and self.get_command(ctx, name) is None:
            near = difflib.get_close_matches(name, self.list_commands(ctx), 1, 0.6)
            raise no_command(name, near[0] if near else None, ctx)
        return super().resolve_command(ctx, args)


def no_command(name: str, near: str | None, ctx: click.Context) -> Misuse:
    """Return the refusal of a command that there is not."""
    from ledger.messages import Typed

    return Misuse("usage-no-command", ctx, name=Typed(name), near=Typed(near) if near else None)


def _names(params: list[click.Parameter], name: str) -> bool:
    return any(f"--{name}" in one.opts for one in params)


def _write_options(
    command: click.Command, ctx: click.Context, formatter: click.HelpFormatter
) -> None:
    records = [one.get_help_record(ctx) for one in command.get_params(ctx) if one.param_type_name == "option"]  # fmt: skip
    with formatter.section(say("usage-options")):
        formatter.write_dl([one for one in records if one is not None])


def _said(text: str) -> str:
    """Return the message of an id; a text, which has blanks in it, as it is."""
    return say(text) if re.fullmatch(r"[a-z][a-z0-9]*(-[a-z0-9]+)+", text) else text


def _metavar(text: str) -> str:
    """Return a metavar in the language, word by word; one that has no word there stays."""
    if language() == LANGUAGES[0]:
        return text
    from ledger.messages.catalogue import speaker

    spoken = speaker(language())

    def word(match: re.Match[str]) -> str:
        id_ = f"metavar-{match[0].lower().replace('_', '-')}"
        return spoken.text(id_) if spoken.has(id_) else match[0]

    return _WORD.sub(word, text)


def _take_language(ctx: click.Context, _param: click.Parameter, value: str | None) -> None:
    code = known_language(value)
    if value is not None and code is None:
        raise no_language(value, ctx)
    if code is not None:
        set_language(code, chosen=True)


def no_language(value: str, ctx: click.Context | None = None) -> Misuse:
    """Return the refusal of a language that has no texts."""
    from ledger.messages import Code, Names, Typed

    return Misuse("usage-no-language", ctx, value=Typed(value), known=Names(tuple(map(Code, LANGUAGES))))  # fmt: skip


def language_option() -> Option:
    """Return ``--language``, which every command takes."""
    return Option(
        ["--language"],
        metavar="|".join(LANGUAGES),
        help="usage-language",
        expose_value=False,
        is_eager=True,
        callback=_take_language,
    )


def option(*names: str, **attributes: Any) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Add an option to a command; its help is the id of a message."""
    return click.option(*names, cls=Option, **attributes)


def argument(*names: str, **attributes: Any) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Add a word without an option's name to a command."""
    return click.argument(*names, cls=Argument, **attributes)


def command(name: str, **attributes: Any) -> Callable[[Any], Any]:
    """Make a function a command; its help is the id of a message."""
    return click.command(name, cls=Command, **attributes)


def group(name: str, cls: type[Group] = Group, **attributes: Any) -> Callable[[Any], Any]:
    """Make a function a group of commands."""
    return click.group(name, cls=cls, **attributes)
