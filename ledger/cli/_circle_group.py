"""`croftbook circle` for whoever gathers a group's sheets."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ledger.cli._circle import check_place, last_line, write_paper
from ledger.cli._common import file_named
from ledger.errors import InputError

if TYPE_CHECKING:
    from ledger.circle import Circle

__all__ = ["COMMANDS", "steps"]


@contextmanager
def steps(label: str, length: int) -> Iterator[Callable[[int, int], None]]:
    """Give a function that shows how far the work is: a bar at a terminal, else a line now and then."""
    if not sys.stderr.isatty():
        shown = [0]

        def say(done: int, of: int) -> None:
            if done == of or done - shown[0] >= max(of // 10, 1):
                shown[0] = done
                click.echo(f"{label}: {done} of {of}", err=True)

        yield say
        return
    from rich.console import Console
    from rich.progress import (  # fmt: skip
        BarColumn,
        MofNCompleteColumn,
        Progress,
        TextColumn,
        TimeRemainingColumn,
    )

    columns = (TextColumn(label), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=Console(stderr=True)) as bar:
        task = bar.add_task(label, total=length)
        yield lambda done, of: bar.update(task, completed=done, total=of)


def _circle(folder: str) -> Circle:
    from ledger.circle import Circle

    return Circle(file_named(folder, "folder"))


@click.command(
    "begin",
    help='Begin a group: makes a folder with its call, which goes to every household.\n\n\b\nExample:\n  croftbook circle begin hill-class --name "Hill class" --season 2026 \\\n      --from 2026-01-01 --to 2026-10-31 --product "apple sauce/boiling water" \\\n      --crop tomato --zone 5 --zone 6',
)
@click.argument("folder")
@click.option("--name", required=True, help="What the group is called.")
@click.option("--season", required=True, type=int, metavar="YEAR", help="The year the season is called by.")  # fmt: skip
@click.option("--from", "from_", required=True, metavar="DAY", help="Its first day.")
@click.option("--to", required=True, metavar="DAY", help="Its last day.")
@click.option("--before-from", metavar="DAY", help="First day of the season before a course.")
@click.option("--before-to", metavar="DAY", help="Last day of the season before a course.")
@click.option("--currency", default="USD", show_default=True, help="Money of the group.")
@click.option("--product", "products", multiple=True, metavar="ITEM/METHOD", help='Something put up, like "plum butter/boiling water"; once for each, six at most.')  # fmt: skip
@click.option("--crop", "crops", multiple=True, help="A crop; once for each, six at most.")
@click.option("--zone", "zones", multiple=True, help="A zone of planting; once for each.")
@click.option("--ask", multiple=True, metavar="FIGURE", help="A figure to tell, the most wanted first; default all.")  # fmt: skip
def begin(
    folder: str, name: str, season: int, from_: str, to: str, before_from: str | None,
    before_to: str | None, currency: str, products: tuple[str, ...], crops: tuple[str, ...],
    zones: tuple[str, ...], ask: tuple[str, ...],
) -> None:  # fmt: skip
    """Begin a group."""
    from ledger.circle import Call, Circle

    if (before_from is None) != (before_to is None):
        missing = "before-to" if before_to is None else "before-from"
        raise InputError(missing, "is missing", "Name both days of the season before, or neither")
    call = Call.make(
        name, season, (from_, to), products=products, crops=crops, zones=zones, ask=ask, currency=currency,
        before=(before_from, before_to) if before_from and before_to else None,
    )  # fmt: skip
    made = Circle.begin(file_named(folder, "folder"), call)
    click.echo(
        f"Give {made.folder / 'call.json'} to every household, with one card each: "
        f"croftbook circle cards {folder} 30",
        err=True,
    )
    last_line(folder=str(made.folder), call=call.digest, figures=len(call.figures))


@click.command(
    "cards",
    help="Make cards, one a line: cut them apart and let each household draw one from a hat. They are shown once.\n\n\b\nExample:\n  croftbook circle cards hill-class 30",
)
@click.argument("folder")
@click.argument("number", type=int)
def cards(folder: str, number: int) -> None:
    """Make cards."""
    circle = _circle(folder)
    made = circle.cards(number)
    advice = circle.advice(circle.call, len(circle.members()))
    if advice:
        click.echo(f"note: {advice}.", err=True)
    click.echo("\n".join(made))


@click.command(
    "gather",
    help="Take sheets and withdrawals; a bad one is named, the others are kept.\n\n\b\nExample:\n  croftbook circle gather hill-class sheets/*.json",
)
@click.argument("folder")
@click.argument("files", nargs=-1, required=True)
def gather(folder: str, files: tuple[str, ...]) -> int:
    """Gather sheets."""
    done = _circle(folder).gather([file_named(one) for one in files])
    for text in done.refused:
        click.echo(f"refused: {text}", err=True)
    last_line(taken=done.taken, refused=len(done.refused), withdrawn=done.withdrawn)
    return 1 if done.refused else 0


@click.command("sheets", help="Print the sheets that are held, one a line.")
@click.argument("folder")
def sheets(folder: str) -> None:
    """Print the sheets held."""
    for text in _circle(folder).sheets():
        click.echo(text)


@click.command("budget", help="Show how much epsilon is spent and left for the public.")
@click.argument("folder")
def budget(folder: str) -> None:
    """Show the budget."""
    spent, left = _circle(folder).budget()
    last_line(epsilon_spent=spent / 1000, epsilon_left=left / 1000)


@click.command(
    "tell",
    help="Tell the class, or with --private the public, what the sheets say; a call's figures go one of the two ways.\n\n\b\nExamples:\n  croftbook circle tell hill-class --out release.json --page release.html\n  croftbook circle tell county --out release.json --private --epsilon 0.5",
)
@click.argument("folder")
@click.option("--out", required=True, metavar="FILE", help="Where to write the release.")
@click.option("--page", metavar="FILE.html", help="Write the page of it, too.")
@click.option("--private", is_flag=True, help="For the public: with noise, from 500 cards on.")
@click.option(
    "--epsilon",
    type=float,
    default=1.0,
    show_default=True,
    help="With --private: how much to spend of the 1 of a call.",
)
@click.option("--csv", "as_csv", is_flag=True, help="Write CSV in place of JSON.")
def tell(
    folder: str, out: str, page: str | None, private: bool, epsilon: float, as_csv: bool
) -> None:
    """Write a release."""
    from ledger.circle.page import page_of, rows_of
    from ledger.cli._circle import print_rows

    circle, where = _circle(folder), file_named(out, "out")
    for path in [where, *([file_named(page, "page")] if page else [])]:
        check_place(path)  # before anything is spent
    told = circle.tell(private=private, epsilon=epsilon)
    write_paper(where, told.to_csv() if as_csv else told.to_bytes())
    if page:
        write_paper(file_named(page, "page"), page_of(told).encode())
    print_rows(rows_of(told), str, with_own=False)
    last_line(**{"for": told.head["for"]}, households=told.head["households"], epsilon=told.head["epsilon"],
              cells=len(told.cells), written=str(where))  # fmt: skip


@click.command(
    "page",
    help="Write the page of a release: one file for a screen or for paper.\n\n\b\nExample:\n  croftbook circle page release.json --out release.html",
)
@click.argument("release")
@click.option("--out", required=True, metavar="FILE.html", help="Where to write the page.")
def page(release: str, out: str) -> None:
    """Write a page."""
    from ledger.circle.page import page_of
    from ledger.circle.release import Release

    told, where = Release.read(file_named(release, "release")), file_named(out, "out")
    write_paper(where, page_of(told).encode())
    last_line(written=str(where))


@click.command(
    "demo",
    help="Build a class of invented households with two seasons each, make their sheets, gather and tell: from nothing to a page.\n\n\b\nExamples:\n  croftbook circle demo\n  croftbook circle demo --households 50 --out class",
)
@click.option(
    "--households",
    type=click.IntRange(10, 500),
    default=30,
    show_default=True,
    help="How many households.",
)
@click.option(
    "--out",
    metavar="FOLDER",
    help="A new folder for it; default: one in your data folder, made anew.",
)
def demo(households: int, out: str | None) -> None:
    """Build the class, and tell."""
    from ledger.circle import Circle
    from ledger.circle.page import page_of, rows_of
    from ledger.cli._circle import print_rows
    from ledger.log import forget, make_folder
    from seed_demo import circle as sample

    where = file_named(out, "out") if out else _fresh_folder()
    if where.exists() and any(where.iterdir()):
        raise InputError("out", f"{where} is not empty", "Name a new folder")
    forget(where / "group" / "log.sqlite")
    make_folder(where)
    year = sample.last_season()
    circle = Circle.begin(where / "group", sample.call_for(year))
    cards = circle.cards(households)
    sheets = _sample_sheets(circle, cards, where, year)
    done = circle.gather(sheets)
    click.echo(f"{done.taken} sheets gathered; no entry of a book went with them", err=True)
    told = circle.tell()
    write_paper(where / "release.json", told.to_bytes())
    write_paper(where / "release.html", page_of(told).encode())
    print_rows(rows_of(told), str, with_own=False)
    click.echo(
        f"The page: {where / 'release.html'} (open it in a browser, or print it). One household beside the class: "
        f"croftbook circle beside {where}/release.json {where}/group/call.json --zone {sample.zone_of(0)} "
        f"--book {where}/books/000.sqlite",
        err=True,
    )
    last_line(households=done.taken, cells=len(told.cells), page=str(where / "release.html"))


def _sample_sheets(circle: Circle, cards: list[str], where: Path, year: int) -> list[Path]:
    """Build each invented household's book, and let it make its sheet."""
    from ledger.book import Book
    from ledger.circle import sheet_of
    from ledger.log import forget, make_folder
    from seed_demo import circle as sample

    make_folder(where / "books")
    make_folder(where / "sheets")
    written = []
    with steps("building books and making sheets", len(cards)) as step:
        for number, card in enumerate(cards):
            path = where / "books" / f"{number:03}.sqlite"
            forget(path)  # an earlier sample that stood there
            with Book.open(path) as book:
                sample.build(book, number, year)
                sheet = sheet_of(book, circle.call, card, sample.zone_of(number))
            written.append(where / "sheets" / f"{number:03}.json")
            write_paper(written[-1], sheet.to_bytes() + b"\n")
            step(number + 1, len(cards))
    return written


