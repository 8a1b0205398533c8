"""Files: import, export, and shell completion."""

from __future__ import annotations

import click

from ledger.cli import _common
from ledger.cli._common import book_options, file_named, open_book, read_book
from ledger.errors import InputError

__all__ = ["COMMANDS"]


@click.command(
    "import",
    help="Read a file of events: JSON Lines, or CSV with a header row; or an old sheet as it is (.csv, .xlsx, .ods). All or nothing.\n\n\b\nExamples:\n  croftbook import season.jsonl --dry-run\n  croftbook import pantry.csv --dates dmy\n  croftbook import old-notebook.xlsx --dry-run\n  croftbook import other.csv --map headings.toml --keep-good",
)
@click.argument("file")
@click.option("--map", "mapping", help="A TOML file that maps foreign headings to fields.")
@click.option(
    "--encoding",
    default="utf-8",
    show_default=True,
    help="Encoding of a CSV sheet; JSON Lines are UTF-8.",
)
@click.option(
    "--dates", type=click.Choice(["dmy", "mdy"]), help="How days are written that are not ISO 8601."
)
@click.option(
    "--sheet", "only", metavar="NAME", help="Read this sheet of a workbook alone; default: all."
)
@click.option("--dry-run", is_flag=True, help="Show what would be written, and write nothing.")
@click.option("--keep-good", is_flag=True, help="Write the good lines even if there are bad ones.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
@click.option("--yes", "-y", is_flag=True, help="Take the answer offered to every question.")
@book_options
def import_(
    file: str,
    mapping: str | None,
    encoding: str,
    dates: str | None,
    only: str | None,
    dry_run: bool,
    keep_good: bool,
    as_json: bool,
    yes: bool,
    book: str | None,
    household: str,
) -> int:
    """Read a file."""
    import dataclasses

    from ledger.door import Answers

    path = file_named(file)
    from ledger.saying.cells import is_sheet

    if mapping is None and is_sheet(path):
        from ledger.cli._sheet import import_sheet

        into = read_book(book, household, blank=True) if dry_run else open_book(book, household)
        with into as opened:
            return import_sheet(
                opened, path, dry_run=dry_run, as_json=as_json, yes=yes, keep_good=keep_good,
                encoding=encoding, only=only,
            )  # fmt: skip
    if only is not None:
        raise InputError("sheet", f"{path.name} is no workbook", "Leave --sheet out")
    size = path.stat().st_size if path.is_file() else 0
    # What is only shown is not worth beginning a book for.
    into = read_book(book, household, blank=True) if dry_run else open_book(book, household)
    with into as opened, _common.progress("importing", size) as step:
        seen = [0]

        def moved(so_far: int) -> None:
            if step is not None:
                step(so_far - seen[0])
            seen[0] = so_far

        done = opened.import_file(
            path, answers=Answers(yes=yes, importing=True), mapping=mapping and file_named(mapping, "map"), encoding=encoding, dates=dates,
            keep_good=keep_good, dry_run=dry_run, progress=moved if step else None,
        )  # fmt: skip
    if as_json:
        _common.print_json(dataclasses.asdict(done))
    else:
        _say_imported(done, file, dry_run)
    return 2 if done.bad_count and not keep_good else 0


def _say_imported(done: object, file: str, dry_run: bool) -> None:
    from ledger.door.importing import Imported

    assert isinstance(done, Imported)
    for bad in done.bad:
        click.echo(f"{file}, line {bad.number}: {bad.problem}", err=True)
    if done.bad_count > len(done.bad):
        click.echo(f"and {done.bad_count - len(done.bad)} more bad lines", err=True)
    for note in done.notes[:20]:
        click.echo(f"note: {note}", err=True)
    if len(done.notes) > 20:
        click.echo(f"and {len(done.notes) - 20} more notes", err=True)
    if dry_run:
        for line in done.preview:
            click.echo(f"  {line}")
    if done.bad_count and not done.is_kept and not dry_run:
        click.echo(
            f"Nothing was written: bad lines {done.bad_count}, good ones {done.written}. "
            "Mend the lines named above and import again, or use --keep-good.",
            err=True,
        )
        return
    verb = "would be written" if dry_run else "written"
    click.echo(
        f"{done.written} events {verb}, {done.described} new items described, {done.known} known already, {done.bad_count} bad lines."
    )


@click.command(
    "export",
    help="Write every event to a file as JSON Lines; its head is kept beside it.\n\n\b\nExample:\n  croftbook export our-book.jsonl",
)
@click.argument("file")
@click.option("--over", is_flag=True, help="Write over a file of that name.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
@book_options
def export(file: str, over: bool, as_json: bool, book: str | None, household: str) -> int:
    """Write every event to a file."""
    target = file_named(file)
    if target.exists() and not target.is_file():
        raise InputError("file", f"{file} is no plain file", "Name another")
    if not over and target.exists():
        raise InputError("file", f"{file} is there already", "Name another, or add --over")
    with (
        read_book(book, household, quiet=True) as opened,
        _common.progress("exporting", opened.log.position()) as step,
    ):
        faults = opened.faults()
        written = opened.export_file(target, progress=step, faults=faults)
    if as_json:
        _common.print_json({"written": written, "file": file, "reasons": faults})
    else:
        click.echo(f"{written} events written to {file}; its head is in {file}.head")
    for fault in faults:
        click.echo(
            f"warning: the book does not hold, and so the export does not. {fault}", err=True
        )
    return 1 if faults else 0


@click.command(
    "completion",
    help="Print shell completion.\n\n\b\nExample:\n  croftbook completion bash >> ~/.bashrc",
)
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Print shell completion."""
    from click.shell_completion import get_completion_class

    from ledger.cli._root import root

    found = get_completion_class(shell)
    assert found is not None
    click.echo(found(root, {}, "croftbook", "_CROFTBOOK_COMPLETE").source())


COMMANDS: dict[str, click.Command] = {
    "import": import_,
    "export": export,
    "completion": completion,
}
