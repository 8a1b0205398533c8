"""An entry's line as one says it: days as days, things counted in the plural, volumes as a kitchen has them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from dashboard.ask import Ask
from dashboard.parts.danger import said_of
from dashboard.parts.keeping import spoken
from dashboard.parts.kitchen import spooned
from ledger.history import HistoryRow
from ledger.kinds import decode_stored
from ledger.messages import priced

__all__ = ["aloud"]

_SET = re.compile(r"^set (?P<name>\w+) to ")


def aloud(ask: Ask, row: HistoryRow) -> str:
    """Return what an event of the history says, begun with a capital."""
    line = priced(row.line, ask.words.paid)
    if ask.words.language == "en":
        line = _SET.sub(lambda found: f"set the {found['name'].replace('_', ' ')} to ", line)
    said = said_of(ask, line)
    for amount, item in dict.fromkeys(_lines(ask, row)):
        if amount != "1":
            said = re.sub(
                rf"(?<!\w){re.escape(f'{amount} {item}')}(?!\w)", f"{amount} {spoken(item)}", said
            )
    said = spooned(ask.words, said)
    return said[:1].upper() + said[1:]


def _lines(ask: Ask, row: HistoryRow) -> Iterator[tuple[str, str]]:
    """Yield amount and item of each line of an event, as they were written."""
    event = ask.data.book.log.get(row.id)
    if event is None or row.kind == "struck":
        return
    body: dict[str, Any] = decode_stored(event.kind, event.v, event.body)
    for value in body.values():
        for one in value if isinstance(value, list) else ():
            if isinstance(one, dict) and one.get("item") and one.get("amount"):
                yield str(one["amount"]), str(one["item"])
