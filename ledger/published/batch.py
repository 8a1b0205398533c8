"""A batch as it was done, and what a comparison with a published process finds."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from ledger.amounts import parse_measure, pressure_psi
from ledger.errors import InputError
from ledger.kinds import kept_by
from ledger.messages import Code, Message

__all__ = [
    "KINDS",
    "WARM",
    "AcidDone",
    "BatchDone",
    "Finding",
    "JarsDone",
    "Used",
    "altitude_ft",
    "batch_of",
    "headspace_in",
]

KINDS = (
    "against every published process",
    "no published process",
    "short of it",
    "not recorded",
    "to check yourself",
    "beyond it",
    "as published",
)
"""What a finding can be, the gravest first; a batch stands as its gravest finding."""

WARM = ("shelf", "cellar")
"""Places where a closed jar has to keep by itself."""

_FOOT_M = Fraction(3048, 10000)
_INCH_M = Fraction(254, 10000)


@dataclass(frozen=True)
class Used:
    """Something that went into a batch.

    Attributes
    ----------
    item, amount : str
        As written down.
    grams : float or None
        None where no weight is known.
    strained : bool
        Taken out again before the jar was closed.
    """

    item: str
    amount: str
    grams: float | None = None
    strained: bool = False


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
    equipment : tuple of str
        What it was done with, as the household calls it.
    note : str
    unread : tuple of (str, str)
        Fields, and what stands in them, that cannot be read as a figure.
    pressure_said : str or None
        The pressure as written down, with its unit where one was said.
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
    equipment: tuple[str, ...] = ()
    note: str = ""
    unread: tuple[tuple[str, str], ...] = ()
    pressure_said: str | None = None

    @property
    def sealed(self) -> tuple[str, ...]:
        """Where closed jars of it stand outside fridge and freezer; empty where none do."""
        warm = tuple(place for place in self.kept if place in WARM)
        return warm if self.jars else ()


@dataclass(frozen=True)
class Finding:
    """One field, the published figure beside what was done.

    Attributes
    ----------
    field : str
        ``product``, ``ingredients``, ``form``, ``method``, ``equipment``, ``jar``, ``pack``,
        ``altitude``, ``gauge``, ``minutes``, ``psi``, ``headspace``, ``acid`` or ``load``.
    published, done : float, str or None
        None is not known.
    kind : str
        One of `KINDS`.
    text : str
        In one or two sentences.
    """

    field: str
    published: float | str | None
    done: float | str | None
    kind: str
    text: str


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

    Notes
    -----
    A figure that cannot be read is never taken as met: it stands in `BatchDone.unread`.
    """
    method = str(body["method"])
    acid = body.get("acid")
    loads = body.get("loads")
    unread: list[tuple[str, str]] = []

    def figure(field: str, value: Any, reader: Callable[[Any], Fraction | None]) -> Fraction | None:
        try:
            return reader(value)
        except InputError:
            unread.append((field, str(value)))
            return None

    return BatchDone(
        makes=str(body["makes"]),
        method=method,
        jars=_jars(body, method),
        used=tuple(
            Used(str(line["item"]), str(line["amount"]), grams(line), bool(line.get("strained")))
            for line in body.get("used", ())
        ),
        minutes=figure("minutes", body.get("minutes"), lambda value: _number("minutes", value)),
        gauge=body.get("gauge") or (gauge if method == "pressure" else None),
        psi=figure("psi", body.get("psi"), pressure_psi),
        headspace_in=figure("headspace", body.get("headspace"), headspace_in),
        acid=None
        if acid is None
        else tuple(AcidDone(a["acid"], a["amount"], a.get("per", "jar")) for a in acid),
        pack=body.get("pack"),
        altitude_ft=figure("altitude", body.get("altitude") or altitude, altitude_ft),
        schedule=body.get("schedule") or schedule,
        loads=int(str(loads)) if str(loads).isdecimal() and len(str(loads)) < 7 else None,
        kept=_kept(body, method),
        equipment=tuple(str(one) for one in body.get("equipment") or ()),
        note=str(body.get("note") or ""),
        unread=tuple(unread),
        pressure_said=None if body.get("psi") is None else str(body["psi"]),
    )


def _jars(body: Mapping[str, Any], method: str) -> tuple[JarsDone, ...]:
    """Return the jars that went through the process: not one kept back for the fridge."""
    out = []
    for one in body.get("made", ()):
        place = one.get("kept") or kept_by(method)
        warm = place in WARM or method not in ("boiling water", "pressure")
        if one.get("jars") and one.get("jar") and warm:
            out.append(JarsDone(str(one["jar"]), int(one["jars"])))
    return tuple(out)


def _kept(body: Mapping[str, Any], method: str) -> tuple[str, ...]:
    """Return where the jars stand; of a batch without jars, where all of it is."""
    made = list(body.get("made", ()))
    jars = [one for one in made if one.get("jars")] or made
    return tuple(dict.fromkeys(str(one.get("kept") or kept_by(method)) for one in jars))


def _number(field: str, value: object) -> Fraction | None:
    if value is None:
        return None
    try:
        return Fraction(str(value))
    except (ValueError, ZeroDivisionError):
        raise InputError(
            field,
            Message.of("refusal-not-a-number", text=Code(repr(value))),
            Message.of("refusal-like-whole"),
        ) from None
