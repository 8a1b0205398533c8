"""What a tested recipe bounds: acid at least, water and low-acid parts at most, sugar, salt, form.

Every row of ``data/bounds.csv.gz`` is one bound of one product (``*``: of all), as its document
prints it. A row from memory may warn; it never confirms a batch.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from ledger.errors import InputError
from ledger.messages import Code, Message
from ledger.reference._read import rows
from ledger.reference.planting import Source
from ledger.reference.schedules import products
from ledger.reference.schedules_sources import source, sources

__all__ = ["BOUNDS", "Bound", "bounds_of", "check_bounds"]

BOUNDS = frozenset(
    {
        "strength", "kind", "forbidden", "forbidden_form", "at_least_one_of", "only_kind", "at_most",
        "at_least", "never_raised", "drained_off", "ratio_at_least", "required_form", "required_pack",
        "largest_jar", "exact_recipe", "no_process",
    }
)  # fmt: skip
_NUMBER = re.compile(r"\d+(\.\d+)?")


@dataclass(frozen=True)
class Bound:
    """One bound of a tested recipe.

    Attributes
    ----------
    product : str
        Key of a product; ``*`` holds for all, ``none`` names what nothing is published for.
    basis : Fraction or None
        So much of the main part ...
    basis_unit, basis_part : str
        ... in ``lb``, ``cup``, ``part`` or ``jar``, of ``tomato``, ``cucumber``, ...
    part : str
        What is bounded, in words.
    names : tuple of str
        Its names.
    bound : str
        One of `BOUNDS`.
    amount : Fraction or None
    unit : str
    judges : str
        What it is for: ``acid``, ``dilution``, ``low-acid part``, ``keeping``, ``recipe``, ...
    source : Source
    confirmed : bool
        Whether it was read in its document.
    note : str
    """

    product: str
    basis: Fraction | None
    basis_unit: str
    basis_part: str
    part: str
    names: tuple[str, ...]
    bound: str
    amount: Fraction | None
    unit: str
    judges: str
    source: Source
    confirmed: bool
    note: str


def check_bounds(table: list[dict[str, str]]) -> list[str]:
    """Return what is wrong with a table of bounds, in words; empty where nothing is."""
    out = []
    for row in table:
        name = f"{row['product']}, {row['part']}"
        if row["product"] not in ("*", "none") and row["product"] not in products():
            out.append(f"{name}: no product of that name")
        if row["bound"] not in BOUNDS:
            out.append(f"{name}: {row['bound']!r} is no bound")
        if row["source_id"] not in sources():
            out.append(f"{name}: no source")
        if row["checked"] not in ("read", "memory"):
            out.append(f"{name}: does not say whether it was read")
        measured = row["bound"] in ("at_most", "at_least", "ratio_at_least")
        if measured and not _NUMBER.fullmatch(row["amount"]):
            out.append(f"{name}: no amount")
        if measured and row["basis_amount"] and not _NUMBER.fullmatch(row["basis_amount"]):
            out.append(f"{name}: no basis")
    return out


@cache
def _table() -> dict[str, tuple[Bound, ...]]:
    found = rows("bounds")
    if problems := check_bounds(found):
        raise InputError(
            "bounds",
            Message.of("refusal-table-faults", faults=Code("; ".join(problems[:5]))),
            Message.of("refusal-install-anew"),
        )
    out: dict[str, list[Bound]] = {}
    for row in found:
        out.setdefault(row["product"], []).append(_bound(row))
    return {product: tuple(several) for product, several in out.items()}


def _bound(row: dict[str, str]) -> Bound:
    plain = _NUMBER.fullmatch(row["amount"])
    return Bound(
        product=row["product"],
        basis=Fraction(row["basis_amount"]) if row["basis_amount"] else None,
        basis_unit=row["basis_unit"],
        basis_part=row["basis_part"],
        part=row["part"],
        names=tuple(name for name in row["names"].split("|") if name),
        bound=row["bound"],
        amount=Fraction(row["amount"]) if plain else None,
        unit=row["unit"],
        judges=row["what_it_judges"],
        source=source(row["source_id"]),
        confirmed=row["checked"] == "read",
        note=row["note"],
    )


def bounds_of(product: str) -> tuple[Bound, ...]:
    """Return the bounds of a product, in the order of the table.

    Raises
    ------
    InputError
        When the packaged table breaks one of the rules of `check_bounds`.
    """
    return _table().get(product, ())
