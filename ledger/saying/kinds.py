"""Which module makes the entries of which kind; a kind of plain lines needs none."""

from __future__ import annotations

from ledger.kinds import KINDS
from ledger.saying.batches import put_up
from ledger.saying.coming_in import bought, got, price_seen, received
from ledger.saying.drafting import Body, Context, Make
from ledger.saying.going_out import counted, eaten, given_away, leftovers, out_of
from ledger.saying.picked import harvested
from ledger.saying.planting import planted, practised
from ledger.saying.shared import bodies, nothing, subject_is_thing
from ledger.saying.thrown_out import discarded
from ledger.saying.verbless import verbless

__all__ = ["make_of"]


def make_of(kind: str | None, context: Context) -> Make:
    """Return what makes the entries of a clause."""
    table: dict[str, Make] = {
        "harvested": harvested, "bought": bought, "received": received, "got": got,
        "price_seen": price_seen, "planted": planted, "practised": practised,
        "put_up": put_up, "eaten": eaten, "given_away": given_away,
        "discarded": discarded, "counted": counted, "out_of": out_of,
        "leftovers": leftovers,
    }  # fmt: skip
    if context.signs and kind in _KEEPS and context.verb.method != "cook":
        return verbless
    return table.get(kind, told_in_lines) if kind else verbless


_KEEPS = frozenset({"harvested", "put_up", "received"})
"""Kinds whose words may only say where a jar stands that shows a sign of spoilage: put back, found mould on."""


def told_in_lines(context: Context) -> list[tuple[str, Body]]:
    """Return the entry of a kind that no module here makes: its lines, and who worked on it."""
    kind = KINDS[context.verb.kind]
    subject_is_thing(context)
    lines = context.maker.lines(context.things.lines, kind.name)
    body: Body = {"lines": bodies(lines)}
    if any(field.name == "work" for field in kind.fields):
        context.work(body)
    return [(kind.name, body)] if lines else nothing(context)
