"""The finding that stands first where food of little acid was closed up by no published process."""

from __future__ import annotations

from ledger.messages import Names, sentence
from ledger.published.batch import BatchDone, Finding
from ledger.published.danger import AGAINST, CANNING, Danger
from ledger.published.equipment import cold_heat, is_steam
from ledger.published.finding import find, lines_of
from ledger.published.reading import read
from ledger.published.words import fixed
from ledger.reference.schedules import Schedule

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
    lines = _lines(danger.names)
    pressure = (
        bool(lines)
        and not danger.ruled_out
        and all(one and all(line.method == "pressure" for line in one) for one in lines)
    )
    if pressure:
        said = "finding-pressure-only"
    elif not cold_heat(batch) and _all_with_acid(batch, lines):
        said = "finding-acid-in-each"
    else:
        said = "finding-none-so"
    text = sentence(said, foods=foods, done=how)
    return [Finding("method", fixed("pressure") if pressure else None, how, AGAINST, text)]


def _all_with_acid(batch: BatchDone, lines: list[tuple[Schedule, ...]]) -> bool:
    """Return whether it was canned, and every line printed for each food takes acid into the jar."""
    by_line = [one and all(line.acids for line in one) for one in lines]
    return batch.method in CANNING and bool(by_line) and all(by_line)


def _lines(names: tuple[str, ...]) -> list[tuple[Schedule, ...]]:
    """Return, for each food of least acid that the names say, every printed line of what bears its name."""
    foods = {one for name in names for one in read(name).foods}
    low = {one.name for one in foods if one.acidity == "low_acid"}
    border = {one.name for one in foods if one.acidity == "borderline"}
    return [
        tuple(line for product in find(food).candidates for line in lines_of(product))
        for food in sorted(low or border)
    ]
