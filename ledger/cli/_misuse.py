"""Errors of use, said by their type from their parts, in the language that is spoken."""

from __future__ import annotations

from typing import Any

import click

from ledger.cli._help import Misuse
from ledger.cli._speech import say
from ledger.messages import Code, Message, Names, Typed

__all__ = ["sentence"]


def sentence(error: click.ClickException) -> str:
    """Return what click refuses as one sentence, with where to read on."""
    text = _said(error).removesuffix(".")
    ctx = getattr(error, "ctx", None)
    if not ctx or "--help" in text:
        return text
    ending = "" if text.endswith("?") else "."
    return f"{text}{ending} {say('usage-see', command=Code(f'{ctx.command_path} --help'))}"


def _said(error: click.ClickException) -> str:
    if isinstance(error, click.NoSuchOption):
        near = sorted(error.possibilities or [])
        return say(
            "usage-no-option",
            name=Typed(error.option_name),
            n=len(near),
            near=Names(tuple(map(Typed, near))) if near else None,
        )
    if isinstance(error, click.MissingParameter):
        return _missing(error)
    if isinstance(error, click.BadOptionUsage):
        id_ = "usage-no-value" if _is_flag(error) else "usage-needs-value"
        return say(id_, name=Typed(error.option_name))
    if isinstance(error, click.BadParameter) and error.param is not None:
        return say("usage-bad", param=Code(_hint(error.param, error.ctx)), reason=_reason(error))
    if isinstance(error, Misuse) or not isinstance(error, click.UsageError):
        return error.format_message()
    return error.message


def _missing(error: click.MissingParameter) -> str:
    param = error.param
    if param is None:
        return error.format_message()
    known = param.type.choices if isinstance(param.type, click.Choice) else ()
    id_ = "usage-missing-option" if isinstance(param, click.Option) else "usage-missing-argument"
    said = say(id_, param=Code(_hint(param, error.ctx)))
    return f"{said} {say('usage-choose', known=_several(known))}" if known else said


def _is_flag(error: click.BadOptionUsage) -> bool:
    """Return whether an option takes no value: it was given one then, and else lacks one."""
    params = error.ctx.command.get_params(error.ctx) if error.ctx is not None else []
    return any(
        isinstance(one, click.Option) and one.is_flag
        for one in params
        if error.option_name in one.opts
    )


def _hint(param: click.Parameter, ctx: click.Context | None) -> str:
    """Return a parameter as it is typed, between marks: ``'--by'``."""
    if isinstance(param, click.Option):
        return " / ".join(repr(one) for one in param.opts)
    return repr(param.make_metavar(ctx)) if ctx is not None else repr(param.human_readable_name)


def _several(words: Any) -> Names:
    return Names(tuple(Typed(str(word)) for word in words))


def _reason(error: click.BadParameter) -> Message:
    """Return what is wrong with a value, by the type of its option."""
    kind, typed = getattr(error.param, "type", None), getattr(error, "typed", None)
    value = Typed(str(typed[0] if isinstance(typed, (tuple, list)) and typed else typed))
    if isinstance(kind, click.Choice):
        return Message.of("usage-not-one-of", value=value, known=_several(kind.choices))
    if isinstance(kind, (click.IntRange, click.FloatRange)) and _is_number(value.text, kind):
        low, high = kind.min, kind.max
        return Message.of("usage-out-of-range", value=value.text, low=low, high=high)
    whole = isinstance(kind, click.types.IntParamType)
    return Message.of("usage-no-integer" if whole else "usage-no-number", value=value)


def _is_number(text: str, kind: Any) -> bool:
    try:
        kind._number_class(text)
    except ValueError:
        return False
    return True
