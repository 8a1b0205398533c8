"""The household's passphrase: stored hashed with a memory-hard function, slow to guess."""

from __future__ import annotations

import json
import os
import secrets
import threading
import time
from pathlib import Path

from argon2 import PasswordHasher
from argon2.exceptions import VerificationError

from ledger.errors import InputError

__all__ = ["Keeper"]

_LEAST = 10
_LONGEST_WAIT_S = 60.0


class Keeper:
    """Keeps a passphrase's hash in a file that only its owner reads.

    Parameters
    ----------
    path : Path
        JSON of the hash (Argon2id, the library's recommended cost, RFC 9106) and the key that
        signs sessions.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._hasher = PasswordHasher()
        self._turn = threading.Lock()
        self._wrong = 0
        self._not_before = 0.0

    @property
    def is_set(self) -> bool:
        """Whether there is a passphrase."""
        return bool(self._read().get("hash"))

    def set(self, passphrase: str) -> None:
        """Store a passphrase; whoever was in is out.

        Raises
        ------
        InputError
            When it is too short.
        """
        if len(passphrase.strip()) < _LEAST:
            raise InputError(
                "passphrase", f"has fewer than {_LEAST} characters", "Take a few words together"
            )
        kept = {"hash": self._hasher.hash(passphrase), "key": secrets.token_hex(32)}
        self.path.parent.mkdir(parents=True, exist_ok=True)
        part = self.path.with_suffix(".part")
        handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(handle, "w") as file:
            json.dump(kept, file)
        os.replace(part, self.path)

    def wait_s(self) -> float:
        """Return how many seconds to wait before the next try is looked at."""
        return max(0.0, self._not_before - time.monotonic())

    def fits(self, passphrase: str) -> bool:
        """Return whether a passphrase is the household's; each wrong one doubles the wait."""
        with self._turn:
            if self.wait_s() > 0:
                return False
            try:
                self._hasher.verify(self._read().get("hash", ""), passphrase)
            except (VerificationError, ValueError):
                self._wrong += 1
                wait = min(2.0 ** max(0, self._wrong - 2), _LONGEST_WAIT_S)
                self._not_before = time.monotonic() + wait
                return False
            except Exception:  # an empty or foreign hash is no passphrase
                return False
            self._wrong, self._not_before = 0, 0.0
            return True

    def key(self) -> str:
        """Return the key that signs sessions; it changes with the passphrase."""
        return self._read().get("key") or secrets.token_hex(32)

    def _read(self) -> dict[str, str]:
        try:
            found = json.loads(self.path.read_text("utf-8"))
        except (OSError, ValueError):
            return {}
        return found if isinstance(found, dict) else {}
