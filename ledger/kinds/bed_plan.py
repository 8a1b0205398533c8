"""Where beds lie, as one text of the setting `bed_plan`: kept in the log, read by people as well as by programs.

``south bed: 5 73, 90 x 15 ft; long bed: 5 102, 120 x 6 ft, 90``: a bed's north-west corner east and south
of the garden's, its length from west to east by its width, in feet or metres, and, where it is turned, by
how many degrees clockwise about its middle.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from ledger.errors import InputError
from ledger.messages import Code, Message, Typed

__all__ = ["PLAN_EXAMPLE", "Lie", "read_plan", "write_plan"]

PLAN_EXAMPLE = "south bed: 5 73, 90 x 15 ft; long bed: 5 102, 120 x 6 ft, 90"
_FOOT_M = 0.3048
"""The international foot, exactly (NIST SP 811, B.6)."""
_MOST_M, _BEDS = 2000.0, 200
_N = r"(\d{1,4}(?:\.\d{1,2})?)"
_BED = re.compile(
    rf"(?P<name>[^:;]{{1,80}}):\s*{_N}[ ,]\s*{_N}\s*,\s*{_N}\s*x\s*{_N}\s*(?P<unit>ft|m)"
    r"(?:\s*,\s*(?P<turned>\d{1,3}))?"
)


@dataclass(frozen=True)
class Lie:
    """Where one bed lies.

    Attributes
    ----------
    bed : str
    x_m, y_m : float
        Its north-west corner before it is turned, east and south of the garden's; m.
    length_m, width_m : float
        From west to east, and from north to south, before it is turned; m, above zero.
    turned : int
        Degrees clockwise about its middle, 0 to 359.
    """

    bed: str
    x_m: float
    y_m: float
    length_m: float
    width_m: float
    turned: int = 0


def read_plan(text: str) -> list[Lie]:
    """Return where the beds lie.

    Raises
    ------
    InputError
        Naming the part that says no bed's place.
    """
    out: dict[str, Lie] = {}
    for part in filter(None, (one.strip() for one in text.split(";"))):
        match = _BED.fullmatch(part)
        if match is None:
            raise InputError(
                "bed_plan",
                Message.of("refusal-bed-plan-place", text=Typed(part), example=Code(PLAN_EXAMPLE)),
            )
        scale = _FOOT_M if match["unit"] == "ft" else 1.0
        x, y, length, width = (float(match[n]) * scale for n in (2, 3, 4, 5))
        if not 0 < length <= _MOST_M or not 0 < width <= _MOST_M or max(x, y) > _MOST_M:
            raise InputError("bed_plan", Message.of("refusal-bed-plan-size", text=Typed(part)))
        name = match["name"].strip()
        lie = Lie(name, x, y, length, width, int(match["turned"] or 0) % 360)
        if out.setdefault(name.lower(), lie) is not lie:
            raise InputError("bed_plan", Message.of("refusal-bed-twice", name=name))
    if not out or len(out) > _BEDS:
        raise InputError(
            "bed_plan", Message.of("refusal-bed-plan-count", example=Code(PLAN_EXAMPLE))
        )
    return list(out.values())


def write_plan(several: Iterable[Lie], unit: str) -> str:
    """Return the text that `read_plan` reads, in ``ft`` or ``m``, to a hundredth."""
    scale = _FOOT_M if unit == "ft" else 1.0

    def said(metres: float) -> str:
        return f"{metres / scale:.2f}".rstrip("0").rstrip(".") or "0"

    return "; ".join(
        f"{one.bed}: {said(one.x_m)} {said(one.y_m)}, {said(one.length_m)} x {said(one.width_m)} {unit}"
        + (f", {one.turned}" if one.turned else "")
        for one in several
    )
