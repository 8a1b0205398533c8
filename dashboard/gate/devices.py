"""Who is signed in: devices and their sessions as rows of a file of the server's own."""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import os
import secrets
import sqlite3
import threading
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from ledger import clock

__all__ = ["Device", "Devices", "SignedIn"]

_STAYS = dt.timedelta(days=30)
_TOUCHED_EVERY = dt.timedelta(minutes=1)
_MOST_DEVICES = 200
_TABLES = """
CREATE TABLE IF NOT EXISTS devices (
    id INTEGER PRIMARY KEY, known_by TEXT NOT NULL UNIQUE, name TEXT NOT NULL, address TEXT NOT NULL,
    first_at TEXT NOT NULL, last_at TEXT NOT NULL
) STRICT;
CREATE TABLE IF NOT EXISTS sessions (
    token TEXT PRIMARY KEY, device INTEGER NOT NULL UNIQUE REFERENCES devices(id) ON DELETE CASCADE,
    under TEXT NOT NULL, began_at TEXT NOT NULL, used_at TEXT NOT NULL
) STRICT, WITHOUT ROWID;
"""


@dataclass(frozen=True)
class Device:
    """A device that once knew the passphrase.

    Parameters
    ----------
    id : int
    name, address : str
        What it said it is, and where it last came from.
    first_at, last_at : str
        Moments in UTC, ISO 8601.
    is_in : bool
        Whether it is signed in now.
    """

    id: int
    name: str
    address: str
    first_at: str
    last_at: str
    is_in: bool


@dataclass(frozen=True)
class SignedIn:
    """A new session: the two secrets that a browser keeps; only their digests are stored."""

    session: str
    device: str


class Devices:
    """Devices and sessions of one book; safe to be used from several threads and processes.

    Parameters
    ----------
    path : Path
        A SQLite file, made for its owner alone.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._turn = threading.RLock()
        self._raw: sqlite3.Connection | None = None

    @contextlib.contextmanager
    def _file(self) -> Iterator[sqlite3.Connection]:
        with self._turn:
            if self._raw is None or not self.path.exists():
                self._raw = self._opened()
            yield self._raw

    def _opened(self) -> sqlite3.Connection:
        if not self.path.parent.exists():
            self.path.parent.mkdir(parents=True, mode=0o700)
        # made before SQLite makes it, so that at no moment anybody else can read it
        os.close(os.open(self.path, os.O_RDWR | os.O_CREAT, 0o600))
        self.path.chmod(0o600)
        raw = sqlite3.connect(self.path, timeout=5, isolation_level=None, check_same_thread=False)
        raw.execute("PRAGMA foreign_keys = ON")
        raw.executescript(_TABLES)
        return raw

    def sign_in(self, device: str | None, under: str, name: str, address: str) -> SignedIn:
        """Begin a session with new secrets, in place of the device's earlier one.

        Parameters
        ----------
        device : str or None
            The device's own secret, where it is known already.
        under : str
            Which passphrase it knew: `Keeper.stamp`.
        name, address : str
            Shown in the list of devices.
        """
        now, session = clock.stamp(), secrets.token_urlsafe(32)
        with self._file() as raw, _whole(raw):
            id = self._device(raw, device)
            if id is None:
                device = secrets.token_urlsafe(32)
                raw.execute(
                    "INSERT INTO devices (known_by, name, address, first_at, last_at) "
                    "VALUES (?, ?, ?, ?, ?)",
                    (_digest(device), name, address, now, now),
                )
                id = raw.execute("SELECT last_insert_rowid()").fetchone()[0]
            raw.execute(
                "UPDATE devices SET name = ?, address = ?, last_at = ? WHERE id = ?",
                (name, address, now, id),
            )
            raw.execute("DELETE FROM sessions WHERE device = ?", (id,))
            raw.execute(
                "INSERT INTO sessions VALUES (?, ?, ?, ?, ?)",
                (_digest(session), id, under, now, now),
            )
            raw.execute(
                "DELETE FROM devices WHERE id NOT IN (SELECT id FROM devices ORDER BY last_at DESC LIMIT ?)",
                (_MOST_DEVICES,),
            )
        assert device is not None
        return SignedIn(session, device)

    def signed_in(self, session: str | None, under: str) -> int | None:
        """Return the device of a session that holds, None for any other."""
        if not session or not under:
            return None
        now = clock.now()
        with self._file() as raw:
            row = raw.execute(
                "SELECT device, used_at FROM sessions WHERE token = ? AND under = ?",
                (_digest(session), under),
            ).fetchone()
            if row is None:
                return None
            idle = now - dt.datetime.fromisoformat(row[1])
            if idle > _STAYS:
                raw.execute("DELETE FROM sessions WHERE token = ?", (_digest(session),))
                return None
            if idle > _TOUCHED_EVERY:
                with contextlib.suppress(sqlite3.OperationalError):  # a full disk shuts nobody out
                    moment = clock.stamp(now)
                    raw.execute(
                        "UPDATE sessions SET used_at = ? WHERE token = ?",
                        (moment, _digest(session)),
                    )
                    raw.execute("UPDATE devices SET last_at = ? WHERE id = ?", (moment, row[0]))
            return int(row[0])

    def known(self, device: str | None) -> int | None:
        """Return the number of a device that once knew the passphrase, signed in or not."""
        if not device:
            return None
        with self._file() as raw:
            return self._device(raw, device)

    def leave(self, session: str | None) -> None:
        """End a session for good; its device stays known."""
        if session:
            with self._file() as raw:
                raw.execute("DELETE FROM sessions WHERE token = ?", (_digest(session),))

    def sign_out(self, id: int) -> bool:
        """End a device's session and forget the device; return whether there was one."""
        with self._file() as raw:
            return raw.execute("DELETE FROM devices WHERE id = ?", (id,)).rowcount > 0

    def sign_out_others(self, id: int) -> None:
        """Sign out every device but one."""
        with self._file() as raw:
            raw.execute("DELETE FROM devices WHERE id <> ?", (id,))

    def end_all(self) -> None:
        """End every session; devices stay known."""
        with self._file() as raw:
            raw.execute("DELETE FROM sessions")

    def all(self, under: str) -> list[Device]:
        """Return every known device, the last used first."""
        with self._file() as raw:
            rows = raw.execute(
                "SELECT d.id, name, address, first_at, last_at, s.token IS NOT NULL FROM devices d "
                "LEFT JOIN sessions s ON s.device = d.id AND s.under = ? AND s.used_at > ? "
                "ORDER BY last_at DESC, d.id",
                (under, clock.stamp(clock.now() - _STAYS)),
            ).fetchall()
        return [Device(*row[:5], is_in=bool(row[5])) for row in rows]

    def close(self) -> None:
        """Close the file."""
        with self._turn:
            if self._raw is not None:
                self._raw.close()
                self._raw = None

    @staticmethod
    def _device(raw: sqlite3.Connection, device: str | None) -> int | None:
        if not device:
            return None
        row = raw.execute(
            "SELECT id FROM devices WHERE known_by = ?", (_digest(device),)
        ).fetchone()
        return int(row[0]) if row else None


@contextlib.contextmanager
def _whole(raw: sqlite3.Connection) -> Iterator[None]:
    """Keep all that is written inside, or nothing."""
    raw.execute("BEGIN IMMEDIATE")
    try:
        yield
    except BaseException:
        raw.execute("ROLLBACK")
        raise
    raw.execute("COMMIT")


def _digest(secret: str) -> str:
    """Return what is stored of a secret of 256 random bits: nothing slower is needed for those."""
    return hashlib.sha256(secret.encode("utf-8", "replace")).hexdigest()
