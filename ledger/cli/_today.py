"""`croftbook` without a command: what is due, what is open, and how to write."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

import click

from ledger.cli._common import book_options, read_book

if TYPE_CHECKING:
    from ledger.book import Book

__all__ = ["COMMANDS", "show_due"]

_SOON = 7
_MOST = 8
_HOW = """Write down what happened, in your own words:
  croftbook say picked 31 lb plums and two dozen eggs
  croftbook say bought 10 lb sugar 7.90 at the mill yesterday
Take the last entry back with `croftbook undo`; every command: `croftbook --help`."""


def show_due(where: str | None = None, household: str = "home") -> None:
    """Print what is due, open questions, the last entry, and how to write."""
    where = where or os.environ.get("CROFTBOOK")
    with read_book(where, household, blank=True, quiet=True) as book:
        if not book.log.position():
            click.echo(f"Your book is empty.\n\n{_first(book)}")
            return
        if _is_only_told(book):
            click.echo(f"Nothing happened in your book yet.\n\n{_first(book)}")
            return
        for line in _due(book):
            click.echo(line)
        _open(book)
        click.echo(f"\n{_HOW}")


_FIRST = {
    "people": ("people 4", "how many eat at your table"),
    "measures": ("measures metric", "us, uk or metric; us unless said"),
    "altitude": ('altitude "2600 ft"', "minutes and pressure of canning go by it"),
    "gauge": ("gauge dial", "of the pressure canner: dial or weighted"),
}
"""What an empty book asks, in its order, each with what it is good for; any may be left out."""
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
    open_ = [one for name, one in _FIRST.items() if not catalogue.setting(name)]
    lines = []
    if open_:
        lines += ["Say once what you know; each may be left out:"]
        lines += [f"  croftbook setting {text:<20} {why}" for text, why in open_]
    lines += [
        '  croftbook say "there are 12 quart jars of tomato sauce, 25 lb flour, 3 dozen eggs"',
        "Then write down what happened, in your own words, and ask:",
        "  croftbook say picked 31 lb plums",
        "  croftbook show shelf",
        "Or look round first: `croftbook demo` opens an invented household; your book stays as it is.",
        "The pages, on this machine: `croftbook serve`; every command: `croftbook --help`.",
    ]
    return "\n".join(lines)


def _due(book: Book) -> list[str]:
    """Return what has to be used within a week, what stands first coming first."""
    answer = book.show("shelf")
    rows = [one for one in answer.records() if one["standing_text"] or _is_soon(one)]
    if not rows:
        return ["Nothing has to be used this week."]
    out = ["To use this week, or to look at first:"]
    for one in rows[:_MOST]:
        when = one["standing_text"] or f"by {one['use_by']}"
        out.append(f"  {one['left']['text']} {one['item']} ({one['kept']}): {when}")
    if len(rows) > _MOST:
        out.append(f"  and {len(rows) - _MOST} more: croftbook show shelf")
    return out


def _is_soon(one: dict[str, Any]) -> bool:
    return one["days_left"] is not None and one["days_left"] <= _SOON


def _open(book: Book) -> None:
    from ledger.saying.known import Known
    from ledger.saying.waiting import waiting

    found = waiting(Known(book.catalogue(), book.today(), book.log))
    if found:
        click.echo(f"Open questions: {len(found)} (croftbook questions), first: {found[0].text}")


@click.command(
    "spent",
    help='Say what was spent: where, on what, or in which month; other spending on receipts too.\n\n\b\nExamples:\n  croftbook spent\n  croftbook spent --by item --from "1 Jan"\n  croftbook spent --by month --from 2026-01-01',
)
@click.option(
    "--by",
    type=click.Choice(["shop", "item", "month"]),
    default="shop",
    show_default=True,
    help="One line for each.",
)
@click.option(
    "--from", "start", metavar="DAY", help="From this day on; default: the first of this month."
)
@click.option("--to", "end", metavar="DAY", help="Up to this day; default today.")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
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
        currency = opened.catalogue().setting("currency") or "USD"
    if as_json:
        print_json({"from": first, "to": last, "currency": currency, "by": by, "records": found})
        return
    for one in found:
        unknown = f"  ({one['without_price']} without a price)" if one["without_price"] else ""
        click.echo(f"{one['paid']:>10}  {one[by]}{unknown}")
    total = sum(float(one["paid"]) for one in found)
    click.echo(f"{total:>10.2f}  in all, {currency}, {first} to {last}")


@click.command(
    "between",
    help="Say how you stand with a neighbour: what went there, what came, and what a shop would take for it.\n\n\b\nExample:\n  croftbook between Ida",
)
@click.argument("person")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
@book_options
def between(person: str, as_json: bool, book: str | None, household: str) -> None:
    """List what was given to and got from somebody."""
    from ledger.cli._common import print_json
    from ledger.saying.spending import dealings

    with read_book(book, household) as opened:
        found = dealings(opened, person)
        currency = opened.catalogue().setting("currency") or "USD"
    if as_json:
        print_json(found)
        return
    for way, title in (("gave", "Given to"), ("got", "Got from")):
        click.echo(f"{title} {person}:")
        for one in found[way]:
            worth = f"{one['value']:.2f}" if one["value"] is not None else "no price known"
            click.echo(f"  {one['on']}  {one['amount']} {one['item']} ({one['how']}, {worth})")
        total = sum(one["value"] or 0 for one in found[way])
        click.echo(f"  at shop prices: {total:.2f} {currency}, money: {found[way + '_money']:.2f}")


COMMANDS: dict[str, click.Command] = {"spent": spent, "between": between}
