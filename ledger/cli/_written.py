"""What a command says of what it has just written: the event, its lines as understood, its cost."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import click

from ledger.amounts import format_whole, parse_amount
from ledger.cli import _common
from ledger.cli._speech import say, told
from ledger.cli._values import amount, day, entry, jars
from ledger.door.replacing import lists_of
from ledger.errors import LedgerError
from ledger.items import ItemFacts
from ledger.kinds import KINDS, tell
from ledger.kinds.telling import plain_amount
from ledger.messages import Code, Day
from ledger.reference.crossing import MEASURES, Weights

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.door import Written
    from ledger.known import Catalogue

__all__ = ["report", "understood"]

_MOST = 8
_NO_LOTS = frozenset({"jar", "equipment", "garden input"})
"""Sorts that are not matched (the reckoning, rules 7 and 8)."""


def report(book: Book, written: Written, *, as_json: bool, caution: str | None = None) -> None:
    """Print what was written; of a batch also its cost and what is published.

    Parameters
    ----------
    caution : str, optional
        Shown last, on the first use of a canning command.
    """
    cost, published = None, []
    if written.event.kind == "put_up":
        from ledger.cli import _putup
        from ledger.cli._drawn import drawn

        written.notes += drawn(book, written)
        cost, published = _putup.cost_of(book, written), _putup.verdicts(book, written)
    if written.event.kind == "counted":
        from ledger.cli._drawn import left_alone

        written.notes += left_alone(book, written)
    lots = _lots(book, written)
    if as_json:
        _common.print_json(
            {
                "id": written.event.id,
                "seq": written.event.seq,
                "kind": written.event.kind,
                "on": written.event.on,
                "body": written.body,
                "lots": list(lots.values()),
                "described": [event.id for event in written.described],
                "notes": written.notes,
                "proposals": written.proposals,
                "cost": cost and list(cost.records()),
                "as_published": published,
            }
        )
    else:
        _say(book, written, lots)
        for on, note in _noted_before(book, written):
            click.echo(f"  {say('cli-last-time', day=Day(on), note=note)}")
        if cost is not None:
            from ledger.cli import _putup

            _putup.print_cost(cost, book.setting("measures") or "us")
            _putup.print_verdicts(published, caution)
            _putup.print_danger(book, written)
            return
    if caution:
        click.echo(told(caution), err=True)


def _noted_before(book: Book, written: Written) -> list[tuple[str, str]]:
    """Return what was noted of the last batches of the same thing, the newest first."""
    import msgspec

    if written.event.kind != "put_up":
        return []
    catalogue, found = book.catalogue(), []
    entries = catalogue.entries(book.log)
    for name in catalogue.spellings(written.body["makes"]):
        for row in book.log.mentioning("put_up", f'"makes":"{name}"', "-"):
            is_own = entries.root(row[1]) == entries.root(written.event.id)
            if (
                is_own
                or entries.is_struck(row[1])
                or entries.newest(entries.root(row[1])) != row[1]
            ):
                continue
            note = msgspec.json.decode(row[10]).get("note")
            if note:
                found.append((row[4], note))
    return sorted(found, reverse=True)[:2]


def _say(book: Book, written: Written, lots: dict[tuple[str, int], str]) -> None:
    event = written.event
    line = entry(tell(event.kind, written.body), book)
    click.echo(f"{day(event.on)}  {line}   [{event.id[:8]}]")
    lines = list(understood(book.catalogue(), written.event.on, written.body, lots))
    for line in lines[:_MOST]:
        click.echo(f"  {line}")
    if len(lines) > _MOST:
        click.echo(f"  {say('cli-more-lines', n=len(lines) - _MOST)}")
    for note in written.notes:
        click.echo(f"  {say('cli-note', text=told(note))}", err=True)
    for name, row in written.proposals.items():
        proposal = Code(f'croftbook item "{name}" --food "{row}"')
        click.echo(f"  {say('cli-new-item', name=name, command=proposal)}", err=True)


def understood(
    catalogue: Catalogue, on: str, body: dict[str, Any], lots: dict[tuple[str, int], str]
) -> list[str]:
    """Return each line that was understood otherwise than it stands, or came in as a lot.

    Parameters
    ----------
    on : str
        The event's day: its measures hold.
    body : dict
        As stored.
    lots : dict of (str, int) to str
        The lot of each line that has one, by the name of its list and its number.
    """
    measures = catalogue.setting("measures", on, "us") or "us"
    out = []
    for name, lines in lists_of(body).items():
        for line in lines:
            item = str(line.get("item") or (body.get("makes") if name == "made" else "") or "")
            facts = catalogue.facts(item) if item else None
            if facts is None or facts.measure is None or line.get("whole") is None:
                continue
            said = _said(line)
            text, own = _understood(line, item, facts, measures)
            plain = line.get("jars") or text is None or _is_same(said, text, measures)
            parts = []
            if not plain:
                shown = amount(str(text))
                parts = [say("cli-own-weight", amount=shown) if own else shown]
            lot = lots.get((name, line["n"]))
            if re.fullmatch(r"[0-9a-f-]{36}:.+", str(line.get("lot") or "")):
                parts.append(say("cli-out-of-lot", lot=Code(_short(line["lot"]))))
            if lot:
                parts.append(say("cli-lot", lot=Code(_short(lot))))
                if line.get("unsealed"):
                    failed = Code(f"{_short(lot)}f")
                    parts.append(say("cli-unsealed", n=line["unsealed"], lot=failed))
            if parts:
                out.append(f"{_spoken(line)} {item}: {', '.join(parts)}")
    return out


def _understood(
    line: dict[str, Any], item: str, facts: ItemFacts, measures: str
) -> tuple[str | None, bool]:
    """Return what a line comes to in words, and whether by the item's own weight; None: as said."""
    measure, whole, own = line.get("measure"), line["whole"], line.get("basis") == "item"
    if measure is None:
        return format_whole(whole, str(facts.measure), measures=measures), own
    unit = line.get("per") if measure == "volume" else None
    come = Weights(item, facts).come(measure, unit, str(facts.measure))
    if come.factor is not None:
        whole = round((line["times"] if come.of_times else whole) * come.factor)
        own = come.weight is not None and come.weight.source == "item"
    elif come.measure not in MEASURES:
        return None, False
    return format_whole(whole, come.measure, measures=measures), own


