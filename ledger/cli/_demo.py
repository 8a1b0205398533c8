"""The sample household, and the dashboard."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from ledger.cli import _common
from ledger.cli._common import book_options, open_book
from ledger.cli._help import command, option
from ledger.cli._speech import echo, say
from ledger.messages import Code

if TYPE_CHECKING:
    import datetime as dt

    from ledger.book import Book

__all__ = ["COMMANDS"]

HOME_SAUCE = "tomato sauce"


@command(
    "demo",
    help="command-demo",
    examples=["croftbook demo --no-serve", "croftbook demo --until 2026-11-01 --seed 3"],
)
@option("--until", metavar="DAY", help="option-demo-until")
@option("--seed", default=7, show_default=True, help="option-demo-seed")
@option("--no-serve", is_flag=True, help="option-demo-no-serve")
@option("--port", default=8050, show_default=True, help="option-port")
@option("--lan", is_flag=True, help="option-lan")
@option("--no-browser", is_flag=True, help="option-no-browser")
@option("--json", "as_json", is_flag=True, help="option-demo-json")
@option("--book", help="option-demo-book")
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
            with _common.working(say("cli-building-demo")) as step:
                seed_demo.build(opened, until=end, seed=seed, progress=step)
        else:
            echo("cli-demo-there", err=True, where=Code(where))
        _print(opened, end - dt.timedelta(days=1), as_json=as_json)
    click.echo("", err=True)
    echo("cli-demo-book", err=True, where=Code(where))
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
    click.echo(f"{say('cli-demo-sauce', item=HOME_SAUCE)}\n")
    print_answer(sauce)
    click.echo(f"\n{say('cli-demo-shelf')}\n")
    print_answer(shelf)


@command(
    "serve",
    help="command-serve",
    examples=[
        "croftbook serve",
        "croftbook serve --port 9000 --no-browser",
        "croftbook serve --set-passphrase",
        "croftbook serve --lan --tls",
        "croftbook serve --behind 127.0.0.1 --host-name croft.example.org",
        "croftbook serve --check",
    ],
)
@option("--port", default=8050, show_default=True, help="option-port")
@option("--lan", is_flag=True, help="option-lan")
@option("--no-browser", is_flag=True, help="option-no-browser")
@option("--check", "check_only", is_flag=True, help="option-serve-check")
@option("--set-passphrase", is_flag=True, help="option-serve-set-passphrase")
@option(
    "--tls",
    is_flag=True,
    help="option-serve-tls",
)
@option(
    "--host-name",
    "host_names",
    multiple=True,
    envvar="CROFTBOOK_HOST_NAMES",
    metavar="NAME",
    help="option-serve-host-name",
)
@option(
    "--behind",
    multiple=True,
    metavar="ADDRESS",
    help="option-serve-behind",
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
