"""Which module makes the entries of which kind."""

from __future__ import annotations

from ledger.saying.batches import put_up
from ledger.saying.coming_in import bought, got, price_seen, received
from ledger.saying.drafting import Context, Make
from ledger.saying.going_out import counted, eaten, given_away, leftovers, out_of
from ledger.saying.picked import harvested
from ledger.saying.planting import planted, practised
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
    return table[kind] if kind else verbless
