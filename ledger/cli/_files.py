"""Files: import, export, and shell completion."""

from __future__ import annotations

import click

from ledger.cli import _common
from ledger.cli._common import book_options, file_named, open_book, read_book
from ledger.cli._help import argument, command, option
from ledger.cli._speech import echo, say, told
from ledger.errors import InputError
from ledger.messages import Choice, Code, Message

__all__ = ["COMMANDS"]


@command(
    "import",
    help="command-import",
    examples=[
        "croftbook import season.jsonl --dry-run",
        "croftbook import pantry.csv --dates dmy",
        "croftbook import old-notebook.xlsx --dry-run",
        "croftbook import other.csv --map headings.toml --keep-good",
    ],
)
@argument("file")
@option("--map", "mapping", help="option-import-map")
@option(
    "--encoding",
    default="utf-8",
    show_default=True,
    help="option-import-encoding",
)
@option("--dates", type=click.Choice(["dmy", "mdy"]), help="option-import-dates")
@option("--sheet", "only", metavar="NAME", help="option-import-sheet")
@option("--dry-run", is_flag=True, help="option-import-dry-run")
@option("--keep-good", is_flag=True, help="option-import-keep-good")
@option("--json", "as_json", is_flag=True, help="option-json")
@option("--yes", "-y", is_flag=True, help="option-yes")
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
        raise InputError("sheet", Message.of("refusal-no-workbook", file=Code(path.name)))
    size = path.stat().st_size if path.is_file() else 0
    # What is only shown is not worth beginning a book for.
    into = read_book(book, household, blank=True) if dry_run else open_book(book, household)
    with into as opened, _common.progress(say("cli-importing"), size) as step:
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
        problem = told(bad.problem)
        echo("cli-import-bad", err=True, file=Code(file), n=bad.number, problem=problem)
    if done.bad_count > len(done.bad):
        echo("cli-import-more-bad", err=True, n=done.bad_count - len(done.bad))
    for note in done.notes[:20]:
        echo("cli-note", err=True, text=told(note))
    if len(done.notes) > 20:
        echo("cli-import-more-notes", err=True, n=len(done.notes) - 20)
    if dry_run:
        for line in done.preview:
            click.echo(f"  {told(line)}")
    if done.bad_count and not done.is_kept and not dry_run:
        echo("cli-import-nothing", err=True, bad=done.bad_count, good=done.written)
        return
    echo(
        "cli-import-done",
        doing=Choice("would" if dry_run else "did"),
        n=done.written,
        items=done.described,
        known=done.known,
        bad=done.bad_count,
    )


_TABLES = (".csv", ".tsv", ".ods", ".xls", ".xlsx")
"""Ends of names that promise a table, which an export is not."""


@command(
    "export",
    help="command-export",
    examples=["croftbook export our-book.jsonl"],
)
@argument("file")
@option("--over", is_flag=True, help="option-export-over")
@option("--json", "as_json", is_flag=True, help="option-json")
@book_options
def export(file: str, over: bool, as_json: bool, book: str | None, household: str) -> int:
    """Write every event to a file."""
    target = file_named(file)
    if target.suffix.lower() in _TABLES:
        raise InputError("file", Message.of("refusal-export-is-no-table", file=Code(file)))
    if target.exists() and not target.is_file():
        raise InputError("file", Message.of("refusal-no-plain-file", file=Code(file)))
    if not over and target.exists():
        raise InputError("file", Message.of("refusal-file-there", file=Code(file)))
    with (
        read_book(book, household, quiet=True) as opened,
        _common.progress(say("cli-exporting"), opened.log.position()) as step,
    ):
        faults = opened.faults()
        written = opened.export_file(target, progress=step, faults=faults)
    if as_json:
        _common.print_json({"written": written, "file": file, "reasons": faults})
    else:
        echo("cli-exported", n=written, file=Code(file))
    for fault in faults:
        echo("cli-export-fault", err=True, fault=told(fault))
    return 1 if faults else 0


@command(
    "completion",
    help="command-completion",
    examples=["croftbook completion bash >> ~/.bashrc"],
)
@argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
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
