"""Sheets in their members' places, as the folder and its workers keep them."""

from __future__ import annotations

import sqlite3

__all__ = ["note_change", "put_sheet"]


def put_sheet(raw: sqlite3.Connection, member: str, text: str, head: str | None) -> None:
    """Keep a sheet in its member's place, within a transaction."""
    raw.execute("INSERT OR REPLACE INTO sheets VALUES (?, ?, ?)", [member, text, head])
    note_change(raw, member)


def note_change(raw: sqlite3.Connection, member: str) -> None:
    """Note that a member's sheet came, changed or went since the last release, within a transaction."""
    raw.execute("INSERT OR IGNORE INTO changed VALUES (?)", [member])