def _fresh_folder() -> Path:
    """Return the folder of the sample class, without an earlier one."""
    import shutil

    from ledger.book import default_path

    where = default_path().with_name("circle-demo")
    if (where / "group" / "call.json").is_file():
        shutil.rmtree(where)
    return where


@click.command(
    "work",
    help="Where you keep the members' books: make the sheets of those who consent and whose book moved. Run it again after anything; it takes up what is left.\n\nThe list has the columns book, household, card, zone and consent; book is a file beside it or a database's address without a password.\n\n\b\nExamples:\n  croftbook circle work county --members members.csv\n  croftbook circle work county --members members.csv --workers 4\n  croftbook circle work county --members members.csv \\\n      --scheduler tls://10.0.0.5:8786 --tls-ca ca.pem --tls-cert me.pem --tls-key me.key",
)
@click.argument("folder")
@click.option("--members", required=True, metavar="CSV", help="Who takes part.")
@click.option(
    "--workers",
    type=click.IntRange(0, 256),
    default=2,
    show_default=True,
    help="Processes on this machine; 0: none, one book after another.",
)
@click.option("--scheduler", metavar="ADDRESS", help="A Dask scheduler that runs already, instead.")
@click.option("--tls-ca", metavar="FILE", help="With tls://: the authority's certificate.")
@click.option("--tls-cert", metavar="FILE", help="With tls://: your certificate.")
@click.option("--tls-key", metavar="FILE", help="With tls://: your key.")
@click.option("--pids", metavar="FILE", help="Write the workers' process numbers, one a line.")
def work(
    folder: str, members: str, workers: int, scheduler: str | None, tls_ca: str | None,
    tls_cert: str | None, tls_key: str | None, pids: str | None,
) -> int:  # fmt: skip
    """Make the sheets of books that are kept here."""
    circle = _circle(folder)
    listed = file_named(members, "members")
    tls = (tls_ca, tls_cert, tls_key) if tls_ca and tls_cert and tls_key else None
    with steps("making sheets", len(circle.members())) as step:
        done = circle.work(
            listed, workers=workers, scheduler=scheduler, progress=step, tls=tls,
            pids=file_named(pids, "pids") if pids else None,
        )  # fmt: skip
    for said, texts in (("left out", done.left_out), ("failed", done.failed)):
        for text in texts:
            click.echo(f"{said}: {text}", err=True)
    last_line(
        made=done.made,
        unchanged=done.unchanged,
        left_out=len(done.left_out),
        failed=len(done.failed),
    )
    return 1 if done.failed else 0


COMMANDS: dict[str, click.Command] = {
    "work": work,
    "demo": demo,
    "budget": budget, "tell": tell, "page": page,
    "begin": begin, "cards": cards, "gather": gather, "sheets": sheets,
}  # fmt: skip
