"""Published weights of produce by the container: bushel, peck, lug, crate.

A bushel of one crop has several published weights; each keeps its basis. Chosen is a marketing
figure of an extension service or the USDA before a legal one, since a household fills its
bushel as growers do and not as a statute fixes it for trade.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from ledger.items import item_key
from ledger.reference._read import rows

__all__ = ["ContainerWeight", "weight", "weights"]

_LB_G = Fraction("453.59237")
_RANK = (
    "marketing_georgia",
    "retail_container_georgia",
    "marketing_missouri",
    "marketing_ah697_table6",
    "marketing_illinois",
    "legal_minnesota",
    "legal_indiana",
    "legal_iowa",
)
_PARTS = {"peck": ("bushel", Fraction(1, 4)), "uk peck": ("uk bushel", Fraction(1, 4))}


@dataclass(frozen=True)
class ContainerWeight:
    """What a container of a crop weighs net; `low` and `high` as printed, in grams."""

    grams: Fraction
    low: Fraction
    high: Fraction
    basis: str
    source: str
    commodity: str


@cache
def _table() -> dict[tuple[str, str], list[ContainerWeight]]:
    out: dict[tuple[str, str], list[ContainerWeight]] = {}
    for row in rows("containers"):
        if row["record_type"] != "container_weight" or not row["net_weight_lb_min"]:
            continue
        low = Fraction(row["net_weight_lb_min"]) * _LB_G
        high = Fraction(row["net_weight_lb_max"] or row["net_weight_lb_min"]) * _LB_G
        one = ContainerWeight(
            (low + high) / 2, low, high, row["basis"], row["source_id"], row["commodity"]
        )
        keys = {item_key(row["commodity"])}
        if row["form"] and "," not in row["form"]:
            keys.add(item_key(f"{row['form']} {row['commodity']}"))
        for key in keys:
            out.setdefault((key, row["container"]), []).append(one)
    for several in out.values():
        several.sort(key=lambda one: _RANK.index(one.basis) if one.basis in _RANK else len(_RANK))
    return out


def weights(item: str, container: str) -> list[ContainerWeight]:
    """Return every published weight of a container of a crop, the chosen one first."""
    found = _table().get((item_key(item), container), [])
    if found or container not in _PARTS:
        return found
    whole, part = _PARTS[container]
    return [
        ContainerWeight(w.grams * part, w.low * part, w.high * part, w.basis, w.source, w.commodity)
        for w in weights(item, whole)
    ]


def weight(item: str, container: str) -> ContainerWeight | None:
    """Return what a container of a crop weighs, or None where nothing is published.

    Parameters
    ----------
    item : str
        The crop's name.
    container : str
        A canonical unit: ``bushel``, ``peck``, ``lug``, ``crate``.
    """
    found = weights(item, container)
    return found[0] if found else None
