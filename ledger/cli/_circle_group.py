"""`croftbook circle` for whoever gathers a group's sheets."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ledger.cli._common import file_named
from ledger.cli._help import argument, command, option
from ledger.cli._papers import check_place, last_line, print_rows, write_paper
from ledger.cli._speech import echo, say, told
from ledger.errors import InputError
from ledger.messages import Code, Message

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
                echo("cli-steps", err=True, label=label, done=done, of=of)

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


@command(
    "begin",
    help="command-circle-begin",
    examples=[
        'croftbook circle begin hill-class --name "Hill class" --season 2026 \\',
        '    --from 2026-01-01 --to 2026-10-31 --product "apple sauce/boiling water" \\',
        "    --crop tomato --zone 5 --zone 6",
    ],
)
@argument("folder")
@option("--name", required=True, help="option-circle-begin-name")
@option("--season", required=True, type=int, metavar="YEAR", help="option-circle-begin-season")  # fmt: skip
@option("--from", "from_", required=True, metavar="DAY", help="option-circle-begin-from")
@option("--to", required=True, metavar="DAY", help="option-circle-begin-to")
@option("--before-from", metavar="DAY", help="option-circle-begin-before-from")
@option("--before-to", metavar="DAY", help="option-circle-begin-before-to")
@option("--currency", default="USD", show_default=True, help="option-circle-begin-currency")
@option("--product", "products", multiple=True, metavar="ITEM/METHOD", help="option-circle-begin-product")  # fmt: skip
@option("--crop", "crops", multiple=True, help="option-circle-begin-crop")
@option("--zone", "zones", multiple=True, help="option-circle-begin-zone")
@option("--ask", multiple=True, metavar="FIGURE", help="option-circle-begin-ask")  # fmt: skip
def begin(
    folder: str, name: str, season: int, from_: str, to: str, before_from: str | None,
    before_to: str | None, currency: str, products: tuple[str, ...], crops: tuple[str, ...],
    zones: tuple[str, ...], ask: tuple[str, ...],
) -> None:  # fmt: skip
    """Begin a group."""
    from ledger.circle import Call, Circle

    if (before_from is None) != (before_to is None):
        missing = "before-to" if before_to is None else "before-from"
        raise InputError(missing, Message.of("refusal-one-day-missing"))
    call = Call.make(
        name, season, (from_, to), products=products, crops=crops, zones=zones, ask=ask, currency=currency,
        before=(before_from, before_to) if before_from and before_to else None,
    )  # fmt: skip
    made = Circle.begin(file_named(folder, "folder"), call)
    cards = Code(f"croftbook circle cards {folder} 30")
    echo("cli-circle-begun", err=True, file=Code(str(made.folder / "call.json")), command=cards)
    last_line(folder=str(made.folder), call=call.digest, figures=len(call.figures))


@command(
    "cards",
    help="command-circle-cards",
    examples=["croftbook circle cards hill-class 30"],
)
@argument("folder")
@argument("number", type=int)
def cards(folder: str, number: int) -> None:
    """Make cards."""
    circle = _circle(folder)
    made = circle.cards(number)
    advice = circle.advice(circle.call, len(circle.members()))
    if advice:
        echo("cli-note", err=True, text=f"{told(advice)}.")
    click.echo("\n".join(made))


@command(
    "gather",
    help="command-circle-gather",
    examples=["croftbook circle gather hill-class sheets/*.json"],
)
@argument("folder")
@argument("files", nargs=-1, required=True)
def gather(folder: str, files: tuple[str, ...]) -> int:
    """Gather sheets."""
    done = _circle(folder).gather([file_named(one) for one in files])
    for text in done.refused:
        echo("cli-circle-refused", err=True, text=told(text))
    last_line(taken=done.taken, refused=len(done.refused), withdrawn=done.withdrawn)
    return 1 if done.refused else 0


@command("sheets", help="command-circle-sheets")
@argument("folder")
def sheets(folder: str) -> None:
    """Print the sheets held."""
    for text in _circle(folder).sheets():
        click.echo(text)


@command("budget", help="command-circle-budget")
@argument("folder")
def budget(folder: str) -> None:
    """Show the budget."""
    spent, left = _circle(folder).budget()
    last_line(epsilon_spent=spent / 1000, epsilon_left=left / 1000)


@command(
    "tell",
    help="command-circle-tell",
    examples=[
        "croftbook circle tell hill-class --out release.json --page release.html",
        "croftbook circle tell county --out release.json --private --epsilon 0.5",
    ],
)
@argument("folder")
@option("--out", required=True, metavar="FILE", help="option-circle-tell-out")
@option("--page", metavar="FILE.html", help="option-circle-tell-page")
@option("--private", is_flag=True, help="option-circle-tell-private")
@option(
    "--epsilon",
    type=float,
    default=1.0,
    show_default=True,
    help="option-circle-tell-epsilon",
)
@option("--csv", "as_csv", is_flag=True, help="option-circle-tell-csv")
def tell(
    folder: str, out: str, page: str | None, private: bool, epsilon: float, as_csv: bool
) -> None:
    """Write a release."""
    from ledger.circle.page import page_of, rows_of

    circle, where = _circle(folder), file_named(out, "out")
    for path in [where, *([file_named(page, "page")] if page else [])]:
        check_place(path)  # before anything is spent
    release = circle.tell(private=private, epsilon=epsilon)
    write_paper(where, release.to_csv() if as_csv else release.to_bytes())
    if page:
        write_paper(file_named(page, "page"), page_of(release).encode())
    print_rows(rows_of(release), told, with_own=False)
    last_line(**{"for": release.head["for"]}, households=release.head["households"], epsilon=release.head["epsilon"],
              cells=len(release.cells), written=str(where))  # fmt: skip


@command(
    "page",
    help="command-circle-page",
    examples=["croftbook circle page release.json --out release.html"],
)
@argument("release")
@option("--out", required=True, metavar="FILE.html", help="option-circle-page-out")
def page(release: str, out: str) -> None:
    """Write a page."""
    from ledger.circle.page import page_of
    from ledger.circle.release import Release

    read, where = Release.read(file_named(release, "release")), file_named(out, "out")
    write_paper(where, page_of(read).encode())
    last_line(written=str(where))


@command(
    "demo",
    help="command-circle-demo",
    examples=["croftbook circle demo", "croftbook circle demo --households 50 --out class"],
)
@option(
    "--households",
    type=click.IntRange(10, 500),
    default=30,
    show_default=True,
    help="option-circle-demo-households",
)
@option(
    "--out",
    metavar="FOLDER",
    help="option-circle-demo-out",
)
def demo(households: int, out: str | None) -> None:
    """Build the class, and tell."""
    from ledger.circle import Circle
    from ledger.circle.page import page_of, rows_of
    from ledger.log import forget, make_folder
    from seed_demo import circle as sample

    where = file_named(out, "out") if out else _fresh_folder()
    if where.exists() and any(where.iterdir()):
        raise InputError("out", Message.of("refusal-folder-full", folder=Code(str(where))))
    forget(where / "group" / "log.sqlite")
    make_folder(where)
    year = sample.last_season()
    circle = Circle.begin(where / "group", sample.call_for(year))
    cards = circle.cards(households)
    sheets = _sample_sheets(circle, cards, where, year)
    done = circle.gather(sheets)
    echo("cli-circle-gathered", err=True, n=done.taken)
    release = circle.tell()
    write_paper(where / "release.json", release.to_bytes())
    write_paper(where / "release.html", page_of(release).encode())
    print_rows(rows_of(release), told, with_own=False)
    beside = Code(
        f"croftbook circle beside {where}/release.json {where}/group/call.json "
        f"--zone {sample.zone_of(0)} --book {where}/books/000.sqlite"
    )
    page_file = Code(str(where / "release.html"))
    echo("cli-circle-page", err=True, file=page_file, command=beside)
    last_line(households=done.taken, cells=len(release.cells), page=str(where / "release.html"))


def _sample_sheets(circle: Circle, cards: list[str], where: Path, year: int) -> list[Path]:
    """Build each invented household's book, and let it make its sheet."""
    from ledger.book import Book
    from ledger.circle import sheet_of
    from ledger.log import forget, make_folder
    from seed_demo import circle as sample

    make_folder(where / "books")
    make_folder(where / "sheets")
    written = []
    with steps(say("cli-steps-building"), len(cards)) as step:
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


