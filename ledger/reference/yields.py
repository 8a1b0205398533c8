"""Published quantities: how much fresh produce a canner load, a jar or a bushel takes and gives.

``data/yields.csv.gz`` holds them as printed, each row with its source.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from ledger.reference._read import rows
from ledger.reference.planting import Source
from ledger.reference.schedules_sources import source

__all__ = ["Quantity", "quantities"]

#: The names under which the tables of yields hold a product of the process tables.
_ALSO = {
    "tomato_sauce": ("tomato_sauce_thin", "tomato_sauce_thick"),
}


@dataclass(frozen=True)
class Quantity:
    """One published quantity.

    Attributes
    ----------
    product, method, basis : str
        ``snap_beans``, ``canned``, ``canner_load`` (or ``container``, ``recipe``, ``trim``).
    lb_per_7_quarts, lb_per_9_pints : Fraction or None
        Pounds of fresh produce for a canner load.
    container, container_lb : str, Fraction or None
        Such as a bushel, and its pounds.
    jars_low, jars_high : Fraction or None
        Jars of `jar` from that container.
    jar : str
        ``quart``, ``pint`` or ``half-pint``.
    lb_per_jar_low, lb_per_jar_high : Fraction or None
    recipe_lb : Fraction or None
        Pounds of the main ingredient in the published recipe.
    recipe_low, recipe_high : Fraction or None
        Jars of `jar` that it gives.
    source : Source
    confirmed : bool
    note : str
    """

    product: str
    method: str
    basis: str
    lb_per_7_quarts: Fraction | None
    lb_per_9_pints: Fraction | None
    container: str
    container_lb: Fraction | None
    jars_low: Fraction | None
    jars_high: Fraction | None
    jar: str
    lb_per_jar_low: Fraction | None
    lb_per_jar_high: Fraction | None
    recipe_lb: Fraction | None
    recipe_low: Fraction | None
    recipe_high: Fraction | None
    source: Source
    confirmed: bool
    note: str


@cache
def _all() -> tuple[Quantity, ...]:
    return tuple(_quantity(row) for row in rows("yields"))


def _quantity(row: dict[str, str]) -> Quantity:
    def number(name: str) -> Fraction | None:
        return Fraction(row[name]) if row[name] else None

    return Quantity(
        row["product"],
        row["preserve_method"],
        row["basis"],
        number("lb_per_7_quart_load"),
        number("lb_per_9_pint_load"),
        row["container"].replace("_", " "),
        number("container_lb"),
        number("jars_per_container_low"),
        number("jars_per_container_high"),
        row["jar_unit"].replace("_", "-"),
        number("lb_per_jar_low"),
        number("lb_per_jar_high"),
        number("recipe_input_lb"),
        number("recipe_output_low"),
        number("recipe_output_high"),
        source(row["source_id"]),
        row["checked"] == "read",
        row["note"],
    )


@cache
def quantities(product: str, method: str = "canned") -> tuple[Quantity, ...]:
    """Return every published quantity of a product, canner loads first.

    Parameters
    ----------
    product : str
        A key of the process tables (``snap_beans``) or of the table of yields.
    method : str
        ``canned``, ``frozen`` or ``fresh``; ``canned_or_frozen`` rows go with the first two.
    """
    keys = _ALSO.get(product, (product,))
    found = [
        q for q in _all() if q.product in keys and method in (q.method, *q.method.split("_or_"))
    ]
    return tuple(sorted(found, key=lambda q: q.basis != "canner_load"))
