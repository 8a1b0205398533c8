"""Asking: show, why and history."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import click

from ledger.cli import _common
from ledger.cli._common import book_options, read_book
from ledger.cli._console import short
from ledger.cli._help import Command, Group, Misuse, Option, argument, command, option
from ledger.cli._speech import say, told
from ledger.cli._tables import print_answer, print_history
from ledger.cli._trees import print_tree
from ledger.messages import Code, Message, Names, Typed
from ledger.messages.helps import help_of

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.history import HistoryRow
    from ledger.projections import Answer
    from ledger.projections import Option as Asked

__all__ = ["COMMANDS"]

_NUMBER = re.compile(r"\d{1,6}")
"""A row of the table shown last; an id has eight characters or more."""
_MANY = 60
"""Records beyond which a table shows those of the newest season."""
_LONG = 100
"""Records beyond which a table without seasons shows the first of them: so many more than are shown
that it is worth a second command."""


class _Show(Group):
    """One subcommand a question, with the options of its projection."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        from ledger.projections import PROJECTIONS

        return list(PROJECTIONS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        from ledger.projections import PROJECTIONS

        if cmd_name not in list(PROJECTIONS):
            return None
        projection = PROJECTIONS[cmd_name]
        params: list[click.Parameter] = [
            Option(
                [f"--{option.name.replace('_', '-')}", f"o_{option.name}"],
                help=_help(cmd_name, option),
                is_flag=option.kind == "flag",
                multiple=option.kind == "list",
                metavar="DAY" if option.kind == "day" else None,
                type=click.Choice(option.choices) if option.choices else None,
                default=None,
            )
            for option in projection.options
        ]
        if projection.compared is not None:
            when = "DAY or SEASON" if "season" in {o.name for o in projection.options} else "DAY"
            params.append(
                Option(["--against", "o_against"], metavar=when, help="option-show-against")
            )
        params += [
            Option(["--as-of"], metavar="DAY", help="option-as-of"),
            Option(["--known-at"], metavar="MOMENT", help="option-known-at"),
            Option(
                ["--json", "as_json"],
                is_flag=True,
                help="option-show-json",
            ),
            Option(["--csv", "as_csv"], is_flag=True, help="option-show-csv"),
            Option(["--wide"], is_flag=True, help="option-show-wide"),
            Option(["--all", "every"], is_flag=True, help="option-show-all"),
            Option(["--notes"], is_flag=True, help="option-show-notes"),
            Option(["--book"], envvar="CROFTBOOK", help="option-book"),
            Option(["--household"], default="home", help="option-household"),
        ]

        def callback(**given: Any) -> None:
            _show(cmd_name, given)

        plain, example = _examples(cmd_name)
        question = told(help_of("question", cmd_name, projection.question))
        return Command(
            cmd_name,
            params=params,
            callback=callback,
            help=question,
            examples=(plain, example, f"{plain} --json"),
            short_help=question,
        )

    def resolve_command(self, ctx: click.Context, args: list[str]) -> Any:
        import difflib

        if args and not args[0].startswith("-") and args[0] not in self.list_commands(ctx):
            near = difflib.get_close_matches(args[0], self.list_commands(ctx), 1, 0.5)
            raise Misuse(
                "usage-no-question",
                ctx,
                name=Typed(args[0]),
                near=Typed(near[0]) if near else None,
                known=Names(tuple(map(Code, self.list_commands(ctx)))),
            )
        return super().resolve_command(ctx, args)


_OWN = {"touched": ("croftbook touched --gauge dial", "croftbook touched --batch 5f0c0a0e --back")}
"""Examples of questions that have a command of their own."""


def _examples(name: str) -> tuple[str, str]:
    return _OWN.get(name, (f"croftbook show {name}", f"croftbook show {name} --as-of 2026-10-01"))


def _help(question: str, option: Asked) -> str:
    about = told(help_of(question, option.name, option.help))
    example = None if option.kind == "flag" else Code(str(option.example))
    return say("option-question", help=f"{about[0].upper()}{about[1:]}", example=example)


def _show(name: str, given: dict[str, Any]) -> None:
    options = {key[2:]: value for key, value in given.items() if key.startswith("o_") and value}
    from ledger.door.when import day_of, moment_of
    from ledger.projections import PROJECTIONS

    days = {one.name for one in PROJECTIONS[name].options if one.kind == "day"}
    # How a thing is published is a question to the tables: it needs no book.
    blank = name == "as-published" and bool(options.get("product"))
    with read_book(given["book"], given["household"], blank=blank) as book:
        _warm(book)
        if not options.get("against", "").isdigit():  # the year of a season stays as it is
            days.add("against")
        for day in days & set(options):
            options[day] = day_of(options[day], book.today(), day)
        answer = book.show(
            name,
            as_of=day_of(given["as_of"], book.today(), "as_of"),
            known_at=moment_of(given["known_at"], book.today()),
            **options,
        )
        since = None if given.get("every") else _newest_season(book, answer)
        measures = book.setting("measures") or "us"
    if given["as_json"]:
        _common.print_json(answer.to_dict(streamed=True))
    elif given["as_csv"]:
        from ledger.cells import csv_pieces

        for piece in csv_pieces(list(answer.cells), answer.each_row()):
            click.echo(piece, nl=False)
    else:
        from ledger.cli._shown import keep

        def kept(shown: Answer) -> bool:
            return keep(given["book"], given["household"], shown)

        most = None if given.get("every") or since or answer.count <= _LONG else _MANY
        print_answer(
            answer,
            wide=given["wide"],
            since=since,
            most=most,
            notes=given["notes"],
            keep=kept,
            measures=measures,
        )


def _newest_season(book: Book, answer: Answer) -> str | None:
    """Return the day from which a table shows its records; None where they are few."""
    from ledger.projections import PROJECTIONS

    dated = PROJECTIONS[answer.name].dated if answer.name in PROJECTIONS else ""
    if not dated or len(days := answer.cells.get(dated, ())) <= _MANY:
        return None
    import numpy as np

    from ledger.replay import day_number, day_text
    from ledger.replay.seasons import Season

    season = Season(book.state(as_of=answer.as_of).settings.newest("season_starts"))
    newest = int(season.of(np.array(day_number(max(days)))))
    return day_text(season.first_day(newest))


def _warm(book: Any) -> None:
    """Replay with a bar where the book is large and a person waits."""
    with _common.progress(
        say("cli-reading"), book.log.position() if _common.at_terminal() else 0
    ) as step:
        book.replay(step)


@command(
    "why",
    help="command-why",
    examples=[
        "croftbook why 3",
        "croftbook why 3 cost_per_quart",
        "croftbook why jar-cost/ID:1 cost_per_quart",
        "croftbook why shelf/ID:1 cost_left --json",
    ],
)
@argument("address")
@argument("field", required=False)
@option("--as-of", metavar="DAY", help="option-as-of")
@option("--known-at", metavar="MOMENT", help="option-known-at")
@option("--json", "as_json", is_flag=True, help="option-why-json")
@book_options
def why(
    address: str,
    field: str | None,
    as_of: str | None,
    known_at: str | None,
    as_json: bool,
    book: str | None,
    household: str,
) -> None:
    """Open a figure."""
    from ledger.cli._shown import row_of
    from ledger.door.when import day_of, moment_of

    row = row_of(book, household, address) if _NUMBER.fullmatch(address) else None
    if row is not None:
        address, known_at = row.address, known_at or row.known_at
        as_of = as_of or row.as_of
        if not as_json:
            click.echo(f"{say(row.told)}: {short(address)}\n")
    with read_book(book, household) as opened:
        _warm(opened)
        today = opened.today()
        node = opened.why(
            address,
            field,
            as_of=day_of(as_of, today, "as_of"),
            known_at=moment_of(known_at, today),
        )
        currency = opened.setting("currency") or "USD"
        measures = opened.setting("measures") or "us"
    if as_json:
        _common.print_json(node.to_dict())
    else:
        print_tree(node, currency, measures)


@command(
    "history",
    help="command-history",
    examples=[
        "croftbook history --limit 10",
        "croftbook history --item plum --from 2026-08-01",
        "croftbook history --kind put_up --json",
        'croftbook history --find "too sweet"',
        "croftbook history --all",
    ],
)
@option("--kind", help="option-history-kind")
@option("--item", help="option-history-item")
@option("--find", metavar="WORDS", help="option-history-find")
@option("--notes", is_flag=True, help="option-history-notes")
@option("--from", "start", metavar="DAY", help="option-history-from")
@option("--to", "end", metavar="DAY", help="option-history-to")
@option("--limit", default=30, show_default=True, help="option-history-limit")
@option("--all", "everything", is_flag=True, help="option-history-all")
@option("--json", "as_json", is_flag=True, help="option-json-list")
@book_options
def history(
    kind: str | None,
    item: str | None,
    find: str | None,
    notes: bool,
    start: str | None,
    end: str | None,
    limit: int,
    everything: bool,
    as_json: bool,
    book: str | None,
    household: str,
) -> None:
    """Read the history."""
    import dataclasses

    from ledger.door.when import day_of

    with read_book(book, household) as opened:
        kind = _as_stored(kind)
        _must_be_there(opened, kind, item)
        today = opened.today()
        start, end = day_of(start, today, "from"), day_of(end, today, "to")
        rows = [
            r
            for r in opened.history(kind=kind, item=item)
            if (not start or r.on >= start)
            and (not end or r.on <= end)
            and (not notes or r.note)
            and _has_words(r, find)
        ]
        shown = rows[:limit] if limit > 0 and not everything else rows
        marks = _marks(opened, shown)
        if as_json:
            _common.print_json(
                [
                    {**dataclasses.asdict(row), "standing_text": marks.get(row.entry)}
                    for row in shown
                ]
            )
        else:
            print_history(shown, len(rows), marks, opened)


def _has_words(row: HistoryRow, words: str | None) -> bool:
    """Return whether an entry's line or its note has all the words looked for."""
    said = f"{row.line} {row.note or ''}".casefold()
    return all(word in said for word in (words or "").casefold().split())


def _marks(book: Any, rows: list[HistoryRow]) -> dict[str, str]:
    """Return what is said of the batches among some entries whose jars are there and bear a mark."""
    if not any(row.kind == "put_up" for row in rows):
        return {}
    from ledger.questions.shared.batch_marks import marks_by_entry

    return marks_by_entry(book.state())


def _as_stored(kind: str | None) -> str | None:
    """Return a kind's name, which may be said by the command that writes it."""
    from ledger.kinds import KINDS

    return next((one.name for one in KINDS.values() if one.command == kind), kind)


def _must_be_there(book: Any, kind: str | None, item: str | None) -> None:
    """Refuse a kind or an item that there is not, as an empty history would hide the slip."""
    import difflib

    from ledger.errors import NotFound
    from ledger.items import near_misses
    from ledger.kinds import KINDS

    if kind is not None and kind not in KINDS:
        near = difflib.get_close_matches(kind, KINDS, 1, 0.5)
        wanted = _near(near) or Message.of("refusal-one-of", known=Names(tuple(map(Code, KINDS))))
        raise NotFound("kind", Message.of("refusal-no-kind", kind=Typed(kind)), wanted)
    if item is not None and not book.catalogue().is_item(item):
        near = near_misses(item, book.catalogue().names())
        raise NotFound("item", Message.of("refusal-no-item", item=Typed(item)), _near(near) or "")


def _near(names: list[str]) -> Message | None:
    """Return the question whether the nearest name is meant."""
    return Message.of("refusal-did-you-mean", name=Typed(names[0])) if names else None


class _Commands(dict[str, click.Command]):
    """Commands by name; a question that is a command of its own is read when it is used."""

    def __missing__(self, name: str) -> click.Command:
        command = _Show("show").get_command(click.Context(click.Command("show")), name)
        if command is None:
            raise KeyError(name)
        return command


COMMANDS: dict[str, click.Command] = _Commands(
    {
        "show": _Show(
            "show",
            help="command-show",
            examples=("croftbook show jar-cost", "croftbook show shelf --json"),
        ),
        "why": why,
        "history": history,
    }
)
