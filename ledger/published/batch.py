"""A batch as it was done, and what a comparison with a published process finds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ledger.amounts import parse_measure
from ledger.errors import InputError

__all__ = [
    "KINDS",
    "AcidDone",
    "BatchDone",
    "Finding",
    "JarsDone",
    "Used",
    "altitude_ft",
    "batch_of",
    "headspace_in",
]

KINDS = ("as published", "short of it", "beyond it", "not recorded", "no published process")
"""What a finding can be."""

_FOOT_M = Fraction(3048, 10000)
_INCH_M = Fraction(254, 10000)


@dataclass(frozen=True)
class Used:
    """Something that went into a batch; `grams` is None where no weight is known."""

    item: str
    amount: str
    grams: float | None = None


@dataclass(frozen=True)
class AcidDone:
    """Acid as added: which, how much, and per ``jar`` or per ``batch``."""

    acid: str
    amount: str
    per: str = "jar"


@dataclass(frozen=True)
class JarsDone:
    """So many jars of one kind, named as people name them (``quart jar``)."""

    jar: str
    jars: int


@dataclass(frozen=True)
class BatchDone:
    """A batch as it was written down; None is not recorded.

    Attributes
    ----------
    makes : str
        The household's name for it.
    method : str
        ``boiling water``, ``pressure``, ``freeze``, ``dry``, ``ferment``, ...
    jars : tuple of JarsDone
    used : tuple of Used
        Empty when it is a question and not a batch.
    minutes, psi : Fraction or None
    gauge : {'dial', 'weighted'} or None
    headspace_in : Fraction or None
        Inches.
    acid : tuple of AcidDone or None
    pack : {'hot', 'raw'} or None
    altitude_ft : Fraction or None
    schedule : str or None
        The published schedule that the batch or its recipe names.
    loads : int or None
    kept : tuple of str
        Where what came out is kept: ``shelf``, ``fridge``, ``freezer``, ``cellar``; empty where
        nobody says.
    """

    makes: str
    method: str
    jars: tuple[JarsDone, ...] = ()
    used: tuple[Used, ...] = ()
    minutes: Fraction | None = None
    gauge: str | None = None
    psi: Fraction | None = None
    headspace_in: Fraction | None = None
    acid: tuple[AcidDone, ...] | None = None
    pack: str | None = None
    altitude_ft: Fraction | None = None
    schedule: str | None = None
    loads: int | None = None
    kept: tuple[str, ...] = ()


@dataclass(frozen=True)
class Finding:
    """One field, the published figure beside what was done.

    Attributes
    ----------
    field : str
        ``product``, ``method``, ``jar``, ``pack``, ``altitude``, ``gauge``, ``minutes``, ``psi``,
        ``headspace``, ``acid`` or ``load``.
    published, done : float, str or None
        None is not known.
    kind : str
        One of `KINDS`.
    text : str
        In one or two sentences.
    askable : bool
        Whether an entry could settle it; else it is for the reader to look up and compare.
    """

    field: str
    published: float | str | None
    done: float | str | None
    kind: str
    text: str
    askable: bool = True


def altitude_ft(text: str | None) -> Fraction | None:
    """Return an altitude such as ``2600 ft`` or ``790 m`` in feet; None stays None.

    Raises
    ------
    InputError
        When it is not a length.
    """
    return None if not text else parse_measure(text, "length", "altitude") / _FOOT_M


def headspace_in(text: str | None) -> Fraction | None:
    """Return a headspace such as ``1 in``, ``1/2 inch`` or ``1 cm`` in inches; None stays None.

    Raises
    ------
    InputError
        When it is not a length.
    """
    return None if not text else parse_measure(text, "length", "headspace") / _INCH_M


def batch_of(
    body: Mapping[str, Any],
    *,
    altitude: str | None = None,
    gauge: str | None = None,
    schedule: str | None = None,
    grams: Callable[[Mapping[str, Any]], float | None] = lambda _line: None,
) -> BatchDone:
    """Return the batch that the body of a ``put_up`` says.

    Parameters
    ----------
    body : mapping
        As stored or as typed.
    altitude, gauge : str, optional
        The household's settings on that day, used where the body says nothing.
    schedule : str, optional
        What the recipe says it follows, likewise.
    grams : callable
        The weight of a used line in grams, or None.
    """
    method = str(body["method"])
    acid = body.get("acid")
    loads = body.get("loads")
    return BatchDone(
        makes=str(body["makes"]),
        method=method,
        jars=tuple(
            JarsDone(str(one["jar"]), int(one["jars"]))
            for one in body.get("made", ())
            if one.get("jars") and one.get("jar") and _processed(one, method)
        ),
        used=tuple(
            Used(str(line["item"]), str(line["amount"]), grams(line))
            for line in body.get("used", ())
        ),
        minutes=_number("minutes", body.get("minutes")),
        gauge=body.get("gauge") or (gauge if method == "pressure" else None),
        psi=_number("psi", body.get("psi")),
        headspace_in=headspace_in(body.get("headspace")),
        acid=None
        if acid is None
        else tuple(AcidDone(a["acid"], a["amount"], a.get("per", "jar")) for a in acid),
        pack=body.get("pack"),
        altitude_ft=altitude_ft(body.get("altitude") or altitude),
        schedule=body.get("schedule") or schedule,
        loads=None if loads is None else int(loads),
        kept=tuple(dict.fromkeys(str(m["kept"]) for m in body.get("made", ()) if m.get("kept"))),
    )


def _processed(made: Mapping[str, Any], method: str) -> bool:
    """Return whether an entry went through the canner: not a jar kept back for the fridge."""
    return method not in ("boiling water", "pressure") or made.get("kept") in (
        None,
        "shelf",
        "cellar",
    )


def _number(field: str, value: object) -> Fraction | None:
    if value is None:
        return None
    try:
        return Fraction(str(value))
    except (ValueError, ZeroDivisionError):
        raise InputError(field, f"{value!r} is not a number", "Write it like 25") from None
