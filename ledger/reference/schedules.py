"""Published, tested processes for home canning, exactly as printed.

Every row of ``data/schedules.csv.gz`` is one line of a published table: a product, a canner, a
style of pack and a jar, and what it prints for each band of altitude. Nothing is derived, averaged
or filled in. `schedules_names.csv` holds what people call the products (our own words).
"""

from __future__ import annotations

import csv
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from itertools import pairwise

from ledger.errors import InputError
from ledger.messages import Code, Message
from ledger.reference._read import rows
from ledger.reference.planting import Source
from ledger.reference.schedules_sources import source, sources

__all__ = ["Cell", "Product", "Schedule", "check_schedules", "load_schedules", "products"]

#: Bands of altitude in feet as the tables print them; the last one of a column may be open.
BANDS = {
    "boiling water": ((0, 1000), (1001, 3000), (3001, 6000), (6001, None)),
    "dial": ((0, 2000), (2001, 4000), (4001, 6000), (6001, 8000)),
    "weighted": ((0, 1000), (1001, None)),
}
_BOILING = (
    "bw_minutes_0_1000ft",
    "bw_minutes_1001_3000ft",
    "bw_minutes_3001_6000ft",
    "bw_minutes_above_6000ft",
)
_DIAL = (
    "dial_psi_0_2000ft",
    "dial_psi_2001_4000ft",
    "dial_psi_4001_6000ft",
    "dial_psi_6001_8000ft",
)
_WEIGHTED = ("weighted_psi_0_1000ft", "weighted_psi_above_1000ft")
_METHODS = {
    "boiling_water": ("boiling water", None),
    "dial_gauge": ("pressure", "dial"),
    "weighted_gauge": ("pressure", "weighted"),
}
_JARS = {
    "half_pint": "half-pint",
    "pint": "pint",
    "quart": "quart",
    "half_gallon": "half-gallon",
}
PACKS = ("hot", "raw", "unstated")
"""Styles of pack; of crab and oysters the table prints none."""
_ACIDS = (
    ("lemon juice", "lemon_juice_tbsp_per_jar", "tbsp"),
    ("citric acid", "citric_acid_tsp_per_jar", "tsp"),
    ("vinegar 5%", "vinegar_5pct_tbsp_per_jar", "tbsp"),
)


@dataclass(frozen=True)
class Cell:
    """What a table prints for one band of altitude.

    Attributes
    ----------
    low_ft, high_ft : int, int or None
        The band, both ends in it; None where it is open above.
    minutes : int or None
        None where the table prints "not recommended".
    psi : int or None
        Pounds per square inch on the gauge; None for boiling water.
    """

    low_ft: int
    high_ft: int | None
    minutes: int | None
    psi: int | None = None


@dataclass(frozen=True)
class Schedule:
    """One line of a published table.

    Attributes
    ----------
    id : str
        Its name here, such as ``snap_beans-hot-pint-dial-1``.
    product : str
        Key of `products`.
    method : {'boiling water', 'pressure'}
    gauge : {'dial', 'weighted'} or None
    option : int
        1, 2, 3: alternatives for the same jar, each complete in itself.
    pack : {'hot', 'raw', 'unstated'}
    jar : str
        ``half-pint``, ``pint``, ``quart`` or ``half-gallon``.
    cells : tuple of Cell
        One a printed band, from low to high.
    headspace_in : Fraction
        Inches.
    acids : tuple of (str, Fraction, str)
        Which acid, how much a jar, in which unit; any one of them. Empty: none is asked for.
    source : Source
    part : str
        Guide and page, where known.
    confirmed : bool
        Whether every figure was read in its document. A figure that was not is never a
        ground for "as published".
    note : str
    """

    id: str
    product: str
    method: str
    gauge: str | None
    option: int
    pack: str
    jar: str
    cells: tuple[Cell, ...]
    headspace_in: Fraction
    acids: tuple[tuple[str, Fraction, str], ...]
    source: Source
    part: str
    confirmed: bool
    note: str


@dataclass(frozen=True)
class Product:
    """A product that processes are published for.

    Attributes
    ----------
    key, label, group : str
        `group`: tomato, vegetable, meat, mixture, fruit, spread, pickle or ferment.
    low_acid : bool
        Whether pressure is the only published process.
    names : tuple of str
        What people call it, in the singular, in English and German (our own list).
    ingredients : tuple of str
        What the published product may hold, beside salt and water.
    needs : tuple of str
        Of which at least one belongs to it.
    forms : frozenset of str
        Forms of `ledger.reference.kinds` that are the product's own, beside being cut.
    """

    key: str
    label: str
    group: str
    low_acid: bool
    names: tuple[str, ...]
    ingredients: tuple[str, ...]
    needs: tuple[str, ...]
    forms: frozenset[str]


