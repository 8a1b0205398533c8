"""``python -m ledger.messages FOLDER``: every fault of a language's folder, with file, line and remedy."""

from __future__ import annotations

import sys
from pathlib import Path

from ledger.messages.catalogue import HERE
from ledger.messages.checking import check_folder, read_folder

_USE = "python -m ledger.messages FOLDER    for example ledger/messages/de"


def main(args: list[str]) -> int:
    """Print the faults of a folder; return 0 where there is none, 1 where there are, 2 for wrong use."""
    if len(args) != 1:
        sys.stderr.write(f"{_USE}\n")
        return 2
    folder = Path(args[0])
    try:
        many = len(read_folder(folder)[0])
        faults = check_folder(folder, HERE / "en", folder.resolve().name)
    except NotADirectoryError:
        sys.stderr.write(f"{folder}: is no folder. {_USE}\n")
        return 2
    except ValueError as error:  # Babel's: no language of that code
        sys.stderr.write(f"{folder}: {error}. Name the folder by its language: de, pl\n")
        return 2
    for fault in faults:
        sys.stdout.write(f"{fault}\n")
    if not faults:
        sys.stdout.write(f"{many} messages, and nothing is wrong with them.\n")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
