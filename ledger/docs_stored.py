"""The part of docs/formats.md that tells how a book is stored: tables, hashes, and how to verify them."""

from __future__ import annotations

import json

from ledger.kinds.parts import HarvestLine, Measured
from ledger.log import EVENTS, LAYOUT, TRIGGERS, TYPES, Column, chained

__all__ = ["EXAMPLE", "MEANINGS", "PROGRAM", "stored_section"]

_COLUMNS = {
    "household": "whose book it is; one database holds many. Not part of the hash",
    "seq": "1, 2, 3 ... for each household, without gaps",
    "id": "UUID in lower case; the same event arriving again changes nothing",
    "kind": "what happened, one of the kinds below",
    "v": "version of the body",
    "on": "the day it happened, ISO 8601",
    "at": "time of day, HH:MM, for the order within a day; null: noon",
    "recorded_at": "when it was written down, RFC 3339 in UTC with six decimals; never goes back",
    "typed_at": "what the writing device's own clock said",
    "by": "who wrote it down",
    "replaces": "id of an event of the entry that this one corrects",
    "body": "the content: JSON with sorted keys, no spaces, no floats (decimals are text), no NUL",
    "hash": "SHA-256 in hexadecimal, see below",
}
_STEPS = {
    "step": "number of a change of this layout; the newest tells which program it needs",
    "name": "what it changed",
    "done_at": "when, RFC 3339 in UTC",
}
MEANINGS = {
    "n": "number of the line within its list, kept through corrections; with the entry's id it names a lot",
    "whole": "the amount in whole units of what was typed: mg, ul, thousandths of a piece or of a counted unit, J",
    "measure": "what was typed: mass, volume, count, energy, or the counted unit (head, bucket)",
    "basis": "in lines of the first version, instead of `measure`: how `whole` came into the measure "
    "that the item then had: exact, or by a weight of the item, the food table or the container table",
    "per": "the unit typed, of volumes and counted units",
    "times": "how many of `per`, in thousandths",
    "trimmed_whole": "what was trimmed, in whole units",
}
"""What the door adds to an amount, by field."""

EXAMPLE = [
    1, "5f0c0a0e-7f7e-4c57-9d3b-0f6a1f0e2c11", "harvested", 1, "2026-09-02", None,
    "2026-09-02T18:05:00.000000Z", None, "Ada", None,
    '{"lines":[{"amount":"31 lb 8 oz","item":"plum","n":1,"whole":14288160}]}',
]  # fmt: skip
"""The first event of a book, as it is hashed."""

PROGRAM = """\
import hashlib, json, sqlite3, sys

names = 'household, seq, id, kind, v, "on", at, recorded_at, typed_at, "by", replaces, body, hash'
rows = sqlite3.connect(sys.argv[1]).execute(f"SELECT {names} FROM events ORDER BY household, seq")
heads = {}
for household, *event, said in rows:
    seq, before = heads.get(household, (0, ""))
    text = json.dumps([1, *event], ensure_ascii=False, separators=(",", ":"))
    made = hashlib.sha256((before + text).encode()).hexdigest()
    assert (event[0], said) == (seq + 1, made), f"event {event[0]} of {household} does not hold"
    heads[household] = event[0], said
print(heads)
"""


def stored_section() -> str:
    """Return the section."""
    text = json.dumps([1, *EXAMPLE], ensure_ascii=False, separators=(",", ":"))
    parts = [
        "\n## The file\n\nA book is an SQLite file (application id 0x43424F4B) or a schema of a PostgreSQL "
        "database, with two tables. All text is UTF-8. While\na program has the file open, a journal "
        "(`-wal`, `-shm`) may stand beside it; what is written is moved into the file after each "
        "entry, and a closed\nbook is one file. Files are made for their owner alone (0600, folders 0700).\n",
        _columns("events", [c.name for c in EVENTS], _COLUMNS, _types(EVENTS)),
        "Keys: (household, seq) and (household, id), both unique. Triggers refuse whatever changes or "
        f"deletes an event, any number but the next and any id twice\n({_names()}).\n",
        _columns("book_layout", [c.name for c in LAYOUT], _STEPS, _types(LAYOUT)),
        "Beside what stands in the kinds' tables below, a stored line holds:\n\n"
        "| field | what it is |\n|---|---|",
        "\n".join(f"| `{name}` | {MEANINGS.get(name, '')} |" for name in stored_fields()),
        "\nNothing else is stored: shelves, costs and forecasts are worked out from the events each "
        "time.\n\n### The hash\n\nThe hash of an event is SHA-256 over the hash of the event before it (64 "
        "letters, none for the first) followed by a JSON array without spaces:\n1 (the format of the "
        "hash), then seq, id, kind, v, on, at, recorded_at, typed_at, by, replaces and body, the body "
        'as text, nothing as `null`; non-ASCII\nletters stand as they are, and within texts only `"`, '
        "`\\` and control characters are escaped. The first event of a book, for example:\n\n"
        f"    {text}\n\nhas the hash\n\n    {chained('', EXAMPLE)}\n\n"
        "The number and hash of the last event are the head. Whoever knows the head knows whether any "
        "event was changed, left out or cut off before it. Each\ncommit keeps it in the user's data "
        "folder (`heads/`, one JSON file a book: place, and by household `seq`, `hash`, `at`, `first`; "
        "`sum` is SHA-256 over the\nrest with sorted keys); `croftbook check` shows it, to be written "
        "down; `backup` and `export` write it beside the copy as `FILE.head`.\n\n"
        "This verifies a whole book from Python's own library alone, and prints the heads:\n",
        "```python\n" + PROGRAM + "```\n",
    ]
    return "\n".join(parts)


def stored_fields() -> list[str]:
    """Return the fields that the door adds to lines, in order."""
    import msgspec

    found = [one.encode_name for one in msgspec.structs.fields(Measured)]
    more = [one.encode_name for one in msgspec.structs.fields(HarvestLine)]
    return found + [name for name in more if name == "trimmed_whole"]


def _types(columns: tuple[Column, ...]) -> dict[str, str]:
    return {
        c.name: "text" if TYPES["sqlite"][c.type] == "TEXT" else "whole number" for c in columns
    }


def _columns(table: str, names: list[str], meanings: dict[str, str], types: dict[str, str]) -> str:
    rows = [f"| `{name}` | {types[name]} | {meanings[name]} |" for name in names]
    head = f"`{table}`:\n\n| column | type | what it is |\n|---|---|---|"
    return "\n".join([head, *rows]) + "\n"


def _names() -> str:
    return ", ".join(f"`{one.split()[2]}`" for one in TRIGGERS["sqlite"])