def _several(cell: str) -> tuple[str, ...]:
    return tuple(name for name in cell.split("|") if name)


@cache
def products() -> dict[str, Product]:
    """Return every product by its key, in the order of the tables."""
    text = files("ledger.reference").joinpath("schedules_names.csv").read_text("utf-8")
    return {
        row["product"]: Product(
            row["product"],
            row["label"],
            row["group"],
            row["low_acid"] == "yes",
            (*_several(row["names"]), *_several(row["german"])),
            _several(row["ingredients"]),
            _several(row["needs"]),
            frozenset(_several(row["forms"])),
        )
        for row in csv.DictReader(text.splitlines())
    }


@cache
def load_schedules() -> tuple[Schedule, ...]:
    """Return every published line, checked.

    Raises
    ------
    InputError
        When the packaged table breaks one of the rules of `check_schedules`.
    """
    found = rows("schedules")
    problems = check_schedules(found)
    if problems:
        raise InputError(
            "schedules",
            Message.of("refusal-table-faults", faults=Code("; ".join(problems[:5]))),
            Message.of("refusal-install-anew"),
        )
    return tuple(_schedule(row) for row in found)


def check_schedules(table: Iterable[dict[str, str]]) -> list[str]:
    """Return what is wrong with a table of processes, in words; empty where nothing is.

    Every row has a known source and says whether it was read; ids are unique; minutes and
    pressure do not fall with altitude; a low-acid product has no boiling-water row; headspace is
    given; where acid is asked for, it says how much.
    """
    problems, seen = [], set()
    for row in table:
        name = row["schedule_id"]
        if name in seen:
            problems.append(f"{name}: there twice")
        seen.add(name)
        problems += [f"{name}: {what}" for what in _wrong(row)]
    return problems


def _wrong(row: dict[str, str]) -> list[str]:
    out = []
    product = products().get(row["product"])
    if product is None:
        out.append(f"no product {row['product']!r}")
    if row["source_id"] not in sources():
        out.append("no source")
    if row["checked"] not in ("read", "memory"):
        out.append("does not say whether it was read")
    if row["method"] not in _METHODS or row["jar_size"] not in _JARS:
        return [*out, "unknown canner or jar"]
    if product is not None and product.low_acid and row["method"] == "boiling_water":
        out.append("a low-acid product with a boiling-water process")
    for what, names in (("minutes", _BOILING), ("pressure", _DIAL), ("pressure", _WEIGHTED)):
        figures = [int(row[c]) for c in names if row[c]]
        if any(later < earlier for earlier, later in pairwise(figures)):
            out.append(f"{what} falls with altitude")
    wanted = {"boiling_water": _BOILING, "dial_gauge": _DIAL, "weighted_gauge": _WEIGHTED}
    columns: tuple[str, ...] = wanted[row["method"]]
    closed = row["method"] == "weighted_gauge" and row["allowed_above_1000ft"] == "no"
    if not all(row[c] for c in columns[: 1 if closed else None]):
        out.append("a printed band is empty")
    if not row["headspace_in"]:
        out.append("no headspace")
    if row["acid_required"] == "yes" and not any(row[column] for _, column, _ in _ACIDS):
        out.append("acid is asked for, and not how much")
    if row["pack_style"] not in PACKS:
        out.append("unknown style of pack")
    return out


def _schedule(row: dict[str, str]) -> Schedule:
    method, gauge = _METHODS[row["method"]]
    acids = tuple(
        (acid, Fraction(row[column]), unit) for acid, column, unit in _ACIDS if row[column]
    )
    return Schedule(
        id=row["schedule_id"],
        product=row["product"],
        method=method,
        gauge=gauge,
        option=int(row["process_option"]),
        pack=row["pack_style"],
        jar=_JARS[row["jar_size"]],
        cells=_cells(row, gauge),
        headspace_in=Fraction(row["headspace_in"]),
        acids=acids if row["acid_required"] == "yes" else (),
        source=source(row["source_id"]),
        part=row["document_ref"],
        confirmed=row["checked"] == "read",
        note=row["note"],
    )


def _cells(row: dict[str, str], gauge: str | None) -> tuple[Cell, ...]:
    if gauge is None:
        return tuple(
            Cell(low, high, int(row[column]))
            for (low, high), column in zip(BANDS["boiling water"], _BOILING, strict=True)
        )
    columns: tuple[str, ...] = _DIAL if gauge == "dial" else _WEIGHTED
    minutes = int(row["minutes"])
    return tuple(
        Cell(low, high, minutes, int(row[column])) if row[column] else Cell(low, high, None)
        for (low, high), column in zip(BANDS[gauge], columns, strict=True)
    )
