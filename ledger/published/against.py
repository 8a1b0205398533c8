"""The finding that stands first where food of little acid was closed up by no published process."""

from __future__ import annotations

from ledger.messages import Names, sentence
from ledger.published.batch import BatchDone, Finding
from ledger.published.danger import AGAINST, CANNING, Danger, all_with_acid, printed_lines
from ledger.published.equipment import cold_heat, is_steam
from ledger.published.words import fixed

__all__ = ["danger_findings"]


def danger_findings(batch: BatchDone, danger: Danger | None) -> list[Finding]:
    """Return the finding that stands first; what is published for the food is said by its printed lines."""
    if danger is None or not (danger.against or danger.oil):
        return []
    foods = Names(danger.names)
    if danger.oil:
        text = sentence("finding-oil-warm" if danger.against else "finding-under-oil", foods=foods)
        kind = AGAINST if danger.against else "to check yourself"
        return [Finding("method", None, sentence("finding-in-oil"), kind, text)]
    how = cold_heat(batch) or (
        sentence("finding-in-steam") if is_steam(batch) else fixed(batch.method)
    )
    lines = printed_lines(danger.names)
    pressure = (
        bool(lines)
        and not danger.ruled_out
        and all(one and all(line.method == "pressure" for line in one) for one in lines)
    )
    if pressure:
        said = "finding-pressure-only"
    elif not cold_heat(batch) and batch.method in CANNING and all_with_acid(lines):
        said = "finding-acid-in-each"
    else:
        said = "finding-none-so"
    text = sentence(said, foods=foods, done=how)
    return [Finding("method", fixed("pressure") if pressure else None, how, AGAINST, text)]
