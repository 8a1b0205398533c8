"""Food of little acid in boiling water: the caution that goes before everything else."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from ledger.items import item_key
from ledger.published.after import if_wrong
from ledger.published.batch import Used
from ledger.published.finding import find, lines_of
from ledger.published.mixture import departures, kinds_named
from ledger.reference.schedules import products

__all__ = ["caution_for", "low_acid_caution", "low_acid_names"]

_NOT_PRESSURE = re.compile(r"boil|water|steam|kettle|oven|bath")
"""Of a method as somebody says it: what heats no further than boiling water."""

_LITTLE = (
    "a low-acid vegetable",
    "meat or fish",
    "dairy or egg",
    "a food of little acid",
)
_ACID = re.compile(r"\b(vinegar|pickled?|relish|chutney|kraut|sauerkraut|jam|jelly|marmalade)\b")
"""Names of what another thing's acid is relied on for: no match is then no proof of little acid."""


def low_acid_caution(
    makes: str | None,
    method: str | None,
    used: tuple[str, ...] = (),
    *,
    schedule: str | None = None,
) -> str | None:
    """Return the caution for a batch of little acid that is put up in boiling water; None elsewhere.

    Parameters
    ----------
    makes, method, used, schedule
        As in `low_acid_names`.
    """
    return caution_for(low_acid_names(makes, method, used, schedule=schedule))


def caution_for(names: Sequence[str]) -> str | None:
    """Return the one caution for such foods: why, and what the documents say of jars done so."""
    if not names:
        return None
    return (
        f"CAUTION: {', '.join(names)}: food of little acid. Spores of botulism live through boiling water, a "
        "steamer, an open kettle and an oven, and grow in such a jar; it may have no smell and no look. Where "
        "a process is published for food of little acid it is for a pressure canner only. "
        + if_wrong()
    )


@lru_cache(4096)
def low_acid_names(
    makes: str | None,
    method: str | None,
    used: tuple[str, ...] = (),
    *,
    schedule: str | None = None,
) -> tuple[str, ...]:
    """Return what makes a batch in boiling water food of little acid, by name.

    A published product that has a process for boiling water counts as what it is published as, so
    long as no food of little acid went in beside what it holds.

    Parameters
    ----------
    makes : str or None
        What is made, as the household calls it.
    method : str or None
        Its own word or another's: ``boiling water``, ``water bath``, ``steamer``, ``oven``.
    used : tuple of str
        What went in: names, or lines as they were typed (``14 lb green beans``).
    schedule : str, optional
        What the recipe says it follows.

    Returns
    -------
    tuple of str
        Empty for other methods, and where nothing is known to be low in acid.
    """
    if not makes or not method or not _NOT_PRESSURE.search(method.casefold()):
        return ()
    fit = find(makes, recipe_schedule=schedule).candidates
    if fit and not any(lines_of(product, "boiling water") for product in fit):
        return (makes,)
    if fit:
        return min((_added(product, used) for product in fit), key=len)
    if _ACID.search(" ".join(item_key(text) for text in (makes, *used))):
        return ()
    named = dict.fromkeys((makes, *used))
    return tuple(text for text in named if set(_LITTLE) & set(kinds_named(text)))


def _added(product: str, used: tuple[str, ...]) -> tuple[str, ...]:
    if products()[product].group in ("pickle", "ferment"):
        return ()  # acid of the brine; its proportion is compared elsewhere
    lines = [Used(text, "") for text in used]
    return tuple(one.item for one in departures(product, lines) if one.kind in _LITTLE)