def _is_same(said: str, text: str, measures: str) -> bool:
    """Return whether a text is the same amount in the same unit, so that it tells nothing new."""
    if said.startswith(text):
        return True
    try:
        one, other = (parse_amount(words, measures=measures) for words in (said, text))
    except LedgerError:
        return False  # in a spelling of an earlier setting
    return one.unit == other.unit and one.jars is None


def _spoken(line: dict[str, Any]) -> str:
    """Return what a line says in the language that is spoken."""
    return jars(line["jars"], line["jar"]) if line.get("jars") else amount(_said(line))


def _said(line: dict[str, Any]) -> str:
    if line.get("jars"):
        return f"{line['jars']} {line['jar']}{'s' if line['jars'] != 1 else ''}"
    return plain_amount(line)


def _short(lot: str) -> str:
    entry, _, n = lot.partition(":")
    return f"{entry[:8]}:{n}"


def _lots(book: Book, written: Written) -> dict[tuple[str, int], str]:
    """Return the lots that an event brought in, by its list and the line's number."""
    supplies = KINDS[written.event.kind].supplies
    if not supplies:
        return {}
    catalogue, entry = book.catalogue(), written.event.id
    if written.event.replaces:
        entry = catalogue.entries(book.log).root(entry)
    found = {}
    for name in supplies:
        for line in written.body.get(name) or ():
            facts = catalogue.facts(line.get("item") or written.body.get("makes", ""))
            if facts is not None and facts.sort not in _NO_LOTS and line.get("whole") != 0:
                found[name, line["n"]] = f"{entry}:{line['n']}"
    return found
