"""The root command: what there is, in a line each, and how to begin."""

from __future__ import annotations

import difflib
from importlib import import_module
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from ledger.kinds import Kind

__all__ = ["OTHERS", "root", "writes"]

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
    "say": ("_say", "write down what happened, in your own words"),
    "questions": ("_answers", "list what is still open: prices, weights, what went in"),
    "answer": ("_answers", "answer an open question"),
    "undo": ("_answers", "take back what was written last"),
    "same": ("_answers", "say that two names mean one thing"),
    "spent": ("_today", "say what was spent: where, on what, when"),
    "between": ("_today", "say how you stand with a neighbour"),
    "show": ("_show", "ask a question: jar-cost, shelf, ..."),
    "touched": ("_show", "follow a lot, item, gauge or batch to whoever had of it"),
    "why": ("_show", "open a figure to its arithmetic and events"),
    "history": ("_show", "read every entry, newest first"),
    "import": ("_files", "read a file of events, JSON Lines or CSV"),
    "export": ("_files", "write every event to a file"),
    "calendar": ("_calendar", "write sowing, canner days and dates into a calendar file"),
    "check": ("_keeping", "verify the book, from the first event to the last"),
    "backup": ("_keeping", "copy the book while it is in use"),
    "restore": ("_keeping", "put a backup or an export in the book's place"),
    "demo": ("_demo", "build the sample household and open it"),
    "serve": ("_demo", "open the dashboard on a book"),
    "circle": ("_circle", "compare a class or group of households, without laying one bare"),
    "completion": ("_files", "print shell completion for bash, zsh or fish"),
}

HELP = """Croftbook: what a household grows, puts up, stocks and eats, and what that costs.

\b
Write down what happens, in your own words:
  croftbook say picked 31 lb plums and two dozen eggs

\b
Or field by field:
  croftbook harvest "31 lb 8 oz plum" --bed orchard --on yesterday
  croftbook buy "10 lb sugar" --paid 7.90 --shop "corner shop"
  croftbook putup "plum butter" --used "16 lb plum" --used "3 lb sugar" \\
      --made "11 half-pint jars" --method "boiling water" --minutes 10
  croftbook meal --ate "1 half-pint plum butter" --people 6

\b
Ask what it means:
  croftbook show jar-cost          croftbook show shelf
  croftbook why jar-cost/ID:1      croftbook history

The book is a file in your data folder, or --book, or the variable CROFTBOOK.
`croftbook COMMAND --help` shows each command with examples."""


def writes() -> dict[str, Kind]:
    """Return the writing commands, each with the kind that it writes."""
    from ledger.kinds import KINDS  # not before it is needed: `croftbook --version` needs none

    return {kind.command: kind for kind in KINDS.values()}


def _which_book(args: list[str]) -> tuple[list[str], list[str]]:
    """Return the words before the command that say which book, and the rest."""
    taken = 0
    while taken < len(args):
        name, sign, _ = args[taken].partition("=")
        if name not in ("--book", "--household"):
            break
        taken += 1 if sign else 2
    return args[:taken], args[taken:]


def _joined(words: list[str]) -> list[str]:
    """Return options and their values as one word each: ``--book=FILE``."""
    text = iter(words)
    return [one if "=" in one else f"{one}={next(text, '')}" for one in text]


class Root(click.Group):
    """Commands by name; a file is read when its command is used."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return every command, those that write first."""
        return [*writes(), *OTHERS]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command by its name, or None."""
        if cmd_name in OTHERS:
            module = import_module(f"ledger.cli.{OTHERS[cmd_name][0]}")
            command: click.Command = module.COMMANDS[cmd_name]
            return command
        kind = writes().get(cmd_name)
        if kind is None:
            return None
        from ledger.cli._write import make_command

        return make_command(kind)

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
        if name and not name.startswith("-") and name not in OTHERS and name not in writes():
            near = difflib.get_close_matches(name, [*writes(), *OTHERS], 1, 0.6)
            meant = _MEANT.get(name.lower()) or (near[0] if near else None)
            hint = f" Did you mean {meant!r}?" if meant else ""
            raise click.UsageError(f"There is no command {name!r}.{hint}", ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """List the commands without importing them."""
        written = {name: kind.summary for name, kind in writes().items()}
        asked = {name: text for name, (_, text) in OTHERS.items()}
        for title, several in (("Write down", written), ("Ask and keep", asked)):
            with formatter.section(title):
                formatter.write_dl(list(several.items()))


@click.group(
    cls=Root,
    help=HELP,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(package_name="croftbook", prog_name="croftbook")
@click.pass_context
def root(ctx: click.Context) -> None:
    """Say what is due where no command is named: every command has a file of its own."""
    if ctx.invoked_subcommand is None:
        from ledger.cli._today import show_due

        named = dict(one.split("=", 1) for one in _joined(ctx.obj or []))
        show_due(named.get("--book"), named.get("--household", "home"))
