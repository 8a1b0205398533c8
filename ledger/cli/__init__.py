"""The command `croftbook`: a thin reader of words around `ledger.Book`.

Nothing heavy is imported until a command needs it. The writing commands are made from the
descriptions of the kinds, `show` from those of the projections.
"""

from __future__ import annotations

import gc
import io
import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ledger.messages import Message

__all__ = ["main"]


def main(args: list[str] | None = None) -> int:
    """Run the command; return (and exit with) 0 done, 1 refused or failed, 2 wrong usage or input."""
    import click

    from ledger.cli import _speech
    from ledger.cli._root import root

    # Modules and answers hold few cycles: walking them again and again is a tenth of a short command.
    gc.set_threshold(500_000, 20, 20)
    if isinstance(sys.stdout, io.TextIOWrapper):  # half a character is shown as its number
        sys.stdout.reconfigure(errors="backslashreplace")
    status = 0
    unknown = _speech.begin(sys.argv[1:] if args is None else args)
    try:
        if unknown is not None:
            from ledger.cli._help import no_language

            raise no_language(unknown)
        status = root.main(args=args, prog_name="croftbook", standalone_mode=False) or 0
    except click.exceptions.Abort:
        _speech.echo("cli-stopped", err=True)
        status = 130
    except click.exceptions.NoArgsIsHelpError as error:
        error.show()
        status = error.exit_code
    except click.ClickException as error:
        from ledger.cli._misuse import sentence

        click.echo(f"croftbook: {sentence(error)}", err=True)
        status = error.exit_code
    except KeyboardInterrupt:
        _speech.echo("cli-stopped", err=True)
        status = 130
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        status = 1
    except Exception as error:
        status = _failed(error)
    if args is None:
        sys.exit(status)
    return status


def _failed(error: Exception) -> int:
    """Say in one sentence what went wrong; a traceback only when CROFTBOOK_DEBUG is set."""
    import click

    from ledger import errors
    from ledger.cli import _speech

    if os.environ.get("CROFTBOOK_DEBUG"):
        raise error
    if isinstance(error, errors.LedgerError):
        click.echo(f"croftbook: {_speech.refused(error)}", err=True)
        given = (errors.InputError, errors.NeedsAnswer, errors.NotABook, errors.NewerBook)
        return 2 if isinstance(error, (*given, errors.BookReadOnly)) else 1
    if isinstance(error, OSError):
        click.echo(
            f"croftbook: {error.strerror or error}: {error.filename or ''}".rstrip(": "), err=True
        )
        return 1
    where = _reported(error)
    said = _speech.say("cli-should-not", error=type(error).__name__, where=where)
    click.echo(f"croftbook: {said}", err=True)
    return 1


def _reported(error: Exception) -> Message:
    """Write a report that can be sent to whoever mends the program; return where it is.

    It holds the command and the way through the program, and nothing of the book.
    """
    import traceback

    from platformdirs import user_data_path

    from ledger import clock
    from ledger.log import make_file, make_folder
    from ledger.messages import Code, Message

    name = f"fault-{clock.stamp()[:19].replace(':', '')}-{os.getpid()}.txt"
    file = user_data_path("croftbook", appauthor=False) / "reports" / name
    lines = [
        f"Python {sys.version}",
        f"command: {' '.join(sys.argv[1:2])}",
        *traceback.format_exception(error),
    ]
    try:
        make_folder(file.parent)
        make_file(file)
        file.write_text("\n".join(lines), "utf-8", errors="backslashreplace")
    except OSError:
        return Message.of("cli-no-report")
    return Message.of("cli-report", file=Code(str(file)))