@command(
    "work",
    help="command-circle-work",
    examples=[
        "croftbook circle work county --members members.csv",
        "croftbook circle work county --members members.csv --workers 4",
        "croftbook circle work county --members members.csv \\",
        "    --scheduler tls://10.0.0.5:8786 --tls-ca ca.pem --tls-cert me.pem --tls-key me.key",
    ],
)
@argument("folder")
@option("--members", required=True, metavar="CSV", help="option-circle-work-members")
@option(
    "--workers",
    type=click.IntRange(0, 256),
    default=2,
    show_default=True,
    help="option-circle-work-workers",
)
@option("--scheduler", metavar="ADDRESS", help="option-circle-work-scheduler")
@option("--tls-ca", metavar="FILE", help="option-circle-work-tls-ca")
@option("--tls-cert", metavar="FILE", help="option-circle-work-tls-cert")
@option("--tls-key", metavar="FILE", help="option-circle-work-tls-key")
@option("--pids", metavar="FILE", help="option-circle-work-pids")
def work(
    folder: str, members: str, workers: int, scheduler: str | None, tls_ca: str | None,
    tls_cert: str | None, tls_key: str | None, pids: str | None,
) -> int:  # fmt: skip
    """Make the sheets of books that are kept here."""
    circle = _circle(folder)
    listed = file_named(members, "members")
    tls = (tls_ca, tls_cert, tls_key) if tls_ca and tls_cert and tls_key else None
    with steps(say("cli-steps-making"), len(circle.members())) as step:
        done = circle.work(
            listed, workers=workers, scheduler=scheduler, progress=step, tls=tls,
            pids=file_named(pids, "pids") if pids else None,
        )  # fmt: skip
    for said, texts in (
        ("cli-circle-left-out", done.left_out),
        ("cli-circle-failed", done.failed),
    ):
        for text in texts:
            echo(said, err=True, text=told(text))
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
