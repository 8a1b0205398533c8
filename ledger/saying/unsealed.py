"""A jar that failed to seal: which item's jars are meant, and off which batch they come.

What was picked or bought has no seal: "a jar of green beans did not seal" is of those that were
put up, and where none were it is asked, never taken from the fresh ones.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ledger.door.seals import batches_for, jarred_as, own_batch
from ledger.messages import sentence
from ledger.saying.drafting import Context
from ledger.saying.making import Line
from ledger.saying.things import Thing

__all__ = ["name_jars", "take_off_batches"]


def name_jars(context: Context) -> bool:
    """Settle for each thing which item in jars it is; return whether none stays without jars."""
    named = [_named(context, one, n) for n, one in enumerate(context.things.lines)]
    return all(named)


def _named(context: Context, thing: Thing, at: int) -> bool:
    maker = context.maker
    if thing.lot is not None:
        return True
    said = maker.last_item
    if thing.words is not None:
        said = maker.names.find(context.scanner.said(*thing.words)).item
    if said is None:
        return True
    meant = jarred_as(context.known.catalogue, said, context.on.isoformat())
    if not meant and _is_said_made(context, said):
        return True
    if len(meant) == 1:
        thing.item = meant[0]
    else:
        text = sentence("asked-failed-jars", name=said)
        answer = maker.ask("item", said, text, meant[:4], line=at)
        if answer is None:
            return False
        thing.item = maker.names.find(answer).item
    _in_jars(context, thing)
    return True


def _is_said_made(context: Context, item: str) -> bool:
    """Return whether a batch of it stands in the same text, and so not yet in the book."""
    key = context.known.catalogue.key
    made = [one.body["makes"] for one in context.drafts if one.kind == "put_up"]
    return key(item) in map(key, made)


def _in_jars(context: Context, thing: Thing) -> None:
    """Take ``2 of the 14 pints`` as two of that size, and a pint of what stands in pints as a jar."""
    amounts = thing.amounts
    if len(amounts) == 2 and amounts[0].unit is None and amounts[0].many <= amounts[1].many:
        amounts = [replace(amounts[1], many=amounts[0].many)]
    sizes = context.known.jars(thing.item or "")
    thing.amounts = [
        one.in_jars(jar) if one.sort == "measure" and (jar := one.jar()) in sizes else one
        for one in amounts
    ]


def take_off_batches(context: Context, lines: Sequence[Line]) -> None:
    """Take jars that failed to seal off their own batches: that of the day, else it is asked."""
    for n, line in enumerate(lines):
        _take_off(context, line, n)


def _take_off(context: Context, line: Line, at: int) -> None:
    if line.item is None or line.thing.lot or line.quantity is None:
        return
    on = context.on.isoformat()
    jar = line.quantity.unit if line.quantity.sort == "jar" else None
    many = float(line.quantity.many) if jar else 1
    found = batches_for(context.known.catalogue, line.item, on, jar, many)
    own = own_batch(found, on)
    if own is None and found:
        options = [one.text for one in found[:4]]
        text = sentence("asked-failed-jars", name=line.item)
        answer = context.maker.ask("batch", line.item, text, options, line=at)
        own = next((one for one in found if answer and (one.on in answer)), None)
    if own is not None:
        line.thing.lot = own.lot
