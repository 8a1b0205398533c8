"""`croftbook` without a command: what is due, what is open, and how to write."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

import click

from ledger.cli._common import book_options, read_book
from ledger.cli._help import argument, command, option
from ledger.cli._speech import echo, language, say, told
from ledger.cli._values import amount, day, number, word
from ledger.messages import LANGUAGES, Day

if TYPE_CHECKING:
    from ledger.book import Book

__all__ = ["COMMANDS", "show_due"]

_SOON = 7
_MOST = 8


def show_due(where: str | None = None, household: str = "home") -> None:
    """Print what is due, open questions, the last entry, and how to write."""
    where = where or os.environ.get("CROFTBOOK")
    with read_book(where, household, blank=True, quiet=True) as book:
        if not book.log.position():
            click.echo(f"{say('cli-due-empty')}\n\n{_first(book)}")
            return
        if _is_only_told(book):
            click.echo(f"{say('cli-due-nothing')}\n\n{_first(book)}")
            return
        for line in _due(book):
            click.echo(line)
        _open(book)
        click.echo(f"\n{_how()}")


def _how() -> str:
    """Return how to write something down."""
    lines = [say("root-example-say"), say("root-example-say-mill")]
    return "\n".join(
        [say("root-own-words-past"), *(f"  {one}" for one in lines), say("cli-due-undo")]
    )


_FIRST = {
    "people": ("people 4", "cli-first-people"),
    "measures": ("measures metric", "cli-first-measures"),
    "altitude": ('altitude "2600 ft"', "cli-first-altitude"),
    "gauge": ("gauge dial", "cli-first-gauge"),
}
"""What an empty book asks, in its order, each with what it is good for; any may be left out."""
_ABROAD = {
    "language": ("language {code}", "cli-first-language"),
    "currency": ("currency EUR", "cli-first-currency"),
}
"""What it asks before, where another language than English is spoken."""
_TOLD = ("setting_changed", "item_described", "person_described")
_A_START = 40


def _is_only_told(book: Book) -> bool:
    """Return whether nothing is in the book but how things are."""
    if book.log.position() > _A_START:
        return False
    return all(row.kind in _TOLD for row in book.history())


def _first(book: Book) -> str:
    """Return what a new book asks, how the first thing is written down, and where a full one is to be seen."""
    catalogue = book.catalogue()
    is_abroad = language() != LANGUAGES[0]
    asked = {**(_ABROAD if is_abroad else {}), **_FIRST}
    if is_abroad:
        asked["altitude"] = ('altitude "800 m"', "cli-first-altitude")
    open_ = [one for name, one in asked.items() if not catalogue.setting(name)]
    lines = []
    if open_:
        lines += [say("cli-first-say-once")]
        lines += [
            f"  croftbook setting {text.format(code=language()):<20} {say(why)}"
            for text, why in open_
        ]
    lines += [
        f"  {say('cli-first-pantry')}",
        say("cli-first-then"),
        f"  {say('cli-first-picked')}",
        "  croftbook show shelf",
        say("cli-first-look-round"),
        say("cli-first-pages"),
    ]
    return "\n".join(lines)


def _due(book: Book) -> list[str]:
    """Return what has to be used within a week, what stands first coming first."""
    answer = book.show("shelf")
    rows = [one for one in answer.records() if one["standing_text"] or _is_soon(one)]
    if not rows:
        return [say("cli-due-none")]
    out = [say("cli-due-these")]
    for one in rows[:_MOST]:
        mark = one["standing_text"]
        when = told(mark) if mark else say("cli-due-by", day=Day(one["use_by"]))
        left, kept = amount(one["left"]["text"]), one["kept"]
        place = f" ({word(kept)})" if kept else ""
        out.append(f"  {left} {one['item']}{place}: {when}")
    if len(rows) > _MOST:
        out.append(f"  {say('cli-due-more', n=len(rows) - _MOST)}")
    return out


def _is_soon(one: dict[str, Any]) -> bool:
    return one["days_left"] is not None and one["days_left"] <= _SOON


def _open(book: Book) -> None:
    from ledger.saying.known import Known
    from ledger.saying.waiting import waiting

    found = waiting(Known(book.catalogue(), book.today(), book.log))
    if found:
        echo("cli-due-open", n=len(found), first=told(found[0].text))


@command(
    "spent",
    help="command-spent",
    examples=[
        "croftbook spent",
        'croftbook spent --by item --from "1 Jan"',
        "croftbook spent --by month --from 2026-01-01",
    ],
)
@option(
    "--by",
    type=click.Choice(["shop", "item", "month"]),
    default="shop",
    show_default=True,
    help="option-spent-by",
)
@option("--from", "start", metavar="DAY", help="option-spent-from")
@option("--to", "end", metavar="DAY", help="option-spent-to")
@option("--json", "as_json", is_flag=True, help="option-json-it")
@book_options
def spent(
    by: str, start: str | None, end: str | None, as_json: bool, book: str | None, household: str
) -> None:
    """Add up purchases."""
    from ledger.cli._common import print_json
    from ledger.door.when import day_of
    from ledger.saying.spending import spending

    with read_book(book, household) as opened:
        today = opened.today()
        first = day_of(start, today, "from") or today.replace(day=1).isoformat()
        last = day_of(end, today, "to") or today.isoformat()
        found = spending(opened, by=by, start=first, end=last)
        currency = opened.setting("currency") or "USD"
    if as_json:
        print_json({"from": first, "to": last, "currency": currency, "by": by, "records": found})
        return
    for one in found:
        many = one["without_price"]
        unknown = f"  {say('cli-spent-unknown', n=many)}" if many else ""
        click.echo(f"{number(one['paid']):>10}  {one[by]}{unknown}")
    total = sum(float(one["paid"]) for one in found)
    span = say("cli-spent-all", currency=currency, first=Day(first), last=Day(last))
    click.echo(f"{number(f'{total:.2f}'):>10}  {span}")


@command(
    "between",
    help="command-between",
    examples=["croftbook between Ida"],
)
@argument("person")
@option("--json", "as_json", is_flag=True, help="option-json-it")
@book_options
def between(person: str, as_json: bool, book: str | None, household: str) -> None:
    """List what was given to and got from somebody."""
    from ledger.cli._common import print_json
    from ledger.saying.spending import dealings

    with read_book(book, household) as opened:
        found = dealings(opened, person)
        currency = opened.setting("currency") or "USD"
    if as_json:
        print_json(found)
        return
    for way, title in (("gave", "cli-between-gave"), ("got", "cli-between-got")):
        echo(title, person=person)
        for one in found[way]:
            value = one["value"]
            worth = say("cli-no-price") if value is None else number(f"{value:.2f}")
            what = f"{amount(one['amount'])} {one['item']} ({word(one['how'])}, {worth})"
            click.echo(f"  {day(one['on'])}  {what}")
        total = sum(one["value"] or 0 for one in found[way])
        cash = number(f"{found[way + '_money']:.2f}")
        said = say("cli-between-all", total=number(f"{total:.2f}"), currency=currency, money=cash)
        click.echo(f"  {said}")


COMMANDS: dict[str, click.Command] = {"spent": spent, "between": between}
