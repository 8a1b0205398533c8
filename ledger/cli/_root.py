"""The root command: what there is, in a line each, and how to begin."""

from __future__ import annotations

import difflib
from importlib import import_module

import click

from ledger.cli._help import Group, group, no_command, option
from ledger.cli._speech import say
from ledger.vocabulary import VOCABULARY

__all__ = ["OTHERS", "root"]

_MEANT = {
    **dict.fromkeys(("delete", "remove", "cancel"), "strike"),
    **dict.fromkeys(("rename", "alias", "merge"), "same"),
    **dict.fromkeys(("pick", "picked", "dig", "collect", "gather"), "harvest"),
    **dict.fromkeys(("eat", "ate", "eaten", "cook", "dinner"), "meal"),
    **dict.fromkeys(("can", "preserve", "freeze", "dry", "jar", "batch"), "putup"),
    **dict.fromkeys(("bought", "purchase", "shop"), "buy"),
    **dict.fromkeys(("sow", "sowed", "planted"), "plant"),
    **dict.fromkeys(("log", "list", "entries", "edit", "correct", "fix"), "history"),
    "shelf": "show shelf", "season": "show season", "cost": "show jar-cost",
    "skill": "practise", "practice": "practise", "open": "serve",
}  # fmt: skip
"""What people type before they have read the help, and the command that does it."""

OTHERS = {
    "say": "_say",
    "questions": "_answers",
    "answer": "_answers",
    "undo": "_answers",
    "same": "_answers",
    "spent": "_today",
    "between": "_today",
    "show": "_show",
    "touched": "_show",
    "why": "_show",
    "history": "_show",
    "import": "_files",
    "export": "_files",
    "calendar": "_calendar",
    "check": "_keeping",
    "backup": "_keeping",
    "restore": "_keeping",
    "demo": "_demo",
    "serve": "_demo",
    "circle": "_circle",
    "completion": "_files",
}
"""The other commands: the file of each. Their lines of help are the messages `command-…`."""

BEGINNING = (
    ("root-own-words", ("root-example-say",)),
    (
        "root-by-field",
        (
            'croftbook harvest "31 lb 8 oz plum" --bed orchard --on yesterday',
            'croftbook buy "10 lb sugar" --paid 7.90 --shop "corner shop"',
            'croftbook putup "plum butter" --used "16 lb plum" --used "3 lb sugar" \\\n'
            '      --made "11 half-pint jars" --method "boiling water" --minutes 10',
            'croftbook meal --ate "1 half-pint plum butter" --people 6',
        ),
    ),
    (
        "root-ask",
        (
            "croftbook show jar-cost          croftbook show shelf",
            "croftbook why jar-cost/ID:1      croftbook history",
        ),
    ),
)
"""How to begin: what is done, and lines to type."""


def _which_book(args: list[str]) -> tuple[list[str], list[str]]:
    """Return the words before the command that say which book and language, and the rest."""
    taken = 0
    while taken < len(args):
        name, sign, _ = args[taken].partition("=")
        if name not in ("--book", "--household", "--language"):
            break
        taken += 1 if sign else 2
    return args[:taken], args[taken:]


def _joined(words: list[str]) -> list[str]:
    """Return options and their values as one word each: ``--book=FILE``."""
    text = iter(words)
    return [one if "=" in one else f"{one}={next(text, '')}" for one in text]


class Root(Group):
    """Commands by name; a file is read when its command is used."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return every command, those that write first."""
        return [*VOCABULARY, *OTHERS]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command by its name, or None."""
        if cmd_name in OTHERS:
            module = import_module(f"ledger.cli.{OTHERS[cmd_name]}")
            command: click.Command = module.COMMANDS[cmd_name]
            return command
        if cmd_name not in VOCABULARY:
            return None
        from ledger.cli._write import make_command
        from ledger.kinds import KINDS

        return make_command(KINDS[VOCABULARY[cmd_name]])

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Take --book and --household before the command as after it."""
        book, rest = _which_book(list(args))
        ctx.obj = book
        if book and rest:
            at = rest.index("--") if "--" in rest else len(rest)
            rest = [*rest[:at], *book, *rest[at:]]
        return super().parse_args(ctx, rest)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Offer the nearest command for one that does not exist."""
        name = args[0] if args else ""
        if name and not name.startswith("-") and name not in OTHERS and name not in VOCABULARY:
            near = difflib.get_close_matches(name, [*VOCABULARY, *OTHERS], 1, 0.6)
            meant = _MEANT.get(name.lower()) or (near[0] if near else None)
            raise no_command(name, meant, ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without importing them."""
        for title, several in (("usage-write-down", VOCABULARY), ("usage-ask-and-keep", OTHERS)):
            with formatter.section(say(title)):
                formatter.write_dl([(name, _said_of(name)) for name in several])

    def long_help(self) -> str:
        """Return what the program is, and how to begin."""
        several = [f"\b\n{say(title)}\n{_lines(lines)}" for title, lines in BEGINNING]
        return "\n\n".join([say("root-about"), *several, say("root-end")])


def _said_of(name: str) -> str:
    """Return what a command does: its message, else the summary of the kind that it writes."""
    from ledger.cli._speech import knows

    if name in OTHERS or knows(f"command-{name}"):
        return say(f"command-{name}")
    from ledger.kinds import KINDS

    return KINDS[VOCABULARY[name]].summary


def _lines(lines: tuple[str, ...]) -> str:
    return "\n".join(f"  {say(one) if one.startswith('root-') else one}" for one in lines)


def _show_version(ctx: click.Context, _param: click.Parameter, value: bool) -> None:
    if value and not ctx.resilient_parsing:
        from importlib.metadata import version

        click.echo(say("cli-version", version=version("croftbook")))
        ctx.exit()


@group(
    "croftbook",
    cls=Root,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@option(
    "--version",
    is_flag=True,
    expose_value=False,
    is_eager=True,
    callback=_show_version,
    help="usage-version",
)
@click.pass_context
def root(ctx: click.Context) -> None:
    """Say what is due where no command is named: every command has a file of its own."""
    if ctx.invoked_subcommand is None:
        from ledger.cli._today import show_due

        named = dict(one.split("=", 1) for one in _joined(ctx.obj or []))
        show_due(named.get("--book"), named.get("--household", "home"))
