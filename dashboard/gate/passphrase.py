"""The household's passphrase: stored hashed with a memory-hard function, slow to guess."""

from __future__ import annotations

import json
import os
import secrets
import threading
from pathlib import Path

from argon2 import PasswordHasher
from argon2.exceptions import Argon2Error, InvalidHashError

from ledger.errors import InputError
from ledger.files import whole_file
from ledger.messages import Message

__all__ = ["Keeper"]

_LEAST = 10
_MOST = 1_000


class Keeper:
    """Keeps a passphrase's hash in a file that only its owner reads.

    Parameters
    ----------
    path : Path
        JSON of the hash (Argon2id, the library's recommended cost, RFC 9106) and the stamp that
        sessions begun under it carry. It is looked at anew whenever it changes.
    """

    hasher = PasswordHasher()

    def __init__(self, path: Path) -> None:
        self.path = path
        self._turn = threading.Lock()
        self._seen: tuple[int, int, int] | None = None
        self._kept: dict[str, str] = {}

    @property
    def is_set(self) -> bool:
        """Whether there is a passphrase."""
        return bool(self._read().get("hash"))

    @property
    def stamp(self) -> str:
        """Which passphrase holds now: another one for each that was ever set, empty for none."""
        kept = self._read()
        return kept.get("key", "") if kept.get("hash") else ""

    def set(self, passphrase: str) -> None:
        """Store a passphrase; whoever was in is out, at once and for good.

        Raises
        ------
        InputError
            When it is too short or too long.
        """
        if len(passphrase.strip()) < _LEAST:
            raise InputError("passphrase", Message.of("refusal-passphrase-short", least=_LEAST))
        if len(passphrase) > _MOST:
            raise InputError("passphrase", Message.of("refusal-passphrase-long", most=_MOST))
        kept = {"hash": self.hasher.hash(passphrase), "key": secrets.token_hex(32)}
        self.path.parent.mkdir(parents=True, exist_ok=True)
        with whole_file(self.path, synced=True) as file:
            file.write(json.dumps(kept).encode())

    def fits(self, passphrase: str) -> bool:
        """Return whether a passphrase is the household's."""
        kept = self._read().get("hash", "")
        if not kept or len(passphrase) > _MOST:
            return False
        try:
            return self.hasher.verify(kept, passphrase)
        except (Argon2Error, InvalidHashError, ValueError):
            return False

    def _read(self) -> dict[str, str]:
        """Return what is kept, read again where another program has replaced it."""
        try:
            found = os.stat(self.path)
            seen = (found.st_ino, found.st_mtime_ns, found.st_size)
            with self._turn:
                if seen != self._seen:
                    said = json.loads(self.path.read_text("utf-8"))
                    self._kept, self._seen = (said if isinstance(said, dict) else {}), seen
                return self._kept
        except (OSError, ValueError):
            return {}
