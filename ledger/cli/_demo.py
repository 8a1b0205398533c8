"""The sample household, and the dashboard."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from ledger.cli import _common
from ledger.cli._common import book_options, open_book

if TYPE_CHECKING:
    import datetime as dt

    from ledger.book import Book

__all__ = ["COMMANDS"]

HOME_SAUCE = "tomato sauce"


@click.command(
    "demo",
    help="Build the sample household, print what its sauce costs and what is on its shelf, and open it.\n\n\b\nExamples:\n  croftbook demo --no-serve\n  croftbook demo --until 2026-11-01 --seed 3",
)
@click.option(
    "--until", metavar="DAY", help="The sample's three years end the day before; default today."
)
@click.option(
    "--seed", default=7, show_default=True, help="Another seed gives another household's luck."
)
@click.option("--no-serve", is_flag=True, help="Build and print only.")
@click.option("--port", default=8050, show_default=True, help="Port of the dashboard.")
@click.option(
    "--lan", is_flag=True, help="Listen on the network, behind the household's passphrase."
)
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@click.option("--json", "as_json", is_flag=True, help="Print both answers as JSON.")
@click.option(
    "--book", help="Where to build it; default: a file of its own in your data folder, built anew."
)
def demo(
    until: str | None,
    seed: int,
    no_serve: bool,
    port: int,
    lan: bool,
    no_browser: bool,
    as_json: bool,
    book: str | None,
) -> None:
    """Build the sample household."""
    import datetime as dt

    import seed_demo
    from ledger import clock
    from ledger.book import default_path
    from ledger.door.when import day_of

    today = clock.today()
    end = dt.date.fromisoformat(day_of(until, today, "until") or today.isoformat())
    where = book or str(_fresh(default_path().with_name("demo.sqlite")))
    with open_book(where, "home") as opened:
        if opened.log.count() == 0:
            with _common.working("building the sample household") as step:
                seed_demo.build(opened, until=end, seed=seed, progress=step)
        else:
            click.echo(f"{where} holds a book already; it is shown as it is.", err=True)
        _print(opened, end - dt.timedelta(days=1), as_json=as_json)
    click.echo(
        f"\nThe sample book is {where}. Ask it more: croftbook show shelf --book {where}", err=True
    )
    if not no_serve:
        _serve(where, port=port, lan=lan, no_browser=no_browser, is_sample=True)


def _fresh(path: Path) -> Path:
    """Return a path for the sample, without an earlier one: it is always built anew."""
    from ledger.log import forget, make_folder

    make_folder(path.parent)
    for suffix in ("", "-wal", "-shm", ".writer", ".head"):
        path.with_name(path.name + suffix).unlink(missing_ok=True)
    forget(path)
    return path


def _print(book: Book, day: dt.date, *, as_json: bool) -> None:
    from ledger.cli._tables import print_answer

    sauce = book.show("jar-cost", as_of=day, item=HOME_SAUCE)
    shelf = book.show("shelf", as_of=day)
    if as_json:
        _common.print_json({answer.name: answer.to_dict() for answer in (sauce, shelf)})
        return
    click.echo(
        f"What home-made {HOME_SAUCE} cost, batch by batch, and what the shop asked for the same\n"
    )
    print_answer(sauce)
    click.echo("\nWhat is on the shelf\n")
    print_answer(shelf)


@click.command(
    "serve",
    help="Open the dashboard on a book.\n\n\b\nExamples:\n  croftbook serve\n  croftbook serve --port 9000 --no-browser\n  croftbook serve --set-passphrase\n  croftbook serve --lan --tls\n  croftbook serve --behind 127.0.0.1 --host-name croft.example.org\n  croftbook serve --check",
)
@click.option("--port", default=8050, show_default=True, help="Port of the dashboard.")
@click.option(
    "--lan", is_flag=True, help="Listen on the network, behind the household's passphrase."
)
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@click.option(
    "--check", "check_only", is_flag=True, help="Ask a running dashboard whether it is well."
)
@click.option(
    "--set-passphrase", is_flag=True, help="Ask for a new passphrase of the household, and exit."
)
@click.option(
    "--tls",
    is_flag=True,
    help="With --lan: encrypt, with a certificate of the household's own that each phone trusts once.",
)
@click.option(
    "--host-name",
    "host_names",
    multiple=True,
    envvar="CROFTBOOK_HOST_NAMES",
    metavar="NAME",
    help="A name under which the pages may be asked for; once for each (or CROFTBOOK_HOST_NAMES, with blanks between).",
)
@click.option(
    "--behind",
    multiple=True,
    metavar="ADDRESS",
    help="The address of a proxy before this server, which is believed who asks; needs the passphrase.",
)
@book_options
def serve(book: str | None, **options: Any) -> None:
    """Open the dashboard."""
    _serve(book, **options)


def _serve(where: str | None, **options: Any) -> None:
    from ledger.extras import extra_needed

    with extra_needed("dashboard", "serve", "the dashboard"):
        from dashboard.serving import (
            serve as run,  # the command starts without the pages' libraries
        )

    run(where, **options)


COMMANDS: dict[str, click.Command] = {"demo": demo, "serve": serve}
